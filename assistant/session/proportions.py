"""A recipe made larger or smaller: a new total, something that runs short, so many times, an ingredient dropped or swapped."""

from __future__ import annotations

import re
from collections.abc import Mapping, MutableSequence, Sequence

from assistant.listening.ingredients import called
from assistant.listening.statements import Reading
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import about, base, key_for
from assistant.session.batch import Batch, Fact

ONCE = {"volume": "once_volume", "poured": "once_volume", "weight": "once_weight"}
MADE = {"blend": "once_makes", "batch": "once_weighs", "menstruum": "once_makes", "syrup": "once_makes"}
RECIPES = frozenset({"formula", "mix", "tea", "salve", "written"})
SCALE = looked_for(
    r"\b(?:scale|scaled|resize|blow (?:it )?up|batch (?:it )?up|bring it up|work it up|make it up) (?:it |them |that |this )?(?:up |down )?(?:to|for)\b",
    re.IGNORECASE,
)


def proportions(reading: Reading, frames: set[str], facts: dict[str, Fact], members: MutableSequence[str], new: set[str], turn: int) -> None:
    """Amounts said before become the recipe once a new total, a shortage or so many times is told; the total said before is what it made."""
    if not frames & RECIPES or not members:
        return
    lacks = any(a.quantity in ("have_short", "have_short_weight") for a in reading.asked)
    if _filled_up(reading, facts, members, turn) or (not lacks and _kept_whole(facts, members, new, turn)):
        return
    if "bottle_size" in facts and "blend" not in new and any(a.quantity == "have_short" for a in reading.asked) and any(base(k) == "have" for k in facts):
        many = facts["bottles"].value if "bottles" in facts else 1.0
        facts["blend"] = Fact(facts["bottle_size"].value * many, "said", turn)  # "how much more would it take to fill it?"
        new.add("blend")
    _what_the_last_one_takes(facts, members, turn)
    amounts = [k for k in facts if base(k) in ONCE and about(k) in members]
    if not amounts:
        if not any(a.quantity in ("have_short", "have_short_weight") for a in reading.asked):  # "how much more to fill it" keeps what is to be filled
            _drop_old_total(facts, members, new)
        return
    older = [k for k in amounts if facts[k].turn < turn]
    short = any(base(k) in ("have", "have_weight") for k in new)
    totals = _totals(facts, new)
    rescaled = bool(totals) and SCALE.search(reading.heard) is not None
    if (
        not (short or new & {"times", "count_wanted"} or rescaled or (totals and (older or _says_what_it_makes(facts, new))))
        or len(amounts) < 2
        or (frames & {"mix"} and not short and not _made_larger(facts, members, new))
    ):
        return
    if short and {"blend", "batch"} & new and _adds_up(facts, amounts):
        totals -= {"blend", "batch"}  # "per 100 mL: 40, 40, 20": what the recipe makes, not what is wanted
    for key in amounts:
        once = key_for(ONCE[base(key)], about(key))
        facts[once] = facts.pop(key)
        new.add(once) if key in new else None
    _fixed(reading, facts, members)
    for total, made in MADE.items():
        if total in facts and total not in totals and made not in facts:
            facts[made] = facts.pop(total)
    if {"bottles", "bottle_size"} & facts.keys() and not totals and short:
        facts.pop("bottles", None)


def _what_the_last_one_takes(facts: dict[str, Fact], members: Sequence[str], turn: int) -> None:
    """The one that was topped up with, said by what the others leave, so that it grows with them."""
    volumes = {m: facts[k] for m in members if (k := key_for("volume", m)) in facts}
    without = [m for m in members if m not in volumes]
    if len(without) != 1 or "blend" not in facts or facts["blend"].turn >= turn or any(about(k) == without[0] and base(k) not in OF_A_PLANT for k in facts):
        return
    left = facts["blend"].value - sum(f.value for f in volumes.values())
    if left >= 0:
        facts[key_for("volume", without[0])] = Fact(left, "said", facts["blend"].turn)


OF_A_PLANT = frozenset({"strength_of", "ratio_of", "price_of", "density_of", "carries_of"})
FIXED = looked_for(r"\b(?:stays?|fixed|keep|leave|leaving|keeping|the same|unchanged|don't change|but not|except|only once)\b", re.IGNORECASE)
NEAR = 12  # characters: "with some more bacopa"
FILL = looked_for(
    r"\b(?:fill|filled|make|made|top|topped|replace|eke)\b[^.;,]*\b(?:up|out|difference|rest|gap|shortfall|missing|space)\b[^.;,]*\b(?:with|using|by|from)\b",
    re.IGNORECASE,
)


