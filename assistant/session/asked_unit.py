"""The measure that an answer is asked for in: "in pints?", "how many cups of vodka", "and in ounces"."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.listening.statements import Act, Reading
from assistant.patterns import looked_for
from assistant.quantities.units import SPOONS, units
from assistant.quantities.vocabulary import VOCABULARY, base

if TYPE_CHECKING:
    from assistant.session.conversation import Session

UNIT = r"((?:fl|fluid) (?:oz|ounces)|cups|pints|quarts|gallons|ounces|oz|lit(?:re|er)s|pounds|lbs?|kilos|kg|cl|dl)"
HOW_MANY = looked_for(rf"\bhow many {UNIT}\b", re.IGNORECASE)
BEFORE = (
    r"(?:(?:and|or|so|ok|but|er|um|what['’]?s|whats|what|is|that['’]?s|thats|that|it|them|those|both|how|much|many|about|put|say|give|tell|show|me|in|as|into"
    r"|us|imperial)\W+)*"
)
ALONE = looked_for(
    rf"^\W*{BEFORE}{UNIT}(?:\W+(?:is|are|would|that|it|this|those|be|make|makes|come|to|then|altogether|in all|please|pls|now|instead))*\W*$",
    re.IGNORECASE,
)
VESSELS = frozenset({"bottle_size", "bottles", "jar_size", "jars", "tin_size", "to_bottle"})


def unit_asked(reading: Reading) -> str:
    """The unit an answer is to be told in as well, as it was written; "" where none was asked for."""
    act = reading.act("in_unit")
    if act is None:
        counted = HOW_MANY.search(reading.heard)
        return "" if counted is None else counted[1].lower()
    words = [w.lower() for w in act.arguments if any(c.isalnum() for c in w)] or [""]
    spoons = [w for w in words if (known := units().spellings.get(w)) is not None and known.name in SPOONS]
    return " ".join(words[-2:]) if words[-2:] in (["fluid", "ounces"], ["fl", "oz"]) else (spoons or words)[-1]


def told_in_it(session: Session, reading: Reading) -> None:
    """ "And in pints", "how many cups is that" behind a volume that was told: no jars of that size, but the same once more. Changes the reading."""
    batch = session.batch
    hit = ALONE.match(reading.heard) if batch is not None and len(reading.figures) <= 1 else None
    if hit is None or batch is None or session.draft is not None or batch.facts.keys() & VESSELS or len(reading.figures) > 1 or reading.named:
        return
    unit = units().spellings.get(hit[1].lower())
    if unit is None or not any(VOCABULARY[base(k)].unit == unit.bench for k in session.last_keys):
        return
    reading.said.clear()
    reading.loose.clear()
    reading.asked.clear()
    reading.let_go("whatif", "gap", "claim", "units")
    if not reading.has("in_unit"):
        reading.acts.append(Act("in_unit", (hit[1],), hit.start(1), hit.end(1)))
