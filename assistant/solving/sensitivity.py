"""How much each found value moves with each given one: first order, by differentiating the equations that found it.

A value used three times counts once, because every found value is referred back to the given ones. Groups found together, and values
found by a search, are differentiated implicitly: the equations must go on holding.
"""

from __future__ import annotations

from assistant.solving.compiling import NO_VALUE
from assistant.solving.ledger import Ledger, Way

STEP = 1e-6  # of the value: the middle between rounding and curvature for doubles
Moved = dict[int, float]  # given slot → change of a value for a change of one unit there


class Sensitivities:
    """Sensitivities of the values of one ledger, worked out when asked for and remembered."""

    def __init__(self, ledger: Ledger) -> None:
        self.ledger = ledger
        self._of: dict[int, Moved] = {slot: {slot: 1.0} for slot in ledger.slack}

    def of(self, slot: int) -> Moved:
        """What moves the value in this slot, and by how much."""
        if slot not in self._of:
            way = self.ledger.way[slot]
            if way is None:
                return {}
            self._of.update(zip(way.slots, self._of_group(way), strict=True))
        return self._of[slot]

    def of_gap(self, number: int) -> Moved:
        """What moves the difference between the two sides of an equation."""
        moved: Moved = {}
        for slot in self.ledger.network.instances[number].slots:
            _add(moved, self.of(slot), self._slope(number, slot))
        return moved

    def _of_group(self, way: Way) -> list[Moved]:
        matrix = [[self._slope(number, slot) for slot in way.slots] for number in way.leading]
        pushed: list[Moved] = []
        for number in way.leading:
            push: Moved = {}
            for slot in self.ledger.network.instances[number].slots:
                if slot not in way.slots:
                    _add(push, self.of(slot), -self._slope(number, slot))
            pushed.append(push)
        return _solved(matrix, pushed)

    def _slope(self, number: int, slot: int) -> float:
        """Slope of (left − right) of an equation in one of its quantities; 0 where the sides have no value beside this one, or go in steps."""
        instance = self.ledger.network.instances[number]
        if instance.stands_in_steps(slot):
            return 0.0  # whole numbers do not move with it but jump: both neighbours are told instead (steps.py)
        left, right = instance.sides()
        values = self.ledger.values
        value = values[slot]
        step = STEP * (abs(value) or 1.0)
        at: list[tuple[float, float]] = []
        for x in (value + step, value, value - step):
            values[slot] = x
            try:
                at.append((x, left(values) - right(values)))
            except NO_VALUE:
                continue
        values[slot] = value
        if len(at) < 2:
            return 0.0
        (x1, y1), (x0, y0) = at[0], at[-1]
        return (y1 - y0) / (x1 - x0)


def _add(total: Moved, moved: Moved, factor: float) -> None:
    if factor:
        for slot, change in moved.items():
            total[slot] = total.get(slot, 0.0) + factor * change


def _solved(matrix: list[list[float]], pushed: list[Moved]) -> list[Moved]:
    """Solve matrix · x = pushed, each entry of x being a row of sensitivities; rows of a singular group come back empty."""
    size = len(matrix)
    rows = [row.copy() for row in matrix]
    right = [push.copy() for push in pushed]
    for column in range(size):
        pivot = max(range(column, size), key=lambda r: abs(rows[r][column]))
        if rows[pivot][column] == 0:
            return [{} for _ in range(size)]
        rows[column], rows[pivot] = rows[pivot], rows[column]
        right[column], right[pivot] = right[pivot], right[column]
        for r in range(size):
            if r != column and rows[r][column]:
                factor = rows[r][column] / rows[column][column]
                rows[r] = [a - factor * b for a, b in zip(rows[r], rows[column], strict=True)]
                _add(right[r], right[column], -factor)
    return [{slot: change / rows[n][n] for slot, change in right[n].items()} for n in range(size)]
