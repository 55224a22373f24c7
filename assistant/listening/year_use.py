"""What goes out in a year, told by the week: "we get through 90 mL of it a week, what's that over 52 weeks", "60 mL a week for the year".

A year is 52 weeks, 12 months or 365 days, whichever its use is told by.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from assistant.listening.pieces import Piece
from assistant.listening.statements import Asked, Reading, Reference, Said
from assistant.patterns import looked_for

A_SPAN = looked_for(r"^(?:a|an|one|per|each|every)\s+(?:day|week|fortnight|month)$", re.IGNORECASE)
OF_A_YEAR = {"week": 52.0, "month": 12.0, "fortnight": 26.0, "day": 365.0}
SPANS = frozenset({"<day>", "<month>", "<year>"})
LEAST_DAYS = 180.0  # a shorter time is a course of somebody's, not the year
OTHER = frozenset("<drop> <:> <%> <part> <g> <oz> <money> dose drops tds bid bottle bottles left".split())
FAR = 7  # tokens between the amount and how often


def read_year_use(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading, context: frozenset[str]) -> bool:
    """Make such a use the need of a year; True where it was one. Elsewhere nothing is changed."""
    bag = set(tokens)
    going_on = "year" in context
    if bag & OTHER or tokens.count("<mL>") > 1 or not bag & {"<mL>", "<#>"} or not (bag & {"<x>", "<aday>"} or bag & SPANS):
        return False
    at = next((i for i, t in enumerate(tokens) if (t == "<mL>" or (going_on and t == "<#>")) and i not in taken), -1)
    often = _often(pieces, tokens, at) if at >= 0 else -1
    if often < 0:
        return False
    word = re.split(r"\s+", pieces[often].text.strip().lower())[-1].rstrip("s")
    if word not in OF_A_YEAR:
        return False
    span = next((i for i in range(often + 1, len(tokens)) if tokens[i] in SPANS), -1)
    if span >= 0:
        told = pieces[span].item
        days = told.value or 0.0 if told is not None else 0.0
        times = days / {"week": 7.0, "month": 30.0, "fortnight": 14.0, "day": 1.0}[word] if tokens[span] != "<year>" else OF_A_YEAR[word]
        if days < LEAST_DAYS:
            return False
    elif going_on or "year" in tokens[often:]:
        times = OF_A_YEAR[word]
    else:
        return False
    item = pieces[at].item
    if item is None or item.value is None:
        return False
    reading.said.append(Said("needed_for_year", item.value * times, pieces[at].start, pieces[at].end))
    for i in (at, often, span):
        if i >= 0:
            taken.add(i)
            reading.references.append(Reference("reference", pieces[i].start, pieces[i].end))
    if span >= 0 and {"that", "it", "this"} & set(tokens[often:span]):
        reading.asked.append(Asked("needed_for_year", pieces[often].start, pieces[span].end))
        reading.settled = True  # "what's that over 52 weeks" asks for no weight
    reading.frames.add("year")
    reading.frames -= {"dose", "reserve"}
    return True


def _often(pieces: list[Piece], tokens: Sequence[str], at: int) -> int:
    """Where it is said how often an amount goes, or -1."""
    for i in range(at + 1, min(len(tokens), at + 1 + FAR)):
        if tokens[i] in ("<x>", "<aday>") or (tokens[i] == "<day>" and A_SPAN.match(pieces[i].text)):
            return i
        if tokens[i].startswith("<"):
            return -1
    return -1


__all__ = ["read_year_use"]
