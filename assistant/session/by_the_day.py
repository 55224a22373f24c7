"""Herb or tea by the grams of a day, no cups and no tincture told: "30 g of tea a day for 3 weeks", "500 g, 30 g a day, how long"."""

from __future__ import annotations

import re

from assistant.dataclass import replace
from assistant.listening.statements import Asked, Reading, Reference, Said
from assistant.patterns import looked_for
from assistant.quantities.spelt import number_of
from assistant.session.batch import Batch
from assistant.session.work import take_as

A_DAY = looked_for(
    r"(?P<n>\d+(?:[.,]\d+)?)\s*(?:g|grams?|gm|oz|ounces?|kg)\s+(?:of\s+)?(?:[a-z]+ ){0,4}?(?:a day|per day|daily|each day|every day|/ ?day)\b", re.IGNORECASE
)
OTHERWISE = frozenset({"ratio", "herb_per_ml", "menstruum", "dose", "dose_drops", "daily", "per_cup", "cups_a_day", "spoon", "boiled_from", "cup_size"})
OTHER_WORK = frozenset({"formula", "decoction", "mix", "syrup", "salve", "year", "reserve", "regimen"})
WEIGHED = frozenset({"batch", "herb", "herb_per_dose", "herb_per_day", "dried", "picked", "per_cup", "menstruum_weight"})
ASKS_AMOUNT = frozenset({"herb", "batch", "supply", "herb_for_course", "herb_per_day", "menstruum", "daily", "herb_served"})
HOW_MUCH = looked_for(r"\bhow (?:much|many)\b|\bwhat\b|\bneed\b|\btotal\b|\bin all\b|\?", re.IGNORECASE)
ANOTHER = looked_for(
    r"^\W*(?:(?:and|or|so|what|if|about|at|with|it|its|it's|was|were|only|just|say|make|that|take|taking|use|using|how|then|of|on)\W+)*\d",
    re.IGNORECASE,
)


def by_the_day(reading: Reading, batch: Batch | None) -> None:
    """Read the grams of a day as that, and ask for what the days take, or how many days it lasts. Changes the reading."""
    facts = batch.facts if batch is not None else {}
    if "spoons_per_cup" in facts:
        _other_spoons(reading)
    frames = reading.frames | (batch.frames if batch is not None else frozenset())
    told = {s.quantity for s in reading.said}
    if frames & OTHER_WORK or (told | facts.keys()) & OTHERWISE or any(k.startswith("herb_a_day_of") for k in facts):
        return
    hit = A_DAY.search(reading.heard)
    if hit is not None:
        figure = next((f for f in reading.figures if f.start <= hit.start("n") < f.end), None)
        if figure is None or not (figure.quantity in WEIGHED if isinstance(figure, Said) else figure.kind in ("g", "oz")):
            return
        if not (isinstance(figure, Said) and figure.quantity == "herb_per_day"):
            take_as(reading, figure, "herb_per_day")
        told = {s.quantity for s in reading.said}
        reading.loose[:] = [f for f in reading.loose if not hit.start() <= f.start < hit.end()]  # the day itself
        told_of_day = hit.group().rsplit("/", 1) if "/" in hit.group() else hit.group().rsplit(maxsplit=2)
        reading.references.append(Reference("reference", hit.end() - len(told_of_day[-1]) - 1, hit.end()))
        reading.tags.discard("to_keep")  # "how long does it last" asks for how many days there is enough
    elif "herb_per_day" in facts and not reading.asked and not reading.ingredients and len(reading.figures) == 1 and ANOTHER.match(reading.heard):
        figure = reading.figures[0]  # "and at 25 g"
        grams = figure.quantity in WEIGHED if isinstance(figure, Said) else figure.kind == "g"
        if grams and figure.value < 4 * facts["herb_per_day"].value and batch is not None and batch.wanted == ("days",):
            take_as(reading, figure, "herb_per_day")
        return
    else:
        return
    reading.let_go("cautions_keeping")
    asked = {a.quantity for a in reading.asked}
    tea = "tea" in frames
    if "course" in told | facts.keys():
        if asked <= ASKS_AMOUNT and (asked or tea or HOW_MUCH.search(reading.heard)) and not (batch is not None and batch.members) and not reading.ingredients:
            reading.asked[:] = [Asked("batch" if tea else "herb_for_course", 0, len(reading.heard))]
    elif "days" in asked:
        reading.asked[:] = [Asked("days", 0, len(reading.heard))]
        if tea:
            reading.said[:] = [replace(s, quantity="batch") if s.quantity == "herb" else s for s in reading.said]
    reading.frames.add("dose")


SPOONFULS = looked_for(
    r"^(?P<n>\d+(?:[.,]\d+)?|an?|one|two|three|four|half an?)\s*(?:heaped |level )?(?:tea ?spoon(?:ful)?s?|tsps?|spoon(?:ful)?s?|tbsps?"
    r"|table ?spoon(?:ful)?s?)$",
    re.IGNORECASE,
)


def _other_spoons(reading: Reading) -> None:
    """ "And if it's 3 teaspoons": so many to a cup, where that was told."""
    figures = reading.figures
    spoons = SPOONFULS.match(reading.heard[figures[0].start : figures[0].end].strip()) if len(figures) == 1 else None
    if spoons is None or reading.asked or reading.ingredients or not ANOTHER_SPOON.match(reading.heard[: figures[0].start]):
        return
    take_as(reading, figures[0], "spoons_per_cup", number_of(spoons["n"]))


ANOTHER_SPOON = looked_for(
    r"^\W*(?:(?:and|or|so|what|if|about|at|with|it|its|it's|was|were|only|just|say|make|that|use|using|then|no|i|put)\W+)*$",
    re.IGNORECASE,
)
