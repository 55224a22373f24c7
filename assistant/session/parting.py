"""One harvest parted between several uses: "900 g fresh nettle, dry 400 and tincture the rest 1:2 at 70". Each part is a plan of its own."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from assistant.listening.statements import Reading
from assistant.patterns import looked_for
from assistant.quantities.showing import shown
from assistant.quantities.units import units
from assistant.reply import Reply, Used
from assistant.session.batch import Batch
from assistant.session.figuring import Worked, work_out
from assistant.session.merging import lay_over
from assistant.session.several import shifted, told_beside

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

UNIT = r"(?:kgs?|kilos?|kilograms?|g|gr|gms?|grams?|lbs?|pounds?|oz|ounces?)"
NUMBER = r"\d+(?:[.,]\d+)?"
SHARES = {
    "half": 1 / 2, "1/2": 1 / 2, "third": 1 / 3, "1/3": 1 / 3, "two thirds": 2 / 3, "2/3": 2 / 3, "quarter": 1 / 4, "1/4": 1 / 4,
    "three quarters": 3 / 4, "3/4": 3 / 4, "fifth": 1 / 5, "1/5": 1 / 5,
}  # fmt: skip
WAYS = {
    "dried": r"dry|drying|dried|dries|(?:drying )?racks?|hung|hang|hanging",
    "tincture": r"tinctur\w+|macerat\w+",
    "vinegar": r"vinegar|acetum",
    "oil": r"oil|infused oil",
    "honey": r"honey",
    "glycerite": r"glycerite|glycerine?",
}
WAY = "|".join(WAYS.values())
SHARE = r"two[ -]thirds|three[ -]quarters|[23]/[34]|1/[2345]|half|third|quarter|fifth"
LEFT = r"rest|remainder|remaining|what'?s left|what is left|the others?"
SIZE = rf"(?P<weight>{NUMBER})\s*(?P<unit>{UNIT})\b|(?P<share>{SHARE})\b|(?P<left>{LEFT})\b"
BARE = rf"(?P<bare>(?<![\d.:/])\b{NUMBER})(?!\s*(?:%|:|/|ml|m?l\b|[.,]?\d|percent|degrees|bottles|jars|days|weeks))"
PART = looked_for(
    rf"(?:\b(?P<before>{WAY})\s+(?:(?:about|up|the|some|a|an|of|only|just|off|out|other)\s+)*)?\b(?:(?:the|a|an|other|one)\s+)*(?:{SIZE})"
    rf"|\b(?P<before2>{WAY})\s+(?:(?:about|up|some|only|just)\s+)*{BARE}|{BARE.replace('bare', 'bare2')}(?=\s+(?:to|for|goes|go|into)\b)",
    re.IGNORECASE,
)
TOTAL = looked_for(rf"(?:\b(?:out )?of (?:the|my|these|those|our|this)?\s*)(?P<weight>{NUMBER})\s*(?P<unit>{UNIT})\b", re.IGNORECASE)
WEIGHT = looked_for(rf"(?<![\d.:/])(?P<weight>{NUMBER})\s*(?P<unit>{UNIT})\b", re.IGNORECASE)
DESTINED = looked_for(rf"\b(?P<way>{WAY})\b", re.IGNORECASE)
DRIED = looked_for(r"\b(?:dried|dry)\b", re.IGNORECASE)
ONE_JAR = looked_for(r"\b(?:oxymel|elixir|electuary|syrup|by volume|menstruum|blend|formula|mix|parts?)\b", re.IGNORECASE)  # halves of what is poured
WET = looked_for(rf"\b{NUMBER}\s*%\s*(?:water|moisture|wet)\b|\b(?:water|moisture)\s*(?:is\s*)?{NUMBER}\s*%", re.IGNORECASE)
GLUE = looked_for(r"(?:[\s,;.:&]|\b(?:and|then|plus|the|but|use|put|with))+$", re.IGNORECASE)


class Part(NamedTuple):
    """A part of the harvest: `grams` of it, which way it goes, and where it is told in the sentence."""

    grams: float
    way: str
    start: int
    end: int
    size: tuple[int, int]


def parted(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """Each part of one harvest with its own figures; None where the sentence parts none, or its parts do not come to the whole."""
    heard = reading.heard
    plants = {n.name for n in reading.named}
    if len(plants) > 1 or session.draft is not None or not DESTINED.search(heard) or ONE_JAR.search(heard):
        return None
    whole = TOTAL.search(heard) or WEIGHT.search(heard)
    if whole is None:
        return None
    total, unit = _grams(whole["weight"], whole["unit"]), whole["unit"]
    sizes = [m for m in PART.finditer(heard) if m.end() <= whole.start() or m.start() >= whole.end()]
    parts = _parts(heard, sizes, total, unit)
    if len(parts) < 2 or abs(sum(p.grams for p in parts) - total) > 0.01 * total:
        return None
    head = heard[: parts[0].start] if whole.end() <= parts[0].start else ""
    if DESTINED.search(DRIED.sub("", head)):
        return None
    dry = bool(DRIED.search(head)) and all(p.way != "dried" for p in parts)
    plant = next(iter(plants), "")
    worked: list[Worked] = []
    used = [(whole.start("weight"), whole.end("unit"), "herb")]
    for part in parts:
        water = None if any(map(str.isdigit, head[whole.end() :])) else WET.search(heard)
        shared = (head[whole.end() :], whole.end()) if water is None or part.start <= water.start() < part.end else (water[0], water.start())
        told = _plan(session, part, f"{part.grams:g} g {'dried' if dry else 'fresh'} {plant or 'herb'} ", shared, heard, whole)
        if told is None:
            return None
        worked.append(told[0])
        used += [(*part.size, "herb"), *told[1]]
    if any(w.solution.conflicts or w.solution.impossible for w in worked):
        return None
    told_in = [(a, b, q) for a, b, q in dict.fromkeys(used) if any(map(str.isalnum, heard[a:b]))]
    answers.used += [Used(text=heard[a:b][:40], start=a, end=min(b, a + 40), quantity=q) for a, b, q in told_in]
    return told_beside(session, reading, answers, worked, [_label(plant, part) for part in parts])


def _label(plant: str, part: Part) -> str:
    """How a part is called in the reply."""
    amount = shown("herb", part.grams)
    return f"{amount} {plant} to dry".replace("  ", " ") if part.way == "dried" else f"{amount} {plant} for {part.way}".replace("  ", " ")


def _grams(number: str, unit: str) -> float:
    return float(number.replace(",", ".")) * units().spellings[unit.lower()].size("us")


def _parts(heard: str, sizes: Sequence[re.Match[str]], total: float, unit: str) -> list[Part]:
    """The parts in the order told, the rest reckoned from the others; none where one goes nowhere or two are "the rest"."""
    if len(sizes) < 2:
        return []
    found: list[tuple[float | None, str, int, int, tuple[int, int]]] = []
    first = bool(sizes[0]["before"] or sizes[0]["before2"])  # "dry 400, tincture the rest"; else "half for drying half for tincture"
    starts = [m.start() if first else _size(m)[0] for m in sizes]
    ends = [*starts[1:], len(heard)]
    for m, start, end in zip(sizes, starts, ends, strict=True):
        stretch = heard[m.end() : end]
        before, after = first and (m["before"] or m["before2"]), DESTINED.search(stretch)
        word = before or (after["way"] if after else "")
        way = next((name for name, words in WAYS.items() if re.fullmatch(words, word, re.IGNORECASE)), "")
        if not way or (m["share"] and way in ("honey", "glycerite")):  # half honey is of the liquid
            return []
        share = next((v for k, v in SHARES.items() if m["share"] and k == m["share"].lower().replace("-", " ")), None)
        bare = m["bare"] or m["bare2"]
        grams = _grams(m["weight"], m["unit"]) if m["weight"] else _grams(bare, unit) if bare else share * total if share else None
        found.append((grams, way, start, end, _size(m)))
    rest = [f for f in found if f[0] is None]
    left = total - sum(f[0] or 0.0 for f in found)
    if len(rest) > 1 or (rest and left <= 0):
        return []
    return [Part(left if g is None else g, way, a, b, size) for g, way, a, b, size in found]


def _size(m: re.Match[str]) -> tuple[int, int]:
    """Where the part's own size is told."""
    ends = (("weight", "unit"), ("bare", "bare"), ("bare2", "bare2"), ("share", "share"), ("left", "left"))
    return next((m.start(g), m.end(e)) for g, e in ends if m[g])


