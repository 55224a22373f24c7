"""A word or sign of a sentence, with its span and the part it can play in an amount."""

from __future__ import annotations

import sys

from assistant.quantities.units import Unit

# The terminals that are, or belong to, a number.
NUMERIC = frozenset("N FRACTION ZERO DIGIT TEEN TENS HUNDRED THOUSAND DOZEN COUPLE HALF DENOM".split())
# What may stand after a number, and so may be what an unknown word there was meant for.
COUNTED = frozenset("UNIT DAYS HOURS PERCENT PROOF DEGREE PART TIMES BRIX HUNDRED THOUSAND DOZEN".split())
LARGEST = 1e300  # beyond it arithmetic turns to infinity; nothing at a bench is near


class Token:
    """A word or sign of the sentence: the terminal it can be, its span, its value if it is a number."""

    __slots__ = ("end", "glued", "shares", "slack", "start", "text", "type", "unit", "value", "word")

    def __init__(self, kind: str, text: str, start: int, word: str, value: float = 0.0, slack: float = 0.0, unit: Unit | None = None) -> None:
        self.type = kind
        self.text = text
        self.start = start
        self.end = start + len(text)
        self.word = word
        self.value = value
        self.slack = slack
        self.unit = unit
        self.glued = False  # joined to the word before by a hyphen
        self.shares = False  # written as a fraction

    def __repr__(self) -> str:
        return f"{self.type}({self.text!r})"


def cap(value: float) -> float:
    """The value, kept inside what arithmetic can hold."""
    return max(-LARGEST, min(LARGEST, value)) if value == value else sys.float_info.min
