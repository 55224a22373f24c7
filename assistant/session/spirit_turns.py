"""Going on about spirit: how much there is of it, how strong it is, a second one to mix it with. Each changes the reading, by what the batch in hand knows."""

from __future__ import annotations

import re

from assistant.dataclass import replace
from assistant.listening.statements import Asked, Ingredient, Loose, Reading, Said
from assistant.patterns import looked_for
from assistant.session.batch import Batch
from assistant.session.spirit_there import settle_spirit_there
from assistant.session.work import take_as

OF_IT = looked_for(r"^\s*of (?:it|that|them|this)\b", re.IGNORECASE)
WANTED = looked_for(r"\b(?:want|need|make|wanted|needed|after)\b[\w\s']*$", re.IGNORECASE)
OF_THE_SPIRIT = looked_for(r"^\s*(?:left )?of (?:the|that|my|it|this)\b(?: (?:spirit|stuff|alcohol|vodka|brandy|stock))?", re.IGNORECASE)
OF_THE = looked_for(r"\b(?:of|in) (?:the|my|that) $", re.IGNORECASE)
IS_ONLY = looked_for(r"\b(?:it'?s|its|it is|that'?s|thats|it were|it was|making|make|want|for|to)\s+(?:only|just)\s+(?:about\s+|for\s+)?$", re.IGNORECASE)
OFF_THE = looked_for(r"\b(?:off|from|of|using|with|out of) (?:that|the|this|my|same|the same) $", re.IGNORECASE)
CAME_TO = looked_for(r"\b(?:only|just|got|filled|came to|ended up with|made|make it|were|was)\s+(?:about\s+)?$", re.IGNORECASE)
COUNT_ENDS = looked_for(r"^(?: of them| bottles| full ones)?(?: in the end| though| then| now| after all| filled| out of it)?\W*$", re.IGNORECASE)
HAVE_ONLY = looked_for(r"\b(?:have|got|i've|ive|only|just)\b[\w\s']*$", re.IGNORECASE)
A_PRESS = looked_for(r"\b(?:press\w*|squeez\w*|strain\w*|wrung|back|out|came)\b", re.IGNORECASE)
BOTH = looked_for(
    r"\b(?:as well|too|also|both|(?:out of|from|with|mix|mixing|blend|blending|between|of|using) (?:the two|the pair|them|em|those two))\b", re.IGNORECASE
)
PLANTED = frozenset({"herb", "planned_herb", "ratio", "pressed"})
A_LIQUID = frozenset({"menstruum", "spirit_in_hand", "stock", "pressed", "blend"})
LEAST_SPIRIT, MOST_SPIRIT = 20.0, 100.0


def settle_spirit(reading: Reading, batch: Batch) -> None:
    """Give the figures of a sentence about spirit the place they have beside the batch in hand. Changes the reading."""
    if batch.members or reading.ingredients or reading.liquids:
        return
    _only_that_much_wanted(reading, batch)
    _the_count_again(reading, batch)
    _by_its_strength(reading, batch)
    _of_the_stock(reading, batch)
    _only_so_strong(reading, batch)
    _so_much_of_it(reading, batch)
    _only_so_much(reading, batch)
    _a_second_spirit(reading, batch)
    _the_same_spirit(reading, batch)
    settle_spirit_there(reading, batch)


ONLY_SO_MUCH = looked_for(
    r"^\W*(?:(?:and|or|so|but|what|about|if|for)\W+)*(?:only|just)\W+(?:an?|half(?: an?)?|one|\d+(?:[.,]\d+)?)\s*[a-z]+\W*$", re.IGNORECASE
)


def _only_that_much_wanted(reading: Reading, batch: Batch) -> None:
    """ "Need a quart at 50 %", then "and only a pint": less of it is made; nobody spoke of what there is."""
    if len(reading.said) != 1 or reading.loose or batch.facts.keys() & {"herb", "ratio", "spirit_in_hand"} or "menstruum" not in batch.facts:
        return
    there = reading.said[0]
    if there.quantity == "spirit_in_hand" and "stock_strength" in batch.facts and ONLY_SO_MUCH.match(reading.heard):
        reading.said[0] = replace(there, quantity="menstruum", weak=False)


