"""A batch worked out: its facts, its assumptions and the relations of its kind, handed to the solver."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache

from assistant.cautions.plants import Plant, plants
from assistant.dataclass import dataclass, replace
from assistant.matter import FUNCTIONS
from assistant.quantities.vocabulary import base, bracket
from assistant.relations import RELATIONS, Relation
from assistant.reply import Origin
from assistant.session.assuming import Assumed, assumptions
from assistant.session.batch import Batch
from assistant.session.far_off import MET_WITH, far_off
from assistant.session.frames import relation_tags
from assistant.session.instruments import at_hand
from assistant.session.own import with_own
from assistant.session.wording import in_working
from assistant.solving import Known, Solution, solve

# Of a batch whose members are plans, the figures were found, each by its own plan.
ORIGINS: Mapping[str, Origin] = {"measured": "measured", "found": "found"}
PARTS = ("root", "rhizome", "bark", "bulb", "leaf", "flower", "berry", "seed", "herb", "fruit", "resin")


@dataclass(frozen=True, slots=True)
class Worked:
    """A batch with its solution. `taken` are the assumptions in force, by key."""

    batch: Batch
    solution: Solution
    taken: Mapping[str, Assumed]
    relations: tuple[Relation, ...]
    tags: frozenset[str]
    known: Mapping[str, Known]

    def value(self, key: str) -> float | None:
        return self.solution.value(key)


@lru_cache(maxsize=512)
def relations_for(tags: frozenset[str]) -> tuple[Relation, ...]:
    """The relations that apply where these tags hold."""
    return tuple(r for r in RELATIONS if all((t[1:] not in tags) if t.startswith("!") else t in tags for t in r.when))


def plant_of(batch: Batch) -> Plant | None:
    """The plant of a batch as the list knows it; None where several share the name or none is named."""
    if not batch.plants:
        return None
    found = plants().called(batch.plants[0])
    return None if found is None else found.plant


def part_of(batch: Batch) -> str:
    return next((p for p in PARTS if p in batch.tags), "")


def water_range(batch: Batch) -> tuple[str, float, float] | None:
    plant = plant_of(batch)
    if plant is None or not plant.is_known:
        return None
    span = plant.water_range(part_of(batch))
    return None if span is None else (batch.plants[0], span.low, span.high)


def _in_doubt(solution: Solution, known: Mapping[str, Known], relations: Sequence[Relation], batch: Batch) -> Solution:
    """The same, with what was said in conflict where it would make of an assumption what no such thing is."""
    held = {key: replace(one, origin="said") if one.origin == "assumed" and base(key) in MET_WITH else one for key, one in known.items()}
    doubted = solve(held, relations, batch.members, FUNCTIONS, bracket, batch.wanted, in_working)
    told = batch.facts
    said = [replace(c, said=tuple(k for k in c.said if k in told), implied=tuple(i for i in c.implied if i[0] in told)) for c in doubted.conflicts]
    clashes = tuple(c for c in said if len(c.said) >= 2)
    return replace(doubted, conflicts=clashes) if clashes else solution


def work_out(batch: Batch, wanted: tuple[str, ...] | None = None, extra: Mapping[str, float] | None = None) -> Worked:
    """Solve a batch. `extra` are values tried out for a what-else, on top of what was said."""
    if wanted is not None:
        batch = batch.having(wanted=wanted)
    tags = relation_tags(batch)
    relations = relations_for(tags)
    plant = plant_of(batch)
    at_risk = plant is not None and plant.flag("at-risk") is not None
    taken = with_own(assumptions(batch, water_range(batch), at_risk, part_of(batch)), batch, part_of(batch))
    known: dict[str, Known] = {}
    instruments = at_hand()
    for key, fact in batch.facts.items():
        plus_minus = fact.plus_minus
        if plus_minus is None and instruments:
            plus_minus = instruments.error_of(key, fact.value, fact.tool)
        slack = max(fact.digits, fact.plus_minus or 0.0)  # what was said to be unsure contradicts nothing within that
        known[key] = Known(fact.value, ORIGINS.get(fact.origin, "said"), slack, plus_minus)
    for key, value in (extra or {}).items():
        known[key] = Known(value, "said")
    for assumed in taken:
        known.setdefault(assumed.key, Known(assumed.value, "assumed", 0.0, assumed.plus_minus))
    solution = solve(known, relations, batch.members, FUNCTIONS, bracket, batch.wanted, in_working)
    odd = far_off((a.key, f.value) for a in taken if (f := solution.figures.get(a.key)) is not None and f.origin == "found")
    if odd and not solution.conflicts:
        solution = _in_doubt(solution, known, relations, batch)
    in_force = {a.key: a for a in taken if a.key in solution.figures and solution.figures[a.key].origin == "assumed"}
    return Worked(batch, solution, in_force, relations, tags, known)
