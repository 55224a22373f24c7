"""What one word or island of a sentence is."""

from __future__ import annotations

from typing import Any

from assistant.dataclass import dataclass


@dataclass(frozen=True, slots=True)
class Item:
    """One word or island of a sentence; `text` is the sentence from `start` to `end`.

    kind        word, punct, amount, percent, proof, ratio, parts_list, parts, number, frequency, per, temperature,
                money, label (points at something: "Question 4"), time ("ten minutes ago")
    word        of a word: lower case, spelling mended; of a label: what it labels
    value       in `unit`, a bench unit; for a ratio the R of 1:R; for a range its middle
    low, high   both ends, where a range was said
    plus_minus  "± 5 g", in `unit`
    said        the number in the unit said, `said_unit`
    slack       half of the last digit said, in `unit`; 0 for number words
    alt         the other reading (mL of an ounce, 5 mL teaspoons, the other country's proof); of a ratio both sides, of a
                parts_list every term
    """

    kind: str
    text: str
    start: int
    end: int
    word: str = ""
    value: float | None = None
    unit: str = ""
    low: float | None = None
    high: float | None = None
    plus_minus: float | None = None
    said_unit: str = ""
    alt: Any = None
    said: float | None = None
    slack: float = 0.0
