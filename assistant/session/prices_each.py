"""What each of a recipe costs, told one after another: "prices per kilo: balm 28, lime 35, rose 60", "nettle 22 a kilo, mint 18"; no new parts."""

from __future__ import annotations

import re

from assistant.listening.statements import Asked, Reading, Reference, Said
from assistant.patterns import looked_for
from assistant.quantities.units import units
from assistant.session.batch import Batch
from assistant.session.beside_each import Figure, beside_each

PRICED = looked_for(r"\b(?:pric(?:e|es|ed|ing)|costs?|costing|pay|paid|quid|pounds|euros?|dollars|pence)\b|[£$€]", re.IGNORECASE)
BY_THE = looked_for(
    r"(?:\b(?:per|a|an|the|each|by the)\s+|/\s*)(?P<many>\d+(?:\.\d+)?)?\s*"
    r"(?P<unit>kilos?|kgs?|kilogram(?:me)?s?|litres?|liters?|l|lbs?|pounds?|oz|ounces?|g|grams?|mls?)\b",
    re.IGNORECASE,
)
BARE = frozenset({"#", "n", "part", "share", "strength_of", "strength", "stock_strength", "blend_strength", "money", "water_content"})
BY_UNIT = frozenset({"per", "herb_price", "spirit_price", "price_of"})
PARTS = looked_for(r"^\s*(?:parts?|%|percent|ml|mls|g\b|drops?|days?)", re.IGNORECASE)
OF_RECIPE = frozenset({"listed", "salve", "maybe_formula", "maybe_mix", "mix", "maybe_dilution", "dilution", "formula"})


THE_LOT = looked_for(r"\b(?:whole lot|the lot|altogether|in all|all told|total|in herbs?|come to|comes to)\b", re.IGNORECASE)
COSTS = frozenset({"materials", "batch_cost", "bottle_cost", "selling_price"})


def prices_each(reading: Reading, batch: Batch | None) -> None:
    """Let a figure beside each ingredient be its price, where the sentence speaks of money or of a price by the kilo. Changes the reading."""
    if batch is None or len(batch.members) < 2:
        return
    beside = beside_each(reading, batch.members)
    if not beside or any(f.kind not in BARE | BY_UNIT for f in beside):
        return
    of_unit = next(BY_THE.finditer(reading.heard), None)
    by_unit = any(f.kind in BY_UNIT for f in beside)
    if not (by_unit or (of_unit is not None and PRICED.search(reading.heard)) or (of_unit is not None and _is_told_of_all(of_unit, beside, reading.heard))):
        return
    if any(f.kind not in BY_UNIT and PARTS.match(reading.heard[f.end :]) for f in beside):
        return
    size = 1.0 if of_unit is None else float(of_unit["many"] or 1) * _size(of_unit["unit"], reading.measures)
    told = [Said("price_of", f.value if f.kind in BY_UNIT else f.value / size, f.start, f.end, f.member) for f in beside]
    first, last = min(s.start for s in told), max(s.end for s in told)

    def inside(start: int, end: int) -> bool:
        by_the = of_unit is not None and end > of_unit.start() and start < of_unit.end()
        return (end > first and start < last) or by_the

    if of_unit is not None and of_unit["many"]:
        reading.references.append(Reference("price_of", of_unit.start("many"), of_unit.end("unit")))
    for spoken in (reading.ingredients, reading.liquids, reading.rows, reading.named, reading.mentions):
        spoken.clear()
    reading.said[:] = [s for s in reading.said if not inside(s.start, s.end)] + told
    reading.loose[:] = [f for f in reading.loose if not inside(f.start, f.end)]
    reading.asked[:] = [a for a in reading.asked if not (a.end > first and a.start < last)]
    reading.frames -= OF_RECIPE
    reading.frames.add("cost")
    reading.let_go("claim", "check")
    if THE_LOT.search(reading.heard) and not any(a.quantity in COSTS for a in reading.asked):
        reading.asked[:] = [Asked("materials", 0, 0)]


def _is_told_of_all(of_unit: re.Match[str], beside: list[Figure], heard: str) -> bool:
    """ "Per kilo: nettle 20, mint 24": ahead of the row, or right behind one of its figures."""
    return of_unit.end() <= min(f.start for f in beside) or any(heard[f.end : of_unit.start()].strip() == "" for f in beside if f.end <= of_unit.start())


def _size(unit: str, measures: str) -> float:
    known = units().spellings.get(unit.lower())
    return known.size(measures) if known is not None else 1.0


__all__ = ["prices_each"]
