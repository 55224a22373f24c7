"""The door to the book as a whole: out to a file, in from one, copied, and its sheets written. Only the table of the year takes up a conversation."""

from __future__ import annotations

import argparse
from pathlib import Path

from assistant.book import Book, backup, batches, exchange, gatherings, labels, page, sheets
from assistant.faults import FileFault, SentenceFault
from assistant.newfile import write_new
from assistant.places import usual_book
from assistant.render import say

GOOD = 0
MOST_LABELS = 500
TABLES = frozenset({"year", "table", "pressing day", "orders"})  # the table of the last conversation, by whatever name


def run(asked: argparse.Namespace) -> int:
    """Do what the flags ask, in the order in, copy, out, sheet. Fails with BenchError, which the caller prints."""
    place: Path = asked.book or usual_book()
    if not place.exists() and not asked.bring_in:
        raise FileFault("there is no book there", where=str(place), try_this="name one with --book FILE")
    with Book(place) as book:
        if asked.bring_in:
            fresh = exchange.bring_in(book, asked.bring_in)
            say(f"{asked.bring_in}: {'read into' if fresh else 'is already'} {place}")
        if asked.backup:
            backup.backup(book, asked.backup)
            say(f"{asked.backup}: a copy of {place}")
        if asked.export:
            for file in _export(book, asked.export, turns=not asked.without_turns):
                say(f"{file}: written")
        if asked.sheet:
            what, out = asked.sheet
            suffix = Path(out).suffix.lower()
            text = tabled(place, suffix, asked.paper) if what.strip().lower() in TABLES else printed(book, what, suffix, asked.paper, asked.line)
            write_new(Path(out), text, replace=asked.replace)
            say(f"{out}: written")
    return GOOD


def _export(book: Book, place: Path, *, turns: bool) -> list[Path]:
    if place.suffix.lower() == ".csv":
        from assistant.book import spreadsheets

        return spreadsheets.export(book, place, turns=turns)
    exchange.export(book, place, turns=turns)
    return [place]


def printed(book: Book, what: str, suffix: str, paper: str, lines: list[str]) -> str:
    """A sheet as text, Markdown or HTML, by the ending of the file it goes to.

    what    “labels 24-07” (a bottle each, or “labels 24-07 × 6”), “batch 24-07”, “gathering 3”
    fails   SentenceFault, for anything else
    """
    kind, _, name = what.strip().partition(" ")
    kind, name = kind.lower().rstrip("s"), name.strip()
    if kind == "label":
        made = _labels(book, name, lines)
        if suffix in (".html", ".htm"):
            return page.label_page(made, paper)
        sheet = sheets.label_sheet(made)
    elif kind in ("batch", "batche", "lot"):
        kept = batches.named(book, name)
        if kept is None:
            raise SentenceFault("that lot is not in the book", where=name, try_this="--sheet “batch 24-07” OUT.html, with a lot that was kept")
        sheet = sheets.batch_sheet(book, kept)
    elif kind == "gathering" and name.isascii() and name.isdigit() and len(name) < 10 and (one := gatherings.by_id(book, int(name))) is not None:
        sheet = sheets.gathering_sheet(book, one)
    else:
        raise SentenceFault("no sheet goes by that name", where=what, try_this="“labels 24-07”, “batch 24-07”, “gathering 3” or “year”")
    if suffix in (".html", ".htm"):
        return page.sheet_page(sheet, paper)
    return sheet.as_markdown() if suffix == ".md" else sheet.as_text()


def tabled(place: Path, suffix: str, paper: str) -> str:
    """The table that the last conversation ended with, as text, CSV, Markdown or HTML by the ending of the file it goes to.

    fails   SentenceFault, where the conversation has no table on its bench
    """
    from assistant.session import Session
    from assistant.session.year_talk import table_in_hand

    session = Session(book=place)
    session.memory.go_on(session)
    table = table_in_hand(session)
    if table is None:
        say_first = "“used 4 L nettle last year, fresh 1:2 at 75 %”, then the sheet"
        raise SentenceFault("the last conversation ended without a table", where=str(place), try_this=say_first)
    if suffix in (".html", ".htm"):
        return table.as_page(paper)
    if suffix == ".csv":
        return table.as_csv()
    return table.as_markdown() if suffix == ".md" else f"{table.title}\n\n{table.as_text()}\n"


def _labels(book: Book, name: str, lines: list[str]) -> list[labels.Label]:
    lot, times, count = name.partition("×")
    number = int(count.strip()) if times and count.strip().isascii() and count.strip().isdigit() and len(count) < 6 else 0
    kept = batches.named(book, lot.strip())
    if kept is None:
        raise SentenceFault("that lot is not in the book", where=lot.strip(), try_this="--sheet “labels 24-07” OUT.html, with a lot that was kept")
    bottled = batches.bottlings_of(book, kept.id)
    if number:
        size = bottled[-1].size if bottled else None
        return [labels.label_for(kept, size, lines)] * min(number, MOST_LABELS)
    each = [labels.label_for(kept, b.size, lines) for b in bottled for _ in range(min(b.bottles, MOST_LABELS))]
    return each[:MOST_LABELS] or [labels.label_for(kept, None, lines)]
