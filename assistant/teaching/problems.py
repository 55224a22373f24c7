"""A problem for each direction of each relation: readable numbers, one answer, and a plain text that names what is given and what is sought.

Nothing here knows a relation by name: a relation that is added is practicable the day it is added.
"""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from assistant.faults import BenchError
from assistant.quantities.showing import caption, shown
from assistant.quantities.vocabulary import VOCABULARY, base, bracket
from assistant.relations import Relation
from assistant.solving import Known
from assistant.solving.expression import Equation, Number, Pair, read_equation
from assistant.teaching.case import Case
from assistant.teaching.numbers import nice

MEMBERS = ("thyme", "sage", "fennel")
TRIES = 80
MOST_DIGITS = 4  # of a figure that is given; more cannot be read off a scale or a jug


@dataclass(frozen=True, slots=True)
class Problem:
    """One problem and its key.

    relation  name of the relation it practises
    given     key → figure, as the text says it
    asked     the key that is sought
    answer    its value, from the figures of the text
    """

    relation: str
    given: tuple[tuple[str, float], ...]
    asked: str
    answer: float
    text: str
    case: Case


def keys_of(equation: Equation) -> tuple[str, ...]:
    """Every key of an equation, three ingredients for what is indexed."""
    keys: list[str] = []
    for name in equation.names:
        keys += [f"{name.name}[{m}]" for m in MEMBERS if m == MEMBERS[0] or name in equation.in_sums] if name.index else [name.name]
    return tuple(dict.fromkeys(keys))


def directions(relation: Relation) -> tuple[str, ...]:
    """What can be asked of a relation: each quantity in it, one ingredient of each kind."""
    found: dict[str, str] = {}
    for key in keys_of(read_equation(relation.equation)):
        found.setdefault(base(key), key)
    return tuple(found.values())


def says_nothing(relation: Relation) -> bool:
    """Whether a relation only passes a figure on ("what is bottled is what was pressed"): there is nothing to practise in it."""
    equation = read_equation(relation.equation)
    return len(keys_of(equation)) < 2 or not any(isinstance(side, Pair) or not hasattr(side, "name") for side in (equation.left, equation.right))


def problem(relation: Relation, asked: str, seed: int) -> Problem | None:
    """A problem that asks this of the relation; None where no readable figures were found for it. The same seed gives the same problem."""
    equation = read_equation(relation.equation)
    keys = keys_of(equation)
    members = MEMBERS if any("[" in key for key in keys) else ()
    if equation.is_indexed and not equation.in_sums:
        members = MEMBERS[:1]
    dice = random.Random(f"{relation.name}/{asked}/{seed}")
    best: Problem | None = None
    for _ in range(TRIES):
        for follows in _order(keys, asked):
            found = _tried(relation, keys, members, asked, follows, dice)
            if found is not None and _readable(found):
                return found
            best = best or found
    return best


def _order(keys: Sequence[str], asked: str) -> Iterator[str]:
    """Which figure follows from the others while a problem is made: the first of the equation before the asked one itself."""
    yield keys[0]
    if asked != keys[0]:
        yield asked


def _tried(relation: Relation, keys: Sequence[str], members: tuple[str, ...], asked: str, follows: str, dice: random.Random) -> Problem | None:
    picked = {key: nice(key, dice) for key in keys if key != follows}
    case = Case({}, (relation,), members)
    made = _found(case.giving(picked), follows)
    if made is None:
        return None
    picked[follows] = as_said(follows, made)
    given = {key: picked[key] for key in keys if key != asked}
    case = Case({key: Known(value) for key, value in given.items()}, (relation,), members)
    answer = _found(case, asked)
    if answer is None or not _makes_sense(given | {asked: answer}):
        return None
    return Problem(relation.name, tuple(given.items()), asked, answer, plainly(given, asked), case)


def _found(case: Case, key: str) -> float | None:
    """The one value that follows, None where there is none, or it cannot be."""
    try:
        solution = case.solved((key,))
    except BenchError:
        return None
    figure = solution.figures.get(key)
    if figure is None or figure.origin != "found" or solution.conflicts or solution.impossible or solution.unreached:
        return None
    low, high = bracket(key)
    return figure.value if low <= figure.value <= high and abs(figure.value) > 1e-6 else None


ORDERS = (("strength", "stock_strength"), ("finished_strength", "strength"), ("finished_acidity", "acidity"), ("finished_glycerine", "glycerine"), ("dried", "herb"),
          ("stock", "menstruum"), ("plants_taken", "stand_plants"), ("tare", "gross"), ("racked", "pressed"), ("pressed", "in_jar"), ("boiled_to", "boiled_from"),
          ("wilted", "herb"), ("dry_matter", "herb"), ("dose", "adult_dose"), ("child_dose", "adult_dose"))  # fmt: skip


def _makes_sense(figures: dict[str, float]) -> bool:
    """Whether the figures could stand side by side on a bench: nothing stronger than what it was made from, nothing more than it was part of."""
    return all(figures[less] <= figures[more] for less, more in ORDERS if less in figures and more in figures) and all(value >= 0 for value in figures.values())


def as_said(key: str, value: float) -> float:
    """A value as the text gives it: rounded to what the bench reads."""
    text = shown(key, value)
    name = base(key)
    if name in ("ratio", "dry_ratio", "ratio_by_weight", "ratio_of"):
        return float(text.partition(":")[2])
    return float(text.split(" ")[0].partition(":")[0])


def _readable(made: Problem) -> bool:
    figures = (*made.given, (made.asked, made.answer))
    for key, value in figures:
        text = f"{as_said(key, value):.10g}".replace(".", "").replace("-", "").strip("0")
        if len(text) > MOST_DIGITS or (abs(value) < 0.02 and key == made.asked):
            return False
    return True


def plainly(given: dict[str, float], asked: str) -> str:
    """The problem as a plain list: "Given: plant weight 112 g; ratio 1:2. Find: menstruum." """
    return f"Given: {'; '.join(f'{caption(key)} {shown(key, value)}' for key, value in given.items())}. Find: {caption(asked)}."


def unit_of(key: str) -> str:
    """The bench unit of a key."""
    return VOCABULARY[base(key)].unit


__all__ = ["Number", "Problem", "as_said", "directions", "keys_of", "plainly", "problem", "says_nothing", "unit_of"]
