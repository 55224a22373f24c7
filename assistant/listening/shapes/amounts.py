"""Amounts: weights, volumes, drops and lengths of time, in bench units."""

from __future__ import annotations

from typing import Any

from assistant.listening.counts import Count, Measure, system_of
from assistant.listening.shapes.around import COUNTABLE_ONE, VESSELS, Around, Meaning
from assistant.listening.shapes.often import often
from assistant.listening.tokens import NUMERIC, Token, cap
from assistant.quantities.units import MEDICINE_TEASPOON, units

SMALLEST_ALONE = 25.0  # g or mL; nobody leaves the "a" out of a gram
_FOR_A_WHILE = frozenset("for in after within takes take last lasts lasted about under over every than wait waited macerated macerate steep steeped".split())


def amount(children: list[Any], around: Around) -> Meaning | None:
    count, measure = children
    if count.spoken and around.after() in VESSELS:
        return None  # "six fifty ml bottles" are six of 50 mL
    if measure.unit.name == "stone" and around.after() in ("fruit", "fruits", "root"):
        return None
    return amount_meaning(count, measure, around)


def amount_meaning(count: Count, measure: Measure, around: Around, also: float = 0.0) -> Meaning:
    unit, size = measure.unit, around.size(measure)
    said = cap(count.value + also)
    meaning: Meaning = {
        "kind": "amount", "value": cap(said * size), "unit": unit.bench, "said_unit": unit.shown, "said": said, "slack": count.slack * size,
    }  # fmt: skip
    if count.low is not None and count.high is not None:
        meaning["low"], meaning["high"] = cap(count.low * size), cap(count.high * size)
    if unit.name == "ounce":
        meaning["alt"] = cap(said * around.size(Measure(units().by_name["fluid_ounce"], measure.system)))
    elif unit.name == "teaspoon":
        meaning["alt"] = cap(said * MEDICINE_TEASPOON)
    return meaning


def one_amount(children: list[Any], around: Around) -> Meaning | None:
    measure: Measure = children[1]
    if measure.unit.dimension == "time":
        for_a_while = around.before() in _FOR_A_WHILE or around.after() in ("ago", "old", "or", "later", "before", "earlier")
        counted_before = around.adjoins_figure() or (len(around.items) > 1 and around.items[-2].value is not None and around.items[-1].kind == "word")
        if not for_a_while and (measure.unit.name == "day" or counted_before):
            return often(1 / measure.unit.size(), measure.unit)
    return amount_meaning(Count(1), measure, around)


HOW_OFTEN = frozenset("ONCE DAILY LATIN TIMES_BEFORE".split())


def lone_measure(children: list[Any], around: Around) -> Meaning | None:
    """One pound, kilo or litre with the "a" left out: "pound of nettle" at the head of a clause, "quart jar"."""
    measure: Measure = children[0]
    token = around.tokens[around.end - 1]
    if measure.unit.dimension == "droppers" and token.word.endswith("ful"):  # "dropperful 3x daily"
        often = around.kind_after() in HOW_OFTEN or (around.kind_after() in NUMERIC and around.kind_after(1) == "TIMES")
        return amount_meaning(Count(1), measure, around) if often and around.kind_before() not in NUMERIC else None
    if (
        around.size(measure) < SMALLEST_ALONE
        or measure.unit.dimension not in ("mass", "volume")
        or (len(token.word) < 4 and token.word not in ("cup", "lb"))
        or token.word.endswith("s")
    ):
        return None
    heads_clause = around.kind_before() in ("", "PUNCT")
    if (heads_clause and around.kind_after() == "OF") or (measure.unit.dimension == "volume" and around.after() in ("jar", "jars", "bottle", "jug", "mason")):
        return amount_meaning(Count(1), measure, around)
    return None


def amount_and_share(children: list[Any], around: Around) -> Meaning:
    count, measure, _, share = children
    return amount_meaning(count, measure, around, share.value)


def one_amount_and_share(children: list[Any], around: Around) -> Meaning:
    return amount_meaning(Count(1), children[1], around, children[3].value)


def no_amount_and_share(children: list[Any], around: Around) -> Meaning | None:
    """ "lb n a half of": the one is left unsaid."""
    if around.kind_before() in NUMERIC:
        return None
    return amount_meaning(Count(1), children[0], around, children[2].value)


def share_of_amount(children: list[Any], around: Around) -> Meaning:
    return amount_meaning(children[0], children[-1], around)


def system_share(children: list[Any], around: Around) -> Meaning:
    _, system, share, token = children
    return amount_meaning(share, Measure(token.unit, system_of(system)), around)


def amounts_between(children: list[Any], around: Around) -> Meaning | None:
    counts = [child for child in children if isinstance(child, Count)]
    measures = [child for child in children if isinstance(child, Measure)]
    low, high = (amount_meaning(count, measure, around) for count, measure in zip(counts, measures, strict=True))
    if low["unit"] != high["unit"] or low["value"] >= high["value"]:
        return None
    middle = (low["value"] + high["value"]) / 2
    return {**high, "value": middle, "low": low["value"], "high": high["value"], "alt": None, "said": middle / (high["value"] / high["said"])}


def clock(children: list[Any], around: Around) -> Meaning | None:
    count: Count = children[0]
    token = next(child for child in children if isinstance(child, Token) and child.type in ("HOURS", "DAYS"))
    assert token.unit is not None
    if token.unit.name == "second" and around.after() in COUNTABLE_ONE:
        return None
    return {**amount_meaning(count, Measure(token.unit), around), "kind": "time"}


def one_clock(children: list[Any], around: Around) -> Meaning:
    unit = children[1].unit
    return {**amount_meaning(Count(1), Measure(unit), around), "kind": "time"}
