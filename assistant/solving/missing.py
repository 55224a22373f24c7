"""What would settle a question: the smallest sets of further facts from which the wanted quantities follow.

Nothing is known of the values that might be told, so a stand-in from the middle of each bracket is used and only *whether* something
follows is read off. A group that hangs together counts as found, unless its equations merely repeat each other.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import combinations

from assistant.matter.function import Function
from assistant.relations.relation import Relation
from assistant.solving.attempt import attempt_all
from assistant.solving.blocks import Search, open_groups
from assistant.solving.ledger import Brackets, Ledger, Way
from assistant.solving.network import network_of
from assistant.solving.solution import Known

MOST_SETS = 8
# How many of the preferred facts are looked at for one, two and three at once; more than three questions at once are none. Never more than for
# fewer at once: a fact that is enough alone would else be asked for together with one that is not needed.
LOOKED_AT = (60, 60, 12)


def missing(
    wanted: Iterable[str],
    known: Mapping[str, Known],
    relations: Sequence[Relation],
    members: Sequence[str],
    functions: Mapping[str, Function],
    brackets: Brackets,
    askable: Sequence[str],
) -> list[tuple[str, ...]]:
    """The smallest sets of askable keys that would settle all that is wanted, best first; [()] when it is settled already.

    askable   keys that can be asked for, the preferred first: what is read off a scale or a label before what must be worked out
    Empty where no three of them would do, or where a wanted key stands in no relation.
    """
    network = network_of(relations, members, functions)
    targets = list(wanted)
    ledger, _ = attempt_all(network, brackets, known)
    if any(key not in network.slot_of and key not in known for key in targets) or ledger.clashes:
        return []
    slots = [network.slot_of[key] for key in targets if key in network.slot_of and not ledger.known[network.slot_of[key]]]
    if not slots:
        return [()]
    near = _connected(ledger, slots)
    candidates = [slot for key in dict.fromkeys(askable) if (slot := network.slot_of.get(key)) is not None and slot in near and slot not in slots]
    for size, most in enumerate(LOOKED_AT, start=1):
        sets = [pick for pick in _by_preference(candidates[:most], size) if _settles(ledger, pick, slots, by_groups=size == 1)]
        if not sets and size > 1:
            sets = [pick for pick in _by_preference(candidates[: LOOKED_AT[-1]], size) if _settles(ledger, pick, slots, by_groups=True)]
        if sets:
            return [tuple(network.keys[slot] for slot in pick) for pick in sets[:MOST_SETS]]
    return []


def _by_preference(candidates: Sequence[int], size: int) -> list[tuple[int, ...]]:
    """All picks of one size, those made of earlier candidates first."""
    ranked = combinations(range(len(candidates)), size)
    return [tuple(candidates[rank] for rank in ranks) for ranks in sorted(ranked, key=lambda ranks: (sum(ranks), ranks))]


def _connected(ledger: Ledger, slots: Sequence[int]) -> set[int]:
    """The unknown slots that hang together with these through open equations."""
    near = set(slots)
    queue = list(slots)
    for slot in queue:
        for number in ledger.network.touching[slot]:
            for other in ledger.unknown_in(number):
                if other not in near:
                    near.add(other)
                    queue.append(other)
    return near


def _settles(ledger: Ledger, pick: Sequence[int], wanted: Sequence[int], *, by_groups: bool) -> bool:
    """Whether all that is wanted would follow if these were known."""
    known = _followed_one_by_one(ledger, pick)
    if all(slot in known for slot in wanted):
        return True
    return by_groups and _follows_in_groups(ledger, pick, wanted)


def _followed_one_by_one(ledger: Ledger, pick: Sequence[int]) -> set[int]:
    """What would come to be known by single equations."""
    known = set(pick)
    queue = list(pick)
    instances = ledger.network.instances
    left: dict[int, int] = {}
    for slot in queue:
        for number in ledger.network.touching[slot]:
            left[number] = left.get(number, ledger.open[number]) - 1
            if left[number] != 1 or number in ledger.idle:
                continue
            then = next((s for s in instances[number].slots if not ledger.known[s] and s not in known), None)
            if then is not None and not instances[number].stands_in_steps(then):
                known.add(then)
                queue.append(then)
    return known


def _follows_in_groups(ledger: Ledger, pick: Sequence[int], wanted: Sequence[int]) -> bool:
    """The same with groups that hang together, on stand-in values."""
    trial = ledger.copy()
    trial.stuck.clear()
    for slot in pick:
        trial.give(slot, _stand_in(trial, slot), 0.0)
    while True:
        trial.settle()
        if all(trial.known[slot] for slot in wanted):
            return True
        if not (_stand_in_for_stuck(trial) or _stand_in_for_group(trial) or trial.take_least()):
            return False


def _stand_in_for_stuck(trial: Ledger) -> bool:
    """A single unknown for which the stand-ins give no value: real values would."""
    for (slot,), number in trial.stuck.items():
        if not trial.known[slot]:
            trial.found(Way((slot,), (number,)), (_stand_in(trial, slot),))
            return True
    return False


def _stand_in_for_group(trial: Ledger) -> bool:
    for group in open_groups(trial):
        search = Search(trial, group)
        if search.repeats():
            return True
        if search.courses:
            course = search.courses[0]
            trial.found(Way(course.slots, course.leading), tuple(_stand_in(trial, slot) for slot in course.slots))
            return True
    return False


def _stand_in(ledger: Ledger, slot: int) -> float:
    """A value well inside the bracket, different for each slot so that nothing cancels by chance."""
    low, high = ledger.brackets(ledger.network.keys[slot])
    odd = 0.5 + 0.3 * ((slot * 0.618034) % 1)
    bottom, top = max(low, -100.0), min(high, max(low, 0.0) + 100.0)
    return bottom + (top - bottom) * odd
