"""More plant came home than was planned: "how much more spirit is that", "extra menstruum?" asks for the difference to the plan's pour."""

from __future__ import annotations

import re

from assistant.dataclass import replace
from assistant.listening.statements import Asked, Said
from assistant.patterns import looked_for
from assistant.session.work import Work

MORE = looked_for(r"\b(?:how much|what|any)?\s*\b(?:more|extra|additional|further|on top|top up|less)\b", re.IGNORECASE)
ASKS = frozenset({"menstruum", "spirit_short", "stock", "planned_menstruum", "spare"})
SHELF = frozenset({"spirit_in_hand", "stock"})
MORE_ALONE = looked_for(r"\bhow much (?:more|extra)\b(?: is (?:that|it))?\W*$|\bwhat'?s the (?:extra|difference)\W*$", re.IGNORECASE)


def more_than_planned(said: list[Said], work: Work) -> None:
    """The question for more becomes one for what the plant in hand takes beyond the plan. Changes the reading's asked."""
    reading, told = work.reading, {s.quantity for s in said}
    have = told | work.facts.keys()
    if "planned_herb" not in have or "herb" not in have or SHELF & have or work.members or not MORE.search(reading.heard):
        return
    asked = reading.asked
    places = [i for i, a in enumerate(asked) if a.quantity in ASKS and not a.member]
    if places:
        asked[places[0]] = replace(asked[places[0]], quantity="more_menstruum")
        for i in reversed(places[1:]):
            del asked[i]
    elif not asked and (hit := MORE_ALONE.search(reading.heard)) is not None:
        asked.append(Asked("more_menstruum", hit.start(), hit.end()))
