"""Several weights of one plant told in a row are one weight: "400 g this morning and 260 g tonight", "two jars, 1.2 kg and 800 g of nettle"."""

from __future__ import annotations

import itertools
import re

from assistant.listening.statements import Asked, Loose, Reading, Said, forget
from assistant.patterns import looked_for

JOINS = looked_for(
    r"^\W*(?:(?:of|the|my|it|that|in|on|one|other|jar|jars|bag|basket|lot|batch|first|second|another|more|then|and|plus|also|a|from|picked|got|had|was|is|with|at|by"
    r"|this|last|late|early|morning|noon|afternoon|evening|night|tonight|today|yesterday|now|later|before|after|lunch|tea|yard|garden|hedge|field|wood|lane|bottom|top)\b\W*)*$",
    re.IGNORECASE,
)
AND = looked_for(r"\b(?:and|plus|then|also|another)\b|[,+&]", re.IGNORECASE)
APART = looked_for(r"\b(?:each|apiece|separate(?:ly)?|or|not|instead|rather)\b", re.IGNORECASE)
OF_A_STATE = looked_for(r"\b(?:dry|dried|dries|drying)\b", re.IGNORECASE)
WEIGHTS = frozenset({"herb", "dried"})


def weights_together(reading: Reading) -> None:
    """Lay them together. Changes the reading."""
    if reading.ingredients or reading.liquids or len({n.name for n in reading.named if n.known}) > 1:
        return
    weights: list[Said | Loose] = [f for f in reading.figures if (f.quantity in WEIGHTS if isinstance(f, Said) else f.kind == "g")]
    if len(weights) < 2 or APART.search(reading.heard):
        return
    if any(s.quantity == "dried" for s in reading.said) and OF_A_STATE.search(reading.heard[weights[0].start : weights[-1].end]):
        return
    if any(not _joined(reading, a, b) for a, b in itertools.pairwise(weights)):
        return
    last = weights[-1]
    total = sum(w.value for w in weights)
    counted = [f for f in reading.figures if f.value == len(weights) and (f.quantity == "jars" if isinstance(f, Said) else f.kind in ("#", "n"))]
    if any(isinstance(w, Said) and w.quantity == "dried" for w in weights):  # "…, 82 % water, dried?": what they dry to is asked
        reading.asked[:] = [Asked("dried", 0, len(reading.heard))]
    for figure in (*weights[:-1], *counted):
        reading.only_points(figure)
    forget(last, reading.said, reading.loose)
    reading.said.append(Said("herb", total, last.start, last.end))


def _joined(reading: Reading, one: Said | Loose, other: Said | Loose) -> bool:
    between = reading.heard[one.end : other.start]
    if any(one.end <= start < other.start for start, _, _ in reading.numbers):
        return False
    for name in (n for n in reading.named if one.end <= n.start < other.start):
        between = between.replace(reading.heard[name.start : name.end], " ")
    return AND.search(between) is not None and JOINS.match(between) is not None


