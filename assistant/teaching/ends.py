"""Where the jar really ends after a wrong move, for a batch whose finish was the aim: "it ends at 36.5 %, is that right?"

The finish that was said is no result, so no relation can be turned round to it. What is worked out instead is the pour of each wrong
move, and then honestly what that pour ends at.
"""

from __future__ import annotations

from collections.abc import Iterator

from assistant.faults import BenchError
from assistant.matter.ethanol import mix
from assistant.teaching.case import Case
from assistant.teaching.mistakes import KINDS, Finding, findings, fits, is_right

FINISH = "finished_strength"
POURED = ("strength", "menstruum")  # what a wrong move changes on the way to the jar
TOLD = KINDS[:2]


def diagnose_end(case: Case, claim: float) -> tuple[Finding, ...]:
    """The wrong moves whose jar ends at the claim [percent], best first; empty where the finish was not given or none fits."""
    if FINISH not in case.known or is_right(FINISH, claim, case.known[FINISH].value):
        return ()
    fitting = sorted((f for f in ends(case) if fits(FINISH, claim, f.value)), key=lambda f: (KINDS.index(f.kind), abs(f.value - claim)))
    told: dict[str, Finding] = {}
    for finding in fitting:
        told.setdefault(finding.says, finding)
    return tuple(told.values())


def ends(case: Case) -> Iterator[Finding]:
    """Every wrong move with the finish its jar really has [percent]."""
    right = case.solved(("strength", "menstruum", "stock", "water"))
    strength = right.value("strength")
    if strength is None:
        return
    poured = case.without(FINISH).giving({"strength": strength})
    for key in POURED:
        for move in findings(case, key, right):
            if move.kind in TOLD and move.value > 0 and (key != "strength" or move.value <= 100):
                yield from _ending(poured.without("ratio") if key == "menstruum" else poured, {key: move.value}, move)
    for move in findings(poured, FINISH):
        if move.kind in TOLD:
            yield move
    stock, water, label = right.value("stock"), right.value("water"), case.known.get("stock_strength")
    if stock is not None and water is not None and label is not None:
        weak = mix((stock, water), (label.value / 2, 0.0))
        says = Finding("stock strength read as proof", "the spirit was of that proof, half of it percent", "US proof is twice the percent.", 0.0, "trade")
        yield from _ending(poured.without("ratio"), {"strength": weak.strength, "menstruum": weak.volume}, says)


def _ending(poured: Case, changed: dict[str, float], move: Finding) -> Iterator[Finding]:
    try:
        figures = poured.giving(changed).figures()
    except BenchError:
        return
    end = None if figures is None else figures.get(FINISH)
    if end is not None:
        yield Finding(move.move, move.says, move.mend, end, move.kind)
