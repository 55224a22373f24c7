"""The two halves of a glycerite's menstruum told as shares: "60 glycerine 40 water", "60/40 glycerine and water", "3 parts glycerine to 2 water".

The water of the pour is no water of the plant, and the shares are no recipe of their own.
"""

from __future__ import annotations

import re

from assistant.listening.statements import Reading, Reference, Said
from assistant.patterns import looked_for
from assistant.session.batch import Batch

NUMBER = r"(\d+(?:\.\d+)?)"
SHARE = r"\s*(?:%|percent|per cent|parts?|pts?)?\s*(?:of )?(?:the )?(?:veg(?:etable)? )?"
GLYCERINE = r"glyc(?:erine?|erol|)\b"
JOINED = r"\W*(?:(?:and|to|with|n|plus|in)\b\W*)*"
GLYCERINE_FIRST = looked_for(rf"\b{NUMBER}{SHARE}{GLYCERINE}{JOINED}{NUMBER}{SHARE}water\b", re.IGNORECASE)
WATER_FIRST = looked_for(rf"\b{NUMBER}{SHARE}water{JOINED}{NUMBER}{SHARE}{GLYCERINE}", re.IGNORECASE)
NUMBERS_FIRST = looked_for(
    rf"\b(?!1\s*(?:/|:| to )\s*(?!1\b))(?<!:){NUMBER}\s*%?\s*(?:/|:| to |-)\s*{NUMBER}\s*%?\s*(?:of )?(?:veg(?:etable)? )?"
    rf"{GLYCERINE}(?:\W+(?:and|to|with|n)\b)?\W*water\b", re.IGNORECASE
)
NUMBERS_LAST = looked_for(
    rf"\b{GLYCERINE}(?:\W+(?:and|to|with|n)\b)?\W*water\b\W*(?:at |of |mix(?:ed)? |is )?\W*{NUMBER}\s*%?\s*(?:/|:| to |-)\s*{NUMBER}", re.IGNORECASE
)
NAME_FIRST = looked_for(rf"\b{GLYCERINE}\s*{NUMBER}\s*(?:%|percent|parts?)?{JOINED}water\s*{NUMBER}\b(?!\s*(?:ml|l|g)\b)", re.IGNORECASE)
ORDERS = ((NAME_FIRST, False), (GLYCERINE_FIRST, False), (WATER_FIRST, True), (NUMBERS_LAST, False), (NUMBERS_FIRST, False))
MAKES_IT = frozenset({"herb", "ratio", "planned_herb", "picked"})
OF_A_PLANT = {"weight": "herb", "ratio_of": "ratio"}  # what is one plant's in a list → what it is where there is only that plant
WHOLE = 100.0
MOST_PARTS = 12.0


def glycerine_and_water(reading: Reading, batch: Batch | None) -> None:
    """Take the shares for the percent of glycerine that is poured. Changes the reading."""
    if "glyc" not in reading.heard.lower():
        return
    found = next(((hit, turned) for pattern, turned in ORDERS if (hit := pattern.search(reading.heard)) is not None), None)
    if found is None:
        return
    plants = [i for i in reading.ingredients if "glyc" not in i.name and i.name != "water"]
    figures = [(OF_A_PLANT.get(q, ""), v, a, b) for i in plants for q, v, a, b in i.figures]
    told = {s.quantity for s in reading.said} | {q for q, *_ in figures} | (batch.facts.keys() if batch is not None else set())
    hit, turned = found
    one, other = float(hit[1]), float(hit[2])
    glycerine, water = (other, one) if turned else (one, other)
    if len(plants) > 1 or "" in {q for q, *_ in figures} or not told & MAKES_IT or water <= 0:
        return
    if glycerine + water != WHOLE and max(glycerine, water) > MOST_PARTS:
        return
    start, end = hit.span()
    reading.ingredients.clear()
    reading.frames -= {"listed", "mix", "formula"}
    reading.said += [Said(q, v, a, b) for q, v, a, b in figures]
    reading.said[:] = [s for s in reading.said if not (start <= s.start and s.end <= end)]
    reading.loose[:] = [f for f in reading.loose if not (start <= f.start and f.end <= end)]
    reading.said.append(Said("glycerine", glycerine / (glycerine + water) * WHOLE, *hit.span(1)))
    reading.references.append(Reference("reference", *hit.span(2), other))
    reading.frames.add("glycerite")
