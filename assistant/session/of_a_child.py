"""A child told of. Beside the adult dose the figure waits for the rule of thumb, and the adult's dose is never handed on as the child's;
in other work the child's age and weight are the child's, and never the plant's."""

from __future__ import annotations

import re

from assistant.listening.statements import Asked, Loose, Reading
from assistant.patterns import looked_for
from assistant.session.batch import Batch
from assistant.session.work import CHILD_GRAMS, CHILD_RULES, DAYS_A_MONTH, SOME_WEIGHT, renamed, take_as

ADULTS = {"dose": "adult_dose", "dose_drops": "adult_drops"}
ASKS_IT = frozenset({"dose", "daily", "dose_drops", "menstruum", "child_dose", "child_drops"})
NEEDS = {"child_rule": ("clark_dose", "child_weight"), "young": ("young_dose", "child_years"), "fried": ("fried_dose", "child_months")}
RULES = {"clark": "child_rule", "young": "young", "fried": "fried"}
BARE_RULE = looked_for(
    r"^\W*(?:(?:and|by|with|use|using|or|say|ok|then|what|about|take|go|for|the)\W+)*(clark|young|fried)(?:['’]?s)?(?: rule| one)?\W*$",
    re.IGNORECASE,
)


CHILD = (
    r"(?:child|kid|kiddo|toddler|baby|infant|boy|girl|son|daughter|little one|wee one|lad|laddie|lass|lassie|youngster|bairn|"
    r"grandson|granddaughter|grandchild|niece|nephew|brother|sister)"
)
OF_THEM = r"(?:he|she|they|it|who)(?:['’]?s| is| are|['’]re)"
GOES_ON = r"(?:[\s,;:/(&+-]|\d+(?:[.,]\d+)?|\b(?:and|is|about|only|just|nearly|at|of|old|aged?|yrs?|years?|yo|months?|mths?|weigh(?:s|ing)?|around)\b)*"
BEFORE_CHILDS = looked_for(rf"\b(?:{CHILD}|{OF_THEM}|weigh(?:s|ing)|aged?)(?:['’]?s)?\b{GOES_ON}$", re.IGNORECASE)
BEHIND_CHILDS = looked_for(
    rf"^[\s-]*(?:(?:(?:old|and)\b[\s,]*)*{CHILD}\b(?! (?:picked|brought|gave|dug|got))|olds?\b(?=\W*$|[,.;?!]|\s+(?:and|can|who|with|weigh)))", re.IGNORECASE
)
SAYS_A_CHILD = looked_for(rf"\b{CHILD}\b|\baged\b|\b(?:years?|yrs?|months?)[ -]olds?\b", re.IGNORECASE)
THEIR_KILOS = looked_for(r"^\W*[\d.,/ ½¼¾]+\s*(?:kg|kgs|kilos?|kilograms?|lbs?|pounds?|stones?|st)\b", re.IGNORECASE)
DAYS_A_YEAR, OLDEST = 365, 17


def _age_and_weight(reading: Reading) -> None:
    """ "10 ml for the lad, he's 8 and 26 kg" about a syrup: how old and how heavy, and no plant, ratio or strength. Changes the reading."""
    heard = reading.heard
    if not SAYS_A_CHILD.search(heard):
        return

    def of_them(start: int, end: int) -> bool:
        return bool(BEFORE_CHILDS.search(heard[:start]) or BEHIND_CHILDS.match(heard[end:]))

    for s in [s for s in reading.said if s.weak and s.quantity in SOME_WEIGHT and CHILD_GRAMS[0] <= s.value <= CHILD_GRAMS[1]]:
        if THEIR_KILOS.match(heard[s.start : s.end]) and of_them(s.start, s.end):
            take_as(reading, s, "child_weight")
            reading.tags.add("child")
    for figure in [f for f in reading.loose if f.kind in ("#", "n", "year", "month") and of_them(f.start, f.end)]:
        aged = _aged(figure)
        if aged is None:
            continue
        reading.tags.add("child")
        if not any(s.quantity == aged[0] for s in reading.said):
            take_as(reading, figure, *aged)
        else:  # "she's 3 and her brother 7": the second is no figure of the work either
            reading.only_points(figure)


def _aged(figure: Loose) -> tuple[str, float] | None:
    """An age in the quantity it is kept in, or None: that is no child's."""
    if figure.kind == "month":
        return "child_months", figure.value / DAYS_A_MONTH
    years = figure.value / DAYS_A_YEAR if figure.kind == "year" else figure.value
    return ("child_years", years) if 1 <= years <= OLDEST else None


def of_a_child(reading: Reading, batch: Batch | None) -> None:
    """ "Kid age 4, adult dose 40 drops": the dose is the adult's, and the child's is what is asked; then "young". Changes the reading."""
    before = batch.frames if batch is not None else frozenset()
    if not (reading.frames | before) & {"child_dose", *CHILD_RULES}:
        _age_and_weight(reading)
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
