"""What is left once so many bottles went: "what's left of a litre after 14 x 50", "filled 9 of 100 mL from 1.2 L, what's over"."""

from __future__ import annotations

import re

from assistant.listening.statements import Asked, Loose, Reading, Reference, Said
from assistant.patterns import looked_for
from assistant.quantities.spelt import number_of
from assistant.session.batch import Batch
from assistant.session.work import said_as

SO_MANY = looked_for(
    r"(?P<n>\b(?:\d+|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|fifteen|twenty|a dozen))\s*"
    r"(?:x|×|\*|times|(?:x\s*)?(?:bottles?|lots?|phials?|vials?|jars?|flasks?|doses?)(?: of| at| each| x)?|of|(?=\d+ ?(?:ml )?(?:s\b|bottles?)))\s*"
    r"(?P<size>\d+(?:[.,]\d+)?)(?!\s*(?:%|percent|g\b|grams|drops?|days?|weeks?|people))",
    re.IGNORECASE,
)
LEFT = looked_for(
    r"\b(?:left|leftover|remain(?:s|ing|der)?|over\b(?! all)|(?:have i|do i have|i have|is there|i've) (?:still )?(?:got|still)?(?:\W*$|\W*\?))", re.IGNORECASE
)
NOT_THAT = looked_for(
    r"\bhow many\b|\bper\b|\ba day\b|\bdaily\b|\bmarc\b|\bleft over from\b|\bdays\b|\btimes a\b|\bneed\b|\benough\b|\bwant\b|\bleave\b|\bspirit\b|\bvodka\b|%",
    re.IGNORECASE,
)
POOLS = frozenset({"menstruum", "pressed", "racked", "blend", "to_bottle", "in_jar", "stock", "spirit_in_hand", "supply", "planned_menstruum", "batch"})
FROM = frozenset({"herb", "ratio", "menstruum", "in_jar", "pressed", "racked", "blend", "syrup", "to_bottle"})
MOST_BOTTLES = 2000.0
ACTS = frozenset({"aside", "doubt", "scale_n", "scale_one", "claim", "undo", "from_it"})


def left_after(reading: Reading, batch: Batch | None) -> None:
    """So many bottles of so much, out of so much: what is left is what was asked. Changes the reading."""
    many = SO_MANY.search(reading.heard)
    if many is None or reading.ingredients or reading.sizes or NOT_THAT.search(reading.heard):
        return
    if not LEFT.search(reading.heard) or (reading.frames & {"dose", "formula", "salve", "tea", "cost"}):
        return
    figures = reading.figures
    inside = [f for f in figures if many.start() <= f.start < many.end()]
    rest: list[Said | Loose] = [f for f in figures if f not in inside]
    if len(rest) > 1 or (reading.named and not rest) or any(not _is_a_volume(f) for f in rest):
        return
    if not rest and (batch is None or not batch.facts.keys() & FROM or batch.facts.keys() & {"bottles"}):
        return
    count = number_of(many["n"])
    size = float(many["size"].replace(",", "."))
    if not 1 <= count <= MOST_BOTTLES or size <= 0 or (rest and size >= rest[0].value):
        return
    told = [said_as(f, "to_bottle") if isinstance(f, Loose) else Said("to_bottle", f.value, f.start, f.end, "", f.said_unit, words=f.words) for f in rest]
    told.append(Said("bottles_to_fill", count, many.start("n"), many.end("n"), words=frozenset({"bottles"})))
    told.append(Said("bottle_size", size, many.start("size"), max([many.end("size"), *(f.end for f in inside)])))
    reading.said[:], reading.loose[:] = told, []
    reading.let_go(*ACTS)
    reading.asked[:] = [Asked("rest", 0, len(reading.heard))]
    reading.frames.add("filled")
    reading.references += [Reference("reference", f.start, f.end) for f in inside]


def _is_a_volume(figure: Said | Loose) -> bool:
    return figure.quantity in POOLS and figure.quantity != "batch" if isinstance(figure, Said) else figure.kind in ("mL", "cup")
