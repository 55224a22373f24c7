"""A tincture that came out too weak, brought up with a stronger spirit: "came out at 41, wanted 45, 820 ml, add how much 95".

Whatever order it is said in, the weakest is what there is, the strongest what is added, and the one between them what is wanted.
"""

from __future__ import annotations

import re

from assistant.listening.statements import Asked, Ingredient, Reading, Said
from assistant.patterns import looked_for
from assistant.session.watered import all_mixed

ADDS = looked_for(
    r"\b(?:add(?:ed|ing)?|bring|lift|raise|fortify|strengthen|boost|top|push|chuck|up)\b"
    r"|\bget (?:it|this|that|them)\b",
    re.IGNORECASE,
)
MIXES = looked_for(r"\b(?:mix|mixing|of each|blend|both|make|makes)\b(?! (?:only|reads))", re.IGNORECASE)  # so much is to come of both
SO_MUCH = looked_for(r"\bhow (?:much|many)\b|\bwhat(?:'s| is)? (?:needed|wanted)\b", re.IGNORECASE)
VOLUMES = frozenset({"menstruum", "blend", "pressed", "stock", "in_jar", "spirit_in_hand", "racked"})
STRENGTHS = frozenset({"strength", "stock_strength", "finished_strength", "blend_strength"})
SO_MANY_TOLD = 4  # a volume and three strengths
LEAST, MOST = 10.0, 97.0  # percent
Placed = tuple[float, int, int]  # a figure with where it stands


def brought_up(reading: Reading) -> None:
    """Make of it what is there and what is added, with the volume of that looked for. Changes the reading."""
    if len(reading.numbers) < SO_MANY_TOLD:
        return
    asks = ADDS.search(reading.heard) and SO_MUCH.search(reading.heard) and not MIXES.search(reading.heard)
    if not asks or reading.ingredients:
        return
    volumes, strengths = _figures(reading)
    if len(volumes) != 1 or len(strengths) != 3:
        return
    weak, wanted, strong = sorted(strengths)
    if not LEAST <= weak[0] < wanted[0] < strong[0] <= MOST:
        return
    (volume,) = volumes
    there, added = f"{weak[0]:g} %", f"{strong[0]:g} %"
    one = Ingredient(there, (("volume", *volume), ("strength_of", *weak)), weak[1], weak[2])
    other = Ingredient(added, (("strength_of", *strong),), strong[1], strong[2])
    all_mixed(reading, (one, other))
    reading.said.append(Said("blend_strength", *wanted))
    reading.asked[:] = [Asked("volume", 0, len(reading.heard), added)]
    reading.let_go("top_up", "top_up_to", "claim", "aside", "right", "correct", "whatif")


def _figures(reading: Reading) -> tuple[list[Placed], list[Placed]]:
    """All that is told: volumes and strengths; a figure of another kind counts as a strength of nothing, so that nothing is taken."""
    volumes: list[Placed] = []
    strengths: list[Placed] = []
    for figure in reading.figures:
        at = (figure.value, figure.start, figure.end)
        if isinstance(figure, Said):
            (volumes if figure.quantity in VOLUMES else strengths).append(at if figure.quantity in VOLUMES | STRENGTHS else (0.0, 0, 0))
        else:
            (volumes if figure.kind == "mL" else strengths).append(at if figure.kind in ("mL", "%", "#") else (0.0, 0, 0))
    for line in reading.liquids:
        for quantity, value, start, end in line.figures:
            (volumes if quantity == "volume" else strengths).append((value, start, end))
    act = reading.act("top_up") or reading.act("top_up_to")
    if act is not None:
        strengths += [(value, act.start, act.end) for value in act.figures]
    return volumes, list(dict.fromkeys(strengths))


