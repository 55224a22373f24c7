"""Another liquid for the one that a plan pours: "what if i use 40% vodka", "no, in vodka", "got only 1.1 litre, how much nettle will that do"."""

from __future__ import annotations

import re

from assistant.listening.statements import Asked, Loose, Reading, Said
from assistant.patterns import looked_for
from assistant.session.batch import Batch
from assistant.session.work import take_as

SPIRIT = r"(?:vodka|brandy|rum|gin|whisk(?:e?)y|grappa|slivovitz|schnapps|korn|spirits?|alcohol|everclear|moonshine|hooch)"
NAMED_AHEAD = looked_for(rf"\b{SPIRIT}\b(?:\s+(?:of|at|is|that'?s|thats|which is|with|about|only|just|says))*\s*,?\s*$", re.IGNORECASE)
NAMED_BEHIND = looked_for(rf"^\s*(?:%|percent|per cent|abv|proof)?\s*(?:abv\s+)?(?:\w+\s+)?{SPIRIT}\b", re.IGNORECASE)
LET_DOWN = looked_for(r"\b(?:water|cut|dilut\w+|let down|watered|down to|from|mix\w*|both|as well|too|add|top\w*|per|half|rest)\b", re.IGNORECASE)
STRENGTHS = frozenset({"strength", "stock_strength"})
SOBER = frozenset({"oil", "vinegar", "glycerite"})
OTHER_WORK = frozenset({"salve", "syrup", "essential", "dose", "mix", "formula"})
OF_SOBER = frozenset({"oil_density", "acidity", "finished_acidity", "glycerine", "finished_glycerine", "menstruum_weight"})
IN_SPIRIT = looked_for(
    rf"^\W*(?:(?:no|sorry|oh|wait|actually|ok|but|and|or|what|if|make|do|it|try|use|rather|instead|about|i|mean|meant|let'?s|put)\W+)*"
    rf"(?:in|with|use|using|into|on|under)\s+(?:a |the |some |my |\d+(?:\.\d+)?\s*%?\s*)?{SPIRIT}\b",
    re.IGNORECASE,
)
POURED_ON = frozenset({"herb", "ratio", "menstruum"})


def other_pour(reading: Reading, batch: Batch | None) -> None:
    """Give what is poured in place of what was to be poured its quantity. Changes the reading."""
    _enough_there(reading)
    if batch is None or batch.members or reading.ingredients or reading.liquids:
        return
    _no_oil(reading, batch)
    _another_spirit(reading, batch)
    _what_it_will_do(reading, batch)


def _another_spirit(reading: Reading, batch: Batch) -> None:
    """ "What if I use 40 % vodka", of a pour of 50 % let down from 96: a spirit too weak to be let down to that is poured as it is."""
    facts = batch.facts
    if not {"strength", "stock_strength"} <= facts.keys() or not facts.keys() & POURED_ON or LET_DOWN.search(reading.heard):
        return
    figures: list[Said | Loose] = reading.figures
    if len(figures) != 1 or not _is_of_a_spirit(figures[0], reading.heard):
        return
    figure, aim = figures[0], facts["strength"].value
    if figure.value > 100 or abs(figure.value - facts["stock_strength"].value) < 1e-9:
        return
    taken = take_as(reading, figure, "stock_strength")
    if taken.value <= aim and not reading.asked:
        reading.said.append(Said("strength", taken.value, taken.start, taken.end))


def _no_oil(reading: Reading, batch: Batch) -> None:
    """ "No, in vodka 40 %", of a plant that was to stand in oil, vinegar or glycerine: the same plant and ratio in spirit."""
    sober = batch.frames & SOBER
    if not sober or batch.frames & OTHER_WORK or not batch.facts.keys() & POURED_ON or not IN_SPIRIT.search(reading.heard):
        return
    if reading.frames & SOBER or any(s.quantity not in STRENGTHS for s in reading.said) or any(f.kind not in ("#", "%") for f in reading.loose):
        return
    reading.left |= sober
    reading.frames.discard("dilution")  # "with 60 % from 96": the pour of this very plant
    reading.freed |= OF_SOBER
    reading.denied |= {"in_oil", "in_vinegar", "in_glycerine"} & batch.tags
    if len(reading.figures) == 1:
        take_as(reading, reading.figures[0], "strength")
    reading.asked[:] = [Asked("menstruum", 0, len(reading.heard))]


def _is_of_a_spirit(figure: Said | Loose, heard: str) -> bool:
    """Whether a percent stands right beside the name of a spirit."""
    percent = figure.quantity in STRENGTHS if isinstance(figure, Said) else figure.kind in ("#", "%")
    return percent and bool(NAMED_AHEAD.search(heard[: figure.start]) or NAMED_BEHIND.match(heard[figure.end :]))


CLAUSE_END = looked_for(r"[,;?]|\.(?=\s|$)")
ENOUGH = looked_for(r"\b(?:enough|reach|suffice|do it|cover it|will do|stretch)\b", re.IGNORECASE)


def _enough_there(reading: Reading) -> None:
    """ "400 g fresh nettle 1:2 at 60 from 95, enough with 500 ml?": what is asked after is what there is of the spirit. Changes the reading."""
    told = {s.quantity: s for s in reading.said if not s.member}
    if not {"herb", "ratio", "menstruum", "stock_strength"} <= told.keys() or "spirit_in_hand" in told:
        return
    start = max(reading.heard.rfind(c, 0, told["menstruum"].start) for c in ",.;") + 1
    if not ENOUGH.search(CLAUSE_END.split(reading.heard[start:])[0]):
        return
    volume, needed = told["menstruum"], told["herb"].value * told["ratio"].value
    if abs(volume.value - needed) > 0.02 * needed:
        take_as(reading, volume, "spirit_in_hand")


def _what_it_will_do(reading: Reading, batch: Batch) -> None:
    """ "Got only 1.1 litre, how much nettle will that do", of 640 g at 1:2: the plant that what there is will serve, and not the plant that was told."""
    told = {s.quantity for s in reading.said}
    if "spirit_in_hand" not in told or "herb" in told or not {"herb", "ratio"} <= batch.facts.keys() or {a.quantity for a in reading.asked} != {"herb"}:
        return
    reading.asked[:] = [Asked("herb_served", a.start, a.end) for a in reading.asked]
    if "stock_strength" not in told | batch.facts.keys() and "strength" in batch.facts:
        reading.said.append(Said("stock_strength", batch.facts["strength"].value, 0, 0))
