"""A strength told short behind a plan: "the label says 40", "and with 40 %", "the 25 % one", "if that's 96". What it is hangs on what is in hand."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from itertools import pairwise

from assistant.dataclass import replace
from assistant.listening.statements import Asked, Loose, Reading, Reference, Said
from assistant.patterns import looked_for
from assistant.session.batch import Batch, Fact
from assistant.session.work import take_as

STRENGTHS = frozenset({"strength", "stock_strength", "finished_strength", "water_content", "glycerine"})
WATER = looked_for(r"\b(?:water|wet|moisture|juicy|juice|dry|dried)\b", re.IGNORECASE)
ON_THE_SHELF = looked_for(r"\b(?:have|got|has|only|shelf|cupboard|from|out of|i've|ive|there'?s|strongest|stock|dilut\w+|cut|water|spirit)\b", re.IGNORECASE)
LABEL = looked_for(r"\b(?:label|bottle|it|its|it's|that|that's|thats|says|reads|stuff|proof|sticker|printed|vodka|brandy|spirit|gin|rum|one)\b", re.IGNORECASE)
IN_THE_JAR = looked_for(r"\b(?:how strong|what strength|strength|what does it (?:finish|end|come out)|where does)\b", re.IGNORECASE)
AMERICAN = looked_for(r"\b(?:us|usa|american|america)\b", re.IGNORECASE)
UK_FOR_US = 0.5715 / 0.5  # 100 degrees of British proof are 57.15 %, 100 US proof 50 %
SAYS = looked_for(r"\b(?:label|bottle|sticker)\b[\w\s']{0,12}\b(?:says|reads|said|is|gives)\b", re.IGNORECASE)
OF_THE = looked_for(r"^\s*(?:mls?|millilit(?:re|er)s?)?\s*of (?:the|my|that)\s*$", re.IGNORECASE)
OTHER_SWEET = looked_for(r"\b(?:with|in|using|use|if|and|or|from) (honey|sugar)(?: (?:instead|then|in place))?\W*$", re.IGNORECASE)
KINDS = {"tea": "tea", "blend": "", "mix": "", "formula": "formula", "tincture": "formula"}
WHOLE = {"weight": "batch", "volume": "blend"}
LET_DOWN = frozenset({"herb", "ratio", "stock_strength", "stock", "water_content"})
OF_SPIRIT = looked_for(
    r"\bhow (?:much|many mls?(?: of)?) (?:of )?(?:the |my )?(?:spirit|vodka|brandy|gin|rum|everclear|ethanol|whisk(?:e)?y)\b(?! (?:is |are )?(?:there )?in\b)",
    re.IGNORECASE,
)
LEAST, MOST = 15.0, 100.0  # percent
BARE = looked_for(
    r"^\W*(?:(?:it'?s|its|it is|that'?s|is|the|my|a|an|oh|just|ordinary|usual|plain|vodka|brandy|gin|rum|spirit|says|label|at|about|ok|so|from)\b\W*)*"
    r"\d+(?:[.,]\d+)?\s*(?:%|percent|per cent|proof|abv)?\W*(?:(?:vodka|brandy|gin|rum|spirit|stuff|one|abv|vol|it is|i think|on the label)\b\W*)*$",
    re.IGNORECASE,
)


def told_short(reading: Reading, batch: Batch | None, wants: Sequence[str]) -> None:
    """Give the one strength of a short sentence its quantity, by the batch in hand. Changes the reading."""
    if batch is not None:
        _the_same_proof(reading, batch)
    _a_kind_of_recipe(reading)
    _which_spirit(reading, batch)
    if batch is not None and not reading.ingredients and not reading.liquids:
        _of_the_syrup(reading, batch)
        _the_label(reading, batch)
        _so_much_of_the(reading, batch)
    if batch is None or reading.ingredients or reading.liquids or reading.named:
        return
    figures: list[Said | Loose] = [*[s for s in reading.said if s.quantity in STRENGTHS], *[f for f in reading.loose if f.kind in ("#", "%")]]
    if len(figures) != 1 or len(reading.said) + len(reading.loose) != 1 or not LEAST <= figures[0].value <= MOST:
        return
    figure, facts = figures[0], batch.facts
    of_water = WATER.search(reading.heard) is not None
    if "stock_strength" in wants and not of_water and isinstance(figure, Loose) and LABEL.search(reading.heard):
        reading.let_go("claim", "check", "verify")
        _call(reading, figure, "stock_strength")
    elif _the_spirit_asked_for(reading, figure, batch):
        _call(reading, figure, "stock_strength")
    elif isinstance(figure, Loose):
        if "glycerite" in batch.frames and figure.kind in ("#", "%") and not of_water and AT_THE_END.search(reading.heard):
            _call(reading, figure, "finished_glycerine")  # "60 is enough"
        return
    elif figure.quantity in ("strength", "stock_strength", "glycerine") and "finished_glycerine" in facts and "glycerine" not in facts:
        _call(reading, figure, "finished_glycerine")
    elif figure.quantity == "stock_strength" and "strength" in facts and "stock_strength" not in facts and not ON_THE_SHELF.search(reading.heard):
        if figure.value <= facts["strength"].value or "dose" in batch.frames:
            _call(reading, figure, "strength")  # no spirit to let down: another strength for the one poured
    elif figure.quantity in ("water_content", "strength") and _poured_on_it(facts, of_water, reading.heard):
        _call(reading, figure, "strength")
        reading.asked[:] = [Asked("finished_strength", 0, len(reading.heard))]


AT_THE_END = looked_for(r"\b(?:enough|will do|would do|does it|plenty|at the end|in the end|in the jar|is fine)\b", re.IGNORECASE)


def _the_spirit_asked_for(reading: Reading, figure: Said | Loose, batch: Batch) -> bool:
    """Whether a bare strength answers how strong the spirit is: "how much vodka for 600 mL at 30 %", then "40"."""
    if "stock" not in batch.wanted or "stock_strength" in batch.facts or "strength" not in batch.facts or not BARE.match(reading.heard):
        return False
    return figure.value > batch.facts["strength"].value and (isinstance(figure, Loose) or figure.quantity in ("strength", "stock_strength"))


def _which_spirit(reading: Reading, batch: Batch | None) -> None:
    """ "How much spirit for 1 litre at 45 %": the spirit it is let down from is asked for, whose strength was not said yet."""
    if reading.ingredients or reading.liquids or reading.named or (batch is not None and (batch.members or batch.facts.keys() & LET_DOWN)):
        return
    if sorted(s.quantity for s in reading.said) != ["menstruum", "strength"] or {a.quantity for a in reading.asked} != {"menstruum"}:
        return
    if OF_SPIRIT.search(reading.heard) and not reading.loose:
        reading.asked.insert(0, Asked("stock", 0, len(reading.heard)))


def _poured_on_it(facts: Mapping[str, Fact], of_water: bool, heard: str) -> bool:
    """Whether a percent is what is poured on a fresh plant, of which it is asked how strong it gets."""
    return "water_content" in facts and not facts.keys() & {"finished_strength", "strength"} and not of_water and IN_THE_JAR.search(heard) is not None


def _a_kind_of_recipe(reading: Reading) -> None:
    """ "Tea 2 parts nettle 1 part mint 150 g": the tea is what it makes and no part of it, and the weight behind is the whole's."""
    lines = reading.ingredients
    if len(lines) < 3 or lines[0].name not in KINDS or any([q for q, *_ in line.figures] != ["part"] for line in lines[:-1]):
        return
    if len(lines[-1].figures) != 1 or lines[-1].figures[0][0] not in WHOLE or any(s.quantity in WHOLE.values() for s in reading.said):
        return
    kind = KINDS[lines[0].name]
    quantity, value, start, end = lines[-1].figures[0]
    reading.said.append(Said(WHOLE[quantity], value, start, end))
    reading.ingredients[:] = [replace(line, figures=before.figures) for before, line in pairwise(lines)]
    if kind:
        reading.frames.add(kind)


