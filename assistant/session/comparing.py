"""Two plans side by side: in one sentence, two that were kept, or the plan in hand and what it was before."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from assistant.listening.statements import Reading, Said
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import VOCABULARY, about, base
from assistant.reply import Question, Reply, Used, Value
from assistant.session import answering
from assistant.session.batch import STATES, Batch, Fact
from assistant.session.figuring import Worked, work_out
from assistant.session.merging import fact_of, lay_over
from assistant.session.pointing import plans_named
from assistant.session.repeating import refer
from assistant.session.wording import shown

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session
    from assistant.session.merging import Merged

SPLITS = (
    " against ",
    " versus ",
    " vs. ",
    " vs ",
    " or ",
    " compared to ",
    " compared with ",
    " rather than ",
    " than ",
    " with ",
    " next to ",
    " beside ",
    " and ",
    "; ",
    ", ",
)
WHICH_MORE = looked_for(r"\bwhich\b[^.?!;]{0,30}\b(?:more|most|less|least|stronger|weaker|longer|bigger|higher|lower)\b", re.IGNORECASE)
MORE_THAN = looked_for(r"\b(?:more|less|stronger|weaker|bigger|smaller|higher|lower|longer)\b[^.?!,;]{0,24}\bthan\b", re.IGNORECASE)
LIKE_WITH_LIKE = (
    "Fresh against dried goes by the dried herb that each mL stands for, not by the ratio: a fresh plant is mostly water. "
    "How much water is in the fresh one, and how strong is each poured?"
)
FOR_EXAMPLE = "100 g dried 1:5 at 60 % against 100 g fresh 1:2 at 80 % water, poured at 60 %"
STATE = looked_for(r"\b(?:fresh|dried|dry)\b", re.IGNORECASE)
STRONGER = looked_for(r"\bwhich\b[^.?!]{0,24}\b(?:stronger|strongest|weaker|weakest)\b", re.IGNORECASE)
POURED_AT = frozenset({"strength", "stock_strength"})
POURED = frozenset({"herb", "menstruum", "strength", "stock_strength", "finished_strength"})
FOR_EACH = 100.0  # grams of plant where none were named
BOTH = frozenset({"both", "each", "either", "respectively"})


def asks_to_compare(reading: Reading) -> bool:
    return (
        reading.has("compare")
        or any(p.search(reading.heard) for p in (MORE_THAN, WHICH_MORE))
        or reading.heard.lower().lstrip().startswith(("which", "what's the difference", "difference"))
    )


# ── in one sentence ──────────────────────────────────────────────────────────────────────────────────────────────────────


def two_plans(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """ "Which needs more liquid, 90 g dried at 1:5 or 300 g fresh at 1:2?": each half read by itself, then laid side by side."""
    if not asks_to_compare(reading):
        return None
    text = reading.heard
    for split in SPLITS:
        at = text.lower().find(split)
        while at >= 0:
            one, two = session.read(text[:at]), session.read(text[at + len(split) :])
            for half in (one, two):
                if not half.tags & STATES and (told := STATE.search(half.heard)) is not None:
                    half.tags.add("fresh" if told.group().lower() == "fresh" else "dried")
            if _comparable(one, two):
                reply = _side_by_side(session, answers, (one, 0), (two, at + len(split)), reading)
                if reply is not None:
                    return reply
            at = text.lower().find(split, at + 1)
    return None


def _comparable(one: Reading, two: Reading) -> bool:
    a, b = {s.quantity for s in one.said}, {s.quantity for s in two.said}
    apart = one.tags & STATES != two.tags & STATES and bool(one.tags & STATES) and bool(two.tags & STATES)
    if a & b == {"ratio"} and not (a | b) & POURED and (apart or not (one.tags | two.tags) & {"fresh"}):
        return True
    return bool(a & b) and ((len(one.said) >= 2 and len(two.said) >= 2) or apart)


def _side_by_side(session: Session, answers: Answers, first: tuple[Reading, int], second: tuple[Reading, int], whole: Reading) -> Reply | None:
    plans: list[Worked] = []
    weights = [next((s for s in r.said if s.quantity == "herb"), None) for r, _ in (first, second)]
    asked = tuple(dict.fromkeys(a.quantity for a in (*whole.asked, *first[0].asked, *second[0].asked)))
    by_ratio = all(any(s.quantity == "ratio" for s in r.said) and not any(s.quantity in POURED for s in r.said) for r, _ in (first, second))
    states = [r.tags & STATES for r, _ in (first, second)]
    two_states = all(states) and states[0] != states[1] and all(any(s.quantity == "ratio" for s in r.said) for r, _ in (first, second))
    by_ratio = by_ratio and (two_states or not any("fresh" in s for s in states))
    if not asked and (by_ratio or two_states):
        asked = ("dried_equivalent", "menstruum") if two_states else ("herb_per_ml",)  # "which is stronger, 1:5 dried or 1:2 fresh"
    used: list[Used] = []
    for reading, offset in (first, second):
        reading.frames |= whole.frames & {"dose", "oil", "tea"}
        reading.tags.discard("dry_basis")  # "compare by dried-equivalent" says how to compare, not how a ratio counts
        merged = lay_over(Batch(), reading, session.turn, ())
        if merged.unplaced or merged.bad:
            return None
        other = weights[1] if reading is first[0] else weights[0]
        if other is not None and "herb" not in merged.batch.facts and "menstruum" not in merged.batch.facts:
            merged.batch = merged.batch.with_facts({"herb": fact_of(other, session.turn)})  # "100 g fresh … against dried 1:5": as much of it
        if not any(weights) and "ratio" in merged.batch.facts and not merged.batch.facts.keys() & {"herb", "menstruum"}:
            merged.batch = merged.batch.with_facts({"herb": Fact(FOR_EACH, "assumed", session.turn)})  # two strengths do not hang on an amount
        used += [Used(text=whole.heard[a + offset : b + offset][:40], start=a + offset, end=min(b, a + 40) + offset, quantity=q) for a, b, q in merged.used]
        plans.append(work_out(merged.batch.having(wanted=asked or merged.batch.wanted)))
    common = _common(plans)
    if "herb_per_ml" in common and plans[0].tags & STATES != plans[1].tags & STATES:
        common = [k for k in ("dried_equivalent", *common) if all(k in p.solution.figures for p in plans)]  # fresh against dried goes by this
    if by_ratio and two_states and "dried_equivalent" not in common:
        answers.used += used
        return answers.reply("asking", LIKE_WITH_LIKE, questions=(Question(text=LIKE_WITH_LIKE, wants=("water_content", "strength"), choices=(FOR_EXAMPLE,)),))
    if not common:
        return None
    answers.used += used
    for plan in plans:
        session.keep(plan.batch, -1)
    session.last, session.last_keys = plans[1], (common[0],)
    return compared(session, answers, plans, common)


def _common(plans: Sequence[Worked]) -> list[str]:
    """What both plans answer: what was asked of them, else what is told of such a plan."""
    asked = [answering.settle_asked(p, p.batch.wanted)[0] for p in plans]
    keys = [k for k in asked[0] if k in asked[1]]
    return keys or [k for k in answering.told(plans[0]) if k in plans[1].solution.figures][:4]


# ── plans that were kept ─────────────────────────────────────────────────────────────────────────────────────────────────


def kept_plans(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """ "Compare the two", "which needs more spirit": the plans named, else the last two, else this one and what it was before."""
    pair = _pair(session, reading)
    if pair is None:
        return None
    if not reading.asked and not reading.has("gap"):
        pair = [b.having(wanted=()) for b in pair]
    elif reading.asked:
        pair = [b.having(wanted=tuple(a.key for a in reading.asked if not a.member)) for b in pair]
    plans = [work_out(b) for b in _with_the_shelf(pair)]
    if any(p.solution.conflicts for p in plans):
        return None
    common = _common(plans) if reading.asked or reading.has("gap") else _told_of_both(plans)
    if not common:
        return None
    refer(answers, reading)
    session.last, session.last_keys = plans[1], tuple(common)
    return compared(session, answers, plans, common)


def once_more(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """ "Same again in g per mL", right after a comparison: the same two plans by another figure."""
    if session.pair is None or session.pair[0] != session.turn - 1 or reading.said or reading.named or reading.loose:
        return None
    keys = tuple(a.key for a in reading.asked if not a.member)
    if not keys and STRONGER.search(reading.heard):  # with no spirit's strength told: by the herb in each mL
        keys = ("finished_strength",) if all(b.facts.keys() & POURED_AT for b in session.pair[1]) else ("herb_per_ml",)
    if not keys:
        return None
    plans = [work_out(b.having(wanted=keys), wanted=keys) for b in session.pair[1]]
    common = _common(plans)
    if not common or not all(k in p.solution.figures for k in common for p in plans):
        return None
    refer(answers, reading)
    return compared(session, answers, plans, common)


def _pair(session: Session, reading: Reading) -> list[Batch] | None:
    named = plans_named(reading, session)
    if len(named) == 2:
        return [session.batches[i] for i in named]
    if len(named) == 1 and session.current >= 0 and named[0] != session.current:
        return [session.batches[named[0]], session.batches[session.current]]
    if len(session.batches) >= 2:
        one = session.previous if session.previous is not None and session.previous != session.current else None
        if one is None:
            one = session.current - 1 if session.current > 0 else session.current + 1
        return [session.batches[i] for i in sorted((one, session.current))] if session.current >= 0 else session.batches[-2:]
    if session.current >= 0:
        now = session.batches[session.current]
        for mark in reversed(session.journal.before):
            if 0 <= session.current < len(mark.batches) and dict(mark.batches[session.current].facts) != dict(now.facts):
                return [mark.batches[session.current], now]
    return None


SHELF = ("stock_strength",)


def _with_the_shelf(pair: Sequence[Batch]) -> list[Batch]:
    """What was said of the shelf in one plan holds for the other as well."""
    shared = {k: f for b in pair for k, f in b.facts.items() if k in SHELF}
    return [b.with_facts({k: f for k, f in shared.items() if k not in b.facts}) if "strength" in b.facts or "finished_strength" in b.facts else b for b in pair]


def _told_of_both(plans: Sequence[Worked]) -> list[str]:
    keys = [k for p in plans for k in answering.told(p)]
    return [k for k in dict.fromkeys(keys) if all(k in p.solution.figures for p in plans)][:5]


def against_this(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """ "How does that compare with 1:3?": the plan in hand beside the same with a change."""
    batch = session.batch
    if batch is None or session.draft is not None or not asks_to_compare(reading) or not (reading.said or reading.loose):
        return None
    merged = lay_over(batch, reading, session.turn, ())
    if merged.unplaced or merged.bad or merged.doubled or not merged.new_keys or not set(merged.replaced):
        return None
    plans = [work_out(batch.having(wanted=merged.batch.wanted)), work_out(merged.batch)]
    common = _common(plans)
    if not common or any(p.solution.conflicts for p in plans):
        return None
    answers.used += [Used(text=reading.heard[a:b][:40], start=a, end=min(b, a + 40), quantity=q) for a, b, q in merged.used]
    session.keep(merged.batch, -1)
    session.last, session.last_keys = plans[1], tuple(common)
    return compared(session, answers, plans, common)


def variants(session: Session, reading: Reading, merged: Merged, answers: Answers) -> Reply | None:
    """One figure said twice over to be compared: "by hand it keeps 2 ml/g, the press 0.7; both"."""
    beside = asks_to_compare(reading) or reading.has("gap") or reading.has("side_by_side") or BOTH & set(reading.heard.lower().split())
    if len(merged.doubled) != 1 or not beside:
        return None
    key, amounts = merged.doubled[0]
    if len(amounts) != 2:
        return None
    plans = []
    for amount in amounts:
        batch = merged.batch.with_facts({key: fact_of(Said(base(key), amount, 0, 0, about(key)), session.turn)})
        plans.append(work_out(batch))
    keys = [answering.settle_asked(p, p.batch.wanted)[0] for p in plans]
    common = [k for k in (keys[0] or ["pressed"]) if all(k in p.solution.figures for p in plans)] or _common(plans)
    if not common:
        return None
    session.keep(plans[0].batch, session.current if session.batch is not None else -1)
    session.last, session.last_keys = plans[0], tuple(common)
    return compared(session, answers, plans, common)


# ── telling ──────────────────────────────────────────────────────────────────────────────────────────────────────────────


def compared(session: Session, answers: Answers, plans: Sequence[Worked], keys: Sequence[str]) -> Reply:
    """Both plans' figures for each key, and the gap between them."""
    names = _plan_names(plans)
    session.pair = (session.turn, (plans[0].batch, plans[1].batch))
    values: list[Value] = []
    lines = []
    for key in keys:
        pair = [p.solution.figures[key].value for p in plans]
        for name, plan, amount in zip(names, plans, pair, strict=True):
            of_what = plan.batch.name if plans[0].batch.name != plans[1].batch.name else ""
            values.append(answering.value_of(plan, key).model_copy(update={"batch": name, "value": amount, "about": of_what}))
        difference = abs(pair[0] - pair[1])
        more = names[0] if pair[0] > pair[1] else names[1]
        values.append(Value(quantity=base(key), batch="gap", value=difference, unit=VOCABULARY[base(key)].unit, origin="found", text=shown(key, difference)))
        words = f"{names[0]} {shown(key, pair[0])}, {names[1]} {shown(key, pair[1])}"
        if key == keys[0]:
            session.gap = (key, difference, words)
        tail = f": {more} is more by {shown(key, difference)}" if difference > 1e-9 else ": the same"
        lines.append(f"{VOCABULARY[base(key)].caption.capitalize()}: {words}{tail}.")
    steps = tuple(s for p in plans for s in answering.steps_for(p, keys))
    return answers.reply("answered", "\n".join(lines), values=tuple(values), steps=steps)