def _the_same_spirit(reading: Reading, batch: Batch) -> None:
    """ "1:2 in 95 … and only 2.3 L of the spirit": the one that is poured, as it is."""
    given = {s.quantity: s for s in reading.said}
    there, known = given.get("spirit_in_hand"), given.keys() | batch.facts.keys()
    if there is None or "stock_strength" in known or not OF_THE_SPIRIT.search(reading.heard[there.end :]):
        return
    strength = given["strength"].value if "strength" in given else batch.facts["strength"].value if "strength" in batch.facts else None
    if strength is not None and ("herb" in known or "ratio" in known):
        reading.said.append(Said("stock_strength", strength, 0, 0))


def _is_bare(figure: Said | Loose) -> bool:
    if isinstance(figure, Loose):
        return figure.kind in ("#", "%")
    return not figure.said_unit or figure.quantity in ("strength", "stock_strength")


def _refer(reading: Reading, figure: Said | Loose) -> None:
    reading.only_points(figure)


def _the_count_again(reading: Reading, batch: Batch) -> None:
    """ "Only got 16 in the end" of bottles that were costed: a bare count where no spirit's strength was ever spoken of."""
    facts = batch.facts
    if "cost" not in batch.frames or "bottles" not in facts or {"strength", "stock_strength"} & facts.keys() or len(reading.figures) != 1:
        return
    figure = reading.figures[0]
    bare = (isinstance(figure, Loose) and figure.kind == "#") or (isinstance(figure, Said) and not figure.said_unit)
    if bare and figure.value == int(figure.value) and CAME_TO.search(reading.heard[: figure.start]) and COUNT_ENDS.search(reading.heard[figure.end :]):
        take_as(reading, figure, "bottles")


def _by_its_strength(reading: Reading, batch: Batch) -> None:
    """ "A litre at 45 off that 151": the spirit in hand, pointed at by the figure on its label, in proof or in percent."""
    stock = batch.facts.get("stock_strength")
    if stock is None or not {"menstruum", "stock", "strength"} & {s.quantity for s in reading.said}:
        return
    for figure in list(reading.figures):
        bare = isinstance(figure, Loose) and figure.kind == "#"
        if bare and OFF_THE.search(reading.heard[: figure.start]) and any(abs(figure.value - label) < 1e-6 for label in (stock.value, 2 * stock.value)):
            _refer(reading, figure)
            reading.acts = [act for act in reading.acts if act.name != "from_it"]


def _of_the_stock(reading: Reading, batch: Batch) -> None:
    """ "I've got 300 mL of the 96": the spirit the batch starts from, named by its strength; so much of it is there."""
    stock = batch.facts.get("stock_strength")
    if stock is None:
        return
    named = next(
        (f for f in reading.figures if _is_bare(f) and abs(f.value - stock.value) < 1e-9 and OF_THE.search(reading.heard[: f.start])), None
    )
    if named is None or (isinstance(named, Said) and named.quantity == "stock_strength"):
        return
    volume = next((s for s in reading.said if s is not named and s.quantity in A_LIQUID and s.end <= named.start), None)
    if volume is None or not HAVE_ONLY.search(reading.heard[: volume.start]):
        return
    _refer(reading, named)
    take_as(reading, volume, "spirit_in_hand")


def _only_so_strong(reading: Reading, batch: Batch) -> None:
    """ "I've only got 96, so how much of that and how much water": a bare number above the strength poured, where a stock is lacking, is the stock's."""
    facts = batch.facts
    given = {s.quantity for s in reading.said}
    if "strength" not in facts or "stock_strength" in facts or given & {"stock_strength", "strength"} or A_PRESS.search(reading.heard):
        return
    if not {a.quantity for a in reading.asked} & {"water", "stock"}:
        return
    least = max(LEAST_SPIRIT, facts["strength"].value)
    for f in list(reading.figures):
        bare = _is_bare(f) and (isinstance(f, Loose) or f.quantity == "pressed")
        if bare and least <= f.value <= MOST_SPIRIT and HAVE_ONLY.search(reading.heard[: f.start]):
            take_as(reading, f, "stock_strength")
            return


