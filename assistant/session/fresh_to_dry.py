"""How a plant dries told as so many to one: "plantain leaf 6 to 1, 500 g dry. pick?", and the dry weight beside it.

A ratio with the greater number first is no plant to menstruum: nobody pours less than the plant weighs where a dry weight is wanted.
"""

from __future__ import annotations

import re

from assistant.dataclass import replace
from assistant.listening.statements import Asked, Reading, Said
from assistant.patterns import looked_for
from assistant.session.batch import Batch
from assistant.session.drying_turns import DRY_BEHIND, PICKING
from assistant.session.work import take_as

HOW_MUCH_DRY = looked_for(
    r"\b(?:how much|how many \w+|what|whats|what's)\b[^.;?]{0,24}\b(?:dry|dried|dries|drying)\b"
    r"|\b(?:dry|dried) (?:weight|leaf|herb|root|flowers?|stuff)\W*$",
    re.IGNORECASE,
)
DRY = looked_for(r"\b(?:dry|dried|dries|drying)\b", re.IGNORECASE)
WANTED_DRY = looked_for(r"\b(?:for|want|need|to (?:get|have|make)|after)\W+(?:about |around )?$", re.IGNORECASE)
IN_HAND = frozenset({"herb", "picked", "gross"})
NEARLY_DRY = 20.0  # percent: no fresh plant holds so little water
MOST_TO_ONE = 12.0  # so many of the juiciest make one dried
OF_A_POUR = frozenset({"menstruum", "strength", "stock_strength", "finished_strength", "pressed", "bottle_size", "dose"})
DRYING = frozenset({"to_gather", "picked", "dried", "herb", "drying_ratio"})
WEIGHTS = frozenset({"herb", "dried", "to_gather", "batch"})


def dries_to(reading: Reading, batch: Batch | None) -> None:
    """ "5 kg nettles, a third is stalk, 83 % water, how much dry leaf": what it dries to, and no weight that goes in. Changes the reading.

    Water of less than a fifth is the dried plant's.
    """
    known = {s.quantity for s in reading.said} | (batch.facts.keys() if batch is not None else set())
    if known & {"ratio", "menstruum", "pressed", "dry_ratio"} or not known & IN_HAND or "dried" in known or reading.ingredients:
        return
    fresh = "fresh" in reading.tags or (batch is not None and "fresh" in batch.tags) or known & {"gross", "picked"}
    for s in [s for s in reading.said if s.quantity == "water_content" and s.value < NEARLY_DRY and fresh]:
        take_as(reading, s, "dried_water")
    asked = {a.quantity for a in reading.asked}
    question = HOW_MUCH_DRY.search(reading.heard)
    if asked and asked <= {"herb", "to_gather"} and question is not None and not PICKING.search(reading.heard, question.start()):
        reading.asked[:] = [Asked("dried", 0, len(reading.heard))]
        reading.in_state("fresh")


def fresh_to_dry(reading: Reading, batch: Batch | None) -> None:
    """Take such a ratio for the drying ratio and the weight said to be dry for the dried one. Changes the reading."""
    running = batch is not None and "drying_ratio" in batch.facts and not batch.facts.keys() & OF_A_POUR
    ratio = next((s for s in reading.said if s.quantity == "ratio" and 1 / MOST_TO_ONE <= s.value < 1), None)
    told = next((s for s in reading.said if s.quantity == "drying_ratio"), ratio)
    if told is None or reading.ingredients or {s.quantity for s in reading.said} & OF_A_POUR or {a.quantity for a in reading.asked} - DRYING:
        return
    picks = PICKING.search(reading.heard) is not None
    if not running and not DRY.search(reading.heard) and not picks:
        return
    if ratio is not None:
        reading.said[reading.said.index(ratio)] = replace(ratio, quantity="drying_ratio", value=1 / ratio.value, weak=False)
    for figure in reading.figures:
        weight = figure.quantity in WEIGHTS if isinstance(figure, Said) else figure.kind in ("#", "g", "oz")
        behind, before = reading.heard[figure.end :], reading.heard[: figure.start]
        if weight and (DRY_BEHIND.match(behind) or (WANTED_DRY.search(before) and DRY.search(behind))):
            take_as(reading, figure, "dried")
            break
    if picks and any(s.quantity == "dried" for s in reading.said) and not any(a.quantity == "to_gather" for a in reading.asked):
        reading.asked[:] = [Asked("to_gather", 0, len(reading.heard))]
    reading.in_state("fresh")