def _plan(
    session: Session, part: Part, begun: str, shared: tuple[str, int], heard: str, whole: re.Match[str]
) -> tuple[Worked, list[tuple[int, int, str]]] | None:
    """One part read as a sentence of its own, with the figures told of it and where in the whole sentence they stand."""
    told = list(heard[part.start : part.end])
    for a, b in (part.size, whole.span()):
        for i in range(max(a, part.start), min(b, part.end)):
            told[i - part.start] = " "
    own = "".join(told)
    cut = GLUE.search(own)
    own = own[: cut.start()] if cut else own
    if part.way == "dried":
        own = DESTINED.sub(lambda m: " " * len(m[0]), own)
    between = shared[0] if any(map(str.isdigit, shared[0])) else ""
    ahead = len(begun)
    begun = f"{begun}{between} " if between else begun
    piece = shifted(session.read(begun + own), part.start - len(begun))
    batch = Batch()
    merged = lay_over(batch, piece, session.turn, ())
    if merged.bad or merged.doubled or merged.unplaced or merged.batch.members:
        return None
    batch = merged.batch
    asked = tuple(dict.fromkeys(a.quantity for a in piece.asked if not a.member))
    if part.way == "dried":
        asked = ("dried",)
    by = part.start - len(begun)  # where the words ahead of the part were put before it
    back = shared[1] - ahead - by
    inside = range(ahead + by, ahead + by + len(between))
    used = [(a, b, q) if a >= part.start else (a + back, b + back, q) for a, b, q in merged.used if a >= part.start or a in inside]
    return work_out(batch.having(wanted=asked or batch.wanted)), used
