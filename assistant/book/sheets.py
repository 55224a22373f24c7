"""Sheets: the same content as plain text, as Markdown, and (page.py) as a page to print.

A sheet is a title and sections; a section is a heading with rows of two (name, words) or of one.
"""

from __future__ import annotations

import re
import textwrap
from collections.abc import Sequence

from assistant.book import record, tracing
from assistant.book.batches import Batch
from assistant.book.book import Book
from assistant.book.dates import in_words
from assistant.book.gatherings import Gathering, at_place, by_year, used_of
from assistant.book.labels import Label
from assistant.book.wording import amount, plural
from assistant.dataclass import dataclass

WIDTH = 60
_UNIT = re.compile(r"(?<=\d) (?=(?:%|mL|g|°)(?:\W|$))")  # a number and its unit stay on one line
Row = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Section:
    heading: str
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class Sheet:
    title: str
    sections: tuple[Section, ...]

    def as_text(self) -> str:
        lines = [self.title, "=" * len(self.title)]
        for section in self.sections:
            lines += ["", section.heading]
            for name, words in section.rows:
                head = f"  {name}: " if name else "  "
                whole = _UNIT.sub("\u00a0", head + words)
                lines += textwrap.wrap(whole, WIDTH, subsequent_indent="    ", break_on_hyphens=False) or [head.rstrip()]
        return "\n".join(lines).replace("\u00a0", " ") + "\n"

    def as_markdown(self) -> str:
        lines = [f"# {_plain(self.title)}"]
        for section in self.sections:
            lines += ["", f"## {_plain(section.heading)}", ""]
            lines += [f"- **{_plain(name)}:** {_plain(words)}" if name else f"- {_plain(words)}" for name, words in section.rows]
        return "\n".join(lines) + "\n"


_SPECIAL = str.maketrans({c: "\\" + c for c in "\\`*_{}[]<>#|"} | {"\n": " ", "\r": " "})


def _plain(text: str) -> str:
    """A person's words, so that Markdown takes none of them for its own signs."""
    return text.translate(_SPECIAL)


BLANK = "—"


def batch_sheet(book: Book, batch: Batch) -> Sheet:
    """Everything that is kept of a lot, and the batch record field by field."""
    came = tracing.into_lot(book, batch)
    frozen = batch.record
    head = [
        ("Plant", " · ".join(x for x in (batch.plant, batch.latin, batch.part, batch.state) if x) or BLANK),
        ("Preparation", batch.preparation), *(([("Code", batch.code)]) if batch.code else []),
    ]  # fmt: skip
    went_in = [
        (c.component.what, "; ".join(x for x in (
            amount(c.component.amount, c.component.unit), f"lot {c.component.lot}" if c.component.lot else "",
            f"gathering {c.gathering.id}: {c.gathering.title}, {in_words(c.gathering.gathered_on)}" if c.gathering else c.component.source,
        ) if x))
        for c in came
    ]  # fmt: skip
    assumed = [("", str(a.get("text", ""))) for a in _records(frozen, "assumptions")]
    steps = [(f"{n}", f"{s.get('says', '')} {s.get('working', '')}".strip()) for n, s in enumerate(_records(frozen, "steps"), 1)]
    tables = frozen.get("tables")
    versions = [(str(k), str(v)) for k, v in sorted(tables.items())] if isinstance(tables, dict) else []
    keeping = frozen.get("keeping")
    entries = record.record_of(book, batch)
    fields = [(f"({e.field.letter}) {e.field.asks}", "; ".join(e.words) or BLANK) for e in entries]
    sections = [
        Section("The batch", tuple(head)),
        Section("Dates", tuple(("", words) for words in record.dates_of(batch))),
        Section("What went in", tuple(went_in)),
        Section("What came out", tuple(("", words) for words in record.yield_words(batch))),
        Section("Taken for granted", tuple(assumed)),
        Section("How it was reckoned", tuple(steps)),
        Section("Keeps", (("", str(keeping)),) if keeping else ()),
        Section("Batch record (fields of 21 CFR 111.260)", tuple(fields)),
        Section("Reckoned with", tuple(versions)),
    ]
    return Sheet(f"Batch sheet, {batch.title}", tuple(s for s in sections if s.rows))


def gathering_sheet(book: Book, gathering: Gathering) -> Sheet:
    """One gathering, and what its stand gave over the years."""
    share = gathering.share
    rows = [
        ("Plant", " · ".join(x for x in (gathering.plant, gathering.latin, gathering.part, gathering.state) if x)),
        ("Place", gathering.place or BLANK),
        ("Date", in_words(gathering.gathered_on)),
        ("Weight", amount(gathering.weight, "g")),
        ("Stand", plural(gathering.stand_plants, "plant") if gathering.stand_plants is not None else BLANK),
        ("Taken", plural(gathering.plants_taken, "plant") if gathering.plants_taken is not None else BLANK),
        ("Share of the stand", f"{share:.3g} %" if share is not None else BLANK),
        ("Permission", gathering.permission or BLANK),
        ("In kept batches", amount(used_of(book, gathering.id), "g")),
        ("Note", gathering.note or BLANK),
    ]
    sections = [Section("The gathering", tuple(rows))]
    if gathering.place:
        same = [g for g in at_place(book, gathering.place) if g.plant == gathering.plant]
        years = [(str(y.year), y.words) for y in by_year(same)]
        sections.append(Section(f"{gathering.plant} from {gathering.place} over the years", tuple(years)))
    return Sheet(f"Gathering {gathering.id}, {gathering.title}", tuple(sections))


def label_sheet(labels: Sequence[Label]) -> Sheet:
    return Sheet("Labels", tuple(Section(label.name, tuple(("", row) for row in label.rows()[1:])) for label in labels))


def _records(frozen: dict[str, object], name: str) -> list[dict[str, object]]:
    found = frozen.get(name)
    return [r for r in found if isinstance(r, dict)] if isinstance(found, list) else []
