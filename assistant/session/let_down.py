"""A tincture that came out too strong: "800 ml at 68, want it 45, how much water", and then "how much will I have after"."""

from __future__ import annotations

import re

from assistant.listening.statements import Asked, Loose, Reading, Said
from assistant.patterns import looked_for
from assistant.session.batch import Batch
from assistant.session.work import take_as

WATER = looked_for(r"\bwater\b", re.IGNORECASE)
NO_WATER_OF_PLANT = looked_for(r"\b(?:fresh|leaf|root|herb|plant|juicy|dried|dry|decoction|honey|sugar|syrup|vinegar|glycerine?)\b", re.IGNORECASE)
OF_IT_IS = looked_for(
    r"^\s*(?:mls?|l|lit(?:re|er)s?|of it|of that|of tincture|of the tincture|it|is|it['’]?s|its|at|reads?|reading|tests?|tested|measures?|comes? (?:out )?at"
    r"|came (?:out )?at|which|and|about|of|around|a|,|:|-|\s)*$",
    re.IGNORECASE,
)
WANTED = looked_for(
    r"\b(?:want|wanted|need|needs|should|shd|bring|take|get|cut|let|drop|down|to|for|like|meant|supposed|after|aim\w*|water)\b[^\d.;?]{0,24}$", re.IGNORECASE
)
MADE_FROM = looked_for(r"\b(?:make|making|from|need|want|for|fill)\s+(?:me |up |about |a |an )*$", re.IGNORECASE)
AFTER = looked_for(
    r"\b(?:how much|what|what['’]?ll|whatll|total|volume)\b[^\d]{0,40}"
    r"\b(?:after(?:wards)?|then|in the end|end up with|all told|in all|altogether|have|make|be|make it)\b[^\d]{0,16}\W*$"
    r"|^\W*(?:and )?(?:the )?total(?: (?:after|then|volume))?\W*$",
    re.IGNORECASE,
)
VOLUMES = frozenset({"menstruum", "stock", "pressed", "in_jar", "spirit_in_hand", "blend"})
STRENGTHS = frozenset({"strength", "stock_strength", "finished_strength", "water_content"})
PLANTED = frozenset({"herb", "ratio", "water_content", "bottle_size", "dose"})
OF_THE_WHOLE = frozenset({"pressed", "in_jar", "menstruum", "blend", "finished_strength"})
LEAST, MOST = 15.0, 97.0  # percent


def let_down(reading: Reading, batch: Batch | None) -> None:
    """Give these sentences their meaning. Changes the reading."""
    if reading.ingredients or reading.liquids or (batch is not None and batch.members):
        return
    if reading.figures:
        _so_much_so_strong(reading)
    elif batch is not None and _is_cut(batch) and _asks_for_the_whole(reading):
        reading.asked[:] = [Asked("menstruum", 0, len(reading.heard))]


def _asks_for_the_whole(reading: Reading) -> bool:
    others = reading.named or {a.quantity for a in reading.asked} - OF_THE_WHOLE or WATER.search(reading.heard)
    return not others and AFTER.search(reading.heard) is not None


def _is_cut(batch: Batch) -> bool:
    return {"stock", "stock_strength", "strength"} <= batch.facts.keys() and not batch.facts.keys() & PLANTED


def _so_much_so_strong(reading: Reading) -> None:
    """So much of it, so strong, and a lower strength wanted: all of it is let down with water."""
    figures = reading.figures
    if len(figures) != 3 or not WATER.search(reading.heard) or NO_WATER_OF_PLANT.search(reading.heard):
        return
    volume, strong, target = figures
    if not (volume.quantity in VOLUMES if isinstance(volume, Said) else volume.kind == "mL") or not (_is_strength(strong) and _is_strength(target)):
        return
    if not target.value < strong.value or {a.quantity for a in reading.asked} - {"water", "menstruum", "stock", "pressed"}:
        return
    heard = reading.heard
    for plant in reading.named:  # "900 ml of yarrow at 62"
        heard = heard[: plant.start] + " " * (plant.end - plant.start) + heard[plant.end :]
    between = heard[strong.end : target.start]
    if MADE_FROM.search(heard[: volume.start]) or not OF_IT_IS.match(heard[volume.end : strong.start]) or not WANTED.search(between):
        return
    take_as(reading, volume, "stock")
    take_as(reading, strong, "stock_strength")
    take_as(reading, target, "strength")
    if not any(a.quantity == "water" for a in reading.asked):
        reading.asked[:] = [Asked("water", 0, len(heard))]
    reading.frames.add("dilution")


def _is_strength(figure: Said | Loose) -> bool:
    kind = figure.quantity in STRENGTHS if isinstance(figure, Said) else figure.kind in ("#", "%")
    return kind and LEAST <= figure.value <= MOST
