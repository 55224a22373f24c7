"""A printed table read both ways: straight lines between its rows."""

from bisect import bisect_right
from collections.abc import Sequence

from assistant.matter.limits import within


class Table:
    """Values that rise at every row against evenly spaced entries.

    what, unit      name and unit of the entry, for the refusal of one outside the table
    gives, measure  name and unit of the value
    first, every    the first entry and the distance between entries
    values          one for each entry

    Straight lines keep the table exact at its rows, rising everywhere, and the way back the exact inverse.
    """

    __slots__ = ("_every", "_first", "_gives", "_last", "_measure", "_unit", "_values", "_what")

    def __init__(self, what: str, unit: str, gives: str, measure: str, first: float, every: float, values: Sequence[float]) -> None:
        self._what, self._unit, self._gives, self._measure = what, unit, gives, measure
        self._first, self._every = first, every
        self._values = tuple(values)
        self._last = first + every * (len(self._values) - 1)

    def value(self, entry: float) -> float:
        """The value at an entry. Fails with FigureFault outside the table."""
        i, share = self._place(entry)
        low, high = self._values[i], self._values[i + 1]
        return low + share * (high - low)

    def entry(self, value: float) -> float:
        """The entry that has this value. Fails with FigureFault outside the table."""
        value = within(value, self._values[0], self._values[-1], self._gives, self._measure)
        i = min(bisect_right(self._values, value), len(self._values) - 1) - 1
        low, high = self._values[i], self._values[i + 1]
        return self._first + self._every * (i + (value - low) / (high - low))

    def slope(self, entry: float) -> float:
        """How fast the value rises with the entry there; at a row, to the right of it."""
        i, _ = self._place(entry)
        return (self._values[i + 1] - self._values[i]) / self._every

    def _place(self, entry: float) -> tuple[int, float]:
        steps = (within(entry, self._first, self._last, self._what, self._unit) - self._first) / self._every
        i = min(int(steps), len(self._values) - 2)
        return i, steps - i
