"""The herb in a portion of what is in hand: "what's a ml worth in herb", then "so a 3 ml dose?", "in 5 ml?", "30 drops?"."""

from __future__ import annotations

import re

from assistant.listening.statements import Asked, Loose, Reading, Reference, Said
from assistant.patterns import looked_for
from assistant.session.batch import Batch
from assistant.session.work import take_as

WORTH = looked_for(
    r"\b(?:worth|stands? for|represents?|equals?|amounts? to|good for|comes? to|carr(?:y|ies)|holds?|contains?|mean)\b", re.IGNORECASE
)
HERB = looked_for(r"\b(?:herb|plant|root|leaf|leaves|flowers?|bark|berr(?:y|ies)|seeds?|dried|grams?|g)\b", re.IGNORECASE)
ONE_ML = looked_for(r"^(?:an? |one |1 ?|each |every )?(?:ml|mls|millilit(?:re|er))$", re.IGNORECASE)
SHORT = looked_for(
    r"^\W*(?:(?:and|so|then|ok|okay|right|now|what|whats|about|how|if|say|what's|is|that|does|give|gives|s|he|she|they|takes?|taking|her|him|for|in|of|it|per"
    r"|one|much|many|herb|plant|grams?|g|a|an|the|at|with|to|get|gets|be)\b\W*)*(?:\d+(?:[.,]\d+)?|an?|one|two|half an?|thirty|twenty|forty)?\s*"
    r"(?:mls?|millilit(?:re|er)s?|drops?|gtts?|tsps?|teaspoons?(?:fuls?)?)\W*(?:(?:dose|doses|then|of|it|that|instead|each|time|a|portion|please|grams?|g"
    r"|herb|in|is|how|much|many|what|plant|root|leaf|bark|flowers?|berries|dried|has|holds?)\b\W*)*$",
    re.IGNORECASE,
)
LIQUIDS = frozenset({"dose", "menstruum", "pressed", "bottle_size", "blend", "stock", "dose_drops", "spirit_in_hand"})
WANTED = frozenset({"herb_per_ml", "herb_per_dose", "herb_per_ml_jar"})
MOST = 30.0  # mL
MOST_DROPS = 200.0


def portion(reading: Reading, batch: Batch | None) -> None:
    """Ask for the herb of a mL or of a portion where that is meant. Changes the reading."""
    if reading.ingredients or reading.liquids:
        return
    _a_millilitre(reading)
    if batch is None or batch.members or reading.named or not set(batch.wanted) & WANTED:
        return
    figures: list[Said | Loose] = [*reading.said, *reading.loose]
    if len(figures) != 1 or not SHORT.match(reading.heard) or {a.quantity for a in reading.asked} - {"herb", "herb_per_ml", "herb_per_dose", "menstruum"}:
        return
    figure = figures[0]
    if isinstance(figure, Loose):
        if figure.kind not in ("mL", "drop", "cup") or figure.value > (MOST_DROPS if figure.kind == "drop" else MOST):
            return
        take_as(reading, figure, "dose_drops" if figure.kind == "drop" else "dose")
    elif figure.quantity not in LIQUIDS or (figure.quantity != "dose_drops" and figure.value > MOST):
        return
    elif figure.quantity != "dose_drops":
        take_as(reading, figure, "dose")
    reading.let_go("claim", "scale_n", "scale", "in_unit")
    reading.asked[:] = [Asked("herb_per_dose", 0, len(reading.heard))]
    reading.frames.add("dose")


def _a_millilitre(reading: Reading) -> None:
    """ "What does 1 ml stand for in herb": the herb per mL, and no millilitre is poured."""
    if not WORTH.search(reading.heard) or not HERB.search(reading.heard):
        return
    figures: list[Said | Loose] = [*reading.said, *reading.loose]
    ones = [f for f in figures if f.value == 1 and ONE_ML.match(reading.heard[f.start : f.end].strip())]
    if len(ones) != 1:
        return
    one = ones[0]
    reading.said[:] = [s for s in reading.said if s is not one]
    reading.loose[:] = [f for f in reading.loose if f is not one]
    reading.references.append(Reference("reference", one.start, one.end))
    reading.asked[:] = [Asked("herb_per_ml", one.start, one.end)]
