"""A course behind a dose, in bottles: "she's to take it 6 weeks, how many 60s do I give her", "it's for 8 weeks, how many 50s is that"."""

from __future__ import annotations

import re

from assistant.listening.statements import Asked, Reading, Said
from assistant.patterns import looked_for
from assistant.session.batch import Batch

BOTTLES = looked_for(
    r"\bhow many\b\W*(?:of (?:the|those|them|these)\W*)?(?:\d+ ?(?:ml)?['’]?s\b|(?:\d+ ?(?:mls?|oz)? )?(?:bottles?|phials?|vials?|flasks?)\b"
    r"|hundreds\b|fifties\b|thirties\b|sixties\b)"
    r"|\bhow many (?:of (?:those|them|these|that size)|do i (?:give|send|dispense))\b|\bbottles\s*\?",
    re.IGNORECASE,
)
DAYS = looked_for(r"\b(?:days?|weeks?|wks?|months?|fortnights?|mos?)\b", re.IGNORECASE)
DOSES = frozenset({"dose", "dose_drops", "dropperfuls", "daily", "spoonfuls"})
MEANT = frozenset({"stock", "bottles", "bottles_needed", "menstruum", "supply", "strength", "pressed", "spirit_short", "stock_bottles"})
ENDS = frozenset({"herb", "pressed", "blend", "menstruum"})  # there is so much of it: what it fills is asked


def course_in_bottles(reading: Reading, batch: Batch | None) -> None:
    """The bottles of a course are what "how many" asks for, and no spirit to make it from. Changes the reading."""
    if batch is None or batch.members or reading.ingredients or reading.liquids or not DOSES & batch.facts.keys() or ENDS & batch.facts.keys():
        return
    if not BOTTLES.search(reading.heard) or {a.quantity for a in reading.asked} - MEANT:
        return
    told = {s.quantity for s in reading.said}
    if "course" not in told:
        aside = next((a for a in reading.acts if a.name == "aside" and len(a.figures) == 1 and DAYS.search(reading.heard[a.start : a.end])), None)
        if aside is not None:
            reading.acts.remove(aside)
            reading.said.append(Said("course", aside.figures[0], aside.start, aside.end))
            reading.references[:] = [r for r in reading.references if not (aside.start <= r.start and r.end <= aside.end)]
        elif "course" not in batch.facts:
            return
    reading.asked[:] = [Asked("bottles_needed", 0, len(reading.heard))]
    reading.frames.add("dose")
