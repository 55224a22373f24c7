"""What is drunk by the cup: the plant of a decoction for so many days is that of all its cups; "at 2 cups?" of a tea are so many a day."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.dataclass import replace
from assistant.listening.statements import Reading, Said, forget
from assistant.patterns import looked_for
from assistant.session.batch import Batch
from assistant.session.renumbering import size_said

if TYPE_CHECKING:
    from assistant.session.conversation import Session

CUPS = looked_for(r"(?P<many>\d+(?:\.\d+)?)\s*(?:cups?|mugs?)\b(?!\s*of\b)", re.IGNORECASE)
ALONE = looked_for(
    r"^\W*(?:(?:and|at|with|only|just|no|nah|if|what|about|how|but|say|then|so|ok|okay|make|it|that|it['’]?s|to|down|up|cut|drop|drops|she|he|they|i|we|drinks?"
    r"|takes?|has|have|having|one|day|a|is|was|now|actually|sorry|rather|instead)\W+)*$",
    re.IGNORECASE,
)
MOST = 12.0  # cups: nobody drinks more in a day
PLANT = frozenset({"herb", "batch", "herb_for_course"})


def cups_of_it(session: Session, reading: Reading) -> None:
    """ "3 cups a day for a week. root altogether". Changes the reading's asked."""
    batch = session.batch
    if batch is not None:
        _so_many_a_day(reading, batch)
    if batch is None or "decoction" not in batch.frames or not {"herb", "boiled_to", "cup_size"} <= batch.facts.keys():
        return
    said = {s.quantity for s in reading.said}
    if {"cups_a_day", "course"} <= said | batch.facts.keys() and said & {"cups_a_day", "course"}:
        reading.asked[:] = [replace(a, quantity="herb_for_days") if a.quantity in PLANT else a for a in reading.asked]
        reading.frames -= {"tea"}


def _so_many_a_day(reading: Reading, batch: Batch) -> None:
    """ "At 2 cups?", "no just 1 cup" of a tea reckoned by cups a day. Changes the reading."""
    if not {"cups_a_day", "per_cup"} <= batch.facts.keys() or "cups" in batch.facts or "decoction" in batch.frames or reading.ingredients:
        return
    cups = [f for f in reading.figures if f.said_unit.startswith("cup") or CUPS.match(reading.heard, f.start)]
    others = [f for f in reading.figures if f not in cups and not (isinstance(f, Said) and f.quantity == "course")]
    if len(cups) != 1 or others or not ALONE.match(reading.heard[: cups[0].start]) or any(a.quantity in ("cups", "cups_a_day") for a in reading.asked):
        return
    count = CUPS.match(reading.heard, cups[0].start)
    figure = cups[0]
    many = float(count["many"]) if count is not None and count["many"] else figure.value / size_said(figure.said_unit, reading.measures)
    if many > MOST:
        return
    forget(figure, reading.said, reading.loose)
    reading.said.append(Said("cups_a_day", many, figure.start, figure.end))
    reading.let_go("correct", "swap")


__all__ = ["cups_of_it"]
