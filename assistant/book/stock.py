"""Stock: what was brought in, what kept batches used, what is left. Spirits, oils, wax, dried herb, extracts, bottles."""

from __future__ import annotations

import sqlite3
from datetime import date

from assistant.book.book import Book
from assistant.dataclass import dataclass
from assistant.faults import FigureFault

SAME_STRENGTH = 0.25  # percent: 95 and 95.0 are one spirit, 95 and 96 are two


@dataclass(frozen=True, slots=True)
class Item:
    """One thing on the shelf: `strength` in % vol (0: none), amounts in `unit` (mL, g, or 1 for pieces)."""

    kind: str
    name: str
    unit: str
    strength: float = 0.0
    id: int = 0

    @property
    def title(self) -> str:
        return f"{self.name} of {self.strength:g} %" if self.strength else self.name


@dataclass(frozen=True, slots=True)
class Level:
    """How it stands with an item: brought in, used by kept batches, gone otherwise, left."""

    item: Item
    brought: float
    used: float
    otherwise: float

    @property
    def left(self) -> float:
        return self.brought - self.used - self.otherwise


def item_for(book: Book, kind: str, name: str, unit: str, strength: float = 0.0) -> Item:
    """The item of that name and strength, made where there is none."""
    found = find(book, name, strength, unit)
    if found is not None:
        return found
    with book.writing():
        key = book.add("items", kind=kind, name=name, strength=strength, unit=unit)
    return Item(kind, name, unit, strength, key)


def find(book: Book, name: str, strength: float = 0.0, unit: str = "") -> Item | None:
    rows = book.rows("SELECT * FROM items WHERE name = ? AND abs(strength - ?) <= ? ORDER BY id", name, strength, SAME_STRENGTH)
    return next((item_of(row) for row in rows if not unit or row["unit"] == unit), None)


def spirit(book: Book, strength: float) -> Item | None:
    """The spirit of that strength on the shelf; the first brought in where there are two."""
    row = book.row("SELECT * FROM items WHERE kind = 'spirit' AND abs(strength - ?) <= ? ORDER BY id LIMIT 1", strength, SAME_STRENGTH)
    return None if row is None else item_of(row)


def bring_in(book: Book, item: Item, amount: float, on: date, *, lot: str = "", price: float | None = None, turn: int | None = None) -> None:
    """Put so much of an item on the shelf.

    fails   FigureFault, for an amount that is none
    """
    if not 0 < amount <= 1e9:
        raise FigureFault("an amount above nothing has to come in", got=amount, low=0, high=1e9, unit=item.unit, try_this="“brought in 5 L of 95 % spirit”")
    with book.writing():
        book.add("movements", item=item.id, moved_on=on.isoformat(), amount=amount, lot=lot, price=price, turn=turn)


def take(book: Book, item: Item, amount: float, on: date, *, batch: int | None = None, note: str = "", turn: int | None = None) -> None:
    """Take so much of an item off the shelf; for a kept batch where one is named. More than is left may be taken: the book says so, the bench decides."""
    if not 0 <= amount <= 1e9:
        raise FigureFault("an amount above nothing has to go out", got=amount, low=0, high=1e9, unit=item.unit, try_this="“used up 200 mL of the 95 %”")
    with book.writing():
        book.add("movements", item=item.id, moved_on=on.isoformat(), amount=-amount, batch=batch, note=note, turn=turn)


def level(book: Book, item: Item) -> Level:
    row = book.row(
        "SELECT coalesce(sum(amount) FILTER (WHERE amount > 0), 0) AS brought,"
        " coalesce(-sum(amount) FILTER (WHERE amount < 0 AND batch IS NOT NULL), 0) AS used,"
        " coalesce(-sum(amount) FILTER (WHERE amount < 0 AND batch IS NULL), 0) AS otherwise FROM movements WHERE item = ?",
        item.id,
    )
    assert row is not None
    return Level(item, float(row["brought"]), float(row["used"]), float(row["otherwise"]))


def levels(book: Book) -> list[Level]:
    """Everything on the shelf, by kind and name."""
    return [level(book, item_of(row)) for row in book.rows("SELECT * FROM items ORDER BY kind, name, strength")]


def lots_of(book: Book, item: Item) -> list[str]:
    """The lots of an item that were brought in, the latest first."""
    return [row["lot"] for row in book.rows("SELECT lot FROM movements WHERE item = ? AND amount > 0 AND lot <> '' ORDER BY id DESC", item.id)]


def item_of(row: sqlite3.Row) -> Item:
    return Item(row["kind"], row["name"], row["unit"], row["strength"], row["id"])
