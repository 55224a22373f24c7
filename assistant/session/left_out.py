"""An ingredient left out in the breath that tells the formula: "sage 30 mL, thyme 50 mL, mallow 20 mL. She wants it without sage, same bottle"."""

from __future__ import annotations

import re

from assistant.dataclass import replace
from assistant.listening.ingredients import called
from assistant.listening.statements import Reading, Reference, Said
from assistant.patterns import looked_for

WITHOUT = looked_for(
    r"[.;,]\W*(?:[a-z']+ ){0,5}?(?:without|leave out|leaving out|left out|minus|skip|wants? no|can'?t have|cannot have|drop|no) (?:the "
    r"|any )?(?P<name>[a-z][a-z' ]{2,25}?)"
    r"(?P<behind>[,.;?!].*)?$",
    re.IGNORECASE,
)
SAME_BOTTLE = looked_for(r"\bsame (?:bottle|size|volume|amount|total)|\bstill (?:the )?(?:same|full|fill)|\bfull bottle\b|\bmade up to the same", re.IGNORECASE)


TWO_AT_HAND = looked_for(
    r"\b(?P<a>\d+) ?: ?(?P<b>\d+) (?:of )?(?P<one>[a-z]+(?: [a-z]+)?) ?(?:,|and|to|/)? ?(?P<two>[a-z]+)\b"
    r".*\b(?:have|got|only|just|there(?:'s| is))\b",
    re.IGNORECASE,
)


def two_at_hand(reading: Reading) -> None:
    """ "200 mL at 3:2 sage thyme but have just 90 sage and 90 thyme": the parts are told by the ratio, the numbers are what there is. Changes the reading."""
    lines = reading.ingredients
    hit = TWO_AT_HAND.search(reading.heard) if len(lines) == 2 else None
    if hit is None or len(lines) != 2 or any(len(i.figures) != 1 or i.figures[0][0] not in ("part", "volume") for i in lines):
        return
    if any(i.figures[0][2] < hit.end("two") for i in lines):
        return  # the amounts stand before: they are the recipe
    parts = {"one": float(hit["a"]), "two": float(hit["b"])}
    order = sorted(lines, key=lambda i: hit.group().lower().find(i.name.split()[0]))
    if any(hit.group().lower().find(i.name.split()[0]) < 0 for i in lines):
        return
    told = [
        replace(i, figures=(("part", parts[side], hit.start("a"), hit.end("b")), ("have", *i.figures[0][1:])))
        for side, i in zip(("one", "two"), order, strict=True)
    ]
    reading.ingredients[:] = told
    reading.said[:] = [s for s in reading.said if s.quantity != "ratio"]
    reading.frames.add("formula")


def left_out(reading: Reading) -> None:
    """Take the ingredient out; where the bottle stays the same, the others fill it in proportion. Changes the reading."""
    hit = WITHOUT.search(reading.heard) if len(reading.ingredients) >= 3 else None
    if hit is None:
        return
    gone = called(hit["name"].strip().lower(), [i.name for i in reading.ingredients])
    line = next((i for i in reading.ingredients if i.name == gone), None)
    if line is None or line.start >= hit.start("name"):
        return
    everything = [f for i in reading.ingredients for f in i.figures]
    reading.references += [Reference("reference", start, end, value) for _, value, start, end in line.figures]
    reading.ingredients[:] = [i for i in reading.ingredients if i.name != gone]
    reading.named[:] = [n for n in reading.named if n.name != gone]
    if SAME_BOTTLE.search(reading.heard) and all(f[0] == "volume" for f in everything):
        reading.ingredients[:] = [replace(i, figures=tuple(("part", *f[1:]) for f in i.figures)) for i in reading.ingredients]
        reading.said.append(Said("blend", sum(f[1] for f in everything), hit.start("name"), hit.end("name")))
        reading.frames.add("formula")
