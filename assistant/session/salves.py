"""A salve that came out too soft or too hard: how much wax or oil goes into what is in the pot, the rest as it is.

Firmness by wax to oil, by weight (common practice): 1:8 soft, 1:6 to 1:5 medium, 1:4 firm, 1:3 a stick. Test a drop on a cold spoon.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.dataclass import replace
from assistant.listening.ingredients import called
from assistant.listening.statements import Reading, Said
from assistant.patterns import looked_for
from assistant.quantities.showing import shown
from assistant.quantities.vocabulary import about, base, key_for
from assistant.reply import Question, Reply
from assistant.session.batch import Batch, Fact
from assistant.session.beside import member_beside
from assistant.session.figuring import work_out
from assistant.session.work import SOME_STRENGTH, Work

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session
    from assistant.session.merging import Merged

FEEL = "soft|squishy|squashy|sloppy|mushy|melty|runny|greasy|oily|hard|firm|stiff|brittle|waxy|crumbly"
WRONG = looked_for(
    rf"\b(?:gone|went|turned|came|come|is|it's|was|too|bit|rather|very|quite|all)(?: out)?(?: all| a bit| too| rather| very| quite| so)? (?:{FEEL})\b|"
    r"\b(?:too|bit|rather|very|quite) (?:\w+ )?(?:soft|hard|firm|stiff|runny|greasy|oily|brittle|waxy)\b|\b(?:firmer|softer|harder|stiffer)\b",
    re.IGNORECASE,
)
SOFT = looked_for(
    r"\bsoft\b|\bsquishy\b|\bsquashy\b|\bsloppy\b|\bmushy\b|\bmelty\b|\brunny\b|\bgreasy\b|\boily\b|\bfirmer\b|\bharder\b|\bstiffer\b", re.IGNORECASE
)
ADDS = looked_for(r"\b(?:add|more|extra|bring|fix|rescue|mend|melt in|need|to get)\b", re.IGNORECASE)
CAME_OUT = "came_out"  # soft or hard: what was told is in the pot
MORE = looked_for(r"\bhow much (?:more|extra)\b|\bhow much (?:\w+ ){0,3}(?:do i |to |must i |should i )add\b", re.IGNORECASE)
OF_OIL = looked_for(r"^\s*(?:of )?(?:(?:the|my|that|this|infused|pressed|olive|sunflower|almond|herbal|strained)\s+)*oil\b(?! salve)", re.IGNORECASE)
ANY_OIL = looked_for(
    r"^\s*(?:of )?(?:(?!to |and |in |with |wax|beeswax|per |for |how |what |needs? |takes )[a-z']+ ){0,3}?oil\b(?! salve| balm)", re.IGNORECASE
)
WAX_SHARE = looked_for(
    r"\d+(?:\.\d+)?\s*(?:%|percent)\s+(?:of\s+)?(?:bees)?wax\b|\b(?:bees)?wax\s+(?:at\s+|is\s+|of\s+)?\d+(?:\.\d+)?\s*(?:%|percent)",
    re.IGNORECASE,
)
PARTS = ("part", "share")


def corrected(reading: Reading, merged: Merged, before: Batch) -> None:
    """Turn a correction into facts: what is in the pot, the new proportions, and which ingredient is to be added. Changes `merged.batch`.

    before   the batch in hand when the sentence came
    """
    batch = merged.batch
    if "salve" not in batch.frames or not batch.members:
        return
    if WRONG.search(reading.heard):
        batch = merged.batch = batch.having(tags=batch.tags | {CAME_OUT})
    in_pot = CAME_OUT in batch.tags or (MORE.search(reading.heard) is not None and all(key_for("weight", m) in before.facts for m in batch.members))
    if not in_pot or not ADDS.search(reading.heard):
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
    if herb is not None and ANY_OIL.match(reading.heard[herb.end :]):
        return "weight[oil]"  # "500 g oil wax at 1 to 5"
    member = "" if herb is None else member_beside(herb.start, herb.end, reading, ("beeswax", "oil"))
    return key_for("weight", member) if member else "batch"


def settle_wax_share(said: list[Said], work: Work) -> None:
    """The percent of wax, however it was taken; the rest is oil. Changes `said` in place."""
    if "salve" not in work.frames:
        return
    heard = work.reading.heard
    percents = [s for s in said if s.quantity in SOME_STRENGTH and not s.member and s.value < 100]
    for s in percents:
        named = any(hit.start() <= s.start and s.end <= hit.end() for hit in WAX_SHARE.finditer(heard[: s.end + 14]))
        if not work.members and named and len(percents) == 1:
            said[said.index(s)] = replace(s, quantity="strength", weak=False)
        elif len(work.members) == 2 and any(key_for("share", m) in work.facts for m in work.members) and len(percents) == 1 and not work.reading.mentions:
            wax = next((m for m in work.members if "wax" in m), "")
            oil = next((m for m in work.members if m != wax), "")
            if wax:
                said.remove(s)
                said += [replace(s, quantity="share", member=wax, weak=False), replace(s, quantity="share", member=oil, value=100.0 - s.value, weak=False)]


IN_OIL = looked_for(r"\s*(?:in|into|with|of)\s+(?:[a-z]+\s+){0,2}oil\b", re.IGNORECASE)


def infused_and_melted(said: list[Said], work: Work) -> None:
    """ "60 g plantain 1:5 in olive oil, all of it into salve 1 wax to 4 oil": the oil poured is the oil that melts. Changes `said` in place."""
    herb, ratio = (next((s for s in said if s.quantity == q and not s.member), None) for q in ("herb", "ratio"))
    oil = next((m for m in work.members if m.endswith("oil")), "")
    told = {s.key for s in said} | work.facts.keys()
    if "salve" not in work.frames or herb is None or ratio is None or not oil or not work.reading.named or key_for("part", oil) not in told:
        return
    if told & {key_for("volume", oil), key_for("weight", oil), "batch"} or not IN_OIL.match(work.reading.heard[ratio.end :]):
        return
    said.remove(herb)
    said[said.index(ratio)] = replace(ratio, quantity="volume", member=oil, value=herb.value * ratio.value, weak=False, said_unit="")
    work.refer(herb)


def _oil_made(facts: dict[str, Fact], merged: Merged) -> None:
    """The oil infused before goes into the pot as it was pressed out, and its plant stays behind. Changes the facts."""
    told = merged.batch.facts
    if "herb" not in told or not told.keys() & {"menstruum", "ratio", "ratio_by_weight"} or merged.new_keys & {"herb", "menstruum", "pressed", "batch"}:
        return
    poured = merged.batch.having(frames=merged.batch.frames - {"salve"})
    for key in ("ratio", "ratio_by_weight"):  # what is said now is of wax to oil
        if key in merged.new_keys:
            poured = poured.without(key)
        if key in merged.replaced:
            poured = poured.with_facts({key: Fact(merged.replaced[key])})
    made = work_out(poured, wanted=("racked", "pressed"))
    volume = next((v for k in ("racked", "pressed", "in_jar", "menstruum") if (v := made.value(k)) is not None), None)
    for key in OF_THE_OIL & facts.keys():
        del facts[key]
    if volume is not None:
        facts["volume[oil]"] = Fact(volume, "found" if "pressed" not in merged.batch.facts else "said")


OF_THE_OIL = frozenset({"herb", "menstruum", "pressed", "racked", "ratio", "held_per_gram", "yield_share", "water_content", "in_jar", "rack_loss", "held_back"})


def from_infused(merged: Merged, reading: Reading) -> None:
    """ "Make that a salve, 1:4 wax to oil" behind an infused oil: its oil is the salve's. Changes `merged.batch`."""
    batch = merged.batch
    if "salve" not in reading.frames or "oil" not in batch.members or {"volume[oil]", "weight[oil]"} & batch.facts.keys():
        return
    facts = dict(batch.facts)
    there = next((s for s in reading.said if s.quantity in ("herb", "batch") and s.quantity in merged.new_keys & facts.keys() and not s.member), None)
    if there is not None and ANY_OIL.match(reading.heard[there.end :]):  # "400 g comfrey oil, wax to oil 1 to 5": the oil as it is, no plant
        facts["weight[oil]"] = facts.pop(there.quantity)
        asked = tuple(key_for("weight", m) for m in batch.members if m != "oil")
        merged.new_keys = {"weight[oil]" if k == there.quantity else k for k in merged.new_keys}
        merged.batch = batch.having(facts=facts, wanted=(*asked, *(k for k in batch.wanted if k not in OF_THE_OIL and k not in asked)))
        return
    if "pressed" in merged.new_keys and "batch" not in facts:  # "got 600 mL back after straining, salve 1 to 5 wax to oil"
        strained = facts["pressed"]
        facts = {k: f for k, f in facts.items() if k not in OF_THE_OIL} | {"volume[oil]": strained}
        merged.new_keys = {"volume[oil]" if k == "pressed" else k for k in merged.new_keys}
    else:
        _oil_made(facts, merged)
    if "volume[oil]" in facts:
        merged.batch = batch.having(facts=facts, wanted=tuple(k for k in batch.wanted if k not in OF_THE_OIL))


