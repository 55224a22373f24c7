"""Kept batches: frozen with their figures, assumptions, derivation and the versions of the tables they rest on.

What is frozen never changes: `record` is written once. What happens to the jar afterwards (pressed, bottled, checked) stands beside it.
"""

from __future__ import annotations

import json
import re
import sqlite3
from collections.abc import Sequence
from datetime import date
from typing import Any

from assistant.book.book import Book
from assistant.book.fault import BookFault
from assistant.dataclass import dataclass, field
from assistant.faults import SentenceFault


@dataclass(frozen=True, slots=True)
class Component:
    """One thing that went in: `amount` in `unit` (None: not known), its own lot, its source in words, and where the book knows it from."""

    what: str
    amount: float | None
    unit: str
    lot: str = ""
    source: str = ""
    gathering: int | None = None
    item: int | None = None


@dataclass(frozen=True, slots=True)
class Batch:
    """A batch to be kept, or one that was. Dates are ISO text or None.

    preparation   tincture, oil, salve, syrup, vinegar, glycerite, oxymel, tea, formula, mix, dried herb …
    method        how it is pressed, in words
    expected      what should come of it [unit], `actual` what did
    record        the frozen part: figures, assumptions, steps, cautions, tables, keeping
    code          of a formula kept under one; never a person's name
    """

    lot: str
    preparation: str
    started: str
    name: str = ""
    code: str = ""
    plant: str = ""
    latin: str = ""
    part: str = ""
    state: str = ""
    method: str = ""
    shake_until: str | None = None
    press_on: str | None = None
    ready_on: str | None = None
    pressed_on: str | None = None
    best_before: str | None = None
    expected: float | None = None
    actual: float | None = None
    unit: str = "mL"
    record: dict[str, Any] = field(default_factory=dict)
    id: int = 0

    @property
    def title(self) -> str:
        return f"lot {self.lot}" + (f" ({self.name})" if self.name else "")

    @property
    def yield_percent(self) -> float | None:
        """Actual yield as a percent of the expected one.

        >>> round(Batch("1", "tincture", "2031-06-12", expected=500, actual=430).yield_percent, 9)
        86.0
        """
        if not self.expected or self.actual is None:
            return None
        return 100 * self.actual / self.expected

    def figure(self, quantity: str) -> float | None:
        """A figure of the frozen record, in its bench unit."""
        for figure in self.record.get("figures", ()):
            if figure.get("quantity") == quantity and not figure.get("about"):
                value = figure.get("value")
                return float(value) if isinstance(value, int | float) else None
        return None


@dataclass(frozen=True, slots=True)
class Bottling:
    bottled_on: str
    bottles: int
    size: float


@dataclass(frozen=True, slots=True)
class Check:
    """Something a batch record asks for: `field` is the letter of the rule's paragraph."""

    field: str
    made_on: str
    words: str


LONGEST_LOT = 40
_FIELDS = "lot name code plant latin part state preparation method started shake_until press_on ready_on pressed_on best_before expected actual unit".split()


def keep(book: Book, batch: Batch, components: Sequence[Component], turn: int | None = None) -> int:
    """Freeze a batch; its id.

    fails   SentenceFault, where the lot is taken already, or is no name for one
    """
    lot = " ".join(batch.lot.split())
    if not lot or len(lot) > LONGEST_LOT:
        raise SentenceFault("a lot needs a short name", where=lot[:LONGEST_LOT], try_this="“keep this as lot 24-07”")
    if named(book, lot) is not None:
        raise SentenceFault(f"lot {lot} is in the book already", where=lot, try_this=f"“keep this as lot {next_free(book, lot)}”")
    with book.writing():
        fields = {name: getattr(batch, name) for name in _FIELDS} | {"lot": lot}
        key = book.add("batches", **fields, record=json.dumps(batch.record, ensure_ascii=False, sort_keys=True, allow_nan=False), turn=turn)
        for place, part in enumerate(components, 1):
            book.add(
                "components", batch=key, place=place, what=part.what, amount=part.amount, unit=part.unit, lot=part.lot, source=part.source,
                gathering=part.gathering, item=part.item,
            )  # fmt: skip
    return key


def next_free(book: Book, lot: str) -> str:
    """The next lot of that name that is free: "24-07" → "24-07b"."""
    for letter in "bcdefghijklmnopqrstuvwxyz":
        if named(book, f"{lot}{letter}") is None:
            return f"{lot}{letter}"
    return f"{lot}-{1 + len(book.rows('SELECT 1 FROM batches'))}"


def amend(book: Book, key: int, **changes: Any) -> None:
    """Change what happens to a jar: dates, method, actual yield. The record stays as it was frozen."""
    forbidden = changes.keys() - set(_FIELDS) | changes.keys() & {"lot", "expected"}
    if forbidden:
        raise BookFault(f"{', '.join(sorted(forbidden))} of a kept batch never changes", reason="refused")
    with book.writing():
        book.alter("batches", key, **changes)