def _fixed(reading: Reading, facts: dict[str, Fact], members: Sequence[str]) -> None:
    """ "… but keep the vitamin E as it is": an amount that does not grow with the recipe."""
    for mention in reading.mentions:
        member = called(mention.name, members)
        clause = reading.heard[max(0, mention.start - 30) : mention.end + 30]
        if not member or not FIXED.search(clause) or "proportion" in clause.lower():
            continue
        for quantity, once in ONCE.items():
            if key_for(once, member) in facts and quantity != "poured":
                facts[key_for(quantity, member)] = facts.pop(key_for(once, member))


def _filled_up(reading: Reading, facts: dict[str, Fact], members: MutableSequence[str], turn: int) -> bool:
    """ "Only 28 mL linden; make up the rest with hawthorn": the bottle stays, the one named takes what is missing."""
    short = {about(k): f.value for k, f in facts.items() if base(k) == "have"}
    hit = FILL.search(reading.heard)
    if not short or hit is None:
        return False
    filler = next(
        (m for n in sorted(reading.mentions, key=lambda n: n.start) if n.start >= hit.end() - 1 and (m := called(n.name, members)) and m not in short), ""
    )
    planned = _planned(facts, members)
    filler = (planned and _newcomer(reading, hit.end(), members)) or filler
    if not filler or not planned:
        return False
    total = sum(planned.values())
    for member in short:
        facts[key_for("planned_share", member)] = Fact(planned[member] / total * 100, "said", turn)
    for key in [k for k in facts if base(k) in ("part", "share", "volume", "poured", "have") and about(k) in members]:
        del facts[key]
    for member in members:
        if member != filler:
            facts[key_for("volume", member)] = Fact(min(planned[member], short.get(member, planned[member])), "said", turn)
    if not {"bottles", "bottle_size"} <= facts.keys():
        facts["blend"] = Fact(total, "said", turn)
    return True


def _newcomer(reading: Reading, at: int, members: MutableSequence[str]) -> str:
    """ "… fill the gap with bacopa": one that was not in the recipe until now, put among its members; "" where none is named at that place."""
    named = next((n for n in sorted(reading.mentions, key=lambda n: n.start) if 0 <= n.start - at <= NEAR), None)
    if named is None or called(named.name, members):
        return ""
    members.append(named.name)
    return named.name


def _kept_whole(facts: dict[str, Fact], members: Sequence[str], new: set[str], turn: int) -> bool:
    """ "I only have 120 g lemon balm", then "keep 350 g": what is short goes in whole, the others fill the total in their own proportion."""
    for have, whole in (("have_weight", "batch"), ("have", "blend")):
        short = {about(k): f.value for k, f in facts.items() if base(k) == have}
        parts = {m: facts[k].value for m in members for q in ("part", "share") if (k := key_for(q, m)) in facts}
        if not short or whole not in new or any(base(k) == have for k in new) or len(parts) < len(members) or not sum(parts.values()):
            continue
        if len(members) == sum(m in short for m in members):
            continue  # all of the shelf was told: what lacks is told, and nothing put in its place
        total = facts[whole].value
        wanted = {m: total * parts[m] / sum(parts.values()) for m in members}
        short = {m: there for m, there in short.items() if m in wanted and there < wanted[m]}
        rest = total - sum(short.values())
        others = sum(parts[m] for m in members if m not in short)
        if not short or not others or rest <= 0:
            continue
        for key in [k for k in facts if base(k) in ("part", "share", have, "once_weight", "once_volume") and about(k) in members]:
            del facts[key]
        for member in members:
            facts[key_for("part", member)] = Fact(short[member] if member in short else rest * parts[member] / others, "said", turn)
        return True
    return False


def _planned(facts: Mapping[str, Fact], members: Sequence[str]) -> dict[str, float]:
    """The volumes [mL] of a formula as it was planned; empty where it does not say."""
    volumes = {m: facts[k].value for m in members if (k := key_for("volume", m)) in facts}
    if len(volumes) == len(members):
        return volumes
    size = (
        facts["blend"].value
        if "blend" in facts
        else facts["bottle_size"].value * (facts["bottles"].value if "bottles" in facts else 1)
        if "bottle_size" in facts
        else 0.0
    )
    for quantity in ("part", "share"):
        parts = {m: facts[k].value for m in members if (k := key_for(quantity, m)) in facts}
        if size and len(parts) == len(members) and sum(parts.values()):
            return {m: size * p / sum(parts.values()) for m, p in parts.items()}
    return {}


def _adds_up(facts: Mapping[str, Fact], amounts: Sequence[str]) -> bool:
    total = facts["blend"].value if "blend" in facts else facts["batch"].value
    return abs(sum(facts[k].value for k in amounts) - total) <= 0.01 * total


def _made_larger(facts: Mapping[str, Fact], members: Sequence[str], new: set[str]) -> bool:
    """ "Make it 300" of a mix whose every volume was told: more of each, not of one alone."""
    return new == {"blend"} and len(members) > 1 and all(key_for("volume", m) in facts for m in members)


