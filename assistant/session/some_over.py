"""Some over for what is spilt, on the volume of a course: "5 mL tds for 3 weeks", then "plus 10 %", "and 5 % more"."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.listening.statements import Asked, Loose, Reading, Said
from assistant.patterns import looked_for

if TYPE_CHECKING:
    from assistant.session.batch import Batch

OVER = looked_for(
    r"(?:\b(?:plus|add|with|allow|and|extra|make)\b[\w ]{0,12}?|^\W*)(?P<n>\d+(?:[.,]\d+)?)\s*(?:%|percent|per cent)"
    r"(?P<behind>\s*(?:more|extra|over|spare|on top|for (?:spills?|spillage|waste|luck|losses|loss|safety)|to spare))?",
    re.IGNORECASE,
)
PLUS = looked_for(r"\b(?:plus|add|allow|extra)\b", re.IGNORECASE)
NOT_THERE = frozenset({"herb", "pressed", "blend"})
MOST = 50.0  # percent: more is no mere spare
SCALES = frozenset({"scale_up", "scale"})


def some_over(reading: Reading, batch: Batch | None) -> None:
    """Read the percent said on top of a course as what is made over it. Changes the reading."""
    facts = set(batch.facts) if batch is not None else set()
    told = {s.quantity for s in reading.said}
    if "course" not in told | facts or not (told | facts) & {"dose", "daily", "dose_drops"} or reading.ingredients or reading.liquids:
        return
    if batch is not None and (batch.members or facts & NOT_THERE):
        return
    hit = OVER.search(reading.heard)
    if hit is None or not (hit["behind"] or PLUS.search(hit.group())) or not 0 < float(hit["n"].replace(",", ".")) <= MOST:
        return
    figures: list[Said | Loose] = [*reading.said, *reading.loose]
    inside = [f for f in figures if f.start < hit.end() and hit.start("n") < f.end]
    if any(not isinstance(f, Loose) and f.quantity not in ("strength", "stock_strength", "margin", "finished_strength") for f in inside):
        return
    reading.said[:] = [s for s in reading.said if s not in inside]
    reading.loose[:] = [f for f in reading.loose if f not in inside]
    reading.let_go(*SCALES)
    reading.references[:] = [r for r in reading.references if r.end <= hit.start("n") or hit.end() <= r.start]
    reading.said.append(Said("margin", float(hit["n"].replace(",", ".")), hit.start("n"), hit.end()))
    if not any(a.quantity == "bottles_needed" for a in reading.asked):
        reading.asked[:] = [Asked("supply_over", 0, len(reading.heard))]
    reading.frames.add("dose")
