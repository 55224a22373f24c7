"""Plants boiled down in water: what the pot began with, what is left of it, what was strained off, and the syrup that is made of that.

"40 g in 1.5 L, boil to half", "cooked 1.2 kg elderberries down to 900 mL", "in 2 litres till 750 mL was left", "strained I got 540". No ratio holds
between the plant and the water of a pot, and a ratio beside sugar or honey is of that to the liquid.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.listening.statements import Loose, Reading, Said
from assistant.patterns import looked_for
from assistant.session.renumbering import size_said
from assistant.session.sweets import WATERY
from assistant.session.work import SOME_LIQUID, take_as

if TYPE_CHECKING:
    from assistant.session.conversation import Session

BOILS = looked_for(
    r"\b(?:boil(?:s|ed|ing)?|simmer(?:s|ed|ing)?|reduc(?:e|es|ed|ing)|decoct(?:ed|ing|ion)?|evaporated|bubbled)\b|\bcook(?:s|ed|ing)?\b(?=.*\bdown\b)"
    r"|\bcooked\b(?=.*\b(?:in|with)\b.*\b(?:left|got|gave|juice)\b)"
    r"|\d[^.;]{0,80}\bdown to\b(?=[^.;]*\d)",  # so far at most: a long sentence costs no more at each of its figures
    re.IGNORECASE,
)
OTHERWISE = frozenset("mix formula salve oil glycerite vinegar percolation dilution maybe_dilution essential dose cost tea".split())
SPIRIT = looked_for(r"\b(?:tincture|menstruum|spirit|alcohol|vodka|brandy|rum|proof|vinegar|oxymel|glycerine?|oil|strength)\b", re.IGNORECASE)
SOFT = r"(?:\s*(?:only|just|about|around|roughly|ca|maybe|it's|there's|there was|there were|there is|i had|i have|had|have|was|is|a|the|say))*"
BROUGHT_TO = looked_for(
    rf"\b(?:to|until|till?|unti?ll?|leaves|leaving|left(?: with)?|got|get|gave|gives|giving|yield(?:ed|s|ing)?|makes|made|down|ended (?:up )?(?:at|with)|"
    rf"come out|came out|came out (?:at|as)|now|after|have|had){SOFT}\s*$",
    re.IGNORECASE,
)
IS_LEFT = looked_for(
    r"^\s*(?:of (?:\w+ )?)?(?:(?:it|that|water|juice|liquid|liquor|brew|decoction)\s+)?(?:is |was |were |are |'s |will be )?"
    r"(?:left|remain(?:s|ed|ing)?|in the (?:pan|pot)|"
    r"at the end|in the end|after(?: boiling| cooking| simmering| straining)?(?=\W*$|[,.;]))\b",
    re.IGNORECASE,
)
STRAINED = looked_for(r"\b(?:strain(?:ed|ing|s)?|squeez(?:ed|ing)|press(?:ed|ing)|filter(?:ed|ing))\b[^.;\d]{0,28}$", re.IGNORECASE)
WHEN_STRAINED = looked_for(r"^\s*(?:of (?:\w+ )?)?(?:\w+ )?(?:is |was |when |once |after )*(?:strain(?:ed|ing)|squeezed|pressed|filtered)\b", re.IGNORECASE)
BOTTLED = looked_for(r"^\s*(?:\w+\s+)?(?:bottles?|jars?|flasks?|cups?|mugs?|doses?)\b|^\s*(?:a|per|each|every) (?:day|cup|dose|bottle|jar)\b", re.IGNORECASE)
OF_ANOTHER = looked_for(r"^\s*(?:of )?(?:the |my |some |good |runny )*(?:honey|sugar|syrup|milk)\b", re.IGNORECASE)
SHARE_LED = looked_for(r"\b(?:to|until|till?|down|down to)\s*(?:about|just|only|a|the)?\s*$", re.IGNORECASE)
VOLUMES = SOME_LIQUID | {"boiled_from", "boiled_to", "boiled_off", "syrup", "jar_size"}
OF_THE_POT = frozenset({"boiled_from", "boiled_to", "boiled_share", "boiled_off", "boiled_off_share"})
STRENGTHS = frozenset({"strength", "stock_strength", "finished_strength", "spirit_in_hand", "water_content", "dried"})
Figure = Said | Loose
LEAST_BARE = 50.0  # "650 left": millilitres


def boiled_down(session: Session, reading: Reading) -> None:
    """Give the volumes of a sentence about a pot boiled down their places in it. Changes the reading."""
    batch = session.batch
    before = batch.facts.keys() & OF_THE_POT if batch is not None and "decoction" in batch.frames and not batch.members else set()
    boils = BOILS.search(reading.heard)
    if reading.frames & OTHERWISE - {"mix", "dose"} or SPIRIT.search(reading.heard) or reading.liquids:
        return
    if boils is None or not DOWN.search(reading.heard):
        _is_the_decoction(reading)
    if boils is None:
        if batch is not None and before:
            _came_of_it(reading)
            there = {batch.facts[k].value for k in before}
            for f in [f for f in reading.loose if f.kind == "#" and f.value in there and THAT.search(reading.heard[: f.start])]:
                reading.only_points(f)  # "sugar into that 800"
        return
    if any(s.quantity in STRENGTHS for s in reading.said):
        return
    _no_ingredients(reading)
    if reading.ingredients or len(reading.rows) > 1:
        return
    _place(reading, boils.start(), bool(before), DOWN_ALONE.match(boils.group()) is None)


def _came_of_it(reading: Reading) -> None:
    """ "Strained I got 540", "came to 700 in the end", after the boiling was told: the decoction there is."""
    came = [s for s in reading.said if s.quantity in ("pressed", "racked") and not s.member]
    if len(came) == 1 and not any(s.quantity in ("decoction", "ratio", "herb", "dose") for s in reading.said):
        take_as(reading, came[0], "decoction")
        reading.let_go("claim")


def _is_the_decoction(reading: Reading) -> None:
    """ "700 mL strained elder decoction": that is what is there, and no pour or pressing of a tincture."""
    for s in list(reading.said):
        poured = s.quantity in ("pressed", "menstruum", "racked") and s.said_unit and not s.member
        if poured and DECOCTION.match(reading.heard[s.end :]) and not any(o.quantity in ("herb", "ratio", "decoction") for o in reading.said):
            take_as(reading, s, "decoction")
            return


DECOCTION = looked_for(r"^\s*(?:of )?(?:(?:the|my|strained|strong|cold|good|thick|[a-z]+)\s+){0,3}?(?:decoction|infusion)\b", re.IGNORECASE)
DOWN_ALONE = looked_for(r"(?!.*(?:boil|simmer|reduc|cook|decoct))", re.IGNORECASE)
DOWN = looked_for(r"\b(?:boil|simmer|reduc|cook)\w*|\bdown\b", re.IGNORECASE)


THAT = looked_for(r"\b(?:that|the|those|this)\s*$", re.IGNORECASE)
NO_POT = (WATERY - {"water"}) | {"honey", "sugar"}


def _no_ingredients(reading: Reading) -> None:
    """ "Boiled 90 g licorice in 2 litres til 750 ml was left": lines of no recipe, where each has one volume that stands by itself in the pot."""
    lines = reading.ingredients
    if not lines or not all(len(line.figures) == 1 and line.figures[0][0] in ("volume", "weight") for line in lines):
        return
    heard = reading.heard
    weights = [line for line in lines if line.figures[0][0] == "weight"]
    known = {n.name for n in reading.named}
    if len(weights) > 1 or any(OF_ANOTHER.match(heard[line.figures[0][3] :]) for line in lines):
        return
    if any(line.name not in known for line in weights) or any(line.name.split()[-1] in NO_POT for line in lines):
        return
    for line in lines:
        quantity, value, start, end = line.figures[0]
        reading.said.append(Said("herb" if quantity == "weight" else "menstruum", value, start, end, said_unit="" if quantity == "weight" else "mL"))
    reading.ingredients.clear()
    reading.frames -= {"listed", "formula", "written"}


def _place(reading: Reading, boils: int, running: bool, boiling: bool) -> None:
    heard = reading.heard
    volumes: list[Figure] = [f for f in reading.figures if _is_volume(f, heard)]
    told = {s.quantity for s in reading.said}
    named = {s.quantity for s in reading.said if s.quantity in OF_THE_POT}
    places: dict[str, Figure] = {}
    for figure in volumes:
        if isinstance(figure, Said) and figure.quantity in OF_THE_POT:
            places[figure.quantity] = figure
            continue
        place = _where(figure, heard, boils, places, running)
        if place and place not in places:
            places[place] = figure
    _bare(reading, places, boils)
    _shared(reading, places, told)
    shares = {s.quantity for s in reading.said} & {"boiled_share", "boiled_off_share"}
    if not places.keys() & {"boiled_to", "boiled_off"} and not shares | (named - {"boiled_from"}):
        return  # nothing says how far: no pot boiled down
    if not boiling and not ({"boiled_from", "boiled_to"} <= places.keys() or shares):
        return  # "the 96 is down to 400": no pot
    for quantity, figure in places.items():
        if not (isinstance(figure, Said) and figure.quantity == quantity and not figure.weak):
            take_as(reading, figure, quantity)
    if places.keys() & {"boiled_to"} and "decoction" not in places and "decoction" not in told:
        reading.freed.add("decoction")  # boiled down further: what was there before is no more
    reading.frames.add("decoction")
    reading.frames -= {"dose", "mix"} if not told & {"dose", "daily", "times_a_day"} else set()
    reading.let_go("claim", "right") if "pressed" not in told else None


def _is_volume(figure: Figure, heard: str) -> bool:
    if BOTTLED.match(heard[figure.end :]) or OF_ANOTHER.match(heard[figure.end :]):
        return False
    if isinstance(figure, Loose):
        return figure.kind == "mL" or (figure.kind == "#" and figure.value >= LEAST_BARE and IS_LEFT.match(heard[figure.end :]) is not None)
    return figure.quantity in VOLUMES and not figure.member


def _where(figure: Figure, heard: str, boils: int, places: dict[str, Figure], running: bool) -> str:
    """The place of a volume: what was strained off, what is left in the pot, or what was there before."""
    before, behind = heard[: figure.start], heard[figure.end :]
    past = figure.start > boils
    if (STRAINED.search(before) or WHEN_STRAINED.match(behind)) and (running or places):
        return "decoction" if "boiled_to" in places or running else "boiled_to"
    if IS_LEFT.match(behind):
        return "boiled_to"
    if past and BROUGHT_TO.search(before) and not THE_PLANT.search(heard[boils : figure.start]):
        return "boiled_to"
    if "boiled_from" not in places and (running is False or not past):
        return "boiled_from"
    return ""


THE_PLANT = looked_for(r"\d\s*(?:g|grams?|oz|ounces?|kg|kilos?|lbs?|pounds?)\b(?:(?!\bdown\b)[^,.;])*\bto\s*(?:about |the |a )*$", re.IGNORECASE)


def _bare(reading: Reading, places: dict[str, Figure], boils: int) -> None:
    """ "3 pints to 1.5": what is left is told in the measure of what there was."""
    there = places.get("boiled_from")
    if there is None or "boiled_to" in places or SWEET.search(reading.heard):
        return
    size = size_said(there.said_unit, reading.measures)
    for figure in reading.figures:
        bare = figure.kind == "#" if isinstance(figure, Loose) else figure.quantity == "brix" and not figure.said_unit
        if bare and figure.start > boils and BROUGHT_TO.search(reading.heard[: figure.start]) and 0 < figure.value * size < there.value:
            places["boiled_to"] = take_as(reading, figure, "boiled_to", figure.value * size)
            return


SWEET = looked_for(r"\b(?:sugar|honey|syrup|brix|bx)\b", re.IGNORECASE)


def _shared(reading: Reading, places: dict[str, Figure], told: set[str]) -> None:
    """ "Boil 30 min to 3/4", "down to two thirds": the share of it that is left."""
    if told & {"boiled_share", "boiled_off_share", "boiled_to"} or "boiled_to" in places:
        return
    for figure in [f for f in reading.loose if f.kind == "share" and 0 < f.value < 1]:
        if SHARE_LED.search(reading.heard[: figure.start]):
            take_as(reading, figure, "boiled_share", figure.value * 100)
            return


__all__ = ["boiled_down"]
