"""The weight that was just worked out, taken: "ok 400 it is, bought some in", "go with the 400"; what it was weighed and dried from is done with."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.listening.statements import Loose, Reading
from assistant.patterns import looked_for
from assistant.session.work import take_as

if TYPE_CHECKING:
    from assistant.session.conversation import Session

BEHIND = looked_for(r"^\s*(?:g|grams?)?\s*(?:it is|it['’]?s then|then\b|will do|is what|bought|of (?:it|that) then)", re.IGNORECASE)
LED = looked_for(
    r"^\W*(?:(?:ok|okay|so|right|fine|well|and|then|good|yes)\W+)*(?:(?:go|going|went) (?:with|for)|bought|got|take|make it|use|used|i['’]?ll use)\b"
    r"\W+(?:the|my|in|those|that)?\W*$",
    re.IGNORECASE,
)
WEIGHED_FROM = ("gross", "tare", "picked", "drying_ratio", "dried_water", "trim_loss")
DRIED_FROM = frozenset({"drying_ratio", "dried_water"})
NEAR = 1e-3  # of the weight: the figure shown, not another one


def settled_on(session: Session, reading: Reading) -> None:
    """Read a bare figure as the weight of plant just found for this ratio and menstruum. Changes the reading."""
    batch, last = session.batch, session.last
    if batch is None or last is None or reading.ingredients or reading.liquids or not {"ratio", "menstruum"} <= batch.facts.keys() or "herb" in batch.facts:
        return
    found = last.value("herb")
    if found is None or len(reading.figures) != 1:
        return
    figure = reading.figures[0]
    if not (figure.kind in ("#", "g") if isinstance(figure, Loose) else figure.quantity == "herb") or abs(figure.value - found) > NEAR * found:
        return
    if not BEHIND.match(reading.heard[figure.end :]) and not LED.match(reading.heard[: figure.start]):
        return
    take_as(reading, figure, "herb")
    reading.freed |= set(WEIGHED_FROM) & batch.facts.keys()
    if DRIED_FROM & batch.facts.keys():  # the dried herb was asked about, and is what goes in
        reading.tags.add("dried")
        reading.tags.discard("fresh")