TINS_OF = looked_for(r"\b(?:tins|pots|tubs|jars|bottles)\s+of\s+(?:about\s+)?$", re.IGNORECASE)


def tins_of_it(reading: Reading) -> None:
    """ "24 tins of 30 mL of the plantain salve, 1 to 5 wax to oil": the size of a tin, and no part of the salve. Changes the reading."""
    for line in list(reading.ingredients):
        if len(line.figures) == 1 and line.figures[0][0] == "volume" and TINS_OF.search(reading.heard[: line.figures[0][2]]):
            _, value, start, end = line.figures[0]
            reading.ingredients.remove(line)
            reading.said.append(Said("tin_size", value, start, end, said_unit="mL"))


def _by_share(merged: Merged, reading: Reading) -> None:
    """ "20 % beeswax, 200 g in all": the rest is oil. Changes `merged.batch`."""
    batch = merged.batch
    facts = dict(batch.facts)
    wax = facts.pop("strength")
    facts |= {"share[beeswax]": wax, "share[oil]": replace(wax, value=100.0 - wax.value)}
    _oil_made(facts, merged)
    if "herb" in facts and "batch" not in facts:
        herb = next((s for s in reading.said if s.quantity == "herb"), None)
        of_oil = herb is not None and OF_OIL.match(reading.heard[herb.end :]) is not None
        facts["weight[oil]" if of_oil else "batch"] = facts.pop("herb")
    for told in ("menstruum", "pressed"):
        if told in facts and "volume[oil]" not in facts:
            facts["volume[oil]"] = facts.pop(told)
    merged.new_keys = {"share[beeswax]" if k == "strength" else k for k in merged.new_keys} | {"share[oil]"}
    wanted = tuple(k for k in batch.wanted if k not in ("menstruum", "herb", "stock", "strength") and not about(k))
    merged.batch = batch.having(facts=facts, members=("beeswax", "oil"), wanted=wanted)


