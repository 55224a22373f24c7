"""Steps an apprentice tells without what they came to: "I divided 112 by 2"."""

from __future__ import annotations

import re
from collections.abc import Callable

_N = r"(\d+(?:\.\d+)?)\s*(?:g|ml|%|grams|percent)?"
# A way of telling one operation, and what it comes to from its two figures in the order they are said.
OPERATIONS: tuple[tuple[re.Pattern[str], Callable[[float, float], float]], ...] = tuple(
    (re.compile(pattern.replace("N", _N), re.IGNORECASE), work)
    for pattern, work in (
        (r"\bdivided? N by N", lambda a, b: a / b if b else 0.0),
        (r"N (?:divided by|over|/|÷) ?N", lambda a, b: a / b if b else 0.0),
        (r"\bmultipl(?:y|ied) N (?:by|with) N", lambda a, b: a * b),
        (r"N (?:times|x|×|\*|multiplied by) ?N", lambda a, b: a * b),
        (r"\b(?:took|take|subtracted|subtract) N (?:off|from|away from) N", lambda a, b: b - a),
        (r"N (?:minus|less|-|−) ?N", lambda a, b: a - b),
        (r"\badd(?:ed)? N (?:and|to|with) N", lambda a, b: a + b),
        (r"N (?:plus|\+) ?N", lambda a, b: a + b),
    )
)


def reckoned(sentence: str) -> tuple[float, ...]:
    """What the operations told in a sentence come to, in the order they are told.

    >>> reckoned("first I divided 112 by 2, then took 10 off 56 ml")
    (56.0, 46.0)
    """
    found = [(hit.start(), work(float(hit.group(1)), float(hit.group(2)))) for pattern, work in OPERATIONS for hit in pattern.finditer(sentence)]
    return tuple(value for _, value in sorted(found))
