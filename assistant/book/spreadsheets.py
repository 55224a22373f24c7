"""Tables for a spreadsheet: CSV in which no cell can run as a formula.

A cell that begins with a sign by which a spreadsheet knows a formula (= + - @, a tab, a carriage return, or their wide forms) gets an
apostrophe before it, unless it is a plain number of ours. source: common practice against CSV injection.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Any

from assistant.book.book import Book
from assistant.newfile import ELSEWHERE, write_new

_RUNS = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠", "|", "%")

_TABLES = {
    "batches": "SELECT lot, name, code, plant, latin, part, state, preparation, method, started, shake_until, press_on, pressed_on, ready_on, best_before,"
    " expected, actual, round(100.0 * actual / expected, 1) AS yield_percent, unit FROM batches ORDER BY id",
    "components": "SELECT b.lot AS batch, c.place, c.what, c.amount, c.unit, c.lot, c.source, c.gathering"
    " FROM components c JOIN batches b ON b.id = c.batch ORDER BY b.id, c.place",
    "bottles": "SELECT b.lot AS batch, o.bottled_on, o.bottles, o.size AS size_ml FROM bottlings o JOIN batches b ON b.id = o.batch ORDER BY o.id",
    "gatherings": "SELECT id AS gathering, plant, latin, part, state, place, gathered_on, weight AS weight_g, stand_plants, plants_taken, stand_share,"
    " permission, note FROM gatherings ORDER BY id",
    "stock": "SELECT i.kind, i.name, i.strength, m.moved_on, m.amount, i.unit, b.lot AS batch, m.lot, m.price, m.note"
    " FROM movements m JOIN items i ON i.id = m.item LEFT JOIN batches b ON b.id = m.batch ORDER BY m.id",
    "own_numbers": "SELECT quantity, plant, part, method, value, measured_on FROM measured ORDER BY id",
}  # fmt: skip
_TURNS = "SELECT t.conversation, t.n, t.said_on, t.heard, t.status FROM turns t ORDER BY t.id"


def safe(cell: Any) -> str:
    """A cell as text that no spreadsheet runs.

    >>> safe("=1+1"), safe(-2.5), safe("Mill Lane"), safe(None)
    ("'=1+1", '-2.5', 'Mill Lane', '')
    """
    if cell is None:
        return ""
    if isinstance(cell, int | float):
        return repr(cell)
    text = str(cell).replace("\x00", "")
    return f"'{text}" if text.lstrip(" \ufeff\xa0").startswith(_RUNS) else text


def as_csv(names: Sequence[str], rows: Iterable[Sequence[Any]]) -> str:
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n", quoting=csv.QUOTE_MINIMAL)
    writer.writerow([safe(name) for name in names])
    writer.writerows([safe(cell) for cell in row] for row in rows)
    return out.getvalue()


def tables(book: Book, *, turns: bool = True) -> dict[str, str]:
    """Each table by its name, as CSV."""
    queries = dict(_TABLES) | ({"turns": _TURNS} if turns else {})
    result = {}
    for name, sql in queries.items():
        rows = book.rows(sql)
        heads = rows[0].keys() if rows else [c[0] for c in book.connection.execute(sql).description]
        result[name] = as_csv(heads, (tuple(row) for row in rows))
    return result


def export(book: Book, place: Path, *, turns: bool = True) -> list[Path]:
    """Write every table beside `place`: OUT.csv becomes OUT-batches.csv, OUT-gatherings.csv and so on. The files written."""
    written = []
    for name, text in tables(book, turns=turns).items():
        file = place.with_name(f"{place.stem}-{name}.csv")
        write_new(file, text, replace=True, try_this=ELSEWHERE)
        written.append(file)
    return written