def _of_the_syrup(reading: Reading, batch: Batch) -> None:
    """ "And 500 ml?": of the decoction that is made into syrup."""
    if "syrup" in batch.frames and "decoction" in batch.facts and [s.quantity for s in reading.said] == ["menstruum"] and not reading.loose:
        _call(reading, reading.said[0], "decoction")
    other = OTHER_SWEET.search(reading.heard)
    if other is not None and "syrup" in batch.frames and not reading.said and not reading.loose and set(batch.wanted) & {"honey", "sugar"}:
        reading.asked[:] = [Asked(other[1].lower(), 0, len(reading.heard))]  # the other sweet, to the same strength


def _the_label(reading: Reading, batch: Batch) -> None:
    """ "Label says 90" of a spirit that is let down: another strength for it than was said before."""
    facts = batch.facts
    if not SAYS.search(reading.heard) or reading.said or len(reading.loose) != 1 or "strength" not in facts or "dose" in batch.frames:
        return
    figure = reading.loose[0]
    least = facts["strength"].value if "stock_strength" in facts else LEAST  # what no plan was made with may be too weak, which is said then
    if figure.kind in ("#", "%") and least < figure.value <= MOST:
        reading.let_go("claim", "check", "verify")
        _call(reading, figure, "stock_strength")


def _so_much_of_the(reading: Reading, batch: Batch) -> None:
    """ "And 400 of the 90?" of a mix: so much of the spirit of that strength, beside the rest as it was told."""
    figures: list[Said | Loose] = sorted([*reading.said, *reading.loose], key=lambda f: f.start)
    if "mix" not in batch.frames or len(figures) != 2 or not OF_THE.match(reading.heard[figures[0].end : figures[1].start]):
        return
    strengths = {m: batch.facts[f"strength_of[{m}]"].value for m in batch.members if f"strength_of[{m}]" in batch.facts}
    member = next((m for m, strength in strengths.items() if abs(strength - figures[1].value) < 1e-9), "")
    if not member or f"volume[{member}]" not in batch.facts or batch.facts[f"volume[{member}]"].origin != "said":
        return
    reading.said.clear()
    reading.loose.clear()
    reading.references.append(Reference("reference", figures[1].start, figures[1].end, figures[1].value))
    reading.said.append(Said("volume", figures[0].value, figures[0].start, figures[0].end, member=member))
    reading.freed |= {"blend", "blend_strength"}
    if not reading.asked:
        reading.asked.append(Asked("blend_strength", 0, len(reading.heard)))


def _the_same_proof(reading: Reading, batch: Batch) -> None:
    """British proof, once it was said, is meant by the next proof as well."""
    if AMERICAN.search(reading.heard) or not any(f.said_unit == "UK proof" for f in batch.facts.values()):
        return
    reading.said[:] = [replace(s, value=s.value * UK_FOR_US, said_unit="UK proof") if s.said_unit == "US proof" else s for s in reading.said]
    reading.loose[:] = [replace(f, value=f.value * UK_FOR_US, said_unit="UK proof") if f.said_unit == "US proof" else f for f in reading.loose]


def _call(reading: Reading, figure: Said | Loose, quantity: str) -> None:
    """Let the figure be this quantity, and point at nothing that was said before."""
    if take_as(reading, figure, quantity) and isinstance(figure, Loose):
        reading.references[:] = [r for r in reading.references if not (r.start <= figure.start and figure.end <= r.end)]