def _totals(facts: Mapping[str, Fact], new: set[str]) -> set[str]:
    found: set[str] = {k for k in ("blend", "batch") if k in new and not ({"bottles", "bottle_size"} <= new)}
    if new & {"bottles", "bottle_size"} and {"bottles", "bottle_size"} <= facts.keys():
        found |= {"bottles", "bottle_size"}
    if new & {"tins", "tin_size", "tin_weight"} and "tins" in facts and facts.keys() & {"tin_size", "tin_weight"}:
        found |= {"tins"}
    return found


def _says_what_it_makes(facts: Mapping[str, Fact], new: set[str]) -> bool:
    """ "makes 750 mL from …, orders for ten 250 mL bottles": the recipe and what is wanted of it in one breath."""
    if "tins" in new and new & {"tin_size", "tin_weight"}:
        return True  # "200 g oil, 40 g wax, enough for 24 tins of 60 mL"
    return {"bottles", "bottle_size"} <= new and bool({"blend", "menstruum", "syrup", "once_makes"} & facts.keys())


def _drop_old_total(facts: dict[str, Fact], members: Sequence[str], new: set[str]) -> None:
    """A shortage sets the batch: the total wanted before is let go, and one told in the same breath where what there is does not reach."""
    if any(base(k) in ("have", "have_weight") for k in new):
        for key in ("blend", "batch", "bottles", "cups", "times"):
            if key in facts and (key not in new or _falls_short(facts, members, key)):
                del facts[key]


def _falls_short(facts: Mapping[str, Fact], members: Sequence[str], whole: str) -> bool:
    """Whether what there is of an ingredient is less than its part of a total [g or mL]."""
    parts = {m: facts[k].value for m in members for q in ("part", "share") if (k := key_for(q, m)) in facts}
    if whole not in ("blend", "batch") or len(parts) < len(members) or not sum(parts.values()):
        return False
    have = "have" if whole == "blend" else "have_weight"
    need = {m: facts[whole].value * p / sum(parts.values()) for m, p in parts.items()}
    return any(facts[k].value < need[m] - 1e-9 for m in members if (k := key_for(have, m)) in facts)


def multiplied(batch: Batch, factor: float, of_the_recipe: bool, turn: int, reading: Reading) -> Batch | None:
    """A recipe told by its amounts, so many times: "do it 3 1/2 times", "double it"; None where it is told by parts or percents.

    of_the_recipe   whether the recipe as written is meant ("twice the recipe"), or the batch as it stands
    """
    if "count_wanted" in batch.facts:
        wanted = batch.facts["once_count" if of_the_recipe else "count_wanted"].value
        return batch.with_facts({"count_wanted": Fact(wanted * factor, "said", turn)})
    if "times" in batch.facts:
        now = 1.0 if of_the_recipe else batch.facts["times"].value
        return batch.with_facts({"times": Fact(now * factor, "said", turn)})
    if of_the_recipe and any(base(k) in ("once_volume", "once_weight") for k in batch.facts):
        gone = [k for k in batch.facts if base(k) in ("have", "have_weight", "blend", "batch", "bottles", "bottle_size", "tins")]
        return batch.without(*gone).with_facts({"times": Fact(factor, "said", turn)})
    amounts = [k for k in batch.facts if base(k) in ONCE and about(k) in batch.members]
    if not batch.frames & (RECIPES - {"mix"}) or not amounts or any(base(k) in ("part", "share") for k in batch.facts):
        return None
    facts = {k: f for k, f in batch.facts.items() if k not in amounts}
    facts |= {key_for(ONCE[base(k)], about(k)): batch.facts[k] for k in amounts}
    _fixed(reading, facts, batch.members)
    for total, made in MADE.items():
        if total in facts:
            facts[made] = facts.pop(total)
    for key in ("bottles", "tins"):
        facts.pop(key, None)
    return batch.having(facts=facts).with_facts({"times": Fact(factor, "said", turn)})


def runs_short(facts: Mapping[str, Fact], members: Sequence[str]) -> tuple[str, float, bool] | None:
    """(member, what there is of it, whether by weight) of the ingredient that sets the batch; None where nothing is short."""
    best: tuple[float, str, float, bool] | None = None
    for have, weighed in (("have", False), ("have_weight", True)):
        for member in members:
            there = facts.get(key_for(have, member))
            need = next((facts[k].value for q in ("part", "share", "once_weight" if weighed else "once_volume") if (k := key_for(q, member)) in facts), None)
            if there is None or not need:
                continue
            reach = there.value / need
            if best is None or reach < best[0]:
                best = (reach, member, there.value, weighed)
    return None if best is None else best[1:]
