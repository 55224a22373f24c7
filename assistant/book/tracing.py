"""Ways through the book: from a gathering to the bottles, from a lot to what went in, what is due, what is past its date."""

from __future__ import annotations

from datetime import date

from assistant.book.batches import Batch, Bottling, Component, batch_of, bottlings_of, components_of
from assistant.book.book import Book
from assistant.book.dates import week_of
from assistant.book.gatherings import Gathering, by_id
from assistant.dataclass import dataclass

MOST = 200  # rows of one answer


@dataclass(frozen=True, slots=True)
class WentInto:
    """A batch that something went into, directly or through another lot, with its bottles."""

    batch: Batch
    bottlings: tuple[Bottling, ...]
    through: str = ""  # the lot it went through, "" where directly


def from_gathering(book: Book, gathering: Gathering) -> list[WentInto]:
    """Every batch that a gathering went into, and every batch that those went into."""
    rows = book.rows("SELECT DISTINCT b.* FROM batches b JOIN components c ON c.batch = b.id WHERE c.gathering = ? ORDER BY b.id", gathering.id)
    return _onward(book, [batch_of(row) for row in rows])


def from_lot(book: Book, lot: str) -> list[WentInto]:
    """Every batch that a lot went into; a bought lot too."""
    return _onward(book, _made_with(book, lot))


def _made_with(book: Book, lot: str) -> list[Batch]:
    rows = book.rows("SELECT DISTINCT b.* FROM batches b JOIN components c ON c.batch = b.id WHERE c.lot = ? ORDER BY b.id", lot)
    return [batch_of(row) for row in rows]


def _onward(book: Book, begun: list[Batch]) -> list[WentInto]:
    result: dict[int, WentInto] = {}
    queue = [(batch, "") for batch in begun]
    while queue and len(result) < MOST:
        batch, through = queue.pop(0)
        if batch.id in result:
            continue
        result[batch.id] = WentInto(batch, tuple(bottlings_of(book, batch.id)), through)
        queue += [(next_one, batch.lot) for next_one in _made_with(book, batch.lot) if next_one.id != batch.id]
    return list(result.values())


@dataclass(frozen=True, slots=True)
class CameFrom:
    """One thing that went into a lot, with the gathering it came from where the book knows it."""

    component: Component
    gathering: Gathering | None


def into_lot(book: Book, batch: Batch) -> list[CameFrom]:
    return [CameFrom(c, None if c.gathering is None else by_id(book, c.gathering)) for c in components_of(book, batch.id)]


def to_press(book: Book, first: date, last: date) -> list[Batch]:
    """Jars not pressed yet whose day lies between two days."""
    rows = book.rows(
        "SELECT * FROM batches INDEXED BY batches_to_press WHERE pressed_on IS NULL AND press_on IS NOT NULL AND press_on BETWEEN ? AND ?"
        " ORDER BY press_on, id LIMIT ?",
        first.isoformat(), last.isoformat(), MOST,
    )  # fmt: skip
    return [batch_of(row) for row in rows]


def this_week(book: Book, today: date) -> list[Batch]:
    monday, sunday = week_of(today)
    return to_press(book, monday, sunday)


def overdue(book: Book, today: date) -> list[Batch]:
    """Jars whose day to press lay before this week."""
    monday, _ = week_of(today)
    rows = book.rows(
        "SELECT * FROM batches INDEXED BY batches_to_press WHERE pressed_on IS NULL AND press_on IS NOT NULL AND press_on < ?"
        " ORDER BY press_on, id LIMIT ?",
        monday.isoformat(), MOST,
    )  # fmt: skip
    return [batch_of(row) for row in rows]


def past_date(book: Book, today: date) -> list[Batch]:
    """What is past its best-before, the longest past first."""
    rows = book.rows("SELECT * FROM batches WHERE best_before IS NOT NULL AND best_before < ? ORDER BY best_before, id LIMIT ?", today.isoformat(), MOST)
    return [batch_of(row) for row in rows]


def in_jars(book: Book) -> list[Batch]:
    """Everything not pressed yet, what is due first."""
    rows = book.rows("SELECT * FROM batches WHERE pressed_on IS NULL AND press_on IS NOT NULL ORDER BY press_on, id LIMIT ?", MOST)
    return [batch_of(row) for row in rows]