def gap(session: Session, answers: Answers) -> Reply:
    """ "By how much?" after two plans were laid side by side."""
    assert session.gap is not None
    key, difference, words = session.gap
    value = Value(quantity=base(key), value=difference, unit=VOCABULARY[base(key)].unit, origin="found", text=shown(key, difference))
    text = f"By {shown(key, difference)}: {words}." if difference > 1e-9 else f"By nothing: {words}."
    return answers.reply("answered", text, values=(value,))


def _plan_names(plans: Sequence[Worked]) -> list[str]:
    """Names that tell the two apart: by plant, by fresh and dried, by the figure that differs, else first and second."""
    names = []
    for n, plan in enumerate(plans):
        tags = plan.batch.tags
        state = "fresh" if "fresh" in tags else "dried" if "dried" in tags else ""
        title = plan.batch.title
        names.append(title if plan.batch.alias else " ".join(x for x in (state if state not in title else "", title) if x) or ("first" if n == 0 else "second"))
    if names[0] == names[1]:
        one, two = plans[0].batch.facts, plans[1].batch.facts
        apart = [k for k in one if k in two and abs(one[k].value - two[k].value) > 1e-9]
        if apart:
            return [f"{n} at {shown(apart[0], f[apart[0]].value)}" for n, f in zip(names, (one, two), strict=True)]
        names = [f"{names[0]} (first)", f"{names[1]} (second)"]
    return names
