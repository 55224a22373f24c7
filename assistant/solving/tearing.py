"""How a group is reduced to a search for one of its unknowns: guess that one, find the others one by one, and see whether the equation
left over holds ("tearing"; two guesses, one inside the other, where one is not enough).
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

from assistant.dataclass import dataclass
from assistant.solving.network import Network
from assistant.solving.structure import Group

FEW = 8  # unknowns up to which every guess is weighed; of more, the first that works, most mentioned first


@dataclass(frozen=True, slots=True)
class Stage:
    """One guess: the slot guessed, what then follows as (equation, slot), and the equation that must hold in the end."""

    guess: int
    then: tuple[tuple[int, int], ...]
    must_hold: int


Plan = tuple[Stage, ...]  # the guesses, outermost first


def plans(network: Network, group: Group, spreads: Sequence[float]) -> list[Plan]:
    """Ways to search a group, the most promising first; empty where two guesses are not enough.

    spreads   how wide the bracket of each slot of the group is: of the guesses that work, the narrowest is tried first
    """
    mentions = {slot: sum(slot in network.instances[number].slots for number in group.equations) for slot in group.slots}
    spread = dict(zip(group.slots, spreads, strict=True))
    by_weight = sorted(group.slots, key=lambda slot: (-mentions[slot], spread[slot], slot))
    single: list[Plan] = []
    for guess in by_weight:
        stage = _stage(network, group, guess, _Course((), group.equations, frozenset()))
        if stage is not None:
            single.append((stage,))
            if len(group.slots) > FEW:
                return single
    if single:
        return sorted(single, key=lambda plan: (spread[plan[0].guess], plan[0].guess))
    for outer, inner in combinations(by_weight[:FEW], 2):
        before = _followed(network, group, outer, _Course((), group.equations, frozenset()))
        if inner in before.known:
            continue
        stage = _stage(network, group, inner, before, spare=1)
        if stage is not None:
            left = [number for number in before.left if number != stage.must_hold and number not in {n for n, _ in stage.then}]
            return [(Stage(outer, before.then, left[0]), stage)]
    return []


@dataclass(frozen=True, slots=True)
class _Course:
    """What followed so far as (equation, slot), the equations not used yet, and the slots known."""

    then: tuple[tuple[int, int], ...]
    left: tuple[int, ...]
    known: frozenset[int]


def _stage(network: Network, group: Group, guess: int, before: _Course, spare: int = 0) -> Stage | None:
    """The stage of one guess, if after it everything is known but for `spare` + 1 equations that were not needed."""
    course = _followed(network, group, guess, before)
    if len(course.known) < len(group.slots):
        return None
    assert len(course.left) == spare + 1
    return Stage(guess, course.then, course.left[0])


def _followed(network: Network, group: Group, guess: int, before: _Course) -> _Course:
    """What follows by closed forms from one more guess."""
    known = {*before.known, guess}
    inside = set(group.slots)
    missing = {number: {slot for slot in network.instances[number].slots if slot in inside} - known for number in before.left}
    then: list[tuple[int, int]] = []
    left = list(before.left)
    ready = True
    while ready:
        ready = False
        for number in left:
            if len(missing[number]) != 1:
                continue
            (slot,) = missing[number]
            if network.instances[number].towards(slot).evaluate is None:
                continue
            then.append((number, slot))
            known.add(slot)
            left.remove(number)
            for slots in missing.values():
                slots.discard(slot)
            ready = True
            break
    return _Course(tuple(then), tuple(left), frozenset(known))
