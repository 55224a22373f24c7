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
