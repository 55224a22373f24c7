"""A plant steeped in honey by a ratio of weights: "200 g onion in honey 1:3 by weight"."""

from __future__ import annotations

import re

from assistant.dataclass import replace
from assistant.listening.statements import Asked, Said
from assistant.patterns import looked_for
from assistant.session.work import Work

HONEY = looked_for(r"\bhoney\b", re.IGNORECASE)
WORDS = r"(?:powder|herb|root|plant|leaf|flowers?|bark|berries|seeds?|spice)"
PLANT_ASKED = looked_for(rf"\bhow (?:much|many)(?: (?:g|grams) of)?(?: the| of the)? {WORDS}\b|\b{WORDS}(?: then)?\s*\?", re.IGNORECASE)
JAR_OF_IT = looked_for(r"\b(?:jar|pot|tub|bucket)s? of (?:\w+ )?honey\b|\bhoney (?:jar|pot|tub)\b", re.IGNORECASE)
OF_HONEY = frozenset({"jar_size", "menstruum", "bottle_size"})
BOILED = frozenset({"boiled_to", "boiled_from", "decoction"})  # the honey goes into that
NEXT_TO = 4  # characters: " of "
OF_THE_PLANT = looked_for(r"(?:%|\bper ?cent|\bpercentage)\s*(?:of\s+)?water\b|\bwater content\b", re.IGNORECASE)
OTHERS = looked_for(r"\b(?:vinegar|oxymel|water|decoction|infusion|tea|spirit|vodka|brandy)\b", re.IGNORECASE)


def plant_in_honey(said: list[Said], work: Work) -> None:
    """The ratio by weight of a plant in honey is that of honey to plant. Changes `said` in place, the frames, and what is asked."""
    heard = work.reading.heard
    if not HONEY.search(heard) or OTHERS.search(OF_THE_PLANT.sub("", heard)) or work.members or any(s.quantity in BOILED for s in said):
        return
    _jar_of_it(said, work)
    _how_sweet(said, work)
    _of_the_plant(said, work)
    _to_the_honey(said, work)
    ratio = next((s for s in said if s.quantity == "ratio_by_weight"), None)
    if ratio is None or not any(s.quantity == "herb" for s in said) or any(s.quantity in ("honey", "honey_volume") for s in said):
        return
    said[said.index(ratio)] = replace(ratio, quantity="honey_to_herb", weak=False)
    work.frames.add("syrup")
    work.reading.asked[:] = [Asked("honey", 0, len(heard))]


PERCENT = looked_for(r"%|\bper ?cent\b|\bpercentage\b", re.IGNORECASE)
WEIGHS = looked_for(r"\b(?:weigh(?:s|ing)?|heavy|weight|(?:how many|in) (?:g|grams))\b", re.IGNORECASE)


def _jar_of_it(said: list[Said], work: Work) -> None:
    """ "500 mL jar of honey, weighs what": so much honey, and no jar to fill."""
    jars = [s for s in said if s.quantity == "jar_size"]
    if len(jars) == len(said) == 1 and JAR_OF_IT.search(work.reading.heard) and WEIGHS.search(work.reading.heard):
        said[:] = [replace(jars[0], quantity="honey_volume", weak=False)]
        work.reading.asked[:] = [Asked("honey", 0, len(work.reading.heard))]


def _how_sweet(said: list[Said], work: Work) -> None:
    """ "How much sugar in it now, percent?" of a plant in honey: its sweetness; "want it 75, honey then?": the honey that takes."""
    told = {s.quantity for s in said} | work.facts.keys()
    if not told >= {"herb", "water_content"} or not told & {"honey", "honey_volume"}:
        return
    asked = work.reading.asked
    if any(a.quantity == "sugar" for a in asked) and PERCENT.search(work.reading.heard):
        asked[:] = [Asked("brix", 0, len(work.reading.heard))]
    if any(s.quantity == "brix" for s in said) and any(a.quantity == "honey" for a in asked):
        work.reading.freed |= {"honey", "honey_volume"}


def _to_the_honey(said: list[Said], work: Work) -> None:
    """ "I've a 400 mL jar of honey, how much powder?": the honey there is tells the plant that goes into it."""
    heard = work.reading.heard
    asks = any(a.quantity == "herb" for a in work.reading.asked) or PLANT_ASKED.search(heard) is not None
    ratio = next((s for s in said if s.quantity in ("ratio_by_weight", "honey_times")), None)
    if not asks or any(s.quantity == "herb" for s in said) or not (ratio is not None or "honey_to_herb" in work.facts):
        return
    there = [s for s in said if s.quantity in ("honey", "honey_volume") or (s.quantity in OF_HONEY and JAR_OF_IT.search(heard))]
    if len(there) != 1:
        return
    amount = there[0]
    said[said.index(amount)] = replace(amount, quantity="honey" if amount.quantity == "honey" else "honey_volume", weak=False)
    if ratio is not None:
        more = ratio.value if ratio.quantity == "ratio_by_weight" or ratio.value >= 1 else 1 / ratio.value
        said[said.index(ratio)] = replace(ratio, quantity="honey_to_herb", value=more, weak=False)
    work.frames.add("syrup")
    work.reading.freed |= {"herb", "honey", "honey_volume"}
    work.reading.asked[:] = [Asked("herb", 0, len(heard))]


def _of_the_plant(said: list[Said], work: Work) -> None:
    """ "Onion honey 200 g onion 1:3 honey": the weight is the onion's that stands behind it, and the ratio is plant to honey."""
    honey = next((s for s in said if s.quantity == "honey"), None)
    ratio = next((s for s in said if s.quantity == "honey_times"), None)
    if honey is None or ratio is None or not 0 < ratio.value < 1 or any(s.quantity in ("liquid", "decoction", "herb") for s in said):
        return
    if any(0 <= n.start - honey.end <= NEXT_TO for n in work.reading.named):
        said[said.index(honey)] = replace(honey, quantity="herb", weak=False)
        said[said.index(ratio)] = replace(ratio, quantity="ratio_by_weight", value=1 / ratio.value, weak=False)
