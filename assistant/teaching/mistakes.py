"""An apprentice's figure looked at: is it right at the precision of the bench, and if not, which known wrong move gives it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from assistant.dataclass import dataclass, replace
from assistant.faults import BenchError
from assistant.quantities.showing import caption, number, shown
from assistant.quantities.vocabulary import VOCABULARY, base
from assistant.solving import Solution
from assistant.solving.expression import read_equation
from assistant.solving.forms import also_known
from assistant.teaching.case import Case
from assistant.teaching.turned import TURNED
from assistant.teaching.variants import variants
from assistant.teaching.wrong_moves import CATALOGUE

also_known(TURNED)  # else a first claim would wait for sympy

RELATIVE = 0.005
MOST_TOLD = 3


@dataclass(frozen=True, slots=True)
class Finding:
    """A wrong move that gives the apprentice's figure.

    says   completes "that is what comes out if …"
    value  the figure the move gives, in the bench unit of the key asked for
    kind   trade | working | other figure | slip, the more telling first
    """

    move: str
    says: str
    mend: str
    value: float
    kind: str


KINDS = ("trade", "working", "other figure", "slip")


def is_right(key: str, claim: float, right: float, slack: float = 0.0) -> bool:
    """Whether a figure is right as the bench reads: half a percent, the digits it is shown with, or the digits the person gave, if two or more.

    slack  half of the last digit as it was said, where that was another unit than the bench's

    >>> is_right("water", 14.0, 14.3), is_right("menstruum", 134.0, 201.0)
    (True, False)
    """
    unit = VOCABULARY[base(key)].unit
    return _near(key, claim, right) or _as_rounded(claim, right) or number(claim, unit) == number(right, unit) or abs(claim - right) <= slack * (1 + 1e-9)


def said_to(text: str, value: float) -> float:
    """Half of the last digit of a figure as it was said, in the unit of its value; 0 where one digit alone says too little.

    >>> said_to("7.6 fl oz", 7.6 * 29.5735), said_to("8 oz", 226.8)
    (1.478675, 0.0)
    """
    hit = re.search(r"\d+(?:\.(\d+))?", text)
    if hit is None or not float(hit.group()) or len(hit.group().replace(".", "").lstrip("0")) < 2:
        return 0.0
    last = 0.5 / float(10 ** len(hit.group(1) or ""))
    return last * value / float(hit.group())


def fits(key: str, claim: float, value: float) -> bool:
    """Whether a figure that a move gives is the one that was said."""
    return _near(key, claim, value) or _as_rounded(claim, value)


def _near(key: str, claim: float, value: float) -> bool:
    digits = number(value, VOCABULARY[base(key)].unit)
    last = 0.5 * 10 ** -(len(digits.split(".")[1]) if "." in digits else 0)
    return abs(claim - value) <= max(RELATIVE * abs(value), last if last < 0.05 * abs(value) else 0.0) + 1e-9


def _as_rounded(claim: float, value: float) -> bool:
    """Whether the value, rounded to the digits of the claim, is the claim; a claim of a single digit says too little."""
    text = f"{claim:.10f}".rstrip("0").rstrip(".")
    decimals = len(text.partition(".")[2])
    if len(text.replace(".", "").replace("-", "").lstrip("0")) < 2:
        return False
    return bool(abs(claim - value) <= 0.5 * 10**-decimals + 1e-9)


def diagnose(case: Case, key: str, claim: float) -> tuple[Finding, ...]:
    """The wrong moves that give this figure, best first; empty where none fits, or where the figure is right.

    key    what was asked for
    claim  the apprentice's figure, in the bench unit of the key
    """
    solution = case.solved((key,))
    right = solution.value(key)
    if right is None or is_right(key, claim, right):
        return ()
    fitting = [f for f in findings(case, key, solution) if fits(key, claim, f.value)]
    fitting.sort(key=lambda f: (KINDS.index(f.kind) > 1, not _as_rounded(claim, f.value), KINDS.index(f.kind), abs(f.value - claim)))
    told: dict[str, Finding] = {}
    for finding in fitting:
        told.setdefault(finding.says, finding)
    return tuple(told.values())


def findings(case: Case, key: str, solution: Solution | None = None) -> Iterator[Finding]:
    """Every wrong move that would lead to another figure than the right one."""
    solution = solution or case.solved((key,))
    right = solution.value(key)
    if right is None:
        return
    for finding in _all(case, key, solution, right):
        if finding.value > 0 and not is_right(key, finding.value, right) and not _near(key, finding.value, right):
            yield finding


def _all(case: Case, key: str, solution: Solution, right: float) -> Iterator[Finding]:
    steps = solution.derivation(key)
    used = {step.relation for step in steps}
    rests = {figure.key for figure in solution.leaves(key)}
    for move in CATALOGUE:
        if move.equations.keys() & used:
            value = _value(_narrowed(case, solution, used, move.equations).holding(move.equations), key)
        elif move.change is not None and (changed := move.change(case)) is not None and _touches(case, changed, rests):
            value = _value(changed, key)
        else:
            continue
        if value is not None:
            yield Finding(move.name, move.says, move.mend, value, "trade")
    relations = {r.name: r for r in case.relations}
    narrow = _narrowed(case, solution, used, {})
    for step in steps:
        if step.together or step.relation not in relations:
            continue
        for variant in variants(relations[step.relation], step.key):
            value = _value(narrow.holding({step.relation: variant.equation}), key)
            if value is not None:
                yield Finding(f"{step.relation}, {variant.name}", _about_step(variant.says, step.key, key), step.says, value, "working")
    unit = VOCABULARY[base(key)].unit
    for other, figure in solution.figures.items():
        if other != key and VOCABULARY[base(other)].unit == unit and unit != "1":
            yield Finding(f"{base(other)} for {base(key)}", f"the {caption(other)} is given instead of the {caption(key)}", "", figure.value, "other figure")
    yield from _slips(key, right)


def _narrowed(case: Case, solution: Solution, used: set[str], equations: Mapping[str, str]) -> Case:
    """The case with only the relations the answer goes by, and those that lead to what the wrong equations mention beside it."""
    needed = set(used)
    for name in (n for text in equations.values() for n in read_equation(text).names):
        for key in (k for k in solution.figures if base(k) == name.name):
            needed |= {step.relation for step in solution.derivation(key)}
    return replace(case, relations=tuple(r for r in case.relations if r.name in needed))


def _about_step(says: str, step: str, key: str) -> str:
    return says if step == key else f"{says}, in the {caption(step)}"


def _touches(case: Case, changed: Case, rests: set[str]) -> bool:
    return any(changed.known.get(k) is None or changed.known[k].value != fact.value for k, fact in case.known.items() if k in rests) or bool(
        changed.known.keys() - case.known.keys()
    )


def _value(case: Case, key: str) -> float | None:
    """What comes out for a key that is not given, None where nothing does or where the wrong move contradicts itself."""
    if key in case.known:
        return None
    try:
        figures = case.figures()
    except BenchError:
        return None
    return None if figures is None else figures.get(key)


def _slips(key: str, right: float) -> Iterator[Finding]:
    for factor, says in (
        (10.0, "the point is one place too far right"),
        (0.1, "the point is one place too far left"),
        (100.0, "the point is two places too far right"),
        (0.01, "the point is two places too far left"),
        (1000.0, "the point is three places too far right"),
        (0.001, "the point is three places too far left"),
        (2.0, "it is doubled once too often"),
        (0.5, "it is halved once too often"),
    ):
        yield Finding(says, says, "", right * factor, "slip")
    text = shown(key, right).split(" ")[0].partition(":")
    digits = text[2] or text[0]
    for n in range(len(digits) - 1):
        if digits[n].isdigit() and digits[n + 1].isdigit() and digits[n] != digits[n + 1]:
            swapped = digits[:n] + digits[n + 1] + digits[n] + digits[n + 2 :]
            yield Finding("digits swapped", "two digits are swapped in writing it down", "", float(swapped), "slip")


def first_wrong_step(case: Case, key: str, figures: tuple[float, ...], results: tuple[float, ...]) -> tuple[str, float | None] | None:
    """The first step of the working that none of the apprentice's figures meets, and the result she may have given in its place; None where all are met.

    figures  every figure of her steps; one that is only used shows that she had it
    results  those a step of hers came to
    """
    steps = case.solved((key,)).derivation(key)
    meets = {figure for figure in figures for step in steps if is_right(step.key, figure, step.value)}
    for step in steps:
        if not any(is_right(step.key, figure, step.value) for figure in figures):
            return step.key, next((r for r in results if r not in meets), None)
    return None


def as_text(found: tuple[Finding, ...]) -> str:
    """What the figure comes from, in a sentence or two; asks for the first step where nothing fits."""
    if not found:
        return "No wrong move I know gives that. What was your first step, and what did it come to?"
    best = [f for f in found if f.kind == found[0].kind][:MOST_TOLD]
    text = f"That is what comes out if {best[0].says}."
    if len(best) > 1:
        text += f" The same number comes out if {' or if '.join(f.says for f in best[1:])}."
    return f"{text} {best[0].mend}".strip()
