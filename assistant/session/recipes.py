"""Ingredients of a sentence laid into a batch: what kind of recipe it is, which figure of each is meant, what the last one takes.

Kinds: a salve (weights that melt), a tea (weights), a formula (volumes that fill a bottle), a mix (liquids poured together, shrinkage counted),
a syrup (sugar, honey and liquid), a written recipe (weights and volumes side by side), what was bought for a batch, grams of herb a day.
"""

from __future__ import annotations

import re
from collections.abc import MutableSequence, Sequence
from typing import TYPE_CHECKING

from assistant.listening.ingredients import called
from assistant.listening.statements import Ingredient, Reading, Reference
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import about, base, key_for
from assistant.session.added_on import on_top_of
from assistant.session.batch import Fact
from assistant.session.sweets import lay_sweet, put
from assistant.session.year_rows import lay_rows
from assistant.session.year_work import ROWS

if TYPE_CHECKING:
    from assistant.session.merging import Merged

WATERY = frozenset({"decoction", "infusion", "water", "tea", "juice", "honey", "vinegar", "syrup"})  # no alcohol in them
DAILY = looked_for(r"\b(?:a day|per day|daily|each day|every day)\b|/day", re.IGNORECASE)
KINDS = frozenset({"salve", "tea", "formula", "mix", "syrup", "essential", "written", "bought"})
AMOUNTS = frozenset({"part", "share", "volume", "weight", "poured", "once_volume", "once_weight", "runs_out", "runs_out_weight"})
MORE = looked_for(r"\b(?:more|another|extra|additional|further|add|adding|plus)\b", re.IGNORECASE)
ON_TOP = frozenset({"part", "volume", "weight", "poured"})
LEAST_MADE = 20.0  # mL: less than that are parts
LEAST_PERCENTS = 20.0  # bare numbers that come to less are parts


def lay_recipe(reading: Reading, frames: set[str], facts: dict[str, Fact], members: MutableSequence[str], turn: int, merged: Merged) -> None:
    """Ingredients into facts: a fresh list replaces the old one, a line about a known member changes it.

    merged   is told what was bad, what is new and which pieces of the sentence were used
    """
    lines = reading.ingredients or reading.liquids
    if not lines:
        return
    if frames & ROWS:
        lay_rows(lines, reading, frames, facts, members, turn, merged)
        return
    if reading.ingredients and lay_sweet(lines, reading, frames, facts, turn, merged):
        return
    if _macerated(lines, reading, frames, facts, turn, merged):
        return
    fresh = len(lines) >= 2 and sum(bool(called(i.name, members)) for i in lines) < len(lines) / 2
    fresh = fresh or _whole_mixture(lines)
    if fresh and members:
        for key in [k for k in facts if about(k)]:
            del facts[key]
        members.clear()
        frames -= KINDS - _heard(reading)
        for key in ("blend", "batch", "made", "times", "once_makes", "once_weighs", "once_count", "count_wanted"):
            facts.pop(key, None)
    if fresh or not frames & KINDS:
        frames.add(_kind(lines, reading, frames))
    of_strength = not fresh and _strengths_of_known(lines, facts, members)
    daily = _grams_a_day(lines, reading, frames)
    if daily:
        frames |= {"formula", "dose"}
        frames -= {"tea", "written"}
    for line in lines:
        name = line.name.removesuffix(" tea") if "tea" in frames and len(line.name) > len(" tea") else line.name  # "40 g lavender tea" is lavender
        member = called(name, members) or name
        if member not in members:
            members.append(member)
        for quantity, value, start, end in line.figures:
            if quantity == "rest":
                continue
            if of_strength and quantity == "share":
                quantity = "strength_of"
            if daily and quantity == "weight":
                quantity = "herb_a_day_of"
            if quantity == "density_of" and frames & {"mix", "formula"}:
                quantity = "carries_of"  # a lot at so many grams of herb to the mL
            key = key_for(_here(quantity, frames), member)
            if not fresh and key in facts and _comes_on_top(key, line, start, reading, facts):
                value += facts[key].value  # "add 10 mL ginger", "one more part thyme": on top of what is in it
                facts.pop("blend", None) if quantity != "part" else None
            put(key, value, start, end, facts, turn, merged)
    _parts_that_are_the_whole(reading, frames, facts, members, merged)
    _rest(lines, frames, facts, members, turn)
    if "formula" in frames:
        _fixed_beside_parts(facts, members, merged)
    if frames & {"mix"} or any(k.startswith("strength_of[") for k in facts):
        for member in members:
            if member.split()[-1] in WATERY:
                facts.setdefault(key_for("strength_of", member), Fact(0.0, "said", turn))


