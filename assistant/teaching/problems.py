"""A problem for each direction of each relation: readable numbers, one answer, and a plain text that names what is given and what is sought.

Nothing here knows a relation by name: a relation that is added is practicable the day it is added.
"""

from __future__ import annotations

import random
from collections.abc import Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet

from assistant.dataclass import dataclass
from assistant.faults import BenchError
from assistant.matter import FUNCTIONS
from assistant.quantities.showing import caption, shown
from assistant.quantities.vocabulary import base
from assistant.quantities.working_year import DATES
from assistant.relations import RELATIONS, Relation
from assistant.solving.expression import Call, Equation, Name, Node, Pair, all_names, read_equation
from assistant.teaching.case import Case
from assistant.teaching.numbers import nice, plausible

MEMBERS = ("thyme", "sage")
SOBER = frozenset("oxymel watery oil vinegar glycerite salve tea syrup essential".split())  # kinds of work without spirit
TRIES = 40
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
    """Every key of an equation, two ingredients for what is indexed."""
    keys: list[str] = []
    for name in equation.names:
        keys += [f"{name.name}[{m}]" for m in MEMBERS] if name.index else [name.name]
    return tuple(dict.fromkeys(keys))


def directions(relation: Relation) -> tuple[str, ...]:
    """What can be asked of a relation: each quantity in it, one ingredient of each kind; not what stands in a count of whole ones, which has no one answer."""
    equation = read_equation(relation.equation)
    counted = {name.name for side in (equation.left, equation.right) for name in _counted(side)}
    found: dict[str, str] = {}
    for key in keys_of(equation):
        if base(key) not in counted:
            found.setdefault(base(key), key)
    return tuple(found.values())


def _counted(node: Node) -> Iterator[Name]:
    """The quantities inside a function that goes in steps: floor, ceil."""
    match node:
        case Pair(_, left, right):
            yield from _counted(left)
            yield from _counted(right)
        case Call(function, arguments):
            for argument in arguments:
                yield from all_names(argument) if FUNCTIONS[function].in_steps else _counted(argument)


def says_nothing(relation: Relation) -> bool:
    """Whether a relation only passes a figure on ("what is bottled is what was pressed"), or counts on the calendar: there is nothing to practise in it."""
    equation = read_equation(relation.equation)
    if any(name.name in DATES for name in equation.names):
        return True  # days are looked up in a calendar, not worked out
    return isinstance(equation.left, Name) and isinstance(equation.right, Name)


def setting(relation: Relation) -> frozenset[str]:
    """The tags of the work in which a relation speaks: its own, and that spirit is poured unless it is one of the sober kinds."""
    own = frozenset(tag for tag in relation.when if not tag.startswith("!"))
    if "mix_strength" in own and "!shrinks" not in relation.when:
        own |= {"shrinks"}  # spirits are never mixed without it
    return own if own & SOBER or "!spirit" in relation.when else own | {"spirit"}


def problem(relation: Relation, asked: str, draw: int, relations: Sequence[Relation] = RELATIONS) -> Problem | None:
    """A problem that asks this of the relation; None where no figures that make sense were found for it. The same draw gives the same problem.

    relations  all that hold beside it: what they settle is not given, so that no problem contradicts itself
    """
    keys = keys_of(read_equation(relation.equation))
    members = MEMBERS if any("[" in key for key in keys) else ()
    tags = setting(relation)
    beside = tuple(r for r in relations if r.applies(tags))
    dice = random.Random(f"{relation.name}/{asked}/{draw}")
    best: Problem | None = None
    for _ in range(TRIES):
        found = _tried(relation, Case({}, beside, members), keys, asked, dice)
        if found is not None and _readable(found):
            return found
        best = best or found
    return best


def _tried(relation: Relation, case: Case, keys: Sequence[str], asked: str, dice: random.Random) -> Problem | None:
    """Figures are given one by one, each only if it does not yet follow from those before it, until the asked one follows."""
    settled: Mapping[str, float] | None = {}
    for key in keys:
        if key == asked or (settled is not None and key in settled):
            continue
        case = case.giving({key: nice(key, dice)})
        settled = _settled(case)
        if settled is None or not _makes_sense(settled):
            return None
        if asked in settled:
            break
    try:
        solution = case.solved((asked,))
    except BenchError:
        return None
    figure = solution.figures.get(asked)
    if figure is None or figure.origin != "found" or solution.conflicts or solution.impossible or solution.unreached:
        return None
    if relation.name not in {step.relation for step in solution.derivation(asked)}:
        return None
    figures = {key: f.value for key, f in solution.figures.items()}
    if figure.value < 0 or not (plausible(asked, figure.value) and _makes_sense(figures)):
        return None
    given = {key: known.value for key, known in case.known.items()}
    return Problem(relation.name, tuple(given.items()), asked, figure.value, plainly(given, asked, setting(relation)), case)


def _settled(case: Case) -> Mapping[str, float] | None:
    try:
        return case.figures()
    except BenchError:
        return None


ORDERS = (
    ("strength", "stock_strength"),
    ("finished_strength", "strength"),
    ("finished_acidity", "acidity"),
    ("finished_glycerine", "glycerine"),
    ("dried", "herb"),
    ("stock", "menstruum"),
    ("plants_taken", "stand_plants"),
    ("plants_allowed", "plants_taken"),
    ("tare", "gross"),
    ("racked", "pressed"),
    ("pressed", "in_jar"),
    ("boiled_to", "boiled_from"),
    ("wilted", "herb"),
    ("dry_matter", "herb"),
    ("dose", "adult_dose"),
    ("child_dose", "adult_dose"),
)


# Two names of one difference: the one lies below nothing where the other stands.
OPPOSITES = frozenset(
    {"spare", "more_menstruum", "plant_to_come", "have_left", "have_short", "have_left_weight", "have_short_weight", "water_off", "water_more", "sugar_more"}
)


def _makes_sense(figures: Mapping[str, float]) -> bool:
    """Whether the figures could stand side by side on a bench: nothing stronger than what it was made from, nothing more than it was part of."""
    return all(figures[less] <= figures[more] for less, more in ORDERS if less in figures and more in figures) and all(
        value >= 0 for key, value in figures.items() if base(key) not in OPPOSITES
    )


def as_said(key: str, value: float) -> float:
    """A value as the text gives it: rounded to what the bench reads."""
    text = shown(key, value)
    name = base(key)
    if name in ("ratio", "dry_ratio", "ratio_by_weight", "ratio_of", "blend_ratio"):
        return float(text.partition(":")[2])
    return float(text.split(" ")[0].partition(":")[0])


def _readable(made: Problem) -> bool:
    figures = (*made.given, (made.asked, made.answer))
    for key, value in figures:
        text = f"{as_said(key, value):.10g}".replace(".", "").replace("-", "").strip("0")
        if len(text) > MOST_DIGITS or (abs(value) < 0.02 and key == made.asked):
            return False
    return True


def plainly(given: Mapping[str, float], asked: str, tags: AbstractSet[str] = frozenset()) -> str:
    """The problem as a plain list: "Given (fresh): plant weight 112 g; water content 80 %. Find: plant water." """
    kind = ", ".join(tag.replace("_", " ") for tag in sorted(tags - {"spirit"}))
    figures = "; ".join(f"{caption(key)} {shown(key, value)}" for key, value in given.items())
    return f"Given{f' ({kind})' if kind else ''}: {figures}. Find: {caption(asked)}."
