"""Gatherings: what was taken, where, when, and what share of the stand; so that next spring's "can I go back" has an answer."""

from __future__ import annotations

import sqlite3
from datetime import date

from assistant.book.book import Book
from assistant.book.wording import amount, plural
from assistant.dataclass import dataclass
from assistant.faults import FigureFault


@dataclass(frozen=True, slots=True)
class Gathering:
    """One gathering. Weight in g; `stand_share` in percent of the stand; counts of plants; None where it was not said.

    place        in the person's own words
    permission   whose leave, in the person's own words
    """

    plant: str
    gathered_on: str
    weight: float | None = None
    latin: str = ""
    part: str = ""
    state: str = ""
    place: str = ""
    stand_plants: float | None = None
    plants_taken: float | None = None
    stand_share: float | None = None
    permission: str = ""
    note: str = ""
    id: int = 0

    @property
    def title(self) -> str:
        where = f" at {self.place}" if self.place else ""
        return f"{self.plant}{' ' + self.part if self.part else ''}{where}"

    @property
    def share(self) -> float | None:
        """The share of the stand [percent], said or counted."""
        if self.stand_share is not None:
            return self.stand_share
        if self.stand_plants and self.plants_taken is not None:
            return 100 * self.plants_taken / self.stand_plants
        return None


_FIELDS = "plant latin part state place gathered_on weight stand_plants plants_taken stand_share permission note".split()


def add(book: Book, gathering: Gathering, turn: int | None = None) -> int:
    """Keep a gathering; its id.

    fails   FigureFault, for a share above the whole stand
    """
    share = gathering.share
    if share is not None and not 0 <= share <= 100:
        raise FigureFault("more cannot be taken than stands there", got=share, low=0, high=100, unit="percent", try_this="“30 of 200 plants”")
    with book.writing():
        return book.add("gatherings", **{name: getattr(gathering, name) for name in _FIELDS}, turn=turn)


def by_id(book: Book, key: int) -> Gathering | None:
    row = book.row("SELECT * FROM gatherings WHERE id = ?", key)
    return None if row is None else gathering_of(row)


def latest(book: Book) -> Gathering | None:
    row = book.row("SELECT * FROM gatherings ORDER BY id DESC LIMIT 1")
    return None if row is None else gathering_of(row)


def of_plant(book: Book, plant: str, first: date | None = None, last: date | None = None) -> list[Gathering]:
    """Gatherings of a plant between two days, the oldest first."""
    rows = book.rows(
        "SELECT * FROM gatherings WHERE plant = ? AND gathered_on BETWEEN ? AND ? ORDER BY gathered_on, id",
        plant, (first or date.min).isoformat(), (last or date.max).isoformat(),
    )  # fmt: skip
    return [gathering_of(row) for row in rows]


def at_place(book: Book, place: str) -> list[Gathering]:
    """Everything taken from one stand over the years, the oldest first; upper and lower case are one."""
    rows = book.rows("SELECT * FROM gatherings WHERE lower(place) = ? ORDER BY gathered_on, id", place.lower())
    return [gathering_of(row) for row in rows]


def places(book: Book) -> list[str]:
    return [row["place"] for row in book.rows("SELECT DISTINCT place FROM gatherings WHERE place <> '' ORDER BY place")]


def used_of(book: Book, key: int) -> float:
    """Grams of a gathering that went into kept batches."""
    row = book.row("SELECT coalesce(sum(amount), 0) AS used FROM components WHERE gathering = ? AND unit = 'g'", key)
    return float(row["used"]) if row is not None else 0.0


def gathering_of(row: sqlite3.Row) -> Gathering:
    return Gathering(**{name: row[name] for name in _FIELDS}, id=row["id"])


@dataclass(frozen=True, slots=True)
class Year:
    """What one stand gave in one year: how often, grams, and the share of the stand [percent] where every visit said it."""

    year: int
    visits: int
    weight: float
    share: float | None

    @property
    def words(self) -> str:
        share = f", {self.share:.3g} % of the stand" if self.share is not None else ""
        return f"{plural(self.visits, 'visit')}, {amount(self.weight, 'g')}{share}"


def by_year(gatherings: list[Gathering]) -> list[Year]:
    """The years of a stand; the shares of the visits of one year are added up."""
    years: dict[int, list[Gathering]] = {}
    for one in gatherings:
        years.setdefault(int(one.gathered_on[:4]), []).append(one)
    result = []
    for year, visits in sorted(years.items()):
        shares = [v.share for v in visits]
        known = [s for s in shares if s is not None]
        result.append(Year(year, len(visits), sum(v.weight or 0.0 for v in visits), sum(known) if len(known) == len(shares) else None))
    return result