def _whole_mixture(lines: Sequence[Ingredient]) -> bool:
    """Whether the lines are a mixture told anew from end to end: every liquid by its parts and its strength."""
    return len(lines) >= 2 and all({"part", "strength_of"} <= {q for q, *_ in line.figures} for line in lines)


def _comes_on_top(key: str, line: Ingredient, start: int, reading: Reading, facts: dict[str, Fact]) -> bool:
    """Whether a figure of an ingredient is said to be added to what there is of it already."""
    more = base(key) in ON_TOP and MORE.search(reading.heard[max(0, line.start - 16) : line.end]) is not None
    alone = len(reading.ingredients or reading.liquids) == 1
    return more or (alone and on_top_of(key, start, reading.heard, facts) > 0)


def _macerated(lines: list[Ingredient], reading: Reading, frames: set[str], facts: dict[str, Fact], turn: int, merged: Merged) -> bool:
    """ "30 g gentian, 20 g orange peel in 600 mL of 45 % vodka": several plants in one jar are one weight of plant."""
    weights = [(v, a, b) for line in lines for q, v, a, b in line.figures if q == "weight"]
    only = all(q == "weight" for line in lines for q, *_ in line.figures)
    poured = {s.quantity for s in reading.said} & {"menstruum", "ratio", "strength", "stock_strength", "acidity", "glycerine"}
    if len(weights) < 2 or not only or not poured or frames & (KINDS - {"syrup"}) or facts.keys() & {"herb"} or DAILY.search(reading.heard):
        return False
    put("herb", sum(v for v, *_ in weights), weights[0][1], weights[0][2], facts, turn, merged)
    merged.used.extend((a, b, "herb") for _, a, b in weights[1:])
    return True


def _strengths_of_known(lines: list[Ingredient], facts: dict[str, Fact], members: MutableSequence[str]) -> bool:
    """Percents of ingredients whose amounts are told already are their strengths, unless they make a hundred."""
    percents = [v for line in lines for q, v, *_ in line.figures if q == "share"]
    told = [any(key_for(q, m) in facts for q in ("part", "volume", "once_volume", "poured")) for m in members]
    amounts = sum(told) >= max(1, len(told) - 1)  # one may take the rest
    return bool(percents) and amounts and abs(sum(percents) - 100) > 0.5


def _fixed_beside_parts(facts: dict[str, Fact], members: MutableSequence[str], merged: Merged) -> None:
    """Fixed amounts in a formula that goes by parts for the rest."""
    with_parts = [m for m in members if key_for("part", m) in facts]
    if not with_parts or len(with_parts) == len(members):
        return
    for member in members:
        volume = key_for("volume", member)
        if member not in with_parts and volume in facts:
            facts[key_for("poured", member)] = facts.pop(volume)
            if volume in merged.new_keys:
                merged.new_keys.discard(volume)
                merged.new_keys.add(key_for("poured", member))


def _parts_that_are_the_whole(reading: Reading, frames: set[str], facts: dict[str, Fact], members: MutableSequence[str], merged: Merged) -> None:
    """ "Agrimony 60, chamomile 40, peppermint 20, makes 120 mL": bare numbers that come to what is made are millilitres."""
    parts = [k for m in members if (k := key_for("part", m)) in facts and k in merged.new_keys]
    made = {s.value for s in reading.said if s.quantity in ("menstruum", "blend", "once_makes", "pressed")}
    total = sum(facts[k].value for k in parts)
    if "formula" not in frames or len(parts) != len(members) or total < LEAST_MADE or not any(abs(total - v) < 1e-6 for v in made):
        return
    for key in parts:
        facts[key_for("volume", about(key))] = facts.pop(key)
        merged.new_keys.discard(key)
        merged.new_keys.add(key_for("volume", about(key)))


