"""A spirit said by its kind only, to be let down: "pour it at 35, all I have is vodka, how much vodka how much water" hangs on how strong the vodka is."""

from __future__ import annotations

import re

from assistant.listening.statements import Asked, Reading
from assistant.patterns import looked_for
from assistant.session.batch import Batch

KIND = r"(?:vodka|brandy|gin|rum|whisk(?:e)?y|grain (?:spirits?|alcohol)|spirits?|moonshine|schnapps|everclear|cane alcohol)"
BY_KIND = looked_for(rf"\b{KIND}\b", re.IGNORECASE)
HOW_STRONG = looked_for(rf"\d\s*(?:%|percent|per cent|proof|abv)?\s*{KIND}\b|\b{KIND}\W{{1,3}}(?:at |of |is |it['’]?s )?\d", re.IGNORECASE)
BOTH = looked_for(
    rf"\b(?:how much|hw much|what|amounts?)\b[^.;]*\b{KIND}\b[^.;]*\bwater\b|\b(?:how much|hw much|what|amounts?)\b[^.;]*\bwater\b[^.;]*\b{KIND}\b"
    rf"|\b{KIND}\b[^.;]{{0,12}}\bwater\b[^.;]{{0,12}}\b(?:amounts?|how much)\b|\bhow much (?:of )?each\b"
    r"|\bhow (?:do|should|would|shall) (?:i|we) (?:mix|cut|dilute) (?:it|that)\b",
    re.IGNORECASE,
)
STRONG = frozenset({"stock_strength", "finished_strength"})
ANSWERS = frozenset({"stock", "water", "menstruum"})


def by_kind(reading: Reading, batch: Batch | None) -> None:
    """Spirit and water are both asked for, which nothing tells until the spirit's strength is said. Changes the reading's asked."""
    if reading.ingredients or reading.liquids or (batch is not None and batch.members):
        return
    told = {s.quantity for s in reading.said} | (batch.facts.keys() if batch is not None else set())
    if "strength" not in told or told & STRONG or {a.quantity for a in reading.asked} - ANSWERS:
        return
    if not BY_KIND.search(reading.heard) or HOW_STRONG.search(reading.heard) or not BOTH.search(reading.heard):
        return
    told_asked = {a.quantity for a in reading.asked}
    reading.asked += [Asked(q, 0, len(reading.heard)) for q in ("stock", "water") if q not in told_asked]
