"""Going on about drying: a weight said to be dry is what it dries down to, and a question with nothing to work on yet asks for the weight."""

from __future__ import annotations

import re

from assistant.dataclass import replace
from assistant.listening.dry_rates import HOW_IT_DRIES
from assistant.listening.statements import Asked, Loose, Reading, Said
from assistant.patterns import looked_for
from assistant.session.batch import Batch
from assistant.session.work import take_as

# Right behind a figure: "500 g dry of it", "450 like that", "300 of the dried"; "500 g dries to" and "500 g dry down to" are fresh ones.
DRY_BEHIND = looked_for(
    r"^\s*(?:(?:g|grams?|kg|kilos?|oz|of|it|them|that|the|bone)\b[\s-]*)*(?:dry|dried|like that|like those)\b(?!\s+(?:to|down|out|off|up)\b)", re.IGNORECASE
)
COUNTED_DRY = looked_for(r"\b(?:count\w*|reckon\w*|worth|equivalent|terms|like|equal\w*)\b[\w\s]{0,12}\b(?:dry|dried)\b", re.IGNORECASE)
NOT_DRY = looked_for(r"\b(?:never|not|isn['’]?t|ain['’]?t|aint|isnt)\b[\w\s]{0,12}\bdry\b", re.IGNORECASE)
PICKING = looked_for(r"\b(?:pick|gather|cut|dig|harvest|bring home|collect)\b", re.IGNORECASE)
OTHER_WORK = frozenset({"ratio", "menstruum", "dried", "strength", "stock_strength"})


def dry_weight_wanted(reading: Reading, batch: Batch) -> None:
    """ "And if I wanted 500 g dry of it": the weight is what it dries down to, and the fresh plant is looked for. Changes the reading.

    Only where the batch in hand knows how the fresh plant dries and has no jar to go into.
    """
    facts = batch.facts.keys()
    _dries_otherwise(reading, batch)
    _and_dried(reading, batch)
    _how_wet(reading, batch)
    if "fresh" in batch.tags and COUNTED_DRY.search(reading.heard) and any(a.quantity == "dried" for a in reading.asked):
        reading.tags.discard("dried")  # "what's that counted as dry herb?": the plant in hand is still a fresh one
    if "fresh" in batch.tags and NOT_DRY.search(reading.heard):
        reading.tags.discard("dried")  # "it's never bone dry though"
    if not facts and any(a.quantity == "dried" for a in reading.asked) and not reading.said:
        reading.tags.add("fresh")  # "how much will this weigh when it's dry?": what dries was fresh
    if not facts & {"water_content", "drying_ratio"} or not facts & {"herb", "dried"} or facts & {"ratio", "menstruum"} or "fresh" not in batch.tags:
        return
    said = {s.quantity for s in reading.said}
    if said & OTHER_WORK or (reading.named and batch.name and reading.named[0].name != batch.name):
        return
    weights: list[Said | Loose] = [s for s in reading.said if s.quantity == "herb"] or [f for f in reading.loose if f.kind in ("#", "g", "oz")]
    if len(weights) != 1 or not DRY_BEHIND.search(reading.heard[weights[0].end :]):
        return
    weight = weights[0]
    if isinstance(weight, Said):
        reading.said[reading.said.index(weight)] = replace(weight, quantity="dried", weak=False)
    else:
        reading.loose.remove(weight)
        reading.said.append(Said("dried", weight.value, weight.start, weight.end, said_unit=weight.said_unit, words=weight.words))
    reading.freed.add("herb")
    reading.tags.discard("dried")
    reading.asked[:] = [a for a in reading.asked if a.quantity not in ("dried", "herb")]
    if not reading.asked and "to_gather" not in batch.wanted:
        reading.asked.append(Asked("to_gather" if PICKING.search(reading.heard) else "herb", 0, 0))


GOES_DOWN = looked_for(
    r"\b(?:goes|go|gives?|comes?|runs?|yields?|shrinks?|loses?|is|it'?s|are|they'?re|about|usually)\W+(?:(?:down|out|at|about|only|in|to)\W+)*$",
    re.IGNORECASE,
)


