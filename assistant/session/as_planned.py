"""What a plan was, where the plant in hand was not weighed or was weighed in its bag: which of the two a weight is. Changes the reading."""

from __future__ import annotations

import re

from assistant.dataclass import replace
from assistant.listening.statements import Reading, Said
from assistant.patterns import looked_for
from assistant.session.batch import Batch

PLAN = looked_for(r"\b(?:plann?\w*|meant|intended|supposed|reckoned|budgeted|recipe|was going|were going|was gonna|wanted)\b[^.;?]*$", re.IGNORECASE)

IN_THE_BAG = looked_for(r"^\s*(?:g|grams?)?\s*(?:sitting |now )?(?:in|inside) (?:the|my|a) \w+\b", re.IGNORECASE)  # what is in it, not the whole

SCALE_IT = looked_for(r"\bscale (?:it|that|this|them|everything|the|up|down|all)\b", re.IGNORECASE)  # a verb, and no scale to read
MOST_KILOGRAMS = 50.0
FULL_BAG = looked_for(
    r"\b(?:bag|basket|tub|bowl|box|sack|tray|bucket|pail|punnet|crate|trug|container)\b (?:with|and) (?:it|them|everything|all|the lot|[a-z]+)\b[^.;?,]*$",
    re.IGNORECASE,
)


def settle_plan(reading: Reading, batch: Batch) -> None:
    """ "Was planning 300 g, how much is that": the plan itself is asked about. "Planned on 400 g; the bag is 575, empty 45": what is in the bag goes in.

    "I've 420 g in the sack", where no empty sack was weighed: the plant's own weight.
    """
    if SCALE_IT.search(reading.heard):
        reading.asked[:] = [a for a in reading.asked if a.quantity != "gross"]
    given = {s.quantity: s for s in reading.said}
    _in_kilograms_too(reading, given, batch)
    given = {s.quantity: s for s in reading.said}
    plan = given.get("planned_herb")
    ratio, poured = given.get("ratio"), given.get("menstruum")
    if plan is not None and "herb" in given and ratio is not None and poured is not None and abs(plan.value * ratio.value - poured.value) < 0.01 * poured.value:
        reading.said[:] = [replace(s, quantity="planned_menstruum", weak=False) if s is poured else s for s in reading.said]  # "was 1:5 with 1 L"
    if plan is not None and reading.asked and not given.keys() & {"herb", "gross", "picked", "planned_menstruum"} and "herb" not in batch.facts:
        reading.said[:] = [replace(s, quantity="herb", weak=False) if s is plan else s for s in reading.said]
    gross = given.get("gross")
    no_bag = not given.keys() & {"herb", "tare"} and not batch.facts.keys() & {"tare", "gross"}
    if gross is not None and no_bag and IN_THE_BAG.match(reading.heard[gross.end :]):
        reading.said[:] = [replace(s, quantity="herb", weak=False) if s is gross else s for s in reading.said]
    herb = given.get("herb")
    if herb is not None and "tare" in given and "gross" not in given and FULL_BAG.search(reading.heard[: herb.start]):
        reading.said[:] = [replace(s, quantity="gross", weak=False) if s is herb else s for s in reading.said]
    if herb is not None and {"gross", "tare"} <= given.keys() and PLAN.search(reading.heard[: herb.start]):
        reading.said[:] = [replace(s, quantity="planned_herb", weak=False) if s is herb else s for s in reading.said]


def _in_kilograms_too(reading: Reading, given: dict[str, Said], batch: Batch) -> None:
    """ "Planned 1 kg, came home with 1.4": a bare number beside a plan in kilograms is in kilograms."""
    herb, plan = given.get("herb"), given.get("planned_herb")
    unit = plan.said_unit if plan is not None else batch.facts["planned_herb"].said_unit if "planned_herb" in batch.facts else ""
    if herb is not None and not herb.said_unit and unit.lower().startswith("k") and herb.value < MOST_KILOGRAMS:
        reading.said[:] = [replace(s, value=s.value * 1000, said_unit=unit) if s is herb else s for s in reading.said]
