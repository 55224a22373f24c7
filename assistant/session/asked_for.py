"""Which figures of the batch a sentence asks for: of the whole, or of one ingredient by the words and by what is known of it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence

from assistant.listening.ingredients import called
from assistant.listening.statements import Reading
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import VOCABULARY, base, key_for
from assistant.session.batch import Fact
from assistant.session.beside import member_asked
from assistant.session.regimens import how_long_steps_take, steps_without_bottle
from assistant.session.work import CHILD_RULES, SOME_LIQUID, SOME_STRENGTH, SOME_WEIGHT, WEIGHED

PERCENT_OF = looked_for(r"\b(?:percent|percentage|%) (?:is|are|of) (?:each|every|them)\b", re.IGNORECASE)
EXTRACT = looked_for(r"\b(?:tincture|extract|glycerite|fluid|mls?|millilitres?)\b", re.IGNORECASE)
HERB_IN = looked_for(
    r"\b(?:herb|leaf|root|flowers?|bark|berr(?:y|ies)|seeds?) (?:is |there )*(?:in|per|to) (?:an? |each |the |one |every )?[\d.]+ ?ml\b", re.IGNORECASE
)
IN_A_DOSE = looked_for(
    r"[a-z' ]{0,48}\b(?:in|per|to|with) (?:a|an|each|every|one|the|that|her|his)? ?(?:dose|spoon(?:ful)?|teaspoon(?:ful)?|tsp|taking)\b", re.IGNORECASE
)
DROPS = looked_for(r"\bdrops?\b", re.IGNORECASE)


def _part_of_the_dose(quantity: str, words: str) -> str:
    """Of one ingredient of a formula: "how much poke tincture a day", "how many drops of the poke per dose"; "" where its herb is asked for."""
    if HERB_IN.search(words):
        return ""
    if quantity in ("herb_per_day", "daily") and EXTRACT.search(words):
        return "volume_a_day"
    if quantity in ("dose_drops", "drops_per_tin", "eo_drops") or (quantity in ("dose", "herb_per_dose") and DROPS.search(words)):
        return "drops_a_dose"
    return "volume_a_dose" if quantity in ("dose", "herb_per_dose") and EXTRACT.search(words) else ""


def _asked_here(quantity: str, member: str, frames: frozenset[str] | set[str], facts: Mapping[str, Fact]) -> str:
    """What a question about one ingredient asks: "what percent is rose" its share, "how much hawthorn herb a day" its herb."""
    if quantity in ("strength", "stock_strength", "finished_strength", "blend_strength"):
        by_share = frames & {"tea", "salve", "written"} or (key_for("strength_of", member) not in facts and "formula" in frames)
        return "share" if by_share else "strength_of"
    if quantity in ("herb_per_day", "daily"):
        blended = "formula" in frames and any(key_for(q, member) in facts for q in ("volume", "part", "share"))
        known = facts.keys() & {"ratio", "herb_per_ml", "herb_per_day"} or any(key_for(q, member) in facts for q in ("ratio_of", "herb_in_ml", "herb_in"))
        return "volume_a_day" if blended and not known else "herb_a_day_of"
    if quantity == "herb_per_ml":
        return "herb_in_ml"
    if quantity in ("rest", "herb_left", "spare") and (key_for("have", member) in facts or key_for("have_weight", member) in facts):
        return "have_left_weight" if key_for("have_weight", member) in facts else "have_left"
    if quantity == "have_short":
        return "have_short_weight" if key_for("have_weight", member) in facts else "have_short"
    if quantity == "herb_per_dose":
        known = "ratio" in facts or any(key_for(q, member) in facts for q in ("ratio_of", "herb_in_ml", "herb_in"))
        return "herb_a_dose_of" if known or "formula" not in frames else "volume_a_dose"
    if VOCABULARY[quantity].unit in ("g", "mL") and quantity in SOME_WEIGHT | SOME_LIQUID | {"sugar"}:
        by_weight = frames & {"tea", "salve"} or any(key_for(q, member) in facts for q in ("weight", "once_weight", "have_weight"))
        return "weight" if by_weight else "volume"
    return "cost_of" if quantity in ("bottle_cost", "materials") else ""


def asked_keys(reading: Reading, members: Sequence[str], frames: set[str], facts: dict[str, Fact]) -> Iterable[str]:
    """The keys a sentence asks for, in the order it asks."""
    for asked in reading.asked:
        q = VOCABULARY[asked.quantity]
        if "child_dose" in frames and asked.quantity in ("dose", "daily", "dose_drops") and not frames & CHILD_RULES:
            yield "child_dose"  # by which rule of thumb has to be asked
            continue
        if asked.quantity == "days" and steps_without_bottle(frames, facts):
            yield from how_long_steps_take(facts, members)
            continue
        member = called(asked.member, members) if asked.member else member_asked(asked, reading, members)
        if member and "formula" in frames and (part := _part_of_the_dose(asked.quantity, reading.heard[asked.start : asked.end])):
            yield key_for(part, member)
            continue
        if member and facts.keys() & {"dose", "dose_drops"} and IN_A_DOSE.match(reading.heard, asked.start) and asked.quantity in SOME_LIQUID | SOME_WEIGHT:
            yield key_for(_asked_here("herb_per_dose", member, frames, facts), member)
            continue
        if member and (own := _asked_here(asked.quantity, member, frames, facts)):
            yield key_for(own, member)
            continue
        if members and frames & {"mix", "formula"} and asked.quantity in ("strength", "stock_strength", "finished_strength"):
            if not any(base(k) == "strength_of" for k in facts) and PERCENT_OF.search(reading.heard[asked.start :]):
                yield from (key_for("share", m) for m in members)
            else:
                yield "blend_strength"
            continue
        if asked.quantity in SOME_STRENGTH and frames & WEIGHED and members:
            if not any(base(k) == "share" for k in facts):
                yield from (key_for("share", m) for m in members)
            continue
        if q.indexed:
            for m in members:
                if not asked.member or asked.member == m:
                    yield key_for(asked.quantity, m)
        else:
            yield asked.quantity
