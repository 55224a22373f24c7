"""A unit said alone asks for what was told last in that unit: "in fl oz", "how many pints is that", "cups?".

Where jars or bottles are spoken of, "in pints" is their size.
"""

from __future__ import annotations

import re

from assistant.listening.statements import Act, Reading
from assistant.patterns import looked_for
from assistant.quantities.units import SPOONS, units
from assistant.session.batch import Batch
from assistant.session.wording import UNITS_ASKED

ALONE = looked_for(
    r"^\W*(?:(?:and|so|ok|but|er|um)\W+)*(?P<how>how (?:many|much)(?: in)?|what['’]?s (?:that|it)(?: come to)? in|what is (?:that|it) in|"
    r"(?:that['’]?s|thats|is that|that) how many|"
    r"(?:give|tell|show|say)(?: it| that| me)*(?: in)?|(?:that|it|them|those|both|all)? ?(?:in|as|into))?\W*"
    r"(?:us|imperial|american|british)?\s*(?P<unit>fl\.? ?oz|fluid (?:ounces?|oz)|[a-z]+)\W*"
    r"(?:(?:is|are|does|do|would|of|then|please|pls|now|that|it|this|be|come|to|make|makes|all|in all)\b\W*)*$",
    re.IGNORECASE,
)
VESSELS = frozenset({"bottle_size", "jar_size", "bottles", "jars", "tin_size"})
ASKS = ("how", "what", "that", "is that", "give", "tell", "show")


def unit_alone(reading: Reading, batch: Batch | None, told: bool) -> None:
    """Ask for the last answer in that unit, where anything was told. Changes the reading."""
    if batch is None or not told or reading.has("in_unit") or reading.named or reading.ingredients:
        return
    alone = ALONE.match(reading.heard)
    if alone is None:
        return
    name = alone["unit"].lower()
    known = units().spellings.get(name)
    if known is None or known.name not in UNITS_ASKED or known.name in ("teaspoon", "tablespoon"):
        return
    outright = (alone["how"] or "").lower().startswith(ASKS)
    if not outright and batch.facts.keys() & VESSELS:
        return  # "in pints" of what is bottled: their size
    if any(not s.weak and s.quantity not in VESSELS | {"menstruum"} for s in reading.said):
        return
    reading.said.clear()
    reading.loose.clear()
    reading.asked.clear()
    reading.acts[:] = [Act("in_unit", (name,), alone.start("unit"), alone.end("unit"))]


def unit_asked(reading: Reading) -> str:
    """The unit an answer is asked in, or ""."""
    act = reading.act("in_unit")
    if act is None:
        return ""
    words = [w.lower() for w in act.arguments if any(c.isalnum() for c in w)] or [""]
    spoons = [w for w in words if (known := units().spellings.get(w)) is not None and known.name in SPOONS]
    return " ".join(words[-2:]) if words[-2:] in (["fluid", "ounces"], ["fl", "oz"]) else (spoons or words)[-1]
