"""A figure spoken of that was told before, beside another: "the wife says 45 is too thin. And at 50 %?", "if the 25 was 70 %?"."""

from __future__ import annotations

import re

from assistant.listening.statements import Reading, Reference, Said
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import about, base
from assistant.session.batch import Batch

THE_OTHER = looked_for(
    r"\b(?:if|say|suppose|make)\s+(?:the|that)\s+(?P<old>\d+(?:\.\d+)?)\b\s*(?:%|percent|mls?|g|one)?\s+"
    r"(?:was|were|is|had been|became|be|read|came in at|into|a|really|only|actually)\s+(?:really |only |actually |a )*(?P<new>\d+(?:\.\d+)?)\b",
    re.IGNORECASE,
)


def told_already(reading: Reading, batch: Batch | None) -> None:
    """Let the old figure only point, and the new one take its place. Changes the reading."""
    if batch is None or not batch.facts:
        return
    _another_for_it(reading, batch)
    figures = reading.figures
    claimed = [f for f in figures if any(a.name == "claim" and a.start <= f.start < a.end + 2 for a in reading.acts)]
    known = [f for f in claimed if any(f.value == fact.value for fact in batch.facts.values())]
    if known and len(figures) > len(known) and not reading.has("check"):
        for figure in known:
            reading.only_points(figure)
        reading.let_go("claim")


def _another_for_it(reading: Reading, batch: Batch) -> None:
    hit = THE_OTHER.search(reading.heard)
    if hit is None:
        return
    old, new = float(hit["old"]), float(hit["new"])
    keys = [key for key, fact in batch.facts.items() if fact.value == old]
    if len(keys) != 1 or old == new or any(not hit.start() <= f.start < hit.end() for f in reading.figures):
        return
    reading.said[:] = [Said(base(keys[0]), new, *hit.span("new"), about(keys[0]))]
    reading.loose.clear()
    reading.ingredients.clear()
    reading.liquids.clear()
    reading.let_go("claim", "right", "swap", "correct")
    reading.references.append(Reference("reference", *hit.span("old"), old))
