"""A measure said before, of the other country after all: "imperial pint, sorry", "no, US cups", "they're imperial ounces"."""

from __future__ import annotations

import re

from assistant.listening.statements import Reading, Said
from assistant.patterns import looked_for
from assistant.quantities.units import units
from assistant.quantities.vocabulary import VOCABULARY, about, base
from assistant.session.batch import Batch

COUNTRIES = (
    ("imperial", looked_for(r"\b(?:imperial|british|english|uk)\b", re.IGNORECASE)),
    ("us", looked_for(r"\b(?:us|u\.s\.|american)\b", re.IGNORECASE)),
    ("metric", looked_for(r"\bmetric\b", re.IGNORECASE)),
)
MEASURE = looked_for(r"\b(pints?|cups?|quarts?|gallons?|fl(?:uid)? ?(?:oz|ounces?)|ounces?|oz|tablespoons?|tbsp|gills?)\b", re.IGNORECASE)
MEANT = looked_for(r"\b(?:sorry|meant|mean|actually|no|not|oops|wait|rather|that'?s|they'?re|it'?s|mine|was|were)\b", re.IGNORECASE)
MOST_WORDS = 7
NEAR = 1e-3


def other_country(reading: Reading, batch: Batch | None) -> None:
    """Turn what was said in a measure that two countries share into the other's. Changes the reading; does nothing where no such figure was said."""
    if batch is None or reading.figures or reading.ingredients or reading.liquids or reading.named or reading.asked:
        return
    country = next((name for name, word in COUNTRIES if word.search(reading.heard)), "")
    measure = MEASURE.search(reading.heard)
    corrects = MEANT.search(reading.heard) is not None or reading.has("correct") or (measure is not None and not _plural(measure[1]))
    if not country or not corrects or len(reading.heard.split()) > MOST_WORDS:
        return
    for key, fact in batch.facts.items():
        unit = units().spellings.get(fact.said_unit)
        if unit is None or unit.bench != "mL" or VOCABULARY[base(key)].unit != "mL" or unit.size("us") == unit.size("imperial"):
            continue
        if measure is not None and units().spellings.get(measure[1].lower()) not in (unit, None):
            continue
        count = next((n for n in (fact.value / unit.size(c) for c, _ in COUNTRIES) if abs(8 * n - round(8 * n)) < NEAR), None)
        if count is not None:
            reading.said.append(Said(base(key), count * unit.size(country), 0, 0, about(key), fact.said_unit))


def _plural(word: str) -> bool:
    return word.lower().endswith("s")
