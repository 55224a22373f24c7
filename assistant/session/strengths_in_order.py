"""Strengths of the parts of a formula in hand, told as a row in their order or each behind its name: "they're 45, 40 and 60 in that order".

Without it a row of bare figures is three spirits to blend, and its middle one the blend; and figures behind the names are new parts.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.listening.statements import Asked, Reading, Said
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import about, base
from assistant.session.batch import Batch

if TYPE_CHECKING:
    from assistant.session.conversation import Session

NUMBER = r"\d{2}(?:[.,]\d)?\s*(?:%|per ?cent|percent)?"
ROW = looked_for(rf"(?<![\d.,:]){NUMBER}(?:\s*(?:,|/|&|\band\b|\bthen\b|\bn\b|\bthe last\b)\s*(?:(?:and|n|the last)\s+)?{NUMBER}(?![\d:]))+", re.IGNORECASE)
ONE = looked_for(r"\d{2}(?:[.,]\d)?")
NO_STRENGTH = looked_for(r"^\s*(?:ml|mls|g|grams?|parts?|drops?|proof|days?|bottles?|l|litres?|oz)\b", re.IGNORECASE)
LEADS = looked_for(
    r"^\W*(?:(?:and|so|well|ok|oh|the|those|these|tinctures?|all)\s+)*(?:they'?re|they are|strengths?|abv|are|at|is|of|was|were|it's|\s|:|,)*$",
    re.IGNORECASE,
)
IN_ORDER = looked_for(r"\b(?:in (?:that|the same|this|the) order|in order|respectively|that order|as (?:named|listed))\b", re.IGNORECASE)
WEAKEST, STRONGEST = 15.0, 97.0  # percent: what tinctures are
FEWEST_TIMES = 3.0  # figures so many times the parts in hand are no parts
OF_THE_LOT = frozenset({"strength", "finished_strength", "menstruum", "batch", "blend", "bottle_size", "liquid"})
ASKS_LOT = looked_for(r"\b(?:whole|lot|bottle|mix|blend|together|altogether|it|that|formula|all)\b[^?]*\??\s*$", re.IGNORECASE)


def strengths_in_order(session: Session, reading: Reading) -> None:
    """Give each part of the formula its strength, and let the question be for the strength of the whole. Changes the reading."""
    batch = session.batch
    if batch is None or "formula" not in batch.frames or len(batch.members) < 2 or any(base(k) == "strength_of" for k in batch.facts):
        return
    told = _row(reading, batch) or _by_name(reading, batch)
    if not told:
        return
    first, last = min(s.start for s in told), max(s.end for s in told)

    def inside(start: int, end: int) -> bool:
        return end > first and start < last

    reading.said[:] = [s for s in reading.said if not inside(s.start, s.end)] + told
    reading.loose[:] = [f for f in reading.loose if not inside(f.start, f.end)]
    reading.rows[:] = [row for row in reading.rows if not any(inside(f.start, f.end) for f in row)]
    reading.ingredients.clear()
    reading.liquids.clear()
    reading.frames -= {"mix", "listed", "maybe_dilution", "dilution"}
    asked = [a for a in reading.asked if not inside(a.start, a.end) and a.quantity not in OF_THE_LOT]
    if not asked and (ASKS_LOT.search(reading.heard[last:]) or len(asked) < len(reading.asked)):
        asked = [Asked("blend_strength", last, len(reading.heard))]
    reading.asked[:] = asked


def _row(reading: Reading, batch: Batch) -> list[Said]:
    for row in ROW.finditer(reading.heard):
        ones = list(ONE.finditer(reading.heard, row.start(), row.end()))
        if len(ones) != len(batch.members) or NO_STRENGTH.match(reading.heard[row.end() :]):
            continue
        if not (IN_ORDER.search(reading.heard) or "%" in row.group() or LEADS.match(reading.heard[: row.start()])):
            continue
        values = [float(m.group().replace(",", ".")) for m in ones]
        if all(WEAKEST <= v <= STRONGEST for v in values):
            return [Said("strength_of", v, m.start(), m.end(), name) for v, m, name in zip(values, ones, batch.members, strict=True)]
    return []


def _by_name(reading: Reading, batch: Batch) -> list[Said]:
    parts = [f.value for k, f in batch.facts.items() if base(k) == "part" and about(k) in batch.members]
    if len(parts) != len(batch.members) or len(reading.ingredients) != len(parts) or reading.said:
        return []
    told = []
    for one in reading.ingredients:
        name = _member(one.name, batch)
        figures = [f for f in one.figures if f[0] == "part"]
        if not name or len(one.figures) != 1 or not figures or not WEAKEST <= figures[0][1] <= STRONGEST or figures[0][1] < FEWEST_TIMES * max(parts):
            return []
        told.append(Said("strength_of", figures[0][1], figures[0][2], figures[0][3], name))
    return told if len({s.member for s in told}) == len(parts) else []


def _member(name: str, batch: Batch) -> str:
    """The ingredient meant; a name cut short is that which begins with it."""
    if name in batch.members:
        return name
    longer = [m for m in batch.members if m.startswith(name + " ")]
    return longer[0] if len(longer) == 1 else ""


__all__ = ["strengths_in_order"]
