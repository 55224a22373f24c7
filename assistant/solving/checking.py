"""Whether an equation that is known throughout holds, given how far what was said may be off."""

from __future__ import annotations

from assistant.solving.ledger import Ledger
from assistant.solving.sensitivity import Sensitivities

EXACT = 1e-9  # of the two sides together: the noise of the arithmetic itself


def check(ledger: Ledger) -> None:
    """Check what has come to be known throughout; what does not hold becomes a clash."""
    for number in ledger.unchecked:
        if not holds(ledger, number):
            ledger.clashes.append(number)
    ledger.unchecked.clear()


def holds(ledger: Ledger, number: int) -> bool:
    """Whether moving one of the given values within its slack closes the gap between the two sides.

    An equation whose sides have no value here (a density outside its table) says nothing against anything.
    """
    gap = ledger.gap(number)
    if gap is None:
        return True
    difference, size = gap
    if abs(difference) <= EXACT * size:
        return True
    if ledger.network.instances[number].has_steps:
        return _holds_beside(ledger, number)  # at a step the slope is boundless and would excuse anything
    moved = Sensitivities(ledger).of_gap(number)
    reach = max((abs(change) * ledger.slack[slot] for slot, change in moved.items()), default=0.0)
    return abs(difference) <= reach * (1 + EXACT)


def _holds_beside(ledger: Ledger, number: int) -> bool:
    """For floor and ceil, which have no slope: whether a value a little beside one of its own closes the gap."""
    for slot in ledger.network.instances[number].slots:
        value = ledger.values[slot]
        for beside in (value * 0.995, value * 1.005):
            ledger.values[slot] = beside
            gap = ledger.gap(number)
            if gap is not None and abs(gap[0]) <= EXACT * gap[1]:
                ledger.values[slot] = value
                return True
        ledger.values[slot] = value
    return False
