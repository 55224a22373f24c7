"""Spirits told one behind the other with little said of each: "40 mL thats 60 %, 40 of 45 % and 20 mL of 90 %, what's the mix come to"."""

from __future__ import annotations

import re
from itertools import pairwise

from assistant.listening.statements import Asked, Ingredient, Reading
from assistant.patterns import looked_for
from assistant.quantities.units import units

_AMOUNT = r"(?P<volume>\d+(?:\.\d+)?)\s*(?P<unit>mls?|millilit(?:re|er)s?|l|lit(?:re|er)s?|cl)?"
_LINK = r"\s*(?:(?:that['’]?s|that is|thats|of|at|which is|is|@|the|it['’]?s|its|with|my|some|about)\s+)*"
ONE = looked_for(rf"(?<![\d.:]){_AMOUNT}\b{_LINK}(?P<strength>\d+(?:\.\d+)?)\s*(?P<percent>%|percent|per cent)", re.IGNORECASE)
JOIN = looked_for(r"^\W*(?:(?:and|plus|with|to|then|in)\b\W*)*$", re.IGNORECASE)
ASKED = looked_for(r"\b(?:mix|mixed|blend|together|all in|combined|tipped|poured|lot|it)\b|\bhow strong\b|\bwhat strength\b", re.IGNORECASE)
QUESTION = looked_for(r"\b(?:what|whats|what['’]s|how strong|where)\b|\?", re.IGNORECASE)
FEWEST = 2
TOLD = frozenset({"menstruum", "strength", "stock_strength", "blend", "blend_strength", "stock", "water_content", "bottle_size"})
MISTAKEN = frozenset({"blend_strength", "strength", "finished_strength", "contents", "in_jar", "blend", "menstruum", "finished_volume"})


def poured_several(reading: Reading) -> None:
    """Make such spirits the liquids of a mix, where nothing else is told and their strength together is asked. Changes the reading."""
    told = {s.quantity for s in reading.said}
    if reading.ingredients or reading.named or told - TOLD or {a.quantity for a in reading.asked} - MISTAKEN:
        return
    hits = list(ONE.finditer(reading.heard))
    if len(hits) < FEWEST or not all(JOIN.match(reading.heard[a.end() : b.start()]) for a, b in pairwise(hits)):
        return
    rest = reading.heard[: hits[0].start()] + " " + reading.heard[hits[-1].end() :]
    if re.search(r"\d", rest) or not ASKED.search(rest) or not QUESTION.search(rest):
        return
    told_in = [h["unit"] for h in hits]
    unit = next((u for u in told_in if u), "")
    if not unit or (reading.liquids and all(told_in)):
        return  # no unit at all, or each with its own and read already
    seen: set[str] = set()
    lines = []
    for hit in hits:
        strength = float(hit["strength"])
        if not 0 <= strength <= 100:
            return
        name = f"{strength:g} %"
        while name in seen:
            name += " (second)"
        seen.add(name)
        volume = float(hit["volume"]) * units().spellings[(hit["unit"] or unit).lower()].size("us")
        figures = (("volume", volume, hit.start("volume"), hit.end("unit") if hit["unit"] else hit.end("volume")),
                   ("strength_of", strength, hit.start("strength"), hit.end("percent")))  # fmt: skip
        lines.append(Ingredient(name, figures, hit.start(), hit.end()))
    reading.said.clear()
    reading.loose.clear()
    reading.references.clear()
    reading.liquids[:] = lines
    reading.frames -= {"maybe_formula"}
    reading.frames.add("mix")
    reading.asked[:] = [Asked("blend_strength", hits[-1].end(), len(reading.heard))]
