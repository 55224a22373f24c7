"""What a quantity is: its bench unit, its caption, the bracket it cannot leave, and the names people use."""

from __future__ import annotations

from assistant.dataclass import dataclass

TINY = 1e-6
MUCH = 1e7  # ten tonnes or ten cubic metres: beyond any bench


@dataclass(frozen=True, slots=True)
class Quantity:
    """One quantity of the trade.

    name     the key in relations and replies
    unit     bench unit
    caption  the words shown to a person
    low, high   physical bracket in the bench unit
    spoken   further names people use, for the page of words and for completion
    indexed  one value for each ingredient
    """

    name: str
    unit: str
    caption: str
    low: float
    high: float
    spoken: tuple[str, ...] = ()
    indexed: bool = False
