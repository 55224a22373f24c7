"""Short sentences whose figure hangs on the plan in hand: "and 100 ml ones", "and 750 ml", "and 55", "now 480 g"; and the room left free in a jar."""

from __future__ import annotations

import re
from collections.abc import Sequence

from assistant.dataclass import replace
from assistant.listening.statements import Loose, Reading, Said
from assistant.patterns import looked_for
from assistant.session.batch import Batch
from assistant.session.work import take_as

FREE = looked_for(
    r"\b(?P<share>\d+(?:\.\d+)?)\s*(?:%|percent|per cent)\s*(?:of )?(?:head[- ]?(?:space|room)|free\b|empty\b|air\b|room at the top)", re.IGNORECASE
)
OPENING = r"^\W*(?:(?:and|or|so|then|ok|but|what about|how about|what if|if|with|in|for|from|make it|say|it'?s|i want|want)\W+)*"
SHORT_VOLUME = looked_for(OPENING + r"(?:an?\s+)?[\d.,]+\s*(?:mls?|l|lit(?:re|er)s?|cl)\b\s*(?P<ones>ones|sizes?)?\W*(?:then|instead)?\W*$", re.IGNORECASE)
SHORT_PERCENT = looked_for(OPENING + r"(?:at |to )?[\d.]+\s*(?:%|percent)?\W*(?:then|instead)?\W*$", re.IGNORECASE)
NOW = looked_for(
    r"^\W*(?:(?:and|ok|so|but|it'?s)\W+)*(?:now|(?:it )?weighs)\s+"
    r"(?:it'?s |it is |it |weighs |weighing |only |just |down to |at |now )*[\d.,]+\s*\w*\W*(?:now)?\W*$", re.IGNORECASE)
VOLUMES = ("pressed", "jar_size", "in_jar", "blend", "menstruum")  # what a bare volume may be of
DRIEST = 0.08  # of the fresh weight: less than this is no plant that wilted
LEAST, MOST = 15.0, 96.0  # percent


def meant_again(reading: Reading, batch: Batch | None, wants: Sequence[str]) -> None:
    """Give these sentences their meaning. Changes the reading."""
    _left_free(reading)
    if batch is not None:
        _as_wet(reading, batch)
    if batch is None or reading.ingredients or reading.liquids or reading.named:
        return
    if not wants or reading.asked:
        _of_the_volume(reading, batch)
    if not wants:
        _of_the_finish(reading, batch)
    if not set(wants) & {"herb", "wilted", "dried", "tare"}:
        _weighs_now(reading, batch)


def _as_wet(reading: Reading, batch: Batch) -> None:
    """ "The other one is 600 g burdock root at 70", behind a plant of which the water was told and nothing poured: its water, and no strength."""
    if "water_content" not in batch.facts or batch.facts.keys() & POURED or {s.quantity for s in reading.said} != {"herb", "strength"} or reading.asked:
        return
    wet = next(s for s in reading.said if s.quantity == "strength")
    if wet.said_unit.endswith("proof") or not WETTEST[0] <= wet.value <= WETTEST[1] or OF_SPIRIT.search(reading.heard) or "dried" in reading.tags:
        return
    take_as(reading, wet, "water_content")
    reading.tags.add("fresh")


POURED = frozenset({"ratio", "menstruum", "strength", "stock_strength", "finished_strength", "planned_menstruum"})
WETTEST = (40.0, 95.0)  # percent of water in a plant
OF_SPIRIT = looked_for(r"\b(?:spirit|vodka|brandy|alcohol|proof|pour\w*|tincture|menstruum|abv|rum|gin|everclear|into|cover\w*)\b", re.IGNORECASE)


def _left_free(reading: Reading) -> None:
    """ "Leave 10 % headspace": the jar is filled to the rest, and it is no strength."""
    hit = FREE.search(reading.heard)
    if hit is None or any(s.quantity == "fill" for s in reading.said):
        return
    figure: Said | Loose | None = next((f for f in reading.figures if f.start == hit.start("share") and f.value < 100), None)
    if figure is not None:
        take_as(reading, figure, "fill", 100 - figure.value)


def _of_the_volume(reading: Reading, batch: Batch) -> None:
    """ "And 100 ml ones": the bottles of the plan; "and 750 ml": the one volume that was said of it."""
    facts = batch.facts
    if [s.quantity for s in reading.said] != ["menstruum"] or reading.loose or reading.claims:
        return
    if "pressed" in {a.quantity for a in reading.asked} and "held_back" in facts:
        reading.said[0] = replace(reading.said[0], weak=False)  # "how much comes out of 500 ml": of what is poured
        return
    short = SHORT_VOLUME.match(reading.heard)
    if short is None or reading.asked:
        return
    if short["ones"]:
        sized = [q for q in ("bottle_size", "jar_size") if q in facts]
    else:
        sized = [q for q in VOLUMES if q in facts and facts[q].origin == "said"]
    if sized and len(sized) == 1:
        reading.said[0] = replace(reading.said[0], quantity=sized[0], weak=False)


def _of_the_finish(reading: Reading, batch: Batch) -> None:
    """ "And 55": the strength in the end, where that was the aim and what is poured was worked out."""
    facts, figures = batch.facts, [f for f in reading.loose if f.kind in ("#", "%")]
    told = [s for s in reading.said if s.quantity == "strength"]
    if "finished_strength" not in facts or "strength" in facts or reading.asked or not SHORT_PERCENT.match(reading.heard):
        return
    only: list[Said | Loose] = [*figures, *told]
    if len(only) == 1 == len(reading.said) + len(reading.loose) and LEAST <= only[0].value <= MOST:
        take_as(reading, only[0], "finished_strength")


def _weighs_now(reading: Reading, batch: Batch) -> None:
    """ "Now 480 g", of a fresh plant weighed heavier before: it wilted; nothing was weighed wrong."""
    fresh = batch.facts.get("herb")
    if "wilted" in reading.tags and batch.facts.keys() & {"ratio", "menstruum"} and any(s.quantity == "wilted" for s in reading.said):
        reading.frames.discard("drying")  # "it was wilted, it weighs 160 g now", of a plant that is poured on: no rack
        reading.let_go("whatif")
    if fresh is None or "wilted" in batch.facts or "fresh" not in batch.tags or not NOW.match(reading.heard) or reading.asked:
        return
    if [s.quantity for s in reading.said] == ["herb"] and not reading.loose and DRIEST * fresh.value < reading.said[0].value < fresh.value:
        reading.said[0] = replace(reading.said[0], quantity="wilted", weak=False)
        reading.let_go("whatif")
