"""Another strength for the pour behind what a jar finishes at: "so if I'd used the 96?", "had I poured the 70", "and with 80?"."""

from __future__ import annotations

import re

from assistant.listening.statements import Loose, Reading, Said
from assistant.patterns import looked_for
from assistant.session.batch import Batch
from assistant.session.work import take_as

OF_THE_PLANT = looked_for(
    r"\b(?:water|wet|moist\w*|juic\w*|sap\w*|plants?|herbs?|leaf|leaves|roots?|berr\w+|flowers?|bark|seeds?|wilted|dry|dried|fresh\w*"
    r"|finish\w*|ends?|end up|jar|left|get|reach|aim|target|(?<!gone )(?<!went )(?<!go )(?<!going )for|proof|grams?|mls?|ratio|parts?)\b",
    re.IGNORECASE,
)
WITH_IT = looked_for(
    r"\b(?:used?|using|pour(?:ed|ing)?|took|taken?|taking|gone (?:for|with)|went (?:for|with)|go(?:ing)? (?:for|with)|had|with|try|tried|spirit|vodka|brandy"
    r"|alcohol|overproof|strong\w*|bottle|instead|the|my|that|our|stuff|swap\w*|switch\w*)\b",
    re.IGNORECASE,
)
CUT = looked_for(r"\b(?:cut|let down|watered|dilut\w+|down|to|from|between)\b", re.IGNORECASE)
STRENGTHS = frozenset({"strength", "stock_strength"})
LEAST, MOST = 20.0, 97.0  # percent


def poured_instead(reading: Reading, batch: Batch | None) -> None:
    """Let the one bare strength be what is poured, not the plant's water that it is nearer to. Changes the reading."""
    if batch is None or batch.members or reading.asked or reading.named or reading.ingredients or reading.liquids or reading.claims:
        return
    facts = batch.facts
    pours = [q for q in ("strength", "stock_strength") if q in facts]  # a spirit said by itself is poured as it is
    if len(pours) != 1 or "water_content" not in facts or not facts.keys() & {"menstruum", "ratio"} or "finished_strength" in facts:
        return
    figures: list[Said | Loose] = [*reading.said, *reading.loose]
    if not {"finished_strength", "in_jar", "strength"} & set(batch.wanted) or len(figures) != 1 or not LEAST <= figures[0].value <= MOST:
        return
    figure = figures[0]
    if isinstance(figure, Said) and figure.said_unit.endswith("proof"):
        return
    if not (figure.kind in ("#", "%") if isinstance(figure, Loose) else figure.quantity in STRENGTHS):
        return
    if OF_THE_PLANT.search(reading.heard) or CUT.search(reading.heard):
        return
    if facts["water_content"].turn > facts[pours[0]].turn and not WITH_IT.search(reading.heard):
        return  # "and at 82?" behind another water content
    take_as(reading, figure, pours[0])
    reading.let_go("check", "claim", "verify")
