"""How strong each of a formula is: "the hawthorn's 45, limeflower 40 - what strength is the blend", "they're 45, 40 and 60 in that order"; no new parts.

Unheard, a row of bare figures would be three spirits to blend, and figures behind the names new parts.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise

from assistant.dataclass import replace
from assistant.listening.ingredients import called
from assistant.listening.statements import Asked, Loose, Reading, Said
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import about, base, key_for
from assistant.session.batch import Batch
from assistant.session.beside_each import beside_each
from assistant.session.work import WEIGHED

ASKS = looked_for(r"\b(?:strengths?|strong|alcohol|abv|proof)\b|\bpercent(?:age)? (?:is|of) (?:the|it|that)\b", re.IGNORECASE)
ASKS_LOT = looked_for(r"\b(?:whole|lot|bottle|mix|blend|together|altogether|it|that|formula|all)\b[^?]*\??\s*$", re.IGNORECASE)
PART = looked_for(r"^\s*(?:equal )?parts?\b|^\s*[:/]\s*\d", re.IGNORECASE)
REST = looked_for(r"\b(?:rest|others?|other two|remaining)\b[^\d.;?]{0,12}$", re.IGNORECASE)
JOIN = looked_for(r"\s*(?:%|per ?cent\b|percent\b)?\s*(?:,|/|&|\band\b|\bthen\b|\bn\b|\bthe last\b|\s)*", re.IGNORECASE)
NO_STRENGTH = looked_for(r"^\s*(?:ml|mls|g|grams?|parts?|drops?|proof|days?|bottles?|l|litres?|oz)\b", re.IGNORECASE)
LEADS = looked_for(
    r"^\W*(?:(?:and|so|well|ok|oh|the|those|these|tinctures?|all)\s+)*(?:they['’]?re|they are|strengths?|abv|are|at|is|of|was|were|it's|\s|:|,)*$",
    re.IGNORECASE,
)
IN_ORDER = looked_for(
    r"\bstrengths\b|\b(?:they['’]?re|they are|respectively|in (?:that|the same|this|the) order|same order|in order|that order|as (?:named|listed))\b",
    re.IGNORECASE,
)
OF_ALL = frozenset({"strength", "blend_strength", "finished_strength", "stock_strength", "alcohol", "rest", "bottles", "menstruum"})
OF_THE_LOT = frozenset({"strength", "finished_strength", "menstruum", "batch", "blend", "bottle_size", "liquid"})
STRENGTHS = OF_ALL | {"#", "%", "n", "part", "share", "strength_of", "water_content"}  # what a strength may have been read as
PROPORTIONS = ("part", "share", "volume", "poured", "once_volume")
LEAST, MOST = 15.0, 97.0  # percent: what tinctures are
FEWEST_TOLD = 2
FEWEST_TIMES = 3.0  # figures so many times the parts in hand are no parts


def strengths_each(reading: Reading, batch: Batch | None) -> None:
    """Let a figure of each ingredient be its strength where the proportions stand. Changes the reading.

    Where the blend's strength is asked for, it may stand beside its name in any way; else a row of them in order, or figures that can be no parts.
    """
    if batch is None or len(batch.members) < 2 or batch.frames & WEIGHED:
        return
    told: list[Said] = []
    told_of = [m for m in batch.members if any(key_for(q, m) in batch.facts for q in PROPORTIONS)]
    proportioned = len(told_of) >= max(FEWEST_TOLD, len(batch.members) - 1)  # one may take the rest
    asks = ASKS.search(reading.heard) is not None and not {a.quantity for a in reading.asked} - OF_ALL
    if asks and proportioned:
        told = _by_name(reading, batch) or _in_order(reading, batch, asked=True) or _and_the_rest(reading, batch)
    of_the_lot = OF_ALL
    if not told and "formula" in batch.frames and not any(base(k) == "strength_of" for k in batch.facts):
        told, of_the_lot = _in_order(reading, batch, asked=False) or _no_parts(reading, batch), OF_THE_LOT
    if not told:
        return
    first, last = min(s.start for s in told), max(s.end for s in told)

    def inside(start: int, end: int) -> bool:
        return end > first and start < last

    reading.ingredients.clear()
    reading.liquids.clear()
    reading.rows.clear()
    reading.named.clear()  # of all of them it is asked
    reading.mentions.clear()
    reading.said[:] = [s for s in reading.said if not inside(s.start, s.end)] + told
    reading.loose[:] = [f for f in reading.loose if not inside(f.start, f.end)]
    reading.frames -= {"listed", "maybe_formula", "maybe_mix", "mix", "maybe_dilution", "dilution"}
    reading.let_go("claim", "check")
    others = [a for a in reading.asked if not inside(a.start, a.end) and a.quantity not in of_the_lot]
    if asks or (not others and (ASKS_LOT.search(reading.heard[last:]) or reading.asked)):
        others = [Asked("blend_strength", 0, len(reading.heard))]
    reading.asked[:] = others


def _by_name(reading: Reading, batch: Batch) -> list[Said]:
    """ "Echinacea's 55 and the elder 30", "skullcap is 45%, passionflower 50, balm 60": a figure beside each name, none of them a part or an amount.

    Percents that make up a whole are shares.
    """
    beside = beside_each(reading, batch.members)
    told = [Said("strength_of", f.value, f.start, f.end, f.member) for f in beside]
    if any(f.kind not in STRENGTHS or not LEAST <= f.value <= MOST or PART.match(reading.heard[f.end :]) for f in beside):
        return []
    whole = abs(sum(s.value for s in told) - 100) < 1e-6 and len(told) == len(batch.members)
    return [] if whole and all(f.kind in ("share", "%") for f in beside) else told


def _beside_names(reading: Reading, batch: Batch) -> list[Said]:
    """A figure beside each name, none of them a part, and percents only where they are no whole."""
    lines = reading.ingredients
    if not lines or reading.said or any(len(line.figures) != 1 for line in lines):
        return []
    told = []
    for line in lines:
        quantity, value, start, end = line.figures[0]
        member = called(line.name, batch.members)
        if quantity not in ("part", "share", "strength_of") or not member or not LEAST <= value <= MOST or PART.match(reading.heard[end:]):
            return []
        told.append(Said("strength_of", value, start, end, member))
    whole = abs(sum(s.value for s in told) - 100) < 1e-6 and len(told) == len(batch.members)
    return [] if whole and all(line.figures[0][0] == "share" for line in lines) else told


def _in_order(reading: Reading, batch: Batch, *, asked: bool) -> list[Said]:
    """ "Strengths are 45, 40 and 55", "45, 40, 60. whats the bottle": one for each, in the order they were told.

    asked   whether the strength was asked for; else nothing but a word of order, a percent sign or the start of the sentence makes them strengths
    """
    lines = [Said("strength_of", v, a, b) for line in (*reading.liquids, *reading.ingredients) for _, v, a, b in line.figures if b > a]
    bare = [f for f in reading.figures if (f.kind in ("#", "%") if isinstance(f, Loose) else f.quantity in OF_ALL)]
    figures = sorted([*lines, *bare, *(f for row in reading.rows for f in row)], key=lambda f: f.start)
    if len(figures) != len(batch.members) or not all(LEAST <= f.value <= MOST for f in figures):
        return []
    if not IN_ORDER.search(reading.heard) and (asked or not _is_a_row(figures, reading.heard)):
        return []
    return [Said("strength_of", f.value, f.start, f.end, m) for f, m in zip(figures, batch.members, strict=True)]


def _is_a_row(figures: Sequence[Said | Loose], heard: str) -> bool:
    if NO_STRENGTH.match(heard[figures[-1].end :]) or not all(JOIN.fullmatch(heard[a.end : b.start]) for a, b in pairwise(figures)):
        return False
    return "%" in heard[figures[0].start : figures[-1].end + 2] or LEADS.match(heard[: figures[0].start]) is not None


def _no_parts(reading: Reading, batch: Batch) -> list[Said]:
    """ "Hawthorn 45, lime 40, motherwort 60" of a formula told by parts: so much more than those that they are no new ones."""
    parts = [f.value for k, f in batch.facts.items() if base(k) == "part" and about(k) in batch.members]
    if len(parts) != len(batch.members) or len(reading.ingredients) != len(parts) or any(line.figures[0][0] != "part" for line in reading.ingredients):
        return []
    told = _beside_names(reading, batch)
    return told if len({s.member for s in told}) == len(parts) and all(s.value >= FEWEST_TIMES * max(parts) for s in told) else []


def _and_the_rest(reading: Reading, batch: Batch) -> list[Said]:
    """ "If the hawthorn's 45 and the rest 40": one by its name, the others alike."""
    figures = [f for f in reading.figures if isinstance(f, Loose) and f.kind in ("#", "%")]
    names = {m for n in reading.named if (m := called(n.name, batch.members))}
    if len(figures) != 2 or len(reading.figures) != 2 or len(names) != 1 or not REST.search(reading.heard[: figures[1].start]):
        return []
    if not all(LEAST <= f.value <= MOST for f in figures):
        return []
    first = next(iter(names))
    one, others = (Said("strength_of", f.value, f.start, f.end) for f in figures)
    return [replace(one, member=first), *(replace(others, member=m) for m in batch.members if m != first)]
