"""A plant in plain water: so many grams to the litre is a proportion, and another volume is what is wanted of it.

"Linden, 30 g to the litre, how many grams for 750 mL", "20 g in 500 mL, what's that for 3 litres", "25 g a litre and I've 130 g, how much water".
"""

from __future__ import annotations

import re

from assistant.dataclass import replace
from assistant.listening.statements import Asked, Loose, Said, forget
from assistant.patterns import looked_for
from assistant.session.renumbering import size_said
from assistant.session.work import Work, said_as

# What makes it no plain water.
OTHERWISE = frozenset("mix formula glycerite vinegar syrup oil salve essential percolation dilution maybe_dilution dose cost".split())
STRONG = frozenset({"strength", "stock_strength", "finished_strength", "stock", "spirit_in_hand", "glycerine", "acidity", "brix", "alcohol"})
SPIRIT = looked_for(r"\b(?:tincture|spirit|alcohol|vodka|brandy|rum|gin|everclear|menstruum|proof|glycerin\w*|vinegar|oil|syrup|honey|sugar)\b", re.IGNORECASE)
WATERY = looked_for(
    r"(?<!%)(?<!% )(?<!percent )\bwater\b(?! content)|\b(?:infus\w+|decoct\w+|teas?|tisanes?|brew\w*|steep\w*|simmer\w*|boil\w*)\b",
    re.IGNORECASE,
)
JOINED = looked_for(r"^\s*(?:(?:of|the|dried|dry|fresh|loose|cut|chopped)\s+)*(?:[a-z' -]{3,24}?\s+)?(?:to|per|in|for|into|a|each|every|on|/)\s*(?:the|a|each|every|about|some)?\s*$", re.IGNORECASE)  # noqa: E501  (one expression)
THE_LITRE = looked_for(
    r"^\s*(?:(?:of|the|dried|dry|fresh|loose)\s+)*(?:[a-z' -]{3,24}?\s+)?(?:to|in|per|for) the (litre|liter|quart|pint|gallon)\b",
    re.IGNORECASE,
)
WANTED = looked_for(
    r"\b(?:for|make|makes|making|want|need|fill|fills|in|into|only|got|have|just|do|doing)\s+(?:me |a |an |the |about |up |only |just |got )*$",
    re.IGNORECASE,
)
MAKES = looked_for(r"\b(?:for|makes?|making|do|want)\s+(?:me |a |an |the |about |up |only |just )*$", re.IGNORECASE)
HOW_STRONG = looked_for(r"\bhow strong\b|\bwhat strength\b", re.IGNORECASE)
OF_WATER = frozenset({"plain_water", "decoction"})
WEIGHTS = frozenset({"herb", "picked", "dried", "planned_herb", "herb_per_dose", "per_cup"})
VOLUMES = frozenset({"menstruum", "water", "pressed", "planned_menstruum", "decoction", "liquid", "blend", "jar_size", "bottle_size", "cup_size"})


def settle_infusion(said: list[Said], loose: list[Loose], work: Work) -> None:
    """Give the figures of a plant in plain water their quantity. Changes both lists in place, the reading's asked, and the frames."""
    heard = work.reading.heard
    told = {s.quantity for s in said}
    _how_strong(told, work)
    if work.members or work.frames & OTHERWISE or (work.facts.keys() | told) & STRONG or SPIRIT.search(heard):
        work.frames.discard("plain_water")
        return
    begun = bool(work.facts.keys() & {"menstruum", "ratio", "herb"}) and "water" not in work.facts
    in_water = "plain_water" in work.frames or "water_extract" in work.batch.tags or "water" in work.facts
    if not in_water and (begun or WATERY.search(heard) is None):
        return
    _per_litre(said, loose, work)
    _to_the_litre(said, loose, work)
    _by_proportion(said, loose, work)
    _as_much_again(said, loose, work)
    _water_is_poured(said, work)


def _how_strong(told: set[str], work: Work) -> None:
    """ "How strong is it" of a plant in water alone, boiled down or not: there is no spirit in it, so the plant in each mL."""
    if not work.frames & OF_WATER or work.members or work.frames & OTHERWISE or (work.facts.keys() | told) & STRONG:
        return
    if HOW_STRONG.search(work.reading.heard):
        work.reading.asked[:] = [a for a in work.reading.asked if a.quantity not in STRONG] or [Asked("herb_per_ml", 0, len(work.reading.heard))]