def _so_much_of_it(reading: Reading, batch: Batch) -> None:
    """ "It's 95 and there's 750 mL of it", of a spirit that is to be brought down: so much there is of the stock, and all of it is meant."""
    facts = batch.facts.keys()
    given = {s.quantity: s for s in reading.said}
    if "strength" not in facts or facts & (PLANTED | A_LIQUID) or given.keys() & PLANTED:
        return
    liquid = [f for f in reading.figures if (f.quantity in ("menstruum", "spirit_in_hand") if isinstance(f, Said) else f.kind == "mL")]
    volume = next((f for f in liquid if OF_IT.search(reading.heard[f.end :])), None)
    if volume is None or WANTED.search(reading.heard[: volume.start]):
        return
    target = batch.facts["strength"].value
    stock = next((f for f in reading.figures if f is not volume and _is_bare(f) and target < f.value <= MOST_SPIRIT), None)
    if stock is None and "stock_strength" not in facts:
        return
    if stock is not None:
        take_as(reading, stock, "stock_strength")
    take_as(reading, volume, "stock")


def _only_so_much(reading: Reading, batch: Batch) -> None:
    """ "And if it's only 2 L": of what is made, where that was said; it is no spirit on a shelf."""
    if "menstruum" not in batch.facts or "spirit_in_hand" in batch.facts:
        return
    for s in reading.said:
        if s.quantity == "spirit_in_hand" and IS_ONLY.search(reading.heard[: s.start]) and not any(o.quantity in A_LIQUID for o in reading.said if o is not s):
            take_as(reading, s, "menstruum")
            return


def _a_second_spirit(reading: Reading, batch: Batch) -> None:
    """ "I've 95 as well, I want a litre of 60 out of the two": the spirit in hand and this one, mixed."""
    held = batch.facts.get("stock_strength")
    if held is not None and BOTH.search(reading.heard):
        for pair in [f for f in reading.loose if f.kind == "#" and f.value == 2 and reading.heard[f.start : f.end].lower() == "two"]:
            _refer(reading, pair)
        if not any(s.quantity == "stock_strength" for s in reading.said):
            bare = [f for f in reading.loose if _is_bare(f) and LEAST_SPIRIT <= f.value <= MOST_SPIRIT]
            if len(bare) == 1:
                take_as(reading, bare[0], "stock_strength")
    given = {s.quantity: s for s in reading.said}
    other = given.get("stock_strength")
    if held is None or other is None or abs(held.value - other.value) < 1e-9 or not BOTH.search(reading.heard) or given.keys() & PLANTED:
        return
    wanted = given.get("strength")
    target = wanted.value if wanted is not None else batch.facts["strength"].value if "strength" in batch.facts else None
    if target is None or not min(held.value, other.value) < target < max(held.value, other.value):
        return
    made = next((given[q] for q in ("menstruum", "blend", "pressed") if q in given), None)
    volume = batch.facts.get("menstruum")
    if made is None and volume is None:
        return
    reading.said[:] = [s for s in reading.said if s not in (other, wanted, made)]
    reading.said.append(Said("blend_strength", target, *((wanted.start, wanted.end) if wanted is not None else (0, 0))))
    if made is not None:
        reading.said.append(replace(made, quantity="blend", weak=False))
    else:
        assert volume is not None
        reading.said.append(Said("blend", volume.value, 0, 0))
    reading.liquids += [
        Ingredient(f"{other.value:g} %", (("strength_of", other.value, other.start, other.end),), other.start, other.end),
        Ingredient(f"{held.value:g} %", (("strength_of", held.value, 0, 0),), 0, 0),
    ]
    reading.frames |= {"mix"}
    reading.frames -= {"dilution"}
    reading.freed |= {"stock_strength", "strength", "menstruum", "stock"}
    reading.asked[:] = [Asked("volume", 0, 0)]
