"""Practice: which problems there are, how hard they are, how they are put, what helps, and what was missed."""

from __future__ import annotations

import random
from collections.abc import Callable, Sequence
from functools import lru_cache

from assistant import relations as rooms
from assistant.dataclass import dataclass, field, replace
from assistant.faults import BenchError
from assistant.places import grammar_file
from assistant.quantities.showing import shown
from assistant.relations import RELATIONS, Relation
from assistant.teaching.case import Case
from assistant.teaching.numbers import nice, plausible
from assistant.teaching.problems import MEMBERS, Problem, directions, keys_of, problem, says_nothing, setting
from assistant.teaching.working import worked

LEVELS = ("easy", "middling", "hard")
# What people call the rooms of relations; any other room goes by its own name.
CALLED = {
    "dilution": "diluting dilute spirit proof strength strengths water alcohol",
    "maceration": "tincture tinctures ratio ratios menstruum jar",
    "gathering": "picking harvest margin",
    "dosing": "dose doses drops",
    "vessels": "bottle bottles jars bottling",
    "blending": "blend blends formula formulas mixing mix",
    "recipes": "salve salves tea teas recipe parts",
    "sweet_and_sour": "syrup syrups vinegar honey glycerite brix sugar",
    "costing": "cost costs price prices money",
    "pressing": "press marc yield",
    "drying": "dry dried fresh",
}
HEAVY = frozenset({"child_weight"})
# What a reply calls a figure when its rule alone was asked for.
ALSO_CALLED = {"clark_dose": "child_dose", "young_dose": "child_dose", "fried_dose": "child_dose"}
Hears = Callable[[str, str], float | None]  # a text spoken to the program, a key → the figure it answers with


def room_of(relation: Relation) -> str:
    """The room a relation stands in: "dilution", "gathering"."""
    return next((name for name, room in _rooms().items() if relation in room), "")


@lru_cache(maxsize=1)
def _rooms() -> dict[str, tuple[Relation, ...]]:
    found = ((name, getattr(room, "RELATIONS", None)) for name, room in vars(rooms).items() if not name.startswith("_"))
    return {name: tuple(r for r in own if isinstance(r, Relation)) for name, own in found if isinstance(own, tuple)}


def topic(words: Sequence[str]) -> str:
    """The room a person means by one of these words, "" where none is named."""
    for word in words:
        for name in _rooms():
            if {word, word.removesuffix("s")} & {name, *name.split("_"), *CALLED.get(name, "").split()}:
                return name
    return ""


def level_of(relation: Relation, asked: str) -> str:
    """How hard it is to ask this of a relation: forward and short, turned round, or with many figures or a table."""
    keys = keys_of_relation(relation)
    if ("(" in relation.equation.replace("(1 ", "") and any(f"{name}(" in relation.equation for name in ("density", "strength", "percent"))) or len(
        keys
    ) > 4:
        return "hard"
    return "easy" if relation.equation.startswith(f"{asked.partition('[')[0]}") and len(keys) <= 4 else "middling"


def keys_of_relation(relation: Relation) -> tuple[str, ...]:
    from assistant.solving.expression import read_equation

    return keys_of(read_equation(relation.equation))


def set_problems(count: int, draw: int, hears: Hears, room: str = "", level: str = "", like: tuple[str, str] = ("", "")) -> tuple[Problem, ...]:
    """So many problems, each heard back rightly before it is set; fewer only where there are no more of the kind.

    draw   the number of the sheet: the same number gives the same problems
    hears  speaks a text to the program and gives the figure it answers with
    room   a room of relations, or all; level  one of LEVELS, or all; like  (relation, asked) to practise just that
    """
    kinds = [(r, key) for r in RELATIONS if not says_nothing(r) for key in directions(r)]
    if like[0]:
        kinds = [(r, key) for r, key in kinds if r.name == like[0] and key.partition("[")[0] == like[1]] or [
            (r, key) for r, key in kinds if r.name == like[0]
        ]
    else:
        kinds = [(r, key) for r, key in kinds if (not room or room_of(r) == room) and (not level or level_of(r, key) == level)]
    dice = random.Random(f"sheet {draw}/{room}/{level}/{like}")
    dice.shuffle(kinds)
    kinds.sort(key=lambda kind: (kind[0].name, kind[1]) not in _texts())  # those in words come first
    made: list[Problem] = []
    texts: set[str] = set()
    for turn in range(min(count * 12, len(kinds) * 6)):
        if len(made) >= count:
            break
        relation, asked = kinds[turn % len(kinds)]
        found = set_one(relation, asked, draw * 1000 + turn, hears)
        if found is not None and found.text not in texts:
            texts.add(found.text)
            made.append(found)
    dice.shuffle(made)
    return tuple(made)


