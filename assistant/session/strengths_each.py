"""How strong each of a formula is, and the blend asked for: "the hawthorn's 45, limeflower 40 - what strength is the blend"; no new parts."""

from __future__ import annotations

import re

from assistant.dataclass import replace
from assistant.listening.ingredients import called
from assistant.listening.statements import Asked, Loose, Reading, Said
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import key_for
from assistant.session.batch import Batch
from assistant.session.work import WEIGHED

ASKS = looked_for(r"\b(?:strengths?|strong|alcohol|abv|proof)\b|\bpercent(?:age)? (?:is|of) (?:the|it|that)\b", re.IGNORECASE)
PART = looked_for(r"^\s*(?:equal )?parts?\b|^\s*[:/]\s*\d", re.IGNORECASE)
IN_ORDER = looked_for(r"\bstrengths\b|\b(?:they['’]?re|they are|respectively|in (?:that|this) order|same order|in order)\b", re.IGNORECASE)
REST = looked_for(r"\b(?:rest|others?|other two|remaining)\b[^\d.;?]{0,12}$", re.IGNORECASE)
OF_ALL = frozenset({"strength", "blend_strength", "finished_strength", "stock_strength", "alcohol", "rest", "bottles", "menstruum"})
PROPORTIONS = ("part", "share", "volume")
LEAST, MOST = 15.0, 97.0  # percent


def strengths_each(reading: Reading, batch: Batch | None) -> None:
    """Let a figure beside each ingredient be its strength where the proportions stand and the blend's strength is asked for. Changes the reading."""
    if batch is None or len(batch.members) < 2 or batch.frames & WEIGHED or not ASKS.search(reading.heard):
        return
    if not all(any(key_for(q, m) in batch.facts for q in PROPORTIONS) for m in batch.members) or {a.quantity for a in reading.asked} - OF_ALL:
        return
    told = _beside_names(reading, batch) or _in_order(reading, batch) or _and_the_rest(reading, batch) or _behind_names(reading, batch)
    if not told:
        return
    spans = [(s.start, s.end) for s in told]
    reading.ingredients.clear()
    reading.liquids.clear()
    reading.rows.clear()
    reading.named.clear()  # of all of them it is asked
    reading.mentions.clear()
    reading.said[:] = [s for s in reading.said if (s.start, s.end) not in spans] + told
    reading.loose[:] = [f for f in reading.loose if (f.start, f.end) not in spans]
    reading.frames -= {"listed", "maybe_formula", "maybe_mix", "mix"}
    reading.acts[:] = [a for a in reading.acts if a.name not in ("claim", "check")]
    reading.asked[:] = [Asked("blend_strength", 0, len(reading.heard))]


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


def _in_order(reading: Reading, batch: Batch) -> list[Said]:
    """ "Strengths are 45, 40 and 55": one for each, in the order they were told."""
    lines = [Said("strength_of", v, a, b) for line in (*reading.liquids, *reading.ingredients) for _, v, a, b in line.figures if b > a]
    bare = [f for f in reading.figures if (f.kind in ("#", "%") if isinstance(f, Loose) else f.quantity in OF_ALL)]
    figures = sorted([*lines, *bare, *(f for row in reading.rows for f in row)], key=lambda f: f.start)
    if not IN_ORDER.search(reading.heard) or len(figures) != len(batch.members) or not all(LEAST <= f.value <= MOST for f in figures):
        return []
    return [Said("strength_of", f.value, f.start, f.end, m) for f, m in zip(figures, batch.members, strict=True)]


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


def _behind_names(reading: Reading, batch: Batch) -> list[Said]:
    """ "Echinacea's 55 and the elder 30": bare figures, a name of the formula before each."""
    figures = reading.figures
    told, at = [], 0
    for f in figures:
        words = re.findall(r"[a-z]{3,}", reading.heard[at : f.start].lower())
        member = next((m for w in reversed(words) if (m := called(w, batch.members))), "")
        if not isinstance(f, Loose) or f.kind not in ("#", "%") or not member or not LEAST <= f.value <= MOST:
            return []
        told.append(Said("strength_of", f.value, f.start, f.end, member))
        at = f.end
    return told if len({s.member for s in told}) == len(told) else []