def bottle(book: Book, key: int, on: date, bottles: int, size: float, turn: int | None = None) -> None:
    with book.writing():
        book.add("bottlings", batch=key, bottled_on=on.isoformat(), bottles=bottles, size=size, turn=turn)


def check(book: Book, key: int, letter: str, on: date, words: str, turn: int | None = None) -> None:
    with book.writing():
        book.add("checks", batch=key, field=letter, made_on=on.isoformat(), words=words, turn=turn)


def named(book: Book, lot: str) -> Batch | None:
    """The batch of that lot; upper and lower case are one."""
    row = book.row("SELECT * FROM batches WHERE lot = ?", " ".join(lot.split()))
    return None if row is None else batch_of(row)


def by_id(book: Book, key: int) -> Batch | None:
    row = book.row("SELECT * FROM batches WHERE id = ?", key)
    return None if row is None else batch_of(row)


def latest(book: Book, word: str = "") -> Batch | None:
    """The batch kept last; with a word, the last whose plant, name or code it is."""
    if not word:
        row = book.row("SELECT * FROM batches ORDER BY id DESC LIMIT 1")
    else:
        row = book.row("SELECT * FROM batches WHERE plant = ? ORDER BY started DESC, id DESC LIMIT 1", word.lower())
        if row is None:
            row = book.row("SELECT * FROM batches WHERE lower(name) = ?1 OR lower(code) = ?1 ORDER BY id DESC LIMIT 1", word.lower())
    return None if row is None else batch_of(row)


_SIGN = re.compile(r"(?=.*\d)(?=.*[^\d\s.,])")  # a lot by its mere name has a digit and something beside: "12" alone is a number


_WORD = re.compile(r"[\w](?:[\w./-]*\w)?")
_MOST_WORDS, _LONGEST_NAME = 300, 5  # words of a sentence, and of a lot's name


def _lots_in(book: Book, text: str) -> list[str]:
    """Lots that stand in a text, the longest first: every few words of it are looked up, so that a large book is no slower than a small one."""
    words = [(hit.start(), hit.end()) for hit in _WORD.finditer(text)][:_MOST_WORDS]
    rows = {text[a : words[j][1]] for i, (a, _) in enumerate(words) for j in range(i, min(i + _LONGEST_NAME, len(words)))}
    names = sorted(name for name in rows if len(name) <= LONGEST_LOT)
    found: list[str] = []
    for first in range(0, len(names), 500):
        some = names[first : first + 500]
        found += [row["lot"] for row in book.rows(f"SELECT lot FROM batches WHERE lot IN ({', '.join('?' * len(some))})", *some)]
    return sorted(found, key=lambda lot: (-len(lot), lot))


def first_in(book: Book, text: str) -> tuple[Batch, int, int] | None:
    """The lot with the longest name that stands in a text, with its place."""
    for lot in _lots_in(book, text):
        hit = re.search(rf"(?<![\w-]){re.escape(lot)}(?![\w-])", text, re.IGNORECASE)
        kept = named(book, lot)
        if hit is not None and kept is not None:
            return kept, hit.start(), hit.end()
    return None


def standing_in(book: Book, text: str) -> list[str]:
    """Lots whose names stand in a text without the word lot before them, the longest first."""
    lots = [lot for lot in _lots_in(book, text) if _SIGN.match(lot)]
    return [lot for lot in lots if re.search(rf"(?<!lot )(?<!batch )(?<![\w-]){re.escape(lot)}(?![\w-])", text, re.IGNORECASE)]


def components_of(book: Book, key: int) -> list[Component]:
    rows = book.rows("SELECT * FROM components WHERE batch = ? ORDER BY place", key)
    return [Component(r["what"], r["amount"], r["unit"], r["lot"], r["source"], r["gathering"], r["item"]) for r in rows]


def bottlings_of(book: Book, key: int) -> list[Bottling]:
    return [Bottling(r["bottled_on"], r["bottles"], r["size"]) for r in book.rows("SELECT * FROM bottlings WHERE batch = ? ORDER BY id", key)]


def checks_of(book: Book, key: int) -> list[Check]:
    return [Check(r["field"], r["made_on"], r["words"]) for r in book.rows("SELECT * FROM checks WHERE batch = ? ORDER BY field, id", key)]


def batch_of(row: sqlite3.Row) -> Batch:
    try:
        record = json.loads(row["record"])
    except ValueError as fault:
        raise BookFault(f"the record of lot {row['lot']} cannot be read", reason="corrupt", try_this="go back to a backup") from fault
    return Batch(**{name: row[name] for name in _FIELDS}, record=record if isinstance(record, dict) else {}, id=row["id"])
