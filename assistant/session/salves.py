"""A salve that came out too soft or too hard: how much wax or oil goes into what is in the pot, the rest as it is.

Firmness by wax to oil, by weight (common practice): 1:8 soft, 1:6 to 1:5 medium, 1:4 firm, 1:3 a stick. Test a drop on a cold spoon.
"""

from __future__ import annotations

import re

from assistant.dataclass import replace
from assistant.listening.ingredients import called
from assistant.listening.statements import Reading
from assistant.quantities.vocabulary import about, base, key_for
from assistant.session.batch import Batch, Fact
from assistant.session.beside import member_beside
from assistant.session.figuring import work_out
from assistant.session.merging import Merged

FEEL = "soft|squishy|squashy|sloppy|mushy|melty|runny|greasy|oily|hard|firm|stiff|brittle|waxy|crumbly"
WRONG = re.compile(
    rf"\b(?:gone|went|turned|came|come|is|it's|was|too|bit|rather|very|quite|all)(?: out)?(?: all| a bit| too| rather| very| quite| so)? (?:{FEEL})\b|"
    r"\b(?:too|bit|rather|very|quite) (?:\w+ )?(?:soft|hard|firm|stiff|runny|greasy|oily|brittle|waxy)\b|\b(?:firmer|softer|harder|stiffer)\b",
    re.IGNORECASE,
)
SOFT = re.compile(
    r"\bsoft\b|\bsquishy\b|\bsquashy\b|\bsloppy\b|\bmushy\b|\bmelty\b|\brunny\b|\bgreasy\b|\boily\b|\bfirmer\b|\bharder\b|\bstiffer\b", re.IGNORECASE
)
ADDS = re.compile(r"\b(?:add|more|extra|bring|fix|rescue|mend|melt in|need|to get)\b", re.IGNORECASE)
PARTS = ("part", "share")


def corrected(reading: Reading, merged: Merged, before: Batch) -> None:
    """Turn a correction into facts: what is in the pot, the new proportions, and which ingredient is to be added. Changes `merged.batch`.

    before   the batch in hand when the sentence came
    """
    batch = merged.batch
    if "salve" not in batch.frames or not batch.members or not WRONG.search(reading.heard) or not ADDS.search(reading.heard):
        return
    target = {k: f for k, f in batch.facts.items() if base(k) in PARTS and k in merged.new_keys}
    if not target:
        return
    pot = _in_the_pot(reading, batch, before, target)
    added = _added(reading, batch)
    if pot is None or not added:
        return
    facts = {
        k: f
        for k, f in batch.facts.items()
        if base(k) not in ("weight", "part", "share", "volume", "once_weight") and k not in ("batch", "times", "tins", "once_weighs")
    }
    facts |= target
    for member, weight in pot.items():
        facts[key_for("had_weight", member)] = Fact(
            weight, "said", before.facts[key_for("weight", member)].turn if key_for("weight", member) in before.facts else 0
        )
        if member != added:
            facts[key_for("weight", member)] = Fact(weight, "said")
    merged.batch = batch.having(facts=facts, wanted=(key_for("more_weight", added),), tags=batch.tags | {"added_to"})
    merged.asked = merged.batch.wanted
    merged.new_keys |= target.keys()


def _in_the_pot(reading: Reading, batch: Batch, before: Batch, target: dict[str, Fact]) -> dict[str, float] | None:
    """Grams of each ingredient in the pot: by the old proportions, those of the sentence's own list first."""
    old = {k: f for k, f in before.facts.items() if base(k) in PARTS} if before.members == batch.members else {}
    for line in reading.ingredients:
        member = called(line.name, batch.members) or line.name
        for quantity, value, *_ in line.figures:
            if quantity in PARTS:
                old[key_for(quantity, member)] = Fact(value)
    facts = {k: f for k, f in batch.facts.items() if k not in target} | old
    worked = work_out(batch.having(facts=facts, wanted=()))
    weights = {m: worked.value(key_for("weight", m)) for m in batch.members}
    if any(w is None for w in weights.values()) or worked.solution.conflicts:
        return None
    return {m: float(w) for m, w in weights.items() if w is not None}


def _added(reading: Reading, batch: Batch) -> str:
    """What is to be added: what the question names, else wax where it is too soft and oil where it is too hard."""
    for asked in re.finditer(r"\bhow (?:much|many)\b", reading.heard, re.IGNORECASE):
        for mention in sorted(reading.mentions, key=lambda m: m.start):
            if 0 <= mention.start - asked.end() < 24 and (member := called(mention.name, batch.members)):
                return member
    word = "wax" if SOFT.search(reading.heard) else "oil"
    return next((m for m in batch.members if word in m), "")


def _weighed(reading: Reading) -> str:
    """What a weight in "1 to 5, 300 g of oil" is: of what it stands beside, else the batch."""
    herb = next((s for s in reading.said if s.quantity == "herb"), None)
    member = "" if herb is None else member_beside(herb.start, herb.end, reading, ("beeswax", "oil"))
    return key_for("weight", member) if member else "batch"


def by_ratio(merged: Merged, reading: Reading) -> None:
    """ "Make salve at 1:5": wax to oil by weight, where no ingredient was named. Changes `merged.batch`."""
    batch = merged.batch
    if "salve" not in batch.frames or batch.members or not batch.facts.keys() & {"ratio", "ratio_by_weight"}:
        return
    facts = dict(batch.facts)
    told = "ratio" if "ratio" in facts else "ratio_by_weight"
    ratio = facts.pop(told)
    facts |= {"part[beeswax]": replace(ratio, value=1.0), "part[oil]": ratio}
    for quantity, key in (
        ("menstruum", "volume[oil]"),
        ("spirit_in_hand", "volume[oil]"),
        ("pressed", "volume[oil]"),
        ("stock", "volume[oil]"),
        ("herb", _weighed(reading)),
    ):
        if quantity in facts:
            facts[key] = facts.pop(quantity)
    merged.new_keys = {"part[oil]" if k == told else k for k in merged.new_keys}
    wanted = tuple(k for k in batch.wanted if k not in ("menstruum", "herb", "stock") and not about(k))
    merged.batch = batch.having(facts=facts, members=("beeswax", "oil"), wanted=wanted)
