"""The smallest set of said values that cannot all hold, and what the others imply for each of them.

Found by leaving out: a said value without which the rest still clashes does not belong to the set. What is left clashes, and stops
clashing as soon as any one of it is left out.
"""

from __future__ import annotations

from collections.abc import Sequence

from assistant.solving.attempt import attempt
from assistant.solving.derivation import Walk
from assistant.solving.ledger import Ledger
from assistant.solving.solution import Conflict

MOST = 3  # conflicts told at once; mending one often mends the next


def conflicts(ledger: Ledger) -> tuple[Conflict, ...]:
    """The conflicts among the given values of a ledger that clashes; no two of them share all their values."""
    told: list[Conflict] = []
    given = [slot for slot in ledger.order if ledger.way[slot] is None]
    while len(told) < MOST:
        trial = _tried(ledger, given)
        if not trial.clashes:
            break
        smallest = _smallest(ledger, _involved(trial, given))
        told.append(_conflict(ledger, smallest))
        # The latest said of the set is the likeliest slip; the rest may hold a second conflict.
        given = [slot for slot in given if slot != smallest[-1]]
    return tuple(told)


def _tried(ledger: Ledger, slots: Sequence[int]) -> Ledger:
    return attempt(ledger.network, ledger.brackets, ((slot, ledger.values[slot], ledger.slack[slot]) for slot in slots))


def _involved(clashing: Ledger, given: list[int]) -> list[int]:
    """The given values that the first clash rests on; all of them where it came out of a group that was still being guessed."""
    slots = clashing.network.instances[clashing.clashes[0]].slots
    if not all(clashing.known[slot] for slot in slots):
        return given
    walk = Walk(clashing)
    leaves = {leaf for slot in slots for leaf in walk.to(slot)[1]}
    return [slot for slot in given if slot in leaves]


def _smallest(ledger: Ledger, slots: list[int]) -> list[int]:
    """Leave out one after the other, once from the earliest said and once from the latest; the shorter set wins."""
    if not _tried(ledger, slots).clashes:
        slots = [slot for slot in ledger.order if ledger.way[slot] is None]
    return min((_filtered(ledger, slots, order) for order in (slots, slots[::-1])), key=len)


def _filtered(ledger: Ledger, slots: list[int], order: Sequence[int]) -> list[int]:
    kept = slots
    for slot in order:
        fewer = [other for other in kept if other != slot]
        if _tried(ledger, fewer).clashes:
            kept = fewer
    return kept


def _conflict(ledger: Ledger, slots: list[int]) -> Conflict:
    keys = ledger.network.keys
    implied: list[tuple[str, float | None, float]] = []
    relations: dict[str, None] = {}
    for slot in slots:
        without = _tried(ledger, [other for other in slots if other != slot])
        implied.append((keys[slot], without.values[slot] if without.known[slot] else None, ledger.values[slot]))
        if without.known[slot]:
            for found in Walk(without).to(slot)[0]:
                way = without.way[found]
                if way is not None:
                    relations.update(dict.fromkeys(ledger.network.instances[number].relation.name for number in way.leading))
    return Conflict(tuple(keys[slot] for slot in slots), tuple(implied), tuple(relations))
