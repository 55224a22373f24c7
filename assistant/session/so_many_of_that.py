"""So many bottles of a recipe that fills one: "4 bottles of that", "6 bottles", of a formula told by its parts and one volume; bags of a tea likewise."""

from __future__ import annotations

import re

from assistant.listening.statements import Act, Reading, Reference, Said, forget
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import about, base, key_for
from assistant.session.batch import Batch

MANY = looked_for(
    r"^\W*(?:(?:and|so|ok|now|then|make|do|i|we|need|want|for|what|about|if|fill|say|actually|it|that)\W+)*(?P<n>\d+|two|three|four|five|six|eight|ten|twelve)"
    r"\s+(?:(?:of (?:those|them|that|these))"
    r"|(?:such )?(?:bottles?|jars?|packets?|bags?|lots|tins|pouches)(?: (?:of|like) (?:that|it|this|those|them|the same)| worth)?)"
    r"\W*(?:then|please|now)?\W*$",
    re.IGNORECASE,
)
SIZES = frozenset({"bottle_size", "bottles", "tin_size", "tin_weight", "tins", "bags", "jar_size", "jars", "once_count", "count_wanted", "bottles_to_fill"})
WHOLE = (("formula", "blend", "bottle_size", "bottles"), ("tea", "batch", "tin_weight", "bags"))


def so_many_of_that(reading: Reading, batch: Batch | None) -> None:
    """Let what was told be the one, and the figure how many of them. Changes the reading."""
    if batch is None or len(batch.members) < 2 or len(reading.figures) != 1 or not MANY.match(reading.heard):
        return
    if {k for k in batch.facts.keys() & SIZES if k != "bottles" or batch.facts[k].value != 1}:
        return
    figure = reading.figures[0]
    if figure.value < 2 or figure.value != round(figure.value) or any(base(k) in ("have", "have_weight") for k in batch.facts):
        return
    for frame, whole, size, count in WHOLE:
        if frame not in batch.frames:
            continue
        proportioned = all(key_for("part", m) in batch.facts or key_for("share", m) in batch.facts for m in batch.members)
        forget(figure, reading.said, reading.loose)
        if proportioned and whole in batch.facts:
            one = batch.facts[whole].value
            reading.said += [Said(count, figure.value, figure.start, figure.end), Said(size, one, figure.start, figure.end)]
            reading.freed.add(whole)
            reading.frames |= {"bagged"} if frame == "tea" else set()
        elif all(base(k) in ("volume", "weight") for k in batch.facts if about(k)):
            reading.references.append(Reference("reference", figure.start, figure.end, figure.value))
            reading.acts.append(Act("scale_n", (figure.said_unit,), figure.start, figure.end, (figure.value,)))
        else:
            reading.said.append(Said(count, figure.value, figure.start, figure.end))
        return


__all__ = ["so_many_of_that"]
