"""solve(): from what was said, measured and assumed to everything that follows."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import cache, partial
from math import hypot

from assistant.matter.function import Function
from assistant.relations.relation import Relation
from assistant.solving.attempt import attempt_all
from assistant.solving.conflicts import conflicts
from assistant.solving.derivation import Walk, inputs_of
from assistant.solving.ledger import Brackets, Ledger
from assistant.solving.network import network_of
from assistant.solving.sensitivity import Sensitivities
from assistant.solving.solution import Conflict, Figure, Impossible, Known, Solution, Step, Unreached
from assistant.solving.steps import neighbours
from assistant.solving.working import Show, plain, working


def solve(
    known: Mapping[str, Known],
    relations: Sequence[Relation],
    members: Sequence[str],
    functions: Mapping[str, Function],
    brackets: Brackets,
    wanted: Iterable[str] = (),
    show: Show = plain,
) -> Solution:
    """Everything that follows from what is known.

    known      by key; said and measured values first, then each assumed one, in the order given, if its key is still unknown
    relations  those that apply to the batch, in order of preference
    members    the ingredients, for what is indexed
    functions  the table that the relations refer to
    brackets   key → lowest and highest value it can have
    wanted     keys whose lack is to be told (Solution.unsettled)
    show       how a value is told in a working: key, value → "112 g"
    """
    network = network_of(relations, members, functions)
    ledger, dropped = attempt_all(network, brackets, known)
    return _solution(ledger, known, conflicts(ledger) if ledger.clashes else (), dropped, tuple(wanted), show)


def figures_of(
    known: Mapping[str, Known], relations: Sequence[Relation], members: Sequence[str], functions: Mapping[str, Function], brackets: Brackets
) -> dict[str, float] | None:
    """The figures alone, without steps and without explaining a clash: None where what is known contradicts itself. For many tries in a row."""
    network = network_of(relations, members, functions)
    ledger, _ = attempt_all(network, brackets, known)
    if ledger.clashes:
        return None
    return {key: ledger.values[slot] for slot, key in enumerate(network.keys) if ledger.known[slot]}


def _solution(
    ledger: Ledger, known: Mapping[str, Known], clashing: tuple[Conflict, ...], dropped: tuple[str, ...], wanted: tuple[str, ...], show: Show
) -> Solution:
    network = ledger.network
    keys = network.keys
    sensitivities = Sensitivities(ledger)
    spreads = _spreads(ledger, known, sensitivities)
    between = neighbours(ledger, spreads) if spreads else {}
    figures: dict[str, Figure] = {}
    for key, value in known.items():
        slot = network.slot_of.get(key)
        if slot is None or (ledger.known[slot] and ledger.way[slot] is None):
            figures[key] = Figure(key, value.value, value.origin, None, value.plus_minus)
    for slot in ledger.order:
        if ledger.way[slot] is not None:
            low, high = between.get(slot, (None, None))
            figures[keys[slot]] = Figure(keys[slot], ledger.values[slot], "found", _step(ledger, slot, show), spreads.get(slot), low, high)

    @cache  # the steps of an answer and the figures it rests on are both read off it
    def derive(answers: tuple[str, ...]) -> tuple[tuple[str, ...], tuple[str, ...]]:
        walk = Walk(ledger)
        found: list[str] = []
        given: dict[str, None] = {}
        for key in answers:
            slot = network.slot_of.get(key)
            ways, leaves = ([], [key]) if slot is None else ([keys[s] for s in row] for row in walk.to(slot))
            found += ways
            given.update(dict.fromkeys(leaves))
        return tuple(found), tuple(given)

    def moved(key: str) -> Mapping[str, float]:
        slot = network.slot_of.get(key)
        return {} if slot is None else {keys[source]: change for source, change in sensitivities.of(slot).items() if change}

    return Solution(
        figures=figures,
        conflicts=clashing,
        dropped=dropped,
        impossible=_impossible(ledger),
        unreached=tuple(
            Unreached(
                tuple(keys[slot] for slot in slots),
                network.instances[number].relation.name,
                tuple({keys[slot]: value for slot, value in one.items()} for one in ledger.several.get(slots, ())),
            )
            for slots, number in ledger.stuck.items()
            if not any(ledger.known[slot] for slot in slots)
        ),
        unsettled=tuple(key for key in wanted if key not in figures),
        _derive=derive,
        _moved=moved,
    )


def _step(ledger: Ledger, slot: int, show: Show) -> Step:
    way = ledger.way[slot]
    assert way is not None
    keys = ledger.network.keys
    instance = ledger.network.instances[way.leading[way.slots.index(slot)]]
    return Step(
        relation=instance.relation.name,
        says=instance.relation.says,
        source=instance.relation.source,
        key=keys[slot],
        inputs=tuple([keys[s] for s in instance.slots if s != slot]),
        value=ledger.values[slot],
        together=tuple([keys[s] for s in way.slots]) if len(way.slots) > 1 else (),
        _written=partial(working, ledger, way, slot, show),
    )


def _spreads(ledger: Ledger, known: Mapping[str, Known], sensitivities: Sensitivities) -> dict[int, float]:
    """± of each found value from the ± of what was given: first order, each source counted once, independent of each other (JCGM 100:2008, 5.1.2)."""
    said = {
        ledger.network.slot_of[key]: value.plus_minus
        for key, value in known.items()
        if value.plus_minus and key in ledger.network.slot_of and ledger.way[ledger.network.slot_of[key]] is None
    }
    if not said:
        return {}
    spreads: dict[int, float] = {}
    for slot in ledger.order:
        moved = sensitivities.of(slot)
        spread = hypot(*(change * said[source] for source, change in moved.items() if source in said))
        if spread:
            spreads[slot] = spread
    return spreads


def _impossible(ledger: Ledger) -> tuple[Impossible, ...]:
    """Found values outside their brackets; what only follows from another such is left out."""
    network = ledger.network
    tainted: set[int] = set()
    causes: list[Impossible] = []
    for slot in ledger.order:
        way = ledger.way[slot]
        if way is None:
            continue
        if tainted and any(source in tainted for source in inputs_of(ledger, slot)):
            tainted.add(slot)
            continue
        key, value = network.keys[slot], ledger.values[slot]
        low, high = ledger.brackets(key)
        margin = 1e-9 * max(abs(low), abs(high), abs(value))
        if not low - min(margin, 1e-9) <= value <= high + margin:
            tainted.add(slot)
            causes.append(Impossible(key, value, low, high, network.instances[way.leading[way.slots.index(slot)]].relation.name))
    return tuple(causes)