def _dries_otherwise(reading: Reading, batch: Batch) -> None:
    """ "Dries 5 to 1", then "it's 75 % water": how a plant dries, told another way, takes the place of what was told before. Changes the reading."""
    _turned_round(reading, batch)
    told = {s.quantity for s in reading.said} & HOW_IT_DRIES
    if told and batch.facts.keys() & (HOW_IT_DRIES - {"water_content"}) and not batch.facts.keys() & {"ratio", "menstruum"}:
        reading.freed |= HOW_IT_DRIES - {"water_content"} - told
    weighed = batch.facts.keys() & {"herb", "dried"}
    if not told - {"water_content"} or len(weighed) != 1 or reading.asked or (batch.facts.keys() | {s.quantity for s in reading.said}) & A_POUR:
        return
    if weighed == {"herb"} or not {"herb", "to_gather"} & set(batch.wanted):
        reading.asked.append(Asked("dried" if weighed == {"herb"} else "herb", 0, 0))  # "2 kg fresh nettle", then "shrinks to a quarter"


WEIGHED = frozenset({"picked", "gross", "per_plant"})


def _and_dried(reading: Reading, batch: Batch) -> None:
    """ "And dried, 75 % water?" behind what a stand or a basket gives: what that plant dries to. Changes the reading."""
    said = {s.quantity for s in reading.said}
    if not batch.facts.keys() & WEIGHED or (batch.facts.keys() | said) & (A_POUR | {"dried"}) or said - HOW_IT_DRIES - {"dried_water"} or reading.named:
        return
    if not DRIED.search(reading.heard) or {a.quantity for a in reading.asked} - {"dried", "water", "herb"} or not (said or reading.asked):
        return
    reading.asked[:] = [Asked("dried", 0, len(reading.heard))]
    reading.in_state("fresh")


def _turned_round(reading: Reading, batch: Batch) -> None:
    """ "It goes 5 to 1" of a plant in hand: so little menstruum covers no plant, it is how it dries. Changes the reading."""
    facts = batch.facts.keys()
    if len(reading.said) != 1 or reading.said[0].quantity != "ratio" or facts & A_POUR or not facts & {"herb", "dried"} or batch.frames or batch.members:
        return
    turned = reading.said[0]
    if turned.value > 1 / 3 or not GOES_DOWN.search(reading.heard[: turned.start]):
        return
    reading.said[:] = [replace(turned, quantity="drying_ratio", value=1 / turned.value, weak=False)]
    if "dried" in batch.tags and "herb" in facts:
        reading.said.append(Said("dried", batch.facts["herb"].value, 0, 0))
        reading.freed.add("herb")
        reading.asked[:] = reading.asked or [Asked("herb", 0, 0)]
    reading.tags.add("fresh")


A_POUR = frozenset({"ratio", "dry_ratio", "menstruum", "stock", "stock_strength", "finished_strength", "pressed"})
WETTEST, DRIEST = 95.0, 30.0  # percent of water in a fresh plant
DRIED = looked_for(r"\b(?:dry|dried|dries|drying)\b", re.IGNORECASE)


def _how_wet(reading: Reading, batch: Batch) -> None:
    """ "4.5 kg nettles at 83 %, how much when dry": a percent of a plant that is dried and nothing poured on is its water. Changes the reading.

    So it is where the percent was told before: "2 lb of root at 68 %", then "dry that is?".
    """
    told = batch.facts.get("strength")
    if told is not None and {a.quantity for a in reading.asked} == {"dried"} and not reading.said and batch.facts.keys() == {"herb", "strength"}:
        if DRIEST <= told.value <= WETTEST and "proof" not in told.said_unit:
            reading.freed.add("strength")
            reading.said.append(Said("water_content", told.value, 0, 0))
        return
    said = {s.quantity: s for s in reading.said}
    if "herb" not in said or "water_content" in said or (said.keys() | batch.facts.keys()) & A_POUR or reading.ingredients or reading.liquids:
        return
    percent = said.get("strength")
    asks = [a for a in reading.asked if a.quantity in ("dried", "water_lost", "dry_matter", "drying_ratio")]
    if percent is None or not DRIEST <= percent.value <= WETTEST or "proof" in percent.said_unit or percent.start < said["herb"].end:
        return
    if not asks and not (not reading.asked and DRIED.search(reading.heard[percent.end :])):
        return
    take_as(reading, percent, "water_content")
    if not asks:
        reading.asked.append(Asked("dried", percent.end, len(reading.heard)))
    reading.tags.discard("dried")
