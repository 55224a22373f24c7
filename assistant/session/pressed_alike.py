"""The next lot pressed as the last one was: "next one's 400 g 1:5, pressed the same way, what do I get". A gram holds what it held there."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.listening.statements import Asked, Reading
from assistant.patterns import looked_for
from assistant.session.batch import Batch, Fact

if TYPE_CHECKING:
    from assistant.session.conversation import Session

ALIKE = looked_for(
    r"\b(?:press\w*|squeez\w*|wrung|strained)\b[^.;?\d]{0,16}\b(?:the same|same|like (?:that|this|the|it|before)|alike|as (?:before|that|the last|it was))\b"
    r"|\bsame (?:way|press|pressing|squeeze|hands?|cloth|method|technique|grip)\b",
    re.IGNORECASE,
)
AGAIN = looked_for(r"\b(?:next|this|another|second) time\b|\b(?:do|make|made) (?:it|that) again\b", re.IGNORECASE)  # of the same plant
POURED = frozenset({"ratio", "menstruum"})
TOLD = frozenset({"pressed", "held_back", "held_per_gram", "yield_share"})
COMES_OUT = frozenset({"pressed", "menstruum", "yield_share", "held_back", "bottles", "in_jar", "racked"})
STATES = frozenset({"fresh", "dried"})


def pressed_alike(session: Session, reading: Reading) -> Batch | None:
    """The plan the next lot begins with: the mL a gram held when the last one was pressed. Changes the reading's asked."""
    batch, last = session.batch, session.last
    if batch is None or last is None or session.draft is not None or batch.members or reading.ingredients or reading.liquids:
        return None
    told = {s.quantity for s in reading.said}
    if "pressed" not in batch.facts or "herb" not in told or not told & POURED or told & TOLD or not ALIKE.search(reading.heard):
        return None
    held = last.value("held_per_gram")
    if held is None or {a.quantity for a in reading.asked} - COMES_OUT:
        return None
    if not any(a.quantity in COMES_OUT - {"menstruum"} for a in reading.asked):
        reading.asked[:] = [Asked("pressed", 0, len(reading.heard))]
    reading.let_go("same", "undo", "scale_n")
    facts = {"held_per_gram": Fact(held, "said", session.turn)}
    if not reading.tags & STATES and not reading.named and "fresh" in batch.tags and "water_content" in batch.facts:
        facts["water_content"] = batch.facts["water_content"]
    tags = frozenset() if reading.tags & STATES else batch.tags & STATES
    begun = Batch(frames=batch.frames, tags=tags).with_facts(facts)
    return begun.having(name=batch.name, plants=batch.plants) if not reading.named and AGAIN.search(reading.heard) else begun
