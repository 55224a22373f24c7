"""The way to one answer: only what it needs, inputs before what uses them, told in the order in which the equations name them."""

from __future__ import annotations

from assistant.solving.ledger import Ledger


class Ways:
    """The ways to the answers of one ledger. What they share is gone only once: forty volumes of one whole share the sum of the parts."""

    def __init__(self, ledger: Ledger) -> None:
        self.ledger = ledger
        self._gone: dict[int, tuple[dict[int, None], dict[int, None]]] = {}

    def to(self, slot: int) -> tuple[list[int], list[int]]:
        """The found slots that lead to this one, itself last, and the given slots they rest on, in order of first use."""
        found, given = self._to(slot)
        return [other for other in found if other != slot] + [slot] * (slot in found), list(given)

    def _to(self, slot: int) -> tuple[dict[int, None], dict[int, None]]:
        gone = self._gone.get(slot)
        if gone is not None:
            return gone
        found: dict[int, None] = {}
        given: dict[int, None] = {}
        way = self.ledger.way[slot]
        if way is None:
            given[slot] = None
        else:
            for then in inputs_of(self.ledger, slot):  # found before this one: there is no going round
                earlier, resting_on = self._to(then)
                found.update(earlier)
                given.update(resting_on)
            found.update(dict.fromkeys(way.slots))  # found together: told together, the guess first, as they were found
        self._gone[slot] = found, given
        return found, given


def inputs_of(ledger: Ledger, slot: int) -> list[int]:
    """What a found value rests on directly: the other quantities of its equation, or of all the equations of its group."""
    way = ledger.way[slot]
    if way is None:
        return []
    inputs = dict.fromkeys(s for number in way.leading for s in ledger.network.instances[number].slots)
    return [s for s in inputs if s not in way.slots]
