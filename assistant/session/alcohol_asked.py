"""Grams of alcohol in a small measure, asked by itself, and what is said behind it: so often a day, at another strength."""

from __future__ import annotations

import math
import re

from assistant.dataclass import replace
from assistant.listening.statements import Asked, Loose, Reading, Reference, Said
from assistant.patterns import looked_for
from assistant.quantities.units import spoon_of
from assistant.quantities.vocabulary import base
from assistant.session.batch import Batch
from assistant.session.portions import SHORT
from assistant.session.work import take_as

ALCOHOL = looked_for(r"\b(?:alcohol|ethanol|alc|booze)\b", re.IGNORECASE)
GRAMS = looked_for(r"\b(?:g|gm|gms|gr|grams?|grammes?)\b", re.IGNORECASE)
HOW_MUCH_IN = looked_for(
    r"(?:\b(?:how much|what|whats|what's|any) (?:the |pure |actual )?|^\W*(?:and |so )?)(?:alcohol|ethanol|alc|booze)\b[^.;?\d]{0,25}\b(?:in|from|with)\b",
    re.IGNORECASE,
)
IN_THE_JAR = looked_for(r"\bhow much (?:pure |actual )?(?:alcohol|ethanol)\b[^.;?\d]{0,16}\bin (?:the|that|this|my)\b", re.IGNORECASE)
OF_IT = looked_for(r"\b(?:of|from) (?:it|that|this|them|the (?:tincture|jar|bottle|extract|mix))\b", re.IGNORECASE)
BY_DAY = looked_for(r"\b(?:day|daily)\b", re.IGNORECASE)
STRENGTHS = ("strength", "stock_strength", "finished_strength")
TAKEN = frozenset({"menstruum", "blend", "pressed", "stock", "bottle_size", "dose", "spirit_in_hand"})
ASKED = frozenset({"alcohol", "alcohol_grams", "alcohol_per_dose", "menstruum", "stock", "strength", "herb"})
PLAN = frozenset({"herb", "ratio", "water_content", "in_jar"})
SPOON = looked_for(r"\b(?P<half>half (?:an? )?|1/2 )?(?:a |one )?(?:level )?(?P<kind>tsp|teaspoon|teaspoonful|tbsp|tablespoon|tablespoonful)\b", re.IGNORECASE)
MOST_TAKEN, MOST_DROPS = 15.0, 200.0
LEAST_STRENGTH, MOST_TIMES = 15.0, 12.0


def alcohol_asked(reading: Reading, batch: Batch | None) -> None:
    """Make a question for the alcohol of a small measure one about a dose. Changes the reading."""
    if reading.ingredients or reading.liquids:
        return
    if batch is not None and not reading.named and any(base(k).startswith("alcohol_per_d") for k in batch.wanted):
        _gone_on(reading, batch)
    if [a.quantity for a in reading.asked] == ["in_jar"] and IN_THE_JAR.search(reading.heard):
        reading.asked[0] = replace(reading.asked[0], quantity="alcohol")  # "how much alcohol is in the jar": not all that is in it
    if not ALCOHOL.search(reading.heard) or {a.quantity for a in reading.asked} - ASKED:
        return
    if not GRAMS.search(reading.heard) and not HOW_MUCH_IN.search(reading.heard):
        return
    told = {s.quantity for s in reading.said}
    strengths = sum(s.quantity in STRENGTHS for s in reading.said)
    of_the_jar = batch is not None and not batch.members and not strengths and batch.facts.keys() & set(STRENGTHS) and OF_IT.search(reading.heard) is not None
    if told & PLAN or (strengths != 1 and not of_the_jar):
        return
    small = [s for s in reading.said if s.quantity in TAKEN and s.value <= MOST_TAKEN and not s.member]
    drops = [f for f in reading.loose if f.kind == "drop" and f.value <= MOST_DROPS]
    if len(small) + len(drops) != 1:
        return
    for s in small:
        take_as(reading, s, "dose")
    for f in drops:
        take_as(reading, f, "dose_drops")
    reading.said[:] = [replace(s, quantity="strength", weak=False) if s.quantity in STRENGTHS else s for s in reading.said]
    reading.let_go("in_unit")
    often = any(s.quantity == "times_a_day" for s in reading.said)
    reading.asked[:] = [Asked("alcohol_per_dose", 0, len(reading.heard)), *([Asked("alcohol_per_day", 0, len(reading.heard))] if often else [])]
    reading.frames |= {"dose"}
    reading.frames -= {"maybe_dilution", "dilution"}


def _gone_on(reading: Reading, batch: Batch) -> None:
    if not batch.members and _other_measure(reading):
        return
    times = reading.act("scale_n")
    alone = not reading.said and all(BY_DAY.search(f.text) for f in reading.loose)
    if times is not None and alone and BY_DAY.search(reading.heard) and 1 <= times.figures[0] <= MOST_TIMES:
        reading.acts.remove(times)
        reading.said.append(Said("times_a_day", times.figures[0], times.start, times.end))
        reading.references[:] = [r for r in reading.references if not (times.start <= r.start < times.end)]
        reading.frames.add("dose")
        for once in [f for f in reading.loose if BY_DAY.search(f.text)]:  # "per day if it's 3 times": the day is the times'
            reading.loose.remove(once)
            reading.references.append(Reference("reference", once.start, once.end))
    if any(s.quantity == "times_a_day" for s in reading.said) and len(reading.said) == 1:
        reading.asked[:] = [Asked("alcohol_per_day", 0, len(reading.heard))]
    strength, dose = batch.facts.get("strength"), batch.facts.get("dose")
    bare = [f for f in reading.loose if f.kind == "#"]
    if strength is None or dose is None or len(bare) != 1 or reading.said or bare[0].value < LEAST_STRENGTH:
        return
    figure = bare[0]
    if abs(math.log(figure.value / strength.value)) < abs(math.log(figure.value / dose.value)):
        take_as(reading, figure, "strength")


def _other_measure(reading: Reading) -> bool:
    """ "30 drops of it", "teaspoon?", "and in 2.5 ml": another dose whose alcohol is asked for. Changes the reading; whether it was one."""
    figures: list[Said | Loose] = [*reading.said, *reading.loose]
    if len(figures) > 1 or not SHORT.match(reading.heard) or {a.quantity for a in reading.asked} - ASKED:
        return False
    spoon = SPOON.search(reading.heard)
    if not figures and spoon is None:
        return False
    if spoon is not None and not figures:
        size = spoon_of(spoon["kind"], reading.measures) * (0.5 if spoon["half"] else 1.0)
        reading.said.append(Said("dose", size, spoon.start(), spoon.end(), said_unit=spoon["kind"].lower()))
    else:
        figure = figures[0]
        in_drops = figure.quantity == "dose_drops" if isinstance(figure, Said) else figure.kind == "drop"
        in_ml = figure.quantity in TAKEN if isinstance(figure, Said) else figure.kind == "mL"
        if not (in_drops and figure.value <= MOST_DROPS) and not (in_ml and figure.value <= MOST_TAKEN):
            return False
        take_as(reading, figure, "dose_drops" if in_drops else "dose")
    reading.let_go("in_unit", "scale", "scale_n", "claim")
    reading.asked[:] = [Asked("alcohol_per_dose", 0, len(reading.heard))]
    reading.frames.add("dose")
    return True
