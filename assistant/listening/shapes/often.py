# ruff: noqa: ARG001  (every shape is called with both, whether it needs them or not)
"""How many times a day."""

from __future__ import annotations

from typing import Any

from assistant.listening.counts import Count
from assistant.listening.shapes.around import Around, Meaning, unit_in
from assistant.listening.tokens import Token, cap
from assistant.quantities.units import Unit

ONE_SPAN = frozenset("day week".split())


def often(value: float, unit: Unit | None = None, count: Count | None = None) -> Meaning:
    """So many times a day."""
    meaning: Meaning = {
        "kind": "frequency",
        "value": cap(value),
        "unit": "1",
        "said_unit": unit.shown if unit else "day",
        "said": count.value if count else None,
    }
    if count is not None and count.low is not None and count.high is not None and count.value:
        meaning["low"], meaning["high"] = count.low * value / count.value, count.high * value / count.value
    return meaning


def times_a_day(children: list[Any], around: Around) -> Meaning:
    count, unit = children[0], unit_in(children)
    if isinstance(count, Token):  # once, twice
        count = Count(count.value)
    return often(count.value / unit.size(), unit, count)


def times_day(children: list[Any], around: Around) -> Meaning | None:
    """ "3x day", "twice week": the little word left out. Not "three times days"."""
    return times_a_day(children, around) if children[-1].word in ONE_SPAN else None


def times_each_day_short(children: list[Any], around: Around) -> Meaning | None:
    return times_day(children[1:], around)


def times_each_day(children: list[Any], around: Around) -> Meaning:
    return times_a_day(children[1:], around)


def times_each_daily(children: list[Any], around: Around) -> Meaning:
    return times_daily(children[1:], around)


def times_daily(children: list[Any], around: Around) -> Meaning:
    count = children[0]
    if isinstance(count, Token):
        count = Count(count.value)
    return often(count.value * children[-1].value, None, count)


def daily(children: list[Token], around: Around) -> Meaning | None:
    token = children[0]
    if token.word == "od" and not around.adjoins_figure():
        return None
    return often(token.value)


def every_day(children: list[Any], around: Around) -> Meaning:
    unit = unit_in(children)
    return often(1 / unit.size(), unit)


def every_hours(children: list[Any], around: Around) -> Meaning | None:
    count = next(child for child in children if isinstance(child, Count))
    size = unit_in(children).size()
    if count.value <= 0:
        return None
    meaning = often(1 / (count.value * size))
    if count.low and count.high:
        meaning["low"], meaning["high"] = 1 / (count.high * size), 1 / (count.low * size)
    return meaning


def every_hour(children: list[Any], around: Around) -> Meaning:
    return often(1 / unit_in(children).size())


def hourly(children: list[Any], around: Around) -> Meaning | None:
    return often(24 / children[0].value) if children[0].value > 0 else None


def every_other(children: list[Any], around: Around) -> Meaning:
    return often(0.5 / unit_in(children).size())
