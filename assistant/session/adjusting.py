"""What acts in a sentence do to the facts: half the dose, no margin, all of it in, by the parts, in proportion; which weight of a wilted plant counts."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.dataclass import replace
from assistant.listening.statements import Loose, Reading
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import VOCABULARY, about, base
from assistant.session import scaling
from assistant.session.batch import Batch, Fact
from assistant.session.essential_in_oil import essential_in_oil
from assistant.session.figuring import work_out
from assistant.session.glycerite_finish import finish_wanted
from assistant.session.jar_turns import all_thrown_in, as_many_as_they_hold
from assistant.session.merging import Merged
from assistant.session.pointing import alias_of
from assistant.session.proportions import multiplied
from assistant.session.salves import by_ratio, corrected, from_infused
from assistant.session.which_weight import before_it_was_settled

if TYPE_CHECKING:
    from assistant.session.conversation import Session

WILTED_WEIGHT = looked_for(
    r"\b(?:wilted weight|weight (?:after|now|before)|as wilted|weight when wilted|fresh weight|(?:it|they) (?:was|were) before (?:it |they )?wilt\w*)\b",
    re.IGNORECASE,
)


def _gathered_with_losses(merged: Merged) -> None:
    """ "How much fresh nettle for 200 g dried?", then "10 % goes off as stalks": what is to be picked is asked from here on."""
    batch = merged.batch
    if merged.new_keys & {"trim_loss", "margin"} and batch.wanted == ("herb",) and "dried" in batch.facts and "herb" not in batch.facts:
        merged.batch = batch.having(wanted=("to_gather",))


def _total_again(session: Session, merged: Merged) -> None:
    """ "Skip the ginger", of a recipe that the ginger ran short in: nothing holds it down any more, and it makes what it was to make."""
    batch, before = merged.batch, session.batch
    gone = set(before.members) - set(batch.members) if before is not None else set()
    if not any(base(k) in SHORT and about(k) in gone for k in (before.facts if before is not None else ())):
        return
    if batch.facts.keys() & TOTALS or any(base(k) in SHORT | {"weight", "volume"} for k in batch.facts):
        return
    for mark in reversed(session.journal.before):
        held = mark.in_hand.facts if mark.in_hand is not None and mark.current == session.current else {}
        total = next((k for k in TOTALS if k in held), "")
        if total:
            merged.batch = batch.with_facts({total: held[total]})
            merged.new_keys.add(total)
            return


SHORT = frozenset({"have", "have_weight"})
TOTALS = frozenset({"batch", "blend", "bottle_size"})


def adjust(session: Session, reading: Reading, merged: Merged) -> None:
    """What acts in the sentence do to the facts: half the dose, no margin, all of it in, by the parts, in proportion."""
    by_ratio(merged, reading)
    from_infused(merged, reading)
    essential_in_oil(merged)
    finish_wanted(merged, session.batch or Batch())
    _gathered_with_losses(merged)
    _total_again(session, merged)
    as_many_as_they_hold(merged, session.batch or Batch())
    corrected(reading, merged, session.batch or Batch())
    scale = next((a for a in reading.acts if a.name in ("scale", "scale_n")), None)
    if scale is not None and len(reading.ingredients) >= 2:  # "40 g wax, 160 g oil: do it 3 1/2 times"
        many = multiplied(merged.batch, scaling.factor_of(scale), True, session.turn, reading)
        if many is not None:
            merged.batch = many
            merged.new_keys.add("times")
    elif scale is not None and not merged.batch.members and {"herb", "menstruum"} <= merged.new_keys:
        merged.batch = merged.batch.scaled(scaling.factor_of(scale), session.turn)  # "120 g, 600 mL at 45 %. x3.5."
        merged.batch = merged.batch.having(wanted=tuple(dict.fromkeys(("herb", "menstruum", *merged.batch.wanted))))
        merged.new_keys.add("ratio")
    for act in reading.acts:
        batch = merged.batch
        if act.name == "alias":
            merged.batch = batch.having(alias=alias_of(reading))
        elif act.name == "scale_dose":
            factor = scaling.of_the_dose(reading, act)
            merged.batch = scaling.with_the_dose(batch, factor, session.turn)
            merged.new_keys |= {k for k in scaling.DOSES if k in batch.facts}
        elif act.name == "full_dose" and session.firsts and "dose" in session.firsts[max(session.current, 0)].facts and "dose" not in merged.new_keys:
            merged.batch = batch.with_facts({"dose": replace(session.firsts[max(session.current, 0)].facts["dose"], turn=session.turn)})
            merged.new_keys.add("dose")
        elif act.name == "set" and not any(s.quantity == act.arguments[0] for s in reading.said):  # "not bone dry, it keeps 12 %"
            merged.batch = batch.with_facts({act.arguments[0]: Fact(float(act.arguments[1]), "said", session.turn)})
            merged.new_keys.add(act.arguments[0])
        elif act.name == "forget":
            gone = [k for k, f in batch.facts.items() if act.figures and _is_the_figure(f.value, act.figures[-1]) and k not in merged.new_keys]
            merged.batch = batch.without(*gone)
        elif act.name == "from_it" and merged.new_keys & {"strength", "menstruum"} and "stock_strength" not in merged.new_keys:
            merged.batch, key = _from_the_last(session, batch, "stock_strength")
            merged.new_keys |= {key} - {""}
        elif act.name == "at_that" and "strength" not in merged.new_keys and not ("strength" in batch.facts and not batch.members):
            merged.batch, key = _from_the_last(session, batch, "strength")
            merged.new_keys |= {key} - {""}
        elif act.name in ("count_after", "count_before") and (both := batch if "wilted" in batch.facts else before_it_was_settled(session)) is not None:
            weights = {k: both.facts[k] for k in ("herb", "wilted", "water_content") if k in both.facts}
            session.both_weights = batch.with_facts(weights)
            merged.batch = _weighed(session.both_weights, after=act.name == "count_after")
            session.weighing = False
            merged.new_keys |= {"herb", "water_content"} & merged.batch.facts.keys()
        elif act.name == "no_loss":
            lost = [k for k in ("rack_loss", "trim_loss") if k in batch.facts]
            merged.batch = batch.with_facts({k: replace(batch.facts[k], value=0.0, turn=session.turn) for k in lost})
            merged.new_keys |= set(lost)
        elif act.name == "drop_share":
            shares = {k: f for k, f in batch.facts.items() if base(k) == "share"}
            merged.batch = batch.without(*shares)
            if not any(base(k) == "part" for k in batch.facts):  # "treat them as parts"
                merged.batch = merged.batch.with_facts({f"part[{about(k)}]": replace(f, turn=session.turn) for k, f in shares.items()})
            merged.new_keys.add("part")
        elif act.name == "all_in":
            merged.batch, key = all_thrown_in(batch, session.turn)
            merged.new_keys |= {key} - {""}
        elif act.name == "shrink" and batch.members:
            merged.batch = _in_proportion(batch)
            merged.new_keys |= {k for k in merged.batch.facts if k.startswith("part[")}


WEIGHED = ("wilted", "herb")


def weighing_settled(session: Session, reading: Reading, merged: Merged) -> None:
    """The answer to "before wilting, or after?", in whatever words."""
    facts = merged.batch.facts
    if "wilted" not in facts or not (session.weighing or WILTED_WEIGHT.search(reading.heard)):
        return
    if any(a.name in ("count_after", "count_before") for a in reading.acts):
        return  # told outright
    words = set(reading.heard.lower().replace(",", " ").replace(".", " ").split())
    weights = [f.kind in ("g", "#") if isinstance(f, Loose) else f.quantity in WEIGHED for f in reading.figures]
    if session.weighing and session.draft is not None and weights == [True]:
        figure, asked = reading.figures[0].value, session.draft.facts  # "480": one of the two weights that were put to the person
        meant = next((q for q in WEIGHED if q in asked and _is_the_figure(asked[q].value, figure)), "")
        if meant:
            words |= {"after" if meant == "wilted" else "before"}
            merged.batch = merged.batch.with_facts({q: asked[q] for q in WEIGHED if q in asked})
            facts = merged.batch.facts
    after = bool(words & {"after", "now", "wilted", "later", "second", "lighter", "wilting"}) and not words & {"before"}
    if after or words & {"before", "fresh", "first", "picked", "heavier", "original"}:
        merged.batch = _weighed(merged.batch, after=after)
        merged.new_keys |= {"herb", "water_content"} & merged.batch.facts.keys()
        session.weighing = False


def _from_the_last(session: Session, batch: Batch, key: str) -> tuple[Batch, str]:
    """The strength last spoken of, for "from it" and "at that"; the mix it came from is left behind."""
    if session.conversion is not None and session.conversion.turn == session.turn - 1 and session.conversion.unit == "percent":
        return batch.with_facts({key: Fact(session.conversion.value, "said", session.turn)}), key
    held = session.batch  # as it was before this sentence
    for name in (*(base(k) for k in session.last_keys), "blend_strength", "strength", "stock_strength"):
        value = session.last.value(name) if session.last is not None else None
        if value is None and held is not None:
            value = held.value(name)
        if value is not None and VOCABULARY[name].unit == "percent":
            clean = batch.having(
                facts={k: f for k, f in batch.facts.items() if k in ("menstruum", "strength", "stock_strength") and k not in (key,)},
                frames=batch.frames - {"mix"},
                members=(),
            )
            return clean.with_facts({key: Fact(value, "said", session.turn)}), key
    return batch, ""


def _weighed(batch: Batch, *, after: bool) -> Batch:
    """Which weight of a wilted plant the ratio counts: after wilting, its water content is worked out again from the two weights."""
    facts = dict(batch.facts)
    wilted = facts.pop("wilted")
    if after:
        fresh, water = facts["herb"].value, facts.get("water_content")
        facts["herb"] = wilted
        taken = None if water is not None else work_out(batch.without("wilted")).value("water_content")
        if taken is not None:
            water = Fact(taken, "measured", wilted.turn)  # the plant's own, which is no longer the water of what wilted
        if water is not None:
            dry = fresh * (1 - water.value / 100)
            facts["water_content"] = replace(water, value=(1 - dry / wilted.value) * 100, origin="measured")
    return batch.having(facts=facts)


def _is_the_figure(value: float, said: float) -> bool:
    """Whether a figure named again is this one; a ratio may be named from either side ("the five to one")."""
    return abs(value - said) < 1e-9 or (said > 0 and abs(value - 1 / said) < 1e-9)


def _in_proportion(batch: Batch) -> Batch:
    """Amounts of a recipe as its parts, so that they fill the bottle in proportion."""
    amounts = {k: f for k, f in batch.facts.items() if k.startswith(("volume[", "weight["))}
    return batch.without(*amounts).with_facts({f"part[{about(k)}]": f for k, f in amounts.items()})
