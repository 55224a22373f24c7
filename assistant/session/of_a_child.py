"""A child told beside the adult dose: the figure waits for the rule of thumb, and the adult's dose is never handed on as the child's."""

from __future__ import annotations

import re

from assistant.listening.statements import Asked, Reading
from assistant.patterns import looked_for
from assistant.session.batch import Batch
from assistant.session.work import CHILD_RULES, renamed

ADULTS = {"dose": "adult_dose", "dose_drops": "adult_drops"}
ASKS_IT = frozenset({"dose", "daily", "dose_drops", "menstruum", "child_dose", "child_drops"})
NEEDS = {"child_rule": ("clark_dose", "child_weight"), "young": ("young_dose", "child_years"), "fried": ("fried_dose", "child_months")}
RULES = {"clark": "child_rule", "young": "young", "fried": "fried"}
BARE_RULE = looked_for(
    r"^\W*(?:(?:and|by|with|use|using|or|say|ok|then|what|about|take|go|for|the)\W+)*(clark|young|fried)(?:['’]?s)?(?: rule| one)?\W*$",
    re.IGNORECASE,
)


def of_a_child(reading: Reading, batch: Batch | None) -> None:
    """ "Kid age 4, adult dose 40 drops": the dose is the adult's, and the child's is what is asked; then "young". Changes the reading."""
    before = batch.frames if batch is not None else frozenset()
    told = {s.quantity for s in reading.said}
    if "child_dose" in reading.frames and not (reading.frames | before) & CHILD_RULES:
        reading.said[:] = [renamed(s, ADULTS[s.quantity]) if s.quantity in ADULTS else s for s in reading.said]
        if told & {*ADULTS, *ADULTS.values()} and not {a.quantity for a in reading.asked} - ASKS_IT:
            reading.asked[:] = [Asked("child_dose", 0, len(reading.heard))]
            if "dose_drops" in told:
                reading.frames.add("dose")  # counted in drops: so many to the mL are taken for granted
        return
    if batch is None or not before & {"child_dose", *CHILD_RULES} or not batch.facts.keys() & {*ADULTS.values()}:
        return
    bare = BARE_RULE.match(reading.heard)
    if bare is not None:  # the name of the rule alone answers which
        reading.frames.add(RULES[bare[1].lower()])
    elif told == {"child_weight"} and not (reading.frames | before) & CHILD_RULES:
        reading.frames.add("child_rule")  # asked how old or how heavy: it goes by the weight
    rules = reading.frames & CHILD_RULES or before & CHILD_RULES
    of_the_child = told <= {"child_years", "child_months", "child_weight"} and not reading.loose
    if of_the_child and (rules or told) and not {a.quantity for a in reading.asked} - ASKS_IT and (told or reading.frames & CHILD_RULES):
        lacking = [own for rule, (own, needs) in NEEDS.items() if rule in rules and needs not in told | batch.facts.keys()]
        quantity = lacking[0] if lacking else "child_drops" if rules and "adult_drops" in batch.facts else "child_dose"
        reading.asked[:] = [Asked(quantity, 0, len(reading.heard))]