def _as_much_again(said: list[Said], loose: list[Loose], work: Work) -> None:
    """ "What's that for 3 litres", "and if I make 2 L": of what was told by its weight and its water, more or less of both."""
    herb, poured = work.facts.get("herb"), work.facts.get("menstruum")
    if herb is None or poured is None or not herb.value or not poured.value or any(s.quantity in ("herb", "ratio") for s in said):
        return
    volumes: list[Said | Loose] = [s for s in said if s.quantity in VOLUMES and not s.member]
    volumes += [f for f in loose if f.kind in ("mL", "cup")]
    if len(volumes) != 1 or not MAKES.search(work.reading.heard[: volumes[0].start]):
        return
    wanted = volumes[0]
    forget(wanted, said, loose)
    said.append(Said("menstruum", wanted.value, wanted.start, wanted.end, said_unit=wanted.said_unit, words=wanted.words))
    said.append(Said("ratio", poured.value / herb.value, 0, 0))
    work.reading.freed.add("herb")
    if not work.reading.asked:
        work.reading.asked.append(Asked("herb", 0, len(work.reading.heard)))


def _per_litre(said: list[Said], loose: list[Loose], work: Work) -> None:
    """ "25 g a litre": mL of water to the gram."""
    if any(s.quantity in ("ratio", "herb_per_ml") for s in said):
        return
    for figure in [f for f in loose if f.kind == "g/mL" and 0 < f.value < 1][:1]:
        loose.remove(figure)
        said.append(replace(said_as(figure, "ratio", value=1 / figure.value), said_unit="", low=None, high=None))
        work.reading.freed |= {"herb_per_ml"}


def _to_the_litre(said: list[Said], loose: list[Loose], work: Work) -> None:
    """ "30 g to the litre": the proportion, and no weight that goes in."""
    heard = work.reading.heard
    weights: list[Said | Loose] = [s for s in said if s.quantity in WEIGHTS and not s.member]
    weights += [f for f in loose if f.kind in ("g", "oz")]
    for weight in weights:
        hit = THE_LITRE.match(heard[weight.end :])
        if hit is None or weight.value <= 0 or any(s.quantity == "ratio" for s in said):
            continue
        forget(weight, said, loose)
        said.append(Said("ratio", size_said(hit.group(1).lower(), work.reading.measures) / weight.value, weight.start, weight.end))
        work.reading.freed.add("herb")


def _by_proportion(said: list[Said], loose: list[Loose], work: Work) -> None:
    """A weight and the volume it belongs to, and another of one kind: the pair is the proportion, the other what is wanted."""
    heard = work.reading.heard
    weights = sorted((s for s in said if s.quantity in WEIGHTS and not s.member), key=lambda s: s.start)
    volumes = sorted((s for s in said if s.quantity in VOLUMES and not s.member), key=lambda s: s.start)
    others = [f for f in loose if f.kind in ("mL", "cup", "g", "oz")]
    pair = next(((w, v) for w in weights for v in volumes if w.end <= v.start and JOINED.match(heard[w.end : v.start])), None)
    if pair is None or any(s.quantity == "ratio" for s in said) or pair[1].value <= 0 or pair[0].value <= 0:
        return
    told, poured = pair
    rest: list[Said | Loose] = [s for s in (*weights, *volumes) if s not in pair] + others
    if len(rest) != 1 or rest[0].start < poured.end or not WANTED.search(heard[: rest[0].start]):
        return
    other = rest[0]
    by_weight = other in weights or (isinstance(other, Loose) and other.kind in ("g", "oz"))
    said[:] = [s for s in said if s not in (told, poured, other)]
    loose[:] = [f for f in loose if f is not other]
    said.append(Said("herb" if by_weight else "menstruum", other.value, other.start, other.end, said_unit=other.said_unit, words=other.words))
    said.append(Said("ratio", poured.value / told.value, poured.start, poured.end))
    work.refer(told)
    work.reading.asked[:] = [Asked("menstruum" if by_weight else "herb", 0, len(heard))]


def _water_is_poured(said: list[Said], work: Work) -> None:
    """The water on a plant is what is poured, and no water to thin a spirit with."""
    planted = "herb" in work.facts or any(s.quantity in ("herb", "ratio") for s in said)
    told = {s.quantity for s in said}
    if "decoction" in work.frames and (told | work.facts.keys()) & {"boiled_from", "boiled_to", "boiled_off", "boiled_share", "boiled_off_share"}:
        return
    if not planted:
        return
    work.frames.add("plain_water")
    if "water" in work.facts and not told & {"water", "menstruum"} and "menstruum" not in work.facts:
        water = work.facts["water"]
        said.append(Said("menstruum", water.value, 0, 0, said_unit=water.said_unit, words=water.words))
        work.reading.freed.add("water")
    if "menstruum" not in told:
        said[:] = [replace(s, quantity="menstruum", weak=False) if s.quantity == "water" and not s.member else s for s in said]
    work.reading.asked[:] = [replace(a, quantity="menstruum") if a.quantity == "water" else a for a in work.reading.asked]


__all__ = ["settle_infusion"]
