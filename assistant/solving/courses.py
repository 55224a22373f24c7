"""Plans for searching a group, compiled: what is done for one guess is then a row of plain function calls."""

from __future__ import annotations

from collections.abc import Sequence

from assistant.dataclass import dataclass
from assistant.solving.compiling import Evaluate
from assistant.solving.network import Network
from assistant.solving.structure import Group
from assistant.solving.tearing import Plan, plans


@dataclass(frozen=True, slots=True)
class Level:
    """A stage of a plan, compiled: what is guessed, what follows from it, and the sides that must come out equal."""

    guess: int
    then: tuple[tuple[Evaluate, int], ...]
    left: Evaluate
    right: Evaluate


@dataclass(frozen=True, slots=True)
class Course:
    """A plan ready to be run: levels from the outermost in, and what a Way tells of it."""

    levels: tuple[Level, ...]
    slots: tuple[int, ...]
    leading: tuple[int, ...]


def courses(network: Network, group: Group, spreads: Sequence[float]) -> list[Course]:
    """The plans for a group, ready to be run, the most promising first; spreads as in tearing.plans."""
    return [_course(network, plan) for plan in plans(network, group, spreads)]


def _course(network: Network, plan: Plan) -> Course:
    levels: list[Level] = []
    for stage in plan:
        then: list[tuple[Evaluate, int]] = []
        for number, slot in stage.then:
            evaluate = network.instances[number].towards(slot).evaluate
            assert evaluate is not None
            then.append((evaluate, slot))
        levels.append(Level(stage.guess, tuple(then), *network.instances[stage.must_hold].sides()))
    return Course(
        tuple(levels),
        tuple(slot for stage in plan for slot in (stage.guess, *(slot for _, slot in stage.then))),
        tuple(number for stage in plan for number in (stage.must_hold, *(number for number, _ in stage.then))),
    )
