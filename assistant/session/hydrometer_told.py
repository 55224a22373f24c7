"""A hydrometer's reading and the warmth it was read at, in whatever order: "58 on the hydrometer, it's 15 degrees, true strength?"."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.listening.statements import Asked, Loose, Reading, Said
from assistant.patterns import looked_for
from assistant.reply import Reply
from assistant.session.batch import Batch
from assistant.session.work import take_as

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

TOOL = looked_for(r"\b(?:hydrometer|alcohol(?:o)?meter|spindle|vinometer)\b", re.IGNORECASE)
DEGREES = looked_for(r"^\s*(?:degrees?|deg|°)\s*(?:c\b|celsius)?(?!\s*(?:proof|brix|bx))|^\s*(?:celsius|centigrade|c)\b", re.IGNORECASE)
TRUE_AT = looked_for(r"\b(?:what|whats|what['’]?s|true|really|is it|would)\b[^.;]*\bat\s+$", re.IGNORECASE)
STANDARD, WARMEST = 20.0, 40.0  # °C: what the tables are for, and no spirit is gauged warmer
ASKS = looked_for(r"\b(?:what|whats|true|truly|really|real|actual|corrected?|strength)\b", re.IGNORECASE)
ALONE = frozenset({"hydrometer", "celsius"})
OF_IT = frozenset({"hydrometer", "celsius", "strength", "stock_strength", "finished_strength"})


def hydrometer_told(reading: Reading) -> None:
    """Give each of the figures its place. Changes the reading."""
    if not TOOL.search(reading.heard) or reading.ingredients or reading.liquids:
        return
    figures = [f for f in reading.figures if (f.quantity in OF_IT if isinstance(f, Said) else f.kind in ("#", "%", "C"))]
    warm = [f for f in figures if _is_warmth(f, reading.heard)]
    standard = [f for f in figures if f not in warm and f.value == STANDARD and TRUE_AT.search(reading.heard[: f.start])]
    read = [f for f in figures if f not in warm and f not in standard]
    if len(warm) != 1 or len(read) != 1:
        return
    for figure in standard:  # "what's it at 20": as all true strengths are told
        reading.only_points(figure)
    take_as(reading, warm[0], "celsius")
    take_as(reading, read[0], "hydrometer")
    reading.let_go("right", "claim")
    if ASKS.search(reading.heard):
        reading.asked[:] = [Asked("strength", 0, len(reading.heard))]


def gauged(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """The true strength of a spirit that is gauged while a mixture is in hand: of no ingredient of it. None for any other sentence."""
    batch = session.batch
    if batch is None or not batch.members or {s.quantity for s in reading.said} != ALONE or {a.quantity for a in reading.asked} != {"strength"}:
        return None
    return session.take(reading, answers, onto=Batch(), index=-1)


def _is_warmth(figure: Said | Loose, heard: str) -> bool:
    if (figure.quantity == "celsius") if isinstance(figure, Said) else figure.kind == "C":
        return True
    return figure.value <= WARMEST and (DEGREES.match(heard[figure.end :]) is not None or "deg" in heard[figure.start : figure.end].lower())
