"""Whether the spirit on the shelf does for what is to be poured: "needs 1.2 litres of 60 %, the shelf holds 700 mL of 95, is that enough"."""

from __future__ import annotations

import re

from assistant.listening.statements import Reading, Said
from assistant.patterns import looked_for

ENOUGH = looked_for(r"\b(?:enough|(?:will|does|would|can) (?:it|that|i|they) (?:do|reach|stretch|cover|make)|have i got|do i have|short)\b", re.IGNORECASE)
NEEDED = looked_for(r"\b(?:needs?|needed|wants?|wanted|takes?|calls? for|make|making|must have|require[sd]?|asks? for|for)\W+(?:\w+\W+){0,2}$", re.IGNORECASE)
THERE = looked_for(r"\b(?:holds?|have|has|got|there['’]?s|there is|left|only|shelf|cupboard|in hand|just)\W+(?:\w+\W+){0,2}$", re.IGNORECASE)


def enough_there(reading: Reading) -> None:
    """Take the two for the pour that is wanted and the spirit there is to make it from, not for a mixture. Changes the reading."""
    if len(reading.liquids) != 2 or not ENOUGH.search(reading.heard) or reading.ingredients:
        return
    told = [(line, {q: (v, a, b) for q, v, a, b in line.figures}) for line in reading.liquids]
    if any(set(figures) != {"volume", "strength_of"} for _, figures in told):
        return
    wanted = [(line, f) for line, f in told if NEEDED.search(reading.heard[: line.start])]
    there = [(line, f) for line, f in told if THERE.search(reading.heard[: line.start])]
    if len(wanted) != 1 or len(there) != 1 or wanted[0][0] is there[0][0] or wanted[0][1]["strength_of"][0] >= there[0][1]["strength_of"][0]:
        return
    reading.liquids.clear()
    reading.frames.discard("mix")
    _say(reading, wanted[0][1], "menstruum", "strength")
    _say(reading, there[0][1], "spirit_in_hand", "stock_strength")
    reading.asked[:] = [a for a in reading.asked if a.quantity in ("stock", "water")]


def _say(reading: Reading, figures: dict[str, tuple[float, int, int]], volume: str, strength: str) -> None:
    reading.said += [Said(volume, *figures["volume"], said_unit="mL"), Said(strength, *figures["strength_of"])]


