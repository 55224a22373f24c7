"""More plant came home than was planned, or less: what is asked for is the difference.

"How much more spirit is that", "extra menstruum?": to the plan's pour. "How much more to pick", "how much short am I": what the basket lacks.
"""

from __future__ import annotations

import re

from assistant.dataclass import replace
from assistant.listening.statements import Asked, Said
from assistant.patterns import looked_for
from assistant.session.work import Work

MORE = looked_for(r"\b(?:how much|what|any)?\s*\b(?:more|extra|additional|further|on top|top up|less)\b", re.IGNORECASE)
ASKS = frozenset({"menstruum", "spirit_short", "stock", "planned_menstruum", "spare"})
LACKING = frozenset({"to_gather", "herb", "menstruum", "spirit_short"})  # what the same words ask for where nothing is planned
SHELF = frozenset({"spirit_in_hand", "stock"})
MORE_ALONE = looked_for(r"\bhow much (?:more|extra)\b(?: is (?:that|it))?\W*$|\bwhat'?s the (?:extra|difference)\W*$", re.IGNORECASE)

STILL_LACKING = looked_for(
    r"\bhow (?:much|many)\b[^.?;]*\b(?:more|short|missing|lacking|still|left)\b|\bhow (?:far )?short\b"
    r"|\bwhat(?:'s| is|s| am i|'m i)?\b[^.?;]*\b(?:left to|still to|missing|lacking|short)\b"
    r"|\b(?:still|more|left) to (?:pick|gather|get|find|cut|dig|go|harvest)\b",
    re.IGNORECASE,
)
LIQUID = looked_for(
    r"\b(?:menstruum|spirit|vodka|alcohol|brandy|water|oil|pour|liquid|stock)\b[^.;?]*\?"
    r"|\bhow (?:much|many) (?:more )?(?:mls?|spirit|vodka|menstruum)\b",
    re.IGNORECASE,
)


def still_to_pick(said: list[Said], work: Work) -> None:
    """ "Planned 500 g, picked 320, how much more to pick?": what the basket lacks of the plan. Changes the reading's asked."""
    reading, told = work.reading, {s.quantity: s.value for s in said}
    plan = told.get("planned_herb", work.facts["planned_herb"].value if "planned_herb" in work.facts else None)
    herb = told.get("herb", work.facts["herb"].value if "herb" in work.facts else None)
    if plan is None or herb is None or herb >= plan or work.members or "trim_loss" in {*told, *work.facts}:
        return
    hit = STILL_LACKING.search(reading.heard)
    if hit is None or LIQUID.search(reading.heard) or any(a.quantity not in LACKING for a in reading.asked):
        return
    reading.asked[:] = [Asked("plant_to_come", hit.start(), hit.end())]


def more_than_planned(said: list[Said], work: Work) -> None:
    """The question for more becomes one for what the plant in hand takes beyond the plan. Changes the reading's asked."""
    reading, told = work.reading, {s.quantity for s in said}
    have = told | work.facts.keys()
    short = any(a.quantity == "plant_to_come" for a in reading.asked)
    if short or "planned_herb" not in have or "herb" not in have or SHELF & have or work.members or not MORE.search(reading.heard):
        return
    asked = reading.asked
    places = [i for i, a in enumerate(asked) if a.quantity in ASKS and not a.member]
    if places:
        asked[places[0]] = replace(asked[places[0]], quantity="more_menstruum")
        for i in reversed(places[1:]):
            del asked[i]
    elif not asked and (hit := MORE_ALONE.search(reading.heard)) is not None:
        asked.append(Asked("more_menstruum", hit.start(), hit.end()))