SOFTER = looked_for(r"\b(softer|firmer|harder|stiffer)\b|\btoo (soft|runny|greasy|oily|hard|firm|stiff|waxy|brittle)\b", re.IGNORECASE)
LESS_WAX = frozenset({"softer", "hard", "firm", "stiff", "waxy", "brittle"})
STEPS = (3.0, 4.0, 5.0, 6.0, 8.0)  # oil to one of wax, by weight: a stick, firm, medium, medium, soft


def how_soft(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """ "Make it softer", with no figure: what that means for wax and oil, and which proportion it shall be; None for any other sentence."""
    batch = session.batch
    if batch is None or "salve" not in batch.frames or session.last is None or len(batch.members) != 2:
        return None
    hit = SOFTER.search(reading.heard)
    if hit is None or reading.said or reading.loose or reading.ingredients or (reading.asked and not hit.group(2)) or reading.numbers:
        return None  # "too hard, how much oil do I add" asks the same
    wax = next((m for m in batch.members if "wax" in m), "")
    oil = next((m for m in batch.members if m != wax), "")
    weights = session.last.value(key_for("weight", wax)), session.last.value(key_for("weight", oil))
    if not wax or not weights[0] or not weights[1]:
        return None
    now = weights[1] / weights[0]
    less = (hit.group(1) or hit.group(2)).lower() in LESS_WAX
    next_one = next((s for s in STEPS if s > now + 0.1), now + 2) if less else next((s for s in reversed(STEPS) if s < now - 0.1), now / 2)
    way = "Softer is less wax" if less else "Firmer is more wax"
    more, of_what = (weights[0] * next_one - weights[1], "oil") if less else (weights[1] / next_one - weights[0], "wax")
    text = (
        f"{way} to the oil, by weight: now it is 1:{now:.3g}, and {shown('weight', more)} more {of_what} in the pot makes it 1:{next_one:.3g}. "
        "1:8 is soft, 1:5 to 1:6 medium, 1:4 firm, 1:3 a stick. How much oil to one of wax shall it be?"
    )
    question = Question(text=text, wants=("part",), choices=(f"1 to {next_one:.3g} wax to oil",))
    return answers.reply("asking", f"{text} (for example: 1 to {next_one:.3g} wax to oil)", batch=batch, questions=(question,))


def by_ratio(merged: Merged, reading: Reading) -> None:
    """ "Make salve at 1:5": wax to oil by weight, where no ingredient was named. Changes `merged.batch`."""
    batch = merged.batch
    if "salve" not in batch.frames or batch.members:
        return
    if "strength" in batch.facts and WAX_SHARE.search(reading.heard) and not batch.facts.keys() & {"ratio", "ratio_by_weight"}:
        _by_share(merged, reading)
        return
    if not batch.facts.keys() & {"ratio", "ratio_by_weight"}:
        return
    facts = dict(batch.facts)
    told = "ratio" if "ratio" in facts else "ratio_by_weight"
    ratio = facts.pop(told)
    facts |= {"part[beeswax]": replace(ratio, value=1.0), "part[oil]": ratio}
    if told in merged.new_keys:
        _oil_made(facts, merged)
    for quantity, key in (
        ("menstruum", "volume[oil]"),
        ("spirit_in_hand", "volume[oil]"),
        ("pressed", "volume[oil]"),
        ("stock", "volume[oil]"),
        ("herb", _weighed(reading)),
    ):
        if quantity == "herb" and key == "batch" and "volume[oil]" in facts and reading.named:
            facts.pop("herb", None)  # "100 g calendula in 500 mL oil, then salve 1:5": the plant stays behind
        elif quantity in facts:
            facts[key] = facts.pop(quantity)
    merged.new_keys = {"part[oil]" if k == told else k for k in merged.new_keys}
    wanted = tuple(k for k in batch.wanted if k not in ("menstruum", "menstruum_weight", "herb", "stock") and not about(k))
    merged.batch = batch.having(facts=facts, members=("beeswax", "oil"), wanted=wanted)
