"""The way to one answer or to several: only what they need, inputs before what uses them, told in the order in which the equations name them."""

from __future__ import annotations

from assistant.solving.ledger import Ledger


class Walk:
    """A walk to one answer after another. What they share is gone only once: forty volumes of one whole share the sum of the parts."""

    def __init__(self, ledger: Ledger) -> None:
        self.ledger = ledger
        self._gone: set[int] = set()

    def to(self, slot: int) -> tuple[list[int], list[int]]:
        """The found slots that lead to this one, itself last, and the given slots they rest on, in order of first use; without those gone before."""
        found: dict[int, None] = {}
        given: dict[int, None] = {}
        self._go(slot, found, given)
        return [other for other in found if other != slot] + [slot] * (slot in found), list(given)

    def _go(self, slot: int, found: dict[int, None], given: dict[int, None]) -> None:
        if slot in self._gone:
            return
        way = self.ledger.way[slot]
        if way is None:
            self._gone.add(slot)
            given[slot] = None
            return
        for then in inputs_of(self.ledger, slot):  # found before this one: there is no going round
            self._go(then, found, given)
        self._gone.update(way.slots)
        found.update(dict.fromkeys(way.slots))  # found together: told together, the guess first, as they were found


def inputs_of(ledger: Ledger, slot: int) -> list[int]:
    """What a found value rests on directly: the other quantities of its equation, or of all the equations of its group."""
    way = ledger.way[slot]
    if way is None:
        return []
    inputs = dict.fromkeys(s for number in way.leading for s in ledger.network.instances[number].slots)
    return [s for s in inputs if s not in way.slots]
