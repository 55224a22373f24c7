"""A plant weighed again while it dries: "scale says 565, how much water's still in it", "how much still to come off"; then another dried weight wanted."""

from __future__ import annotations

import re

from assistant.listening.statements import Asked, Loose, Reading, Said
from assistant.patterns import looked_for
from assistant.session.batch import Batch
from assistant.session.work import take_as

WATER_ASKED = looked_for(
    r"\b(?:how|what|whats|hw)\b[^.;]{0,24}\b(?:water|wet|damp|moisture|moist)\b"
    r"|\b(?:water|moisture)\b[^.;]{0,24}\b(?:in it|in them|left|still|now|content|per ?cent)\b[^.;]{0,12}\W*$"
    r"|\bhow wet\b",
    re.IGNORECASE,
)
NOW_WEIGHS = looked_for(
    r"\b(?:scales?|weighs|weight|weighed|now|down to|today|reads|says|shows|at|it'?s|they'?re)\b[^\d.;?]{0,16}$", re.IGNORECASE
)
NOW_BEHIND = looked_for(r"^\s*(?:g|grams?|kg|kilos?)?\s*(?:now|today|this (?:morning|evening|afternoon)|at (?:the moment|present)|so far)\b", re.IGNORECASE)
MISHEARD = frozenset({"herb", "dried", "wilted", "gross", "picked", "pressed", "to_gather", "menstruum_weight"})
TO_LOSE = frozenset({"water_to_lose", "still_to_lose"})
OF_WATER = frozenset(
    """water water_content plant_water water_lost wilted_water water_to_lose still_to_lose strength dried herb rest spare herb_left""".split()
)
IN_A_JAR = frozenset({"ratio", "menstruum", "strength", "stock_strength", "finished_strength"})
RACKS = frozenset({"drying", "racks"})
OF_THE_LAST = frozenset({"herb", "picked", "gross", "wilted", "wilted_water"})


def still_wet(reading: Reading, batch: Batch | None) -> None:
    """Give these sentences their meaning. Changes the reading."""
    if reading.ingredients or reading.liquids or (batch is not None and (batch.members or RACKS & batch.frames)):
        return
    facts = {} if batch is None else {k: f.value for k, f in batch.facts.items()}
    told = {s.quantity for s in reading.said}
    if (facts.keys() | told) & IN_A_JAR:
        return
    _water_in_it_now(reading, facts)
    if facts.keys() & {"wilted", "wilted_water"} and "dried" in told and "wilted" not in told and {a.quantity for a in reading.asked} & {"to_gather", "herb"}:
        reading.freed |= OF_THE_LAST & facts.keys() - told  # "how much fresh for a kilo dried": of another picking
        reading.in_state("fresh")


def _water_in_it_now(reading: Reading, facts: dict[str, float]) -> None:
    """The weight told last, less than the fresh plant's, is what the plant weighs now; of it the water is asked, or what has still to come off."""
    to_lose = [a for a in reading.asked if a.quantity in TO_LOSE]
    of_water = WATER_ASKED.search(reading.heard) is not None
    if not (of_water or to_lose) or {a.quantity for a in reading.asked} - OF_WATER:
        return
    weights: list[Said | Loose] = [s for s in reading.said if s.quantity in MISHEARD] + [f for f in reading.loose if f.kind in ("#", "g", "oz")]
    weights.sort(key=lambda f: f.start)
    fresh = next((s.value for s in weights[:-1] if isinstance(s, Said) and s.quantity in ("herb", "picked")), facts.get("herb", facts.get("picked")))
    if fresh is None or not ({s.quantity for s in reading.said} | facts.keys()) & {"water_content"} or not weights:
        return
    now = weights[-1]
    if not (NOW_WEIGHS.search(reading.heard[: now.start]) or NOW_BEHIND.match(reading.heard[now.end :])):
        return
    dry_matter = fresh * (1 - _water(reading, facts) / 100)
    if not dry_matter < now.value < fresh:
        return
    heard_so = isinstance(now, Said) and now.quantity == "wilted"
    if heard_so and not of_water:
        return
    if heard_so and "herb" not in facts and any(a.quantity == "wilted_water" for a in reading.asked):
        return
    if not heard_so:
        take_as(reading, now, "wilted")
    reading.asked[:] = [*([Asked("wilted_water", 0, len(reading.heard))] if of_water else []), *to_lose]
    reading.let_go("claim", "whatif", "check")
    reading.frames -= RACKS


def _water(reading: Reading, facts: dict[str, float]) -> float:
    return next((s.value for s in reading.said if s.quantity == "water_content"), facts.get("water_content", 0.0))
