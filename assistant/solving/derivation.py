"""The way to one answer: only what it needs, inputs before what uses them, told in the order in which the equations name them."""

from __future__ import annotations

from assistant.solving.ledger import Ledger


class Ways:
    """The ways to all the answers of one ledger, where what they share is gone only once: forty volumes of one whole share the sum of the parts."""

    def __init__(self, ledger: Ledger) -> None:
        self.ledger = ledger
        self.one_by_one = all(way is None or len(way.slots) == 1 for way in ledger.way)
        self.gone: dict[int, tuple[dict[int, None], dict[int, None]]] = {}

    def to(self, slot: int) -> tuple[list[int], list[int]]:
        """As way_to."""
        if not self.one_by_one:
            return way_to(self.ledger, slot)
        found, given = self._gone(slot)
        return list(found), list(given)

    def _gone(self, slot: int) -> tuple[dict[int, None], dict[int, None]]:
        kept = self.gone.get(slot)
        if kept is None:
            found: dict[int, None] = {}
            given: dict[int, None] = {}
            way = self.ledger.way
            for then in inputs_of(self.ledger, slot):
                if way[then] is None:
                    given[then] = None
                else:
                    earlier, resting_on = self._gone(then)
                    found.update(earlier)
                    given.update(resting_on)
            (given if way[slot] is None else found)[slot] = None
            kept = self.gone[slot] = (found, given)
        return kept


def way_to(ledger: Ledger, slot: int) -> tuple[list[int], list[int]]:
    """The found slots that lead to this one, itself last, and the given slots they rest on, in order of first use."""
    found: list[int] = []
    given: list[int] = []
    seen: set[int] = set()
    path = [(slot, iter(inputs_of(ledger, slot)))]
    seen.add(slot)
    while path:
        at, inputs = path[-1]
        for then in inputs:
            if then not in seen:
                seen.add(then)
                path.append((then, iter(inputs_of(ledger, then))))
                break
        else:
            path.pop()
            way = ledger.way[at]
            if way is None:
                given.append(at)
            else:
                # Found together: told together, the guess first, as they were found.
                found.extend(mate for mate in way.slots if mate not in found)
                seen.update(way.slots)
    if slot in found:
        found.remove(slot)
        found.append(slot)
    return found, given


def inputs_of(ledger: Ledger, slot: int) -> list[int]:
    """What a found value rests on directly: the other quantities of its equation, or of all the equations of its group."""
    way = ledger.way[slot]
    if way is None:
        return []
    inputs = dict.fromkeys(s for number in way.leading for s in ledger.network.instances[number].slots)
    return [s for s in inputs if s not in way.slots]
