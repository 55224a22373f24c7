"""The working of a figure, step by step, in the words of a teacher: the rule, the equation, the numbers put in, the result, and whether it makes sense.

The numbers of a lesson carry more digits than the bench reads, so that whoever works the lines through again comes to the same answer.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from assistant.dataclass import dataclass
from assistant.quantities.showing import SIGNS, caption, number, shown
from assistant.quantities.vocabulary import VOCABULARY, base
from assistant.solving import Solution, Step
from assistant.teaching.case import Case
from assistant.teaching.recomputing import agrees

DIGITS = 6  # significant figures carried through a lesson
RATIOS = frozenset("ratio dry_ratio ratio_by_weight ratio_of blend_ratio drying_ratio".split())
_VALUE = re.compile(r" \(\d[\d.e+-]*\)")  # the value behind a function: "density at 60 % (0.9091)"


@dataclass(frozen=True, slots=True)
class Line:
    """One step of a lesson.

    rule      the relation in a sentence
    equation  in words, turned towards what is wanted: "menstruum = plant weight × ratio"
    numbers   the same with figures and units: "112 g × 2 = 224 mL"
    sense     why the result can be right: "224 mL is twice 112 g"
    """

    key: str
    relation: str
    rule: str
    equation: str
    numbers: str
    sense: str
    value: float


def precisely(key: str, value: float) -> str:
    """A figure with its unit and the digits a lesson carries: "141.474 mL"."""
    name = base(key)
    unit = VOCABULARY[name].unit if name in VOCABULARY else "1"
    text = f"{value:.{DIGITS}g}"
    text = f"{value:.0f}" if "e+" in text else f"{value:.10f}".rstrip("0") if "e-" in text else text
    if name in RATIOS:
        return text
    return text + SIGNS.get(unit, f" {unit}")


def worked(case: Case, key: str) -> tuple[Line, ...]:
    """The lesson for one figure: only what it needs, in the order a person would do it. Empty where it was given or is not known."""
    numbers, words, bare = (case.solved((key,), show) for show in (precisely, _captioned, _bare))
    lines = []
    for step, worded, plainly in zip(numbers.derivation(key), words.derivation(key), bare.derivation(key), strict=True):
        working = step.working if agrees(step.working) else _with_its_unit(plainly, step)
        if _only_passes_on(working) and step.key != key:
            continue  # "201 mL = 201 mL" teaches nothing on the way
        lines.append(Line(step.key, step.relation, step.says, equation(worded), working, sense(numbers, step), step.value))
    return tuple(lines)


def _only_passes_on(working: str) -> bool:
    left, _, right = working.rpartition(" = ")
    return left == right


def _captioned(key: str, _: float) -> str:
    return caption(key)


def _bare(key: str, value: float) -> str:
    """A percent as the plain number it is, where the hundreds do not cancel: "2 × 60 = 120"."""
    return precisely(key, value).removesuffix(" %")


def _with_its_unit(bare: Step, step: Step) -> str:
    percent = precisely(step.key, step.value).endswith(" %") and ", found so that " not in bare.working
    return f"{bare.working} (in percent)" if percent else bare.working


def equation(step: Step) -> str:
    """The equation of a step in words, what is wanted on the left; of a step whose values stand as captions."""
    told = _VALUE.sub("", step.working)
    if ", found so that " in told:
        wanted, _, sides = told.partition(", found so that ")
        return f"{sides} (tried until both sides agree: {wanted})"
    right, _, left = told.rpartition(" = ")
    return f"{left} = {right}"


# ── does it make sense ───────────────────────────────────────────────────────────────────────────────────────────────────

TIMES = ((2.0, "twice"), (3.0, "three times"), (4.0, "four times"), (5.0, "five times"), (6.0, "six times"), (8.0, "eight times"), (10.0, "ten times"),
         (1.5, "one and a half times"), (2.5, "two and a half times"), (0.5, "half of"), (1 / 3, "a third of"), (0.25, "a quarter of"), (0.2, "a fifth of"),
         (0.75, "three quarters of"), (0.8, "four fifths of"), (0.1, "a tenth of"), (2 / 3, "two thirds of"))  # fmt: skip
SAME = 0.004


def sense(solution: Solution, step: Step) -> str:
    """One sentence by which a person sees that the result can be right."""
    figures = {key: solution.figures[key].value for key in (*step.inputs, step.key) if key in solution.figures}
    return (
        _strength_between(figures, step)
        or _shrinks(figures, step)
        or _times(figures, step)
        or _part_of_the_whole(figures, step)
        or _in_size(figures, step)
    )


def _strength_between(figures: dict[str, float], step: Step) -> str:
    poured, finished = figures.get("strength"), figures.get("finished_strength")
    if step.key == "finished_strength" and poured is not None and finished is not None:
        return f"{shown(step.key, finished)} lies below the {shown('strength', poured)} poured, as it must: water was added and no alcohol."
    parts = [v for k, v in figures.items() if base(k) == "strength_of"]
    if step.key == "blend_strength" and len(parts) > 1:
        return f"{shown(step.key, step.value)} lies between {shown(step.key, min(parts))} and {shown(step.key, max(parts))}, as a mixture must."
    stock = figures.get("stock_strength")
    if step.key == "stock" and stock and "menstruum" in figures and "strength" in figures:
        share = number(100 * figures["strength"] / stock, "percent")
        wanted = shown("strength", figures["strength"])
        return f"{wanted} is {share} % of {shown('stock_strength', stock)}, and the spirit is that share of the whole."
    return ""


def _shrinks(figures: dict[str, float], step: Step) -> str:
    if step.key == "water" and {"stock", "menstruum"} <= figures.keys():
        apart = figures["stock"] + step.value
        more = apart - figures["menstruum"]
        if more > 0:
            return f"Apart they measure {shown('stock', apart)}, {shown('stock', more)} more than is made: that is what the mixture shrinks by."
    if step.key == "in_jar" and {"menstruum", "plant_water"} <= figures.keys():
        return f"A little less than {shown('in_jar', figures['menstruum'] + figures['plant_water'])}, the two simply added, because they shrink."
    return ""


def _times(figures: dict[str, float], step: Step) -> str:
    unit = VOCABULARY[base(step.key)].unit
    if step.value <= 0 or unit == "1":
        return ""
    for key, value in figures.items():
        other = VOCABULARY[base(key)].unit
        if key == step.key or value <= 0 or (other != unit and {other, unit} != {"g", "mL"}):
            continue
        for times, words in TIMES:
            if abs(step.value / value - times) <= SAME * times:
                return f"{shown(step.key, step.value)} is {words} {shown(key, value)}."
    return ""


def _part_of_the_whole(figures: dict[str, float], step: Step) -> str:
    unit = VOCABULARY[base(step.key)].unit
    for key, value in figures.items():
        if key != step.key and VOCABULARY[base(key)].unit == unit and 0 < step.value < value and unit in ("g", "mL"):
            share = number(100 * step.value / value, "percent")
            return f"{shown(step.key, step.value)} is {share} % of {shown(key, value)}: less than the whole, as it must be."
        if key != step.key and VOCABULARY[base(key)].unit == unit and 0 < value < step.value and unit in ("g", "mL"):
            return f"{shown(step.key, step.value)} is {number(step.value / value, '1')} times {shown(key, value)}."
    return ""


def _in_size(figures: dict[str, float], step: Step) -> str:
    q = VOCABULARY[base(step.key)]
    if q.unit == "percent" and q.high <= 100:
        return f"{shown(step.key, step.value)} lies between 0 and 100 %, as a share must."
    return f"Put back into the rule, {shown(step.key, step.value)} gives the other figures again." if len(figures) > 2 else ""


# ── as text ──────────────────────────────────────────────────────────────────────────────────────────────────────────────


def as_text(lines: Sequence[Line], *, slow: bool = True) -> list[str]:
    """A lesson as printed: every part of every step, or just the numbers."""
    if not slow:
        return [line.numbers for line in lines]
    told: list[str] = []
    for place, line in enumerate(lines, 1):
        told += [f"{place}. {line.rule}", f"   {line.equation}", f"   {line.numbers}"]
        if line.sense:
            told.append(f"   Does it make sense? {line.sense}")
    return told


def why_this_number(lines: Sequence[Line], case: Case, value: float) -> Line | None:
    """The step in which a number is used: "why times two", "why divide by 95". The last step that uses it is the one a person sees."""
    solution = case.solved()
    for line in reversed(lines):
        step = solution.figures[line.key].step if line.key in solution.figures else None
        if step is None:
            continue
        inputs = [solution.figures[k].value for k in step.inputs if k in solution.figures]
        if any(abs(v - value) <= 0.005 * max(abs(value), 1e-9) for v in inputs):
            return line
    return None
