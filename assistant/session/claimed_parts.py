"""Spirit and water claimed together: "260 ml spirit and 190 water is what i make it, right?" Two figures of the pour, and no recipe."""

from __future__ import annotations

import re

from assistant.listening.statements import Reading, Said
from assistant.patterns import looked_for
from assistant.session.batch import Batch

PARTS = {"spirit": "stock", "vodka": "stock", "alcohol": "stock", "brandy": "stock", "rum": "stock", "everclear": "stock", "stock": "stock", "water": "water"}
MAKES = looked_for(
    r"\b(?:i (?:make|get|got|have|worked|come|came)|is that|that'?s|is it|right|correct|so|would be|will be|my (?:answer|sum|figures?))\b", re.IGNORECASE
)
POUR = frozenset({"herb", "ratio", "menstruum", "strength"})


VOLUMES = frozenset({"menstruum", "stock", "water", "pressed"})
NAMED = looked_for(r"^\s*(?:of )?(?:the |my )?(" + "|".join(PARTS) + r")\b", re.IGNORECASE)


def claimed_parts(reading: Reading, batch: Batch | None) -> None:
    """Let what is claimed of the spirit and the water of the pour in hand be those two. Changes the reading."""
    if batch is None or batch.members or not (reading.has("check") or reading.has("claim")) or not MAKES.search(reading.heard):
        return
    if "strength" not in batch.facts or not batch.facts.keys() & POUR or "stock_strength" not in batch.facts:
        return
    lines = [*reading.ingredients, *reading.liquids]
    if lines and any(len(i.figures) != 1 or i.figures[0][0] not in ("volume", "part") for i in lines):
        return
    told = [(PARTS.get(i.name.split()[-1], ""), *i.figures[0][1:]) for i in lines]
    for figure in [*reading.figures, *reading.claims]:
        named = NAMED.match(reading.heard[figure.end :])
        volume = figure.quantity in VOLUMES if isinstance(figure, Said) else figure.kind in ("mL", "#")
        told.append((PARTS[named[1].lower()] if named is not None and volume else "", figure.value, figure.start, figure.end))
    if sorted(part for part, *_ in told) != ["stock", "water"]:
        return
    reading.claims[:] = [Said(part, value, start, end, said_unit="ml") for part, value, start, end in told]
    for held in (reading.said, reading.loose, reading.ingredients, reading.liquids, reading.asked):
        held.clear()
    reading.frames.discard("listed")
    reading.let_go("correct", "small_talk")
