"""Infused oil that comes back strained, and the salve made of it: "calendula oil 120 g in 900 mL", "2 litres strained from 2.5", "got 330 back, 1 wax to 5".

The plant and the oil poured on it are no part of a salve: what was strained is its oil.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.dataclass import replace
from assistant.listening.statements import Loose, Reading, Said
from assistant.patterns import looked_for
from assistant.session.renumbering import size_said
from assistant.session.work import take_as

if TYPE_CHECKING:
    from assistant.session.batch import Batch

HEAVIEST = 3.0  # g/mL: no liquid of the bench weighs more, so it is grams of something
DENSITIES = ("menstruum_density", "eo_density")
OUT_OF = looked_for(r"\b(?:strain(?:ed)?|filtered|pressed|squeezed|came|come|got)\b[^\d.;,]*\b(?:from|out of)\s*(?:about |the |some )?$", re.IGNORECASE)
WAX = looked_for(r"\b(?:bees)?wax\b", re.IGNORECASE)
OF_THE_JAR = frozenset({"herb", "menstruum", "held_per_gram"})
AMOUNTS = frozenset({"volume", "weight"})


def oil_strained(reading: Reading, in_hand: frozenset[str]) -> None:
    """Give the figures of an infused oil, and of the salve of it, their places. Changes the reading; `in_hand` are the frames of the batch there is."""
    _grams_of_the_plant(reading)
    if "oil" in reading.frames | in_hand and "gathering" not in reading.frames and "salve" not in in_hand:
        _kept_by_the_plant(reading)
    if not reading.frames & {"oil", "salve"}:
        return
    _strained_from(reading)
    if WAX.search(reading.heard) and any(s.quantity == "ratio" for s in reading.said) and not reading.ingredients:
        reading.frames.add("salve")  # "plantain oil, how much wax for 1:5"
    _the_oil_of_it(reading)


def _grams_of_the_plant(reading: Reading) -> None:
    """ "Calendula oil 120 g in 900 mL sunflower": so many grams are the plant's, and no weight of a mL."""
    for s in [s for s in reading.said if s.quantity in DENSITIES and s.value > HEAVIEST and s.said_unit]:
        if reading.named and not any(o.quantity == "herb" for o in reading.said):
            take_as(reading, s, "herb")


LOSES = looked_for(r"\b(?:lose|lost|losing|loses)\s*(?:about |around |some )?$", re.IGNORECASE)
PLANT_LOST = looked_for(r"^\s*(?:%|percent)?\s*(?:to |as |in )?(?:the )?(?:trim\w*|stalks?|stems?|cleaning|waste|settling|filter\w*|drying)\b", re.IGNORECASE)


def _kept_by_the_plant(reading: Reading) -> None:
    """ "1:5 in olive oil, I lose 15 percent": what the plant keeps of the oil, so 85 % comes back."""
    for s in reading.said:
        if s.quantity == "trim_loss" and LOSES.search(reading.heard[: s.start]) and not PLANT_LOST.match(reading.heard[s.end :]) and s.value < WHOLE:
            take_as(reading, s, "yield_share", WHOLE - s.value)
            return


WHOLE = 100.0  # percent


def _strained_from(reading: Reading) -> None:
    """ "2 litres of plantain oil strained from 2.5": what came back, and what was poured."""
    for figure in reading.figures:
        if not OUT_OF.search(reading.heard[: figure.start]):
            continue
        back = [f for f in reading.figures if f.end <= figure.start and _is_volume(f)]
        if len(back) != 1:
            return
        bare = figure.kind == "#" if isinstance(figure, Loose) else not figure.said_unit
        poured = figure.value * (size_said(back[0].said_unit, reading.measures) if bare and figure.value < back[0].value else 1.0)
        if poured >= back[0].value and (bare or _is_volume(figure)):
            take_as(reading, figure, "menstruum", poured)
            take_as(reading, back[0], "pressed")
        return


def _is_volume(figure: Said | Loose) -> bool:
    return figure.kind == "mL" if isinstance(figure, Loose) else figure.quantity in ("menstruum", "pressed", "stock", "spirit_in_hand", "jar_size", "racked")


def _the_oil_of_it(reading: Reading) -> None:
    """ "40 g in 400 mL oil, got 330, balm 1 wax to 5 oil": the 330 mL melt, the rest was the jar's. Changes the lines and what is said."""
    if "salve" not in reading.frames:
        return
    pressed = [s for s in reading.said if s.quantity == "pressed"]
    line = next((n for n, one in enumerate(reading.ingredients) if one.name.endswith("oil") and not AMOUNTS & {q for q, *_ in one.figures}), None)
    if len(pressed) != 1 or line is None:
        return
    strained, one = pressed[0], reading.ingredients[line]
    reading.ingredients[line] = replace(one, figures=(*one.figures, ("volume", strained.value, strained.start, strained.end)))
    for s in [s for s in reading.said if s.quantity in OF_THE_JAR and not s.member]:
        reading.only_points(s)
    reading.said.remove(strained)
    reading.frames.discard("oil")
    reading.asked[:] = [a for a in reading.asked if a.quantity != "menstruum"]
    reading.let_go("correct")


def goes_on_as_salve(reading: Reading, batch: Batch) -> bool:
    """Whether wax and oil told by their parts make a salve of the infused oil in hand, and begin no other job."""
    names = {one.name.split()[-1] for one in reading.ingredients}
    told = {q for one in reading.ingredients for q, *_ in one.figures}
    infused = "oil" in batch.frames and not batch.members and bool(batch.facts.keys() & {"menstruum", "pressed", "ratio"})
    own = any(s.quantity in ("batch", "herb", "menstruum", "pressed") and not s.weak for s in reading.said)
    return infused and "salve" in reading.frames and names in ({"wax", "oil"}, {"beeswax", "oil"}) and not told & AMOUNTS and not own


__all__ = ["goes_on_as_salve", "oil_strained"]
