"""What the label of something bought says is told, not claimed: "label says 86.5", "it's 37.5 on the bottle", "the jug reads 6"."""

from __future__ import annotations

import re

from assistant.listening.statements import Loose, Reading, Said
from assistant.patterns import looked_for
from assistant.session.batch import Batch
from assistant.session.work import take_as

VESSEL = r"(?:label|sticker|bottle|jug|drum|tub|canister|carton|jerrycan|container|demijohn)"
SAYS = looked_for(rf"\b{VESSEL}\b\W*(?:it )?(?:says|said|reads|states|has|gives|shows)\W*(?:it['’]?s |it is |its |at |about |only |just )*$", re.IGNORECASE)
IT_SAYS = looked_for(r"\b(?:it|that|this)\W+says\W+(?:it['’]?s |about |only )*$", re.IGNORECASE)
ON_IT = looked_for(rf"^\s*(?:%|percent)?\s*(?:is |it says |says |written |printed )*(?:on|by|going by) (?:the |my |its |that )?{VESSEL}\b", re.IGNORECASE)
LEAST, MOST = 3.0, 100.0  # percent
STRENGTHS = frozenset({"strength", "stock_strength", "glycerine", "acidity"})
STRONGEST_VINEGAR = 30.0  # percent


def by_the_label(reading: Reading, batch: Batch | None) -> None:
    """Give the one figure the strength of what was bought, as the work in hand has it. Changes the reading."""
    if batch is None or reading.has("check") or reading.has("check_that") or reading.ingredients or len(reading.figures) != 1:
        return
    figure = reading.figures[0]
    percent = figure.quantity in STRENGTHS if isinstance(figure, Said) else figure.kind in ("#", "%")
    if not percent or not LEAST <= figure.value <= MOST:
        return
    itself = IT_SAYS.search(reading.heard[: figure.start]) is not None  # "hold on, it says 95 %"
    if not (itself or SAYS.search(reading.heard[: figure.start]) or ON_IT.match(reading.heard[figure.end :])):
        return
    quantity = _strength_of(figure, batch)
    if itself and quantity != "stock_strength":
        return
    if not quantity:
        return
    take_as(reading, figure, quantity)
    reading.let_go("claim", "right", "is_it")
    reading.tags.discard("label")  # it is read, not written


def _strength_of(figure: Said | Loose, batch: Batch) -> str:
    if "glycerite" in batch.frames:
        return "glycerine_stock" if "glycerine" in batch.facts and "neat" not in batch.tags else "glycerine"
    if "vinegar" in batch.frames:
        return "acidity" if figure.value <= STRONGEST_VINEGAR else ""
    poured = batch.facts.get("strength")
    if "stock_strength" in batch.facts or (poured is not None and figure.value > poured.value):
        return "stock_strength"
    return "strength" if poured is not None else ""
