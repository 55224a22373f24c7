"""A person's own numbers: what their pressings and dryings have shown takes the place of the table's.

held_per_gram   mL that the marc held for each g of dry matter  [mL/g]
water_content   water in the fresh plant                        [percent of fresh weight]
"""

from __future__ import annotations

from datetime import date
from statistics import fmean

from assistant.book.book import Book
from assistant.dataclass import dataclass
from assistant.faults import FigureFault

LAST = 5  # as many as show how the bench works now
LIMITS = {"held_per_gram": (0.0, 50.0, "mL/g"), "water_content": (0.0, 99.9, "percent")}
_CALLED = {"held_per_gram": ("pressing", "pressings"), "water_content": ("drying", "dryings")}


@dataclass(frozen=True, slots=True)
class OwnNumber:
    """The mean of the last few, with both ends. `whose` is what they were narrowed to: the plant, the method, or nothing."""

    quantity: str
    value: float
    low: float
    high: float
    count: int
    whose: str = ""

    @property
    def words(self) -> str:
        """ "your last 5 pressings of nettle"."""
        one, many = _CALLED[self.quantity]
        count = f"your last {one}" if self.count == 1 else f"your last {self.count} {many}"
        return f"{count} {self.whose}".rstrip()

    @property
    def spread(self) -> str:
        """The ends, where there are two."""
        return f"{self.low:.3g} to {self.high:.3g}" if self.count > 1 else "once"


def add(
    book: Book, quantity: str, value: float, on: date, *, plant: str = "", part: str = "", method: str = "", batch: int | None = None, turn: int | None = None
) -> None:
    """Keep one measurement.

    fails   FigureFault, outside what can be
    """
    low, high, unit = LIMITS[quantity]
    if not low <= value <= high:
        what = f"that makes {value:.4g}, which no {_CALLED[quantity][0]} gives"
        raise FigureFault(what, got=value, low=low, high=high, unit=unit, try_this="look at the figures once more")
    with book.writing():
        book.add("measured", quantity=quantity, plant=plant, part=part, method=method, value=value, measured_on=on.isoformat(), batch=batch, turn=turn)


def held_per_gram(book: Book, plant: str, method: str = "") -> OwnNumber | None:
    """What their pressings of this plant show, else their pressings of any; of one `method` where it is said. None where there are none."""
    by = " AND method = ?" if method else ""
    said = (method,) if method else ()
    if plant:
        found = _last("held_per_gram", book, "plant = ?" + by, (plant, *said), f"of {plant}")
        if found is not None:
            return found
    return _last("held_per_gram", book, "quantity <> ''" + by, said, "")


def water_content(book: Book, plant: str, part: str) -> OwnNumber | None:
    """Of this part of this plant; a drying whose part was not said counts for any."""
    if not plant:
        return None
    if not part:
        return _last("water_content", book, "plant = ?", (plant,), f"of {plant}")
    return _last("water_content", book, "plant = ? AND part IN (?, '')", (plant, part), f"of {plant} {part}")


def _last(quantity: str, book: Book, where: str, values: tuple[str, ...], whose: str) -> OwnNumber | None:
    rows = book.rows(f"SELECT value FROM measured WHERE quantity = ? AND {where} ORDER BY measured_on DESC, id DESC LIMIT {LAST}", quantity, *values)
    if not rows:
        return None
    found = [float(row["value"]) for row in rows]
    return OwnNumber(quantity, fmean(found), min(found), max(found), len(found), whose)
