"""A plant taken in its other state: "dry instead, 50 g" after a fresh one. Its water is left behind, and what was told of the pour stays."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.listening.statements import Reading
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import base
from assistant.session.batch import STATES
from assistant.session.work import take_as

if TYPE_CHECKING:
    from assistant.session.batch import Batch

POURED = frozenset({"menstruum", "ratio"})
OF_THE_FIELD = frozenset({"to_gather", "dried"})
DRY_NOW = looked_for(
    r"\b(?:dry|dried)(?: (?:herb|plant|leaf|root|flowers?|stuff|ones?))? (?:instead|this time|in its place)\b|\binstead\b[^.;]{0,10}\b(?:dry|dried)\b",
    re.IGNORECASE,
)


STATE_ALONE = looked_for(
    r"^\W*(?P<led>(?:no|nope|yes|yeah|yep|yup|not fresh|not dried|not dry|sorry|wait|oops|actually|hang on|i mean|i meant|i should say|it'?s|it"
    r"|they'?re|they|that'?s|was|were|is|are|all|the)\b\W*)*"
    r"(?P<state>dried|dry|fresh)(?:\s+(?:herb|plant|leaf|root|flowers?|stuff|ones?|one|not fresh|not dried))?\W*$",
    re.IGNORECASE,
)


def state_said(reading: Reading, batch: Batch | None) -> None:
    """ "No, dried", "sorry, it's fresh": the state of the plant in hand told alone, and nothing asked. Changes the reading."""
    told = STATE_ALONE.match(reading.heard)
    if told is None or batch is None or not batch.facts.keys() & (POURED | {"herb"}) or batch.members or reading.said or reading.loose:
        return
    if not told["led"] and ("?" in reading.heard or batch.tags & STATES):
        return  # "dried?" of a fresh plant asks what it dries to
    state, other = ("fresh", "dried") if told["state"].lower() == "fresh" else ("dried", "fresh")
    reading.asked.clear()
    reading.tags.discard(other)
    reading.tags.add(state)
    reading.denied.discard(state)
    reading.denied.add(other)
    if state == "dried" and batch.facts.keys() & POURED:
        reading.freed.add("water_content")


DRIED_FIRST = looked_for(
    r"\b(?:drying|dry|dries|dried)\b[^.;?]*\b(?:first|before|beforehand)\b|\b(?:first|before)\b[^.;?]*\b(?:drying|dry|dried)\b",
    re.IGNORECASE,
)


def dried_first(reading: Reading, batch: Batch | None) -> None:
    """ "I lose 15 % drying it first", of a plant that is poured on: what is left of it goes in, dried. Changes the reading."""
    if batch is None or batch.members or not {"herb"} <= batch.facts.keys() or not batch.facts.keys() & POURED or reading.asked:
        return
    if [s.quantity for s in reading.said] != ["drying_loss"] or reading.loose or not DRIED_FIRST.search(reading.heard):
        return
    loss = reading.said[0]
    take_as(reading, loss, "herb", batch.facts["herb"].value * (1 - loss.value / 100))
    reading.freed.add("water_content")
    reading.denied.add("fresh")
    reading.in_state("dried")


PICKED = looked_for(r"\b(?:pick(?:ed|d)|gathered|harvested|foraged)\s+(?:(?:in|home|just|only|about|around|some|me|another)\s+)*\d", re.IGNORECASE)
OF_ANOTHER_STATE = looked_for(r"\b(?:dry|dries|dried|drying|wilt\w*|rack|racks|planned)\b", re.IGNORECASE)


def picked_is_fresh(reading: Reading, batch: Batch | None) -> None:
    """ "Picked 340 g nettle, 1:3 at 55": what was picked and goes straight into a jar is fresh, unless another state is told. Changes the reading."""
    if (batch is not None and batch.tags & STATES) or reading.tags & STATES or reading.denied & STATES:
        return
    told = {s.quantity for s in reading.said}
    if "herb" in told and told & POURED and PICKED.search(reading.heard) and not OF_ANOTHER_STATE.search(reading.heard):
        reading.tags.add("fresh")


def dry_now(reading: Reading, batch: Batch | None) -> None:
    """Forget the water of the fresh plant where a weight of the dried one takes its place. Changes the reading."""
    if batch is None or batch.members or "water_content" not in batch.facts or not DRY_NOW.search(reading.heard):
        return
    if not batch.facts.keys() & POURED or {base(w) for w in batch.wanted} & OF_THE_FIELD:
        return  # nothing is poured on it: "300 dry instead" is what is to be dried
    told = {s.quantity for s in reading.said}
    if "herb" not in told or told & {"water_content", "dried", "dried_water"} or reading.ingredients or reading.liquids:
        return
    reading.freed.add("water_content")
    reading.denied.add("fresh")
    reading.in_state("dried")
