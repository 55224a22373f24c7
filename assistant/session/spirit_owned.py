"""The spirit that is there told by its strength alone: "all I've got is 96 %", "ive only 96"."""

from __future__ import annotations

import re

from assistant.listening.statements import Asked, Reading, Said
from assistant.patterns import looked_for
from assistant.session.batch import Batch
from assistant.session.work import take_as

ALL_THERE_IS = looked_for(
    r"\b(?:(?:all|what|the only thing)\W+(?:i|we)(?:['’]?ve|\W+have)?\W+(?:got|have|own)(?:\W+(?:left|here|in))?\W+(?:is|are)"
    r"|(?:i['’]?ve|ive|i have|we['’]?ve|we have|got|have|there['’]?s)\W+(?:only|just)(?:\W+got)?)\W+(?:(?:a|the|some|my)\W+)?$",
    re.IGNORECASE,
)
STRENGTH_ALONE = looked_for(r"^\s*(?:%|percent|per cent)?\s*(?:$|[.,;?!-]|spirit|vodka|alcohol|in the|here|left)", re.IGNORECASE)
MIXED = looked_for(r"\bhow much (?:of (?:that|it|this|the)|spirit)\b", re.IGNORECASE)
OWNS = frozenset("got have ve ive own only just".split())
LEAST, MOST = 30.0, 97.0  # percent
STRENGTHS = frozenset({"strength", "stock_strength", "water_content"})


def spirit_owned(reading: Reading, batch: Batch | None) -> None:
    """Take it for the strength of what is let down. Changes the reading."""
    told = {s.quantity for s in reading.said} | (batch.facts.keys() if batch is not None else set())
    if reading.ingredients or reading.liquids or not told & {"herb", "ratio", "menstruum", "finished_strength"} or "stock_strength" in {
        s.quantity for s in reading.said if not s.weak
    }:
        return
    if not OWNS.intersection(reading.heard.lower().replace("'", " ").replace("’", " ").split()):
        return  # spares the dear pattern
    for figure in reading.figures:
        strong = figure.quantity in STRENGTHS if isinstance(figure, Said) else figure.kind in ("#", "%")
        if not strong or not LEAST <= figure.value <= MOST:
            continue
        if not ALL_THERE_IS.search(reading.heard[: figure.start]) or not STRENGTH_ALONE.match(reading.heard[figure.end :]):
            continue
        take_as(reading, figure, "stock_strength")
        reading.let_go("claim", "right")
        asked = [a for a in reading.asked if a.quantity != "rest"]
        if MIXED.search(reading.heard) and not any(a.quantity == "stock" for a in asked):
            asked.insert(0, Asked("stock", 0, len(reading.heard)))
        reading.asked[:] = asked
        reading.frames -= {"maybe_mix", "maybe_formula"}
        return