def set_one(relation: Relation, asked: str, draw: int, hears: Hears) -> Problem | None:
    """One problem of a relation, in words where the file has some and they are heard rightly, else as a plain list; None where neither is."""
    for made in (in_words(relation, asked, draw), problem(relation, asked, draw)):
        if made is None:
            continue
        heard = hears(made.text, made.asked)
        if heard is not None and abs(heard - made.answer) <= 1e-6 * max(abs(made.answer), 1e-6):
            return made
    return None


@lru_cache(maxsize=1)
def _texts() -> dict[tuple[str, str], str]:
    texts = {}
    for number, line in enumerate(grammar_file("problems.txt").read_text(encoding="utf-8").splitlines(), 1):
        if line.startswith("#") or not line.strip():
            continue
        parts = [part.strip() for part in line.split("|")]
        if len(parts) != 3:
            raise BenchError(
                what="a problem has three parts: relation | asked | text",
                where=f"grammar/problems.txt, line {number}",
                try_this="write two | in the line",
            )
        texts[parts[0], parts[1]] = parts[2]
    return texts


def in_words(relation: Relation, asked: str, draw: int) -> Problem | None:
    """The problem put in words, None where the file has none for it or no figures fit."""
    text = _texts().get((relation.name, asked))
    if text is None:
        return None
    keys = [piece.partition("}")[0] for piece in text.split("{")[1:]]
    tags = setting(relation) | ({"dose"} if asked == "days" else set()) | ({"from_bottle"} if "bottle_size" in keys and asked == "days" else set())
    relations = tuple(r for r in RELATIONS if r.applies(tags))
    dice = random.Random(f"{relation.name}/{asked}/{draw}/words")
    for _ in range(40):
        given = {key: nice(key, dice) for key in keys}
        case = Case({}, relations, MEMBERS if any("[" in k for k in keys) else ()).giving(given)
        try:
            solution = case.solved((asked,))
        except BenchError:
            continue
        figure = solution.figures.get(asked)
        if figure is None or figure.origin != "found" or solution.conflicts or solution.impossible or not plausible(asked, figure.value):
            continue
        told = text
        for key, value in given.items():
            told = told.replace("{" + key + "}", _said(key, value))
        return Problem(relation.name, tuple(given.items()), asked, figure.value, told, case)
    return None


def _said(key: str, value: float) -> str:
    """A figure as it is said in a problem: a child is weighed in kilos."""
    return f"{value / 1000:g} kg" if key in HEAVY and value >= 1000 else shown(key, value)


def hint(made: Problem, grade: int) -> str:
    """Help in three grades: the rule; the equation turned towards what is sought; the numbers put in, the result left out."""
    lines = worked(made.case, made.asked)
    if not lines:
        return "All that is needed stands in the question."
    if grade <= 1:
        return " ".join(line.rule for line in lines)
    if grade == 2:
        return "\n".join(line.equation for line in lines)
    return "\n".join([*(line.numbers for line in lines[:-1]), _without_result(lines[-1].numbers)])


def _without_result(numbers: str) -> str:
    if ", found so that " in numbers:
        return "Try figures until " + numbers.partition(", found so that ")[2].replace(shown_part(numbers), "?") + "."
    return numbers.rpartition(" = ")[0] + " = ?"


def shown_part(numbers: str) -> str:
    """The figure a searched line begins with."""
    return numbers.partition(", found so that ")[0]


@dataclass(frozen=True, slots=True)
class Missed:
    """One answer that was wrong: what was practised, what was said, and the move that gives it."""

    relation: str
    asked: str
    claim: float
    right: float
    move: str


@dataclass(frozen=True, slots=True)
class Lesson:
    """Where the practice of this conversation stands.

    problems  those set last, `at` the one that is asked now; `hints` how many were given for it
    draw      number of the sheet
    turn      the turn in which the lesson last spoke
    """

    problems: tuple[Problem, ...] = ()
    at: int = -1
    hints: int = 0
    draw: int = 0
    turn: int = -9
    right: int = 0
    missed: tuple[Missed, ...] = ()
    steps_of: tuple[Case, str] | None = field(default=None)
    steps_asked: bool = True  # whether they were asked for, or may just be told

    @property
    def problem(self) -> Problem | None:
        """The one that is asked now."""
        return self.problems[self.at] if 0 <= self.at < len(self.problems) else None

    def turned(self, **changes: object) -> Lesson:
        """The lesson a moment later."""
        return replace(self, **changes)  # type: ignore[arg-type]
