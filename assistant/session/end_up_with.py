"""What is to come out of the press, told as an end: "need to end up with 600 ml of thyme tincture, dried, 1:4"."""

from __future__ import annotations

import re

from assistant.listening.statements import Asked, Reading
from assistant.patterns import looked_for
from assistant.session.batch import Batch
from assistant.session.work import take_as

ENDS_WITH = looked_for(
    r"\b(?:(?:end|finish|wind|come|land)(?:ing)? (?:up |out |away )?with|be left with|left with|bottle up|aim\w* for)\W+"
    r"(?:(?:about|around|some|a|an|roughly|just)\W+)*$",
    re.IGNORECASE,
)
WHEN_PRESSED = looked_for(
    r"^\W*(?:of )?(?:it |that |tincture )?(?:when|once|after)(?: (?:it|that)(?:['’]?s| is)?)? "
    r"(?:it['’]?s )?(?:press\w*|strain\w*|squeez\w*|done|finished)",
    re.IGNORECASE,
)
GET_OUT = looked_for(r"\bto (?:get|have|press) (?:that|so|this|it)(?: much)? (?:out|pressed|back)\b|\bget (?:that|so) much out\b", re.IGNORECASE)
NOT_OF_A_JAR = frozenset({"dilution", "maybe_dilution", "mix", "formula", "syrup", "tea", "salve", "oil", "decoction", "vinegar", "percolation", "written"})
STATES = frozenset({"fresh", "dried"})


def end_up_with(reading: Reading, batch: Batch | None) -> None:
    """Take such a volume for what is pressed out, where there is a plant and a ratio to make it from. Changes the reading."""
    facts = batch.facts.keys() if batch is not None else set()
    told = {s.quantity for s in reading.said} | facts
    frames = reading.frames | (batch.frames if batch is not None else frozenset())
    if "ratio" not in told or "herb" in told or frames & NOT_OF_A_JAR or reading.ingredients or reading.liquids:
        return
    if not (reading.named or reading.tags & STATES or (batch is not None and batch.tags & STATES)):
        return
    for figure in [s for s in reading.said if s.quantity in ("menstruum", "bottle_size", "in_jar")]:
        if GET_OUT.search(reading.heard) or ENDS_WITH.search(reading.heard[: figure.start]) or WHEN_PRESSED.match(reading.heard[figure.end :]):
            take_as(reading, figure, "pressed")
            reading.asked[:] = [a for a in reading.asked if a.quantity != "pressed"] or [Asked("herb", 0, len(reading.heard))]
            return
