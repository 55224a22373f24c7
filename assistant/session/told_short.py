"""A strength told short behind a plan: "the label says 40", "and with 40 %", "the 25 % one", "if that's 96". What it is hangs on what is in hand."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from assistant.dataclass import replace
from assistant.listening.statements import Asked, Loose, Reading, Said
from assistant.session.batch import Batch, Fact

STRENGTHS = frozenset({"strength", "stock_strength", "finished_strength", "water_content", "glycerine"})
WATER = re.compile(r"\b(?:water|wet|moisture|juicy|juice|dry|dried)\b", re.IGNORECASE)
ON_THE_SHELF = re.compile(r"\b(?:have|got|has|only|shelf|cupboard|from|out of|i've|ive|there'?s|strongest|stock|dilut\w+|cut|water|spirit)\b", re.IGNORECASE)
LABEL = re.compile(r"\b(?:label|bottle|it|its|it's|that|that's|thats|says|reads|stuff|proof|sticker|printed|vodka|brandy|spirit|gin|rum|one)\b", re.IGNORECASE)
IN_THE_JAR = re.compile(r"\b(?:how strong|what strength|strength|what does it (?:finish|end|come out)|where does)\b", re.IGNORECASE)
AMERICAN = re.compile(r"\b(?:us|usa|american|america)\b", re.IGNORECASE)
UK_FOR_US = 0.5715 / 0.5  # 100 degrees of British proof are 57.15 %, 100 US proof 50 %
LEAST, MOST = 15.0, 100.0  # percent


def told_short(reading: Reading, batch: Batch | None, wants: Sequence[str]) -> None:
    """Give the one strength of a short sentence its quantity, by the batch in hand. Changes the reading."""
    if batch is not None:
        _the_same_proof(reading, batch)
    if batch is None or reading.ingredients or reading.liquids or reading.named:
        return
    figures: list[Said | Loose] = [*[s for s in reading.said if s.quantity in STRENGTHS], *[f for f in reading.loose if f.kind in ("#", "%")]]
    if len(figures) != 1 or len(reading.said) + len(reading.loose) != 1 or not LEAST <= figures[0].value <= MOST:
        return
    figure, facts = figures[0], batch.facts
    of_water = WATER.search(reading.heard) is not None
    if "stock_strength" in wants and not of_water and isinstance(figure, Loose) and LABEL.search(reading.heard):
        reading.acts[:] = [a for a in reading.acts if a.name not in ("claim", "check", "verify")]
        _call(reading, figure, "stock_strength")
    elif isinstance(figure, Loose):
        return
    elif figure.quantity in ("strength", "stock_strength", "glycerine") and "finished_glycerine" in facts and "glycerine" not in facts:
        _call(reading, figure, "finished_glycerine")
    elif figure.quantity == "stock_strength" and "strength" in facts and "stock_strength" not in facts and not ON_THE_SHELF.search(reading.heard):
        if figure.value <= facts["strength"].value or "dose" in batch.frames:
            _call(reading, figure, "strength")  # no spirit to let down: another strength for the one poured
    elif figure.quantity in ("water_content", "strength") and _poured_on_it(facts, of_water, reading.heard):
        _call(reading, figure, "strength")
        reading.asked[:] = [Asked("finished_strength", 0, len(reading.heard))]


def _poured_on_it(facts: Mapping[str, Fact], of_water: bool, heard: str) -> bool:
    """Whether a percent is what is poured on a fresh plant, of which it is asked how strong it gets."""
    return "water_content" in facts and not facts.keys() & {"finished_strength", "strength"} and not of_water and IN_THE_JAR.search(heard) is not None


def _the_same_proof(reading: Reading, batch: Batch) -> None:
    """British proof, once it was said, is meant by the next proof as well."""
    if AMERICAN.search(reading.heard) or not any(f.said_unit == "UK proof" for f in batch.facts.values()):
        return
    reading.said[:] = [replace(s, value=s.value * UK_FOR_US, said_unit="UK proof") if s.said_unit == "US proof" else s for s in reading.said]
    reading.loose[:] = [replace(f, value=f.value * UK_FOR_US, said_unit="UK proof") if f.said_unit == "US proof" else f for f in reading.loose]


def _call(reading: Reading, figure: Said | Loose, quantity: str) -> None:
    if isinstance(figure, Said):
        reading.said[reading.said.index(figure)] = replace(figure, quantity=quantity, weak=False)
        return
    reading.loose.remove(figure)
    reading.said.append(Said(quantity, figure.value, figure.start, figure.end, said_unit=figure.said_unit, words=figure.words))
    reading.references[:] = [r for r in reading.references if not (r.start <= figure.start and figure.end <= r.end)]
