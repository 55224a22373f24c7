"""The last answer asked for once more by the other measure, or as a whole: "oil in mL?", "weigh the honey for me", "whole lot weighs what".

No figure is said: what is meant is what was told last, or an ingredient named, and the density in hand turns one measure into the other.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

from assistant.listening.ingredients import called
from assistant.listening.statements import Asked, Reading, Reference
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import VOCABULARY, about, base
from assistant.session.batch import Batch
from assistant.session.figuring import work_out
from assistant.session.work import SOME_LIQUID, SOME_WEIGHT

if TYPE_CHECKING:
    from assistant.session.conversation import Session

WEIGHS = looked_for(
    r"\b(?:in|as|by) (?:g|grams?|grammes?|weight|kilos?|kg)\b|\bon the scales?\b|\bweigh(?:s|ed|ing)?\b|\bhow heavy\b|\bweight of\b|\bby the gram\b"
    r"|\b(?:how many|many) (?:g|grams|grammes)\b|\bscale (?:weight|reading)\b|\bgrams (?:is|are|of|then|please)\b|\bgrams\s*\?",
    re.IGNORECASE,
)
MEASURES = looked_for(
    r"\b(?:in|as) (?:ml|mls|millilit\w+|cc|lit(?:re|er)s?)\b|\bhow many (?:ml|mls|millilit\w+)\b|\bby (?:the )?(?:volume|ml)\b"
    r"|\bin (?:a|the|my) (?:measuring )?(?:jug|cylinder|graduate|beaker)\b"
    r"|\b(?:ml|mls) (?:is|are|of|then|please)\b|\bwith (?:a|the|my) (?:jug|cylinder)\b|\bhow much (?:by volume|room)\b",
    re.IGNORECASE,
)
TOTAL = looked_for(
    r"\b(?:the |that |my )?(?:whole|entire|full) (?:lot|thing|batch|pot|mix|jar|pan|amount|shebang|melt)\b|\b(?:is|are|does|do|the|that) (?:the )?lot\b"
    r"|\b(?:the|that|this|my) (?:mix|mixture|blend|pour|melt|batch)\b|\ball (?:of it|of them|told|in|that|this|those)\b"
    r"|\baltogether\b|\bin total\b|\btotal\b|\bin all\b|\beverything\b|\btogether\b",
    re.IGNORECASE,
)
COMES_TO = looked_for(
    r"\b(?:comes?|adds?|amounts?|works? out|makes?|is|are|leaves?|weighs?|heavy|how much|how many|what|weight|total|volume|grams)\b", re.IGNORECASE
)
# Words that ask for something else than a change of measure.
ELSEWHERE = looked_for(
    r"\b(?:melted|molten|strong|strength|percent|ratio|cost|price|why|bottles?|tins|jars|days?|last|lasts|if|instead|drops?|each|per|another|more|add|same)\b|%",
    re.IGNORECASE,
)
# One thing by volume and by weight.
PAIRS = (
    ("menstruum", "menstruum_weight"),
    ("honey_volume", "honey"),
    ("glycerine_volume", "glycerine_weight"),
    ("batch_volume", "batch"),
    ("syrup", "syrup_weight"),
    ("decoction", "liquid"),
    ("eo", "eo_weight"),
    ("alcohol", "alcohol_grams"),
    ("volume", "weight"),
)
SENTENCES = looked_for(r"(?<=[.?!])\s+")
PER = looked_for(
    r"^\W*(?:and |so |then )?(?:what'?s |what is |how much )?(?:is )?(?:that )?(?:a|per|each|for each|to the|in each|every) "
    r"(gram|g|ml|dose|day|bottle|tin)s?\W*$",
    re.IGNORECASE,
)
OF_THE_PLANT = looked_for(r"\b(?:g|grams?|weight) of (?:the )?(?:dried |fresh )?(?:root|roots|herb|leaf|leaves|flowers?|bark|berries|plant)\b", re.IGNORECASE)
# What is told, and for one of which → the quantity that says so.
EACH_OF = {
    ("held_back", "gram"): ("held_per_gram",),
    ("held_back", "g"): ("held_per_gram",),
    ("menstruum", "gram"): ("ratio",),
    ("menstruum", "g"): ("ratio",),
    ("herb", "ml"): ("herb_per_ml",),
    ("supply", "day"): ("daily",),
    ("days", "day"): ("daily",),
    ("bottles_needed", "day"): ("daily",),
    ("daily", "dose"): ("dose",),
    ("herb_per_day", "dose"): ("herb_per_dose",),
    ("herb_per_dose", "day"): ("herb_per_day",),
    ("alcohol_per_dose", "day"): ("alcohol_per_day",),
    ("alcohol_per_day", "dose"): ("alcohol_per_dose",),
    ("eo_drops", "tin"): ("drops_per_tin",),
    ("materials", "bottle"): ("bottle_cost",),
}
STUFFS = {
    "vinegar": ("menstruum", ""),
    "honey": ("honey_volume", "honey"),
    "glycerine": ("glycerine_volume", "glycerine_weight"),
    "glycerin": ("glycerine_volume", "glycerine_weight"),
}
# What a bare "how much" may have been taken to ask.
VAGUE = frozenset(
    {
        "herb_per_ml",
        "honey",
        "honey_volume",
        "glycerine_volume",
        "glycerine_weight",
        "syrup",
        "syrup_weight",
        "batch_volume",
        "volume",
        "in_each",
        "tin_weight",
        "oil_weight",
    }
)
WHOLE = {"mL": ("fortified", "blend", "batch_volume", "syrup", "in_jar", "menstruum"), "g": ("batch", "syrup_weight", "menstruum_weight")}


def asked_otherwise(session: Session, reading: Reading) -> None:
    """Where a sentence only asks for the other measure or the whole of what was told last: put that question into `reading.asked`."""
    batch = session.batch
    if session.last is None or batch is None or session.draft is not None or not (batch.facts or batch.members):
        return
    per = PER.match(reading.heard)
    if per is not None:
        _per(session, batch, reading, per.group(1).lower())
        return
    if reading.said or reading.loose or reading.ingredients or reading.liquids or reading.references:
        return
    if ELSEWHERE.search(_its_sentence(reading.heard)) or OF_THE_PLANT.search(reading.heard):
        return
    if any(a.quantity not in SOME_WEIGHT | SOME_LIQUID | VAGUE for a in reading.asked):
        return  # "what weight of pure alcohol": something of its own
    unit = "g" if WEIGHS.search(reading.heard) else "mL" if MEASURES.search(reading.heard) else ""
    total = TOTAL.search(reading.heard) is not None and COMES_TO.search(reading.heard) is not None
    if not unit and not total:
        return
    for quantity, member in _meant(session, batch, reading, unit, total):
        key = f"{quantity}[{member}]" if member else quantity
        found = work_out(batch.having(wanted=(key,))).solution.figures
        if key in found:
            reading.asked[:] = [Asked(quantity, 0, len(reading.heard), member)]
            if quantity == "honey_volume" and "honey" in batch.wanted:
                reading.asked.append(Asked("honey", 0, len(reading.heard)))  # the honey is still what is looked for, and not the sugar
            kept = {"in_unit"} if "lit" in reading.heard.lower() else set()  # a litre is no change of what is told, only of how
            reading.acts[:] = [a for a in reading.acts if a.name not in {"in_unit", "whatif", "scale_n"} - kept]
            return


def _its_sentence(heard: str) -> str:
    """The sentence that asks for the whole; what is chatted behind it asks nothing."""
    return next((part for part in SENTENCES.split(heard) if TOTAL.search(part) or WEIGHS.search(part) or MEASURES.search(part)), heard)


def _per(session: Session, batch: Batch, reading: Reading, one: str) -> None:
    """ "Per gram?", "a day?": what was told last, for one of them."""
    for key in session.last_keys:
        for quantity in EACH_OF.get((base(key), one.rstrip("s")), ()):
            if quantity in work_out(batch.having(wanted=(quantity,))).solution.figures:
                reading.asked[:] = [Asked(quantity, 0, len(reading.heard))]
                reading.references += [Reference("reference", f.start, f.end, f.value) for f in reading.figures]  # the gram of "a gram" is no weight
                reading.said.clear()
                reading.loose.clear()
                return


def _meant(session: Session, batch: Batch, reading: Reading, unit: str, total: bool) -> Iterator[tuple[str, str]]:
    """What may be meant, the likeliest first: (quantity, ingredient)."""
    side = 0 if unit == "mL" else 1
    if total and not any(called(n.name, batch.members) for n in reading.mentions):
        for one in (unit,) if unit else ("mL", "g"):
            yield from ((quantity, "") for quantity in WHOLE[one])
        return
    for mention in sorted(reading.mentions, key=lambda n: n.start):
        member = called(mention.name, batch.members)
        if member:
            yield PAIRS[-1][side], member
        stuff = STUFFS.get(mention.name.split()[-1])
        if stuff is not None and stuff[side]:
            yield stuff[side], ""
    words = set(reading.heard.lower().replace("?", " ").split())
    yield from ((PAIRS[-1][side], member) for member in batch.members if set(member.split()) & words)  # "oil in litres"
    if reading.mentions and not any(n.name.split()[-1] == "oil" for n in reading.mentions):
        return  # of something else than what was told
    for key in sorted(session.last_keys, key=lambda k: k in batch.facts):  # what was found before what the person told
        pair = next((p for p in PAIRS if base(key) in p), None)
        if pair is not None and VOCABULARY[base(key)].unit != unit:
            yield pair[side], about(key)
    if reading.mentions or not unit or not any(VOCABULARY[base(k)].unit in ("g", "mL") for k in session.last_keys):
        return
    for pair in PAIRS[:-1]:
        yield pair[side], ""
    yield from ((quantity, "") for quantity in WHOLE[unit])  # "and how many ml" behind a strength
