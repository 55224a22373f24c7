"""Droppers described: counted by their drops, or the official one; and what they were counted with."""

from __future__ import annotations

import re

from assistant.dataclass import replace
from assistant.listening.statements import Asked, Reading, Reference, Tool
from assistant.listening.token_row import TokenRow
from assistant.patterns import looked_for

COUNTED_WITH = looked_for(r"<drop/mL> (?:[^<>.;?! ]+ ){0,3}?(?:of|with|in|from|using) (?:[^<>.;?! ]+ ){0,3}?<%> ")
OFFICIAL = frozenset("usp official pharmacopoeia pharmacopeia pharmacopoeial medicine".split())
COUNTED = frozenset("counted count dropper droppers pipette mine my".split())


def dropper(row: TokenRow, taken: set[int], reading: Reading, at: int) -> None:
    """A dropper that was counted; its drops go on to the batch as they did, and the instrument is remembered beside."""
    per_ml = next((n for n, token in enumerate(row.tokens) if token == "<drop/mL>" and n not in taken), None)
    if per_ml is None and OFFICIAL & set(row.tokens) and not any(t.startswith("<") for t in row.tokens):
        start, end = row.span(at, at + 1)
        reading.tools.append(Tool("dropper", "dropper", standard="USP <1101>", start=start, end=end))
        return
    if per_ml is None or any(t.kind == "dropper" for t in reading.tools):
        return
    start, end = row.span(min(at, per_ml), max(at, per_ml) + 1)
    reading.tools.append(Tool("dropper", "dropper", per_ml=row.value(per_ml), start=start, end=end))


def counted_drops(row: TokenRow, taken: set[int], reading: Reading) -> None:
    """What the drops were counted with is no strength of the batch: "38 drops to the ml with the 60 % stuff"."""
    for _, a, b in row.find(COUNTED_WITH):
        if "dose" in reading.frames and "@" in row.tokens[a:b]:
            continue
        drops, strength = row.islands(a, b, ("<drop/mL>",))[0], row.islands(a, b, ("<%>",))[-1]
        if strength in taken or not set(row.tokens) & COUNTED:
            continue
        taken.add(strength)
        reading.references.append(Reference("reference", row.pieces[strength].start, row.pieces[strength].end, row.value(strength)))
        start, end = row.span(drops, strength + 1)
        reading.tools = [t for t in reading.tools if t.kind != "dropper"]
        reading.tools.append(Tool("dropper", "dropper", per_ml=row.value(drops), strength=row.value(strength), start=start, end=end))
    if not any(t.kind == "dropper" for t in reading.tools) and {"counted", "count"} & set(row.tokens):
        dropper(row, taken, reading, next((n for n, token in enumerate(row.tokens) if token == "<drop/mL>"), 0))


IN_ML = looked_for(r"[\d., ]+(?:drops?|gtts?)?\s*(?:(?:is|are|in|as|to|makes?|gives?|=)\s+)*(?:(?:how (?:many|much)|what|the)\s+)*(?:ml|millilit)", re.I)
ASKS = looked_for(r"\bwhat(?:'?s| is| are)?\s*$|\bhow (?:much|many)(?: is| are)?\s*$", re.I)


def drops_turned(reading: Reading) -> None:
    """ "34 drops to the ml. 25 drops in ml?": the one counts the dropper, the other is a dose to be turned into mL. Changes the reading."""
    counts = sorted((s for s in reading.said if s.quantity == "drops_per_ml"), key=lambda s: s.start)
    if len(counts) != 2:
        return
    dose = counts[1]
    heard = reading.heard
    if IN_ML.match(heard[dose.start :]) is None or not ("?" in heard[dose.end :] or ASKS.search(heard[: dose.start])):
        return
    reading.said[reading.said.index(dose)] = replace(dose, quantity="dose_drops", weak=False)
    reading.asked.append(Asked("dose", dose.start, dose.end))
    reading.let_go("in_unit")
    reading.frames.add("dose")
