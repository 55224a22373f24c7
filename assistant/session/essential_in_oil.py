"""Essential oil in a carrier that is measured: "half a litre of rub oil with 1.5 % lavender oil, how much of the lavender"; in the salve in hand."""

from __future__ import annotations

import re

from assistant.listening.statements import Asked, Reading, Said
from assistant.patterns import looked_for
from assistant.session.batch import Batch
from assistant.session.merging import Merged
from assistant.session.work import take_as

OTHER_WORK = frozenset({"salve", "tea", "syrup", "formula", "mix", "written"})
OF_A_PLANT = frozenset({"herb", "ratio", "ratio_by_weight", "planned_herb", "batch", "pressed"})
PERCENTS = frozenset({"strength", "stock_strength", "share", "eo_share"})
MOST_ESSENTIAL = 10.0  # percent: no salve takes more
DROPS = looked_for(r"\bdrops?\b", re.IGNORECASE)
OF_A = looked_for(r"\s*%?\s*(?:of\s+)?", re.IGNORECASE)
NOT_MEANT = frozenset({"herb", "menstruum", "menstruum_weight", "stock", "volume"})


def essential_in_oil(merged: Merged) -> None:
    """The oil measured out is what the essential oil goes into, and its own millilitres are asked for. Changes `merged.batch`."""
    batch = merged.batch
    facts = dict(batch.facts)
    if "essential_in_it" not in batch.frames or batch.members or batch.frames & OTHER_WORK or facts.keys() & (OF_A_PLANT | {"eo_base"}):
        return
    if not {"eo_share", "menstruum"} <= facts.keys() or not merged.new_keys & {"eo_share", "menstruum"}:
        return
    facts["eo_base"] = facts.pop("menstruum")
    merged.new_keys = {"eo_base" if k == "menstruum" else k for k in merged.new_keys}
    wanted = ("eo", *(k for k in batch.wanted if k not in NOT_MEANT and k != "eo"))
    merged.batch = batch.having(facts=facts, frames=(batch.frames - {"oil"}) | {"essential"}, wanted=wanted)


def essential_in_salve(reading: Reading, batch: Batch) -> None:
    """ "1 % lavender oil in the whole lot, drops?" of the salve in hand: essential oil in it, and none of its oil. Changes the reading."""
    _with_its_salve(reading)
    if "salve" not in batch.frames or not reading.frames & {"essential_in_it", "essential"} or len(reading.ingredients) > 1:
        return
    for line in [one for one in reading.ingredients if [f[0] for f in one.figures] == ["share"]]:  # "1 % lavender essential oil": no part of the melt
        reading.ingredients.remove(line)
        _, value, start, end = line.figures[0]
        reading.said.append(Said("share", value, start, end))
    _thought_better_of(reading)
    shares = [f for f in reading.figures if (f.quantity in PERCENTS if isinstance(f, Said) else f.kind == "%") and f.value <= MOST_ESSENTIAL]
    if len(shares) != 1 or len(reading.figures) != 1:
        return
    take_as(reading, shares[0], "eo_share")
    reading.frames |= {"essential"}
    reading.frames -= {"oil", "listed"}
    reading.let_go("in_unit")
    reading.asked[:] = [Asked("eo_drops" if DROPS.search(reading.heard) else "eo", 0, len(reading.heard))]


NO = looked_for(r"\b(?:no|nah|sorry|rather|actually|make it|make that|i mean)\W+(?:(?:make it|make that|only|just|say|at)\s+)*$", re.IGNORECASE)


def _thought_better_of(reading: Reading) -> None:
    """ "5 percent lavender eo? no 1 percent": the second figure, and the first is no more. Changes the reading."""
    shares = [f for f in reading.figures if (f.quantity in PERCENTS if isinstance(f, Said) else f.kind == "%")]
    if len(shares) == 2 and NO.search(reading.heard[: shares[1].start]):
        first = shares[0]
        reading.only_points(first)


def _with_its_salve(reading: Reading) -> None:
    """ "6 salves of 60 mL, 1:4, 1 % rosemary": so little of a plant in a salve is its essential oil. Changes the reading."""
    if "salve" not in reading.frames or reading.ingredients or reading.frames & {"essential_in_it", "essential"}:
        return
    shares = [s for s in reading.said if s.quantity in PERCENTS and s.value <= MOST_ESSENTIAL]
    beside = [s for s in shares if any(OF_A.fullmatch(reading.heard[s.end : n.start]) for n in reading.named if n.start >= s.end)]
    if len(beside) == 1:
        take_as(reading, beside[0], "eo_share")
        reading.frames |= {"essential"}


__all__ = ["essential_in_oil", "essential_in_salve"]
