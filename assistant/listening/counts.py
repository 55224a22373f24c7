# ruff: noqa: ARG004  (the parser calls every one with its parts)
"""What the number words of grammar/numbers.lark come to, worked out while the grammar reads them."""

from __future__ import annotations

from typing import Any

from assistant.listening.tokens import Token, cap
from assistant.quantities.units import Unit


class Count:
    """A number as said: its value, half of the last digit said (0 in words), both ends of a range, whether it is a share."""

    __slots__ = ("form", "high", "low", "share", "slack", "spoken", "value")

    def __init__(self, value: float, slack: float = 0.0, share: str = "", low: float | None = None, high: float | None = None, form: str = "") -> None:
        self.value = cap(value)
        self.slack = slack
        self.share = share  # how a part of one was said: "half", "a third", ... ; "" for a count
        self.low = low
        self.high = high
        self.spoken = False  # "two fifty" for 250
        self.form = form  # how a range was said: "-", "to", "or", "between"


class Measure:
    """A unit, and whose ("imperial pint") when that was said."""

    __slots__ = ("system", "unit")

    def __init__(self, unit: Unit, system: str = "") -> None:
        self.unit = unit
        self.system = system


_SYSTEMS = {
    "american": "us", "us": "us", "usa": "us", "british": "imperial", "uk": "imperial", "english": "imperial",
    "imperial": "imperial", "metric": "metric", "australian": "australian", "aussie": "australian",
}  # fmt: skip


def system_of(token: Token) -> str:
    """Whose measures a word means: "British" → imperial."""
    return _SYSTEMS[token.word]


class Counting:
    """The callbacks of numbers.lark, one for each named alternative."""

    @staticmethod
    def same(children: list[Any]) -> Any:
        return children[0]

    @staticmethod
    def digits(children: list[Token]) -> Count:
        token = children[0]
        return Count(token.value, token.slack, "fraction" if token.shares else "")

    @staticmethod
    def said_word(children: list[Token]) -> Count:
        return Count(children[0].value)

    @staticmethod
    def added(children: list[Any]) -> Count:
        return Count(sum(child.value for child in children))

    @staticmethod
    def added_after(children: list[Any]) -> Count:
        return Count(children[0].value + children[2].value)

    @staticmethod
    def last(children: list[Any]) -> Any:
        return children[-1]

    @staticmethod
    def scaled(children: list[Any]) -> Count:
        return Count(children[0].value * children[1].value)

    @staticmethod
    def digits_scaled(children: list[Token]) -> Count:
        return Count(children[0].value * children[1].value, children[0].slack * children[1].value)

    @staticmethod
    def one_scaled(children: list[Token]) -> Count:
        return Count(children[1].value)

    @staticmethod
    def share_of_one(children: list[Any]) -> Count:
        return Count(children[0].value * children[2].value)

    @staticmethod
    def spoken_hundreds(children: list[Any]) -> Count:
        count = Count(100 * children[0].value + children[1].value)
        count.spoken = True
        return count

    @staticmethod
    def count_and_share(children: list[Any]) -> Count:
        return Count(children[0].value + children[2].value)

    @staticmethod
    def below_zero(children: list[Any]) -> Count:
        return Count(-children[1].value, children[1].slack)

    @staticmethod
    def spelt(children: list[Token]) -> tuple[float, float]:
        value, place = 0.0, 1.0
        for token in children:
            place /= 10
            value += token.value * place
        return round(value, 12), place / 2

    @staticmethod
    def with_decimals(children: list[Any]) -> Count:
        value, slack = children[2]
        return Count(children[0].value + value, slack)

    @staticmethod
    def decimals(children: list[Any]) -> Count:
        return Count(*children[1])

    # --- shares of one thing -----------------------------------------------------------------------------------------

    @staticmethod
    def half(children: list[Token]) -> Count:
        return Count(0.5, share="half")

    @staticmethod
    def a_half(children: list[Token]) -> Count:
        return Count(0.5, share="a half")

    @staticmethod
    def counted_halves(children: list[Token]) -> Count:
        return Count(0.5 * children[0].value, share="a half")

    @staticmethod
    def one_over(children: list[Token]) -> Count:
        return Count(1 / children[0].value, share="quarter")

    @staticmethod
    def a_one_over(children: list[Token]) -> Count:
        return Count(1 / children[1].value, share="a quarter")

    @staticmethod
    def counted_over(children: list[Any]) -> Count:
        return Count(children[0].value / children[1].value, share="quarters")


class Measuring:
    """The callbacks of bench.lark for what its islands are made of: ranges and units."""

    @staticmethod
    def same(children: list[Any]) -> Any:
        return children[0]

    @staticmethod
    def ends(children: list[Any]) -> Count:
        return _range(children[0], children[2], "-")

    @staticmethod
    def pair(children: list[Any]) -> Count:
        return _range(children[0], children[2], "to")

    @staticmethod
    def ends_or(children: list[Any]) -> Count:
        return _range(children[0], children[2], "or")

    @staticmethod
    def ends_between(children: list[Any]) -> Count:
        return _range(children[1], children[3], "between")

    @staticmethod
    def unit(children: list[Token]) -> Measure:
        unit = children[0].unit
        assert unit is not None
        return Measure(unit)

    @staticmethod
    def unit_of_system(children: list[Token]) -> Measure:
        unit = children[1].unit
        assert unit is not None
        return Measure(unit, system_of(children[0]))


def _range(one: Count, other: Count, form: str) -> Count:
    return Count((one.value + other.value) / 2, min(one.slack, other.slack), low=one.value, high=other.value, form=form)