def _heard(reading: Reading) -> set[str]:
    return reading.frames & KINDS


def _kind(lines: list[Ingredient], reading: Reading, frames: set[str]) -> str:
    quantities = {q for line in lines for q, *_ in line.figures}
    weighed, measured = "weight" in quantities or "have_weight" in quantities, "volume" in quantities or "have" in quantities
    if reading.liquids:
        return "mix"
    if any("wax" in line.name for line in lines) and len(lines) > 1:
        return "salve"
    for kind in ("salve", "essential"):
        if kind in frames:
            return kind
    if weighed and measured:
        return "bought" if "price_of" in quantities else "written"
    if "tea" in reading.frames and not measured and "strength_of" not in quantities:
        return "tea"
    if weighed:
        return "bought" if "price_of" in quantities else "tea"
    watery = any(line.name.split()[-1] in WATERY for line in lines)
    if measured and not {"part", "share"} & quantities and (watery or "strength_of" in quantities) and not _bottle(reading):
        return "mix"
    if (
        not measured
        and any(s.quantity in ("herb", "batch", "tare", "tin_weight") for s in reading.said)
        and not any(s.quantity in ("bottle_size", "menstruum") for s in reading.said)
    ):
        return "tea"
    return "formula"


def _bottle(reading: Reading) -> bool:
    return any(s.quantity == "bottle_size" for s in reading.said)


def _grams_a_day(lines: list[Ingredient], reading: Reading, frames: set[str]) -> bool:
    """ "3 g hawthorn, 2 g linden, 1.5 g motherwort a day": the weights are what is wanted in a day."""
    if not lines or not all(any(q == "weight" for q, *_ in line.figures) for line in lines) or frames & {"salve", "syrup"}:
        return False
    first, last = min(line.start for line in lines), max(line.end for line in lines)
    hit = next((m for m in DAILY.finditer(reading.heard) if first - 24 <= m.start() <= last + 3), None)
    if hit is None:
        return False
    reading.references.append(Reference("reference", hit.start(), hit.end()))
    return True


def _here(quantity: str, frames: set[str]) -> str:
    if "essential" in frames and "salve" not in frames and quantity == "share":
        return "eo_part"
    return quantity


def _rest(lines: list[Ingredient], frames: set[str], facts: dict[str, Fact], members: MutableSequence[str], turn: int) -> None:
    """The one that takes the rest: what the percents leave, or all of the parts that the fixed amounts leave."""
    for member in (called(i.name, members) or i.name for i in lines if any(q == "rest" for q, *_ in i.figures)):
        others = [m for m in members if m != member]
        share = "eo_part" if "essential" in frames and "salve" not in frames else "share"
        shares = [facts[key_for(share, m)].value for m in others if key_for(share, m) in facts]
        parts = [facts[key_for("part", m)].value for m in others if key_for("part", m) in facts]
        for stale in [k for q in ("part", "share", "volume", "poured") if (k := key_for(q, member)) in facts]:
            del facts[stale]  # it takes what the others leave, whatever it took before
        if len(parts) == len(others) and LEAST_PERCENTS <= sum(parts) < 100 and "formula" in frames:
            for other in others:  # "dandelion 40, yellow dock 25, burdock fills up": of a hundred
                facts[key_for("share", other)] = facts.pop(key_for("part", other))
            facts[key_for("share", member)] = Fact(100.0 - sum(parts), "said", turn)
        elif len(shares) == len(others):
            facts[key_for(share, member)] = Fact(100.0 - sum(shares), "said", turn)
        elif frames & {"formula"} and any(key_for("volume", m) in facts for m in others) and not all(key_for("volume", m) in facts for m in others):
            facts[key_for("part", member)] = Fact(1.0, "said", turn)


__all__ = ["AMOUNTS", "KINDS", "WATERY", "lay_recipe"]
