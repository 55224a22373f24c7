"""Turns that are talk rather than new facts: undo, going back, why, what is known, comparing, checking a claim, scaling."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.listening.statements import Reading, Said
from assistant.quantities.vocabulary import VOCABULARY, about, base
from assistant.reply import Question, Reply, Used, Value
from assistant.session import answering
from assistant.session.batch import Batch, Fact
from assistant.session.figuring import Worked, work_out
from assistant.session.merging import UNIT_OF_KIND, WATERY_MEMBERS, Merged, fact_of
from assistant.session.wording import number, phrase_for, sentence, shown

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

HELP = (
    "Say what you have, and what you want to know, in any order:\n"
    "  “I picked 112 g fresh nettle, make it 1:2 at 60 %”\n"
    "  “make 500 mL of 60 % from 95 %” · “600 g fresh leaf at 80 % water, what does it dry to?”\n"
    "  “finish at 50 %, my stock is 95” · “how much do I get pressed, with a ricer?”\n"
    "Then: “no wait, it was 120” · “what if 1:3” · “double it” · “the same but dried” · “undo” · “back to the first one”\n"
    "And: “why” · “what do you know so far” · “in ounces” · “start afresh”"
)


def handle(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """A reply where the sentence is talk; None where it bears facts to be laid over the batch."""
    figures = bool(reading.said or reading.ingredients or reading.liquids)
    for act in reading.acts:
        if act.figures and act.name not in ("scale_n",):
            answers.used += [Used(text=reading.heard[act.start : act.end][:40], start=act.start, end=min(act.end, act.start + 40), quantity="reference")]
    if reading.has("undo") and not figures:
        return undo(session, answers)
    if reading.has("afresh") and not figures:
        session.draft, session.wants, session.current, session.last = None, (), -1, None
        return answers.noted("A clean bench. The earlier plans are kept: “back to the first one” brings them back.")
    if reading.has("first") and not figures:
        return back_to_first(session, reading, answers)
    if reading.has("batch") and not figures:
        reply = back_to_named(session, reading, answers)
        if reply is not None:
            return reply
    if reading.has("help") and not figures:
        return answers.noted(HELP)
    if reading.has("known") and not figures:
        return known(session, answers)
    if reading.has("gap") and not figures and session.gap is not None:
        return gap(session, answers)
    units = reading.act("units")
    if units is not None:
        session.measures = units.arguments[0]
        if not figures and not reading.asked:
            return answers.noted(f"{session.measures.capitalize()} measures from here on." if session.measures != "us" else "US measures from here on.")
    if reading.has("why") and session.last is not None and not _new_figures(session, reading):
        return why(session, reading, answers)
    plans = two_plans(session, reading, answers)
    if plans is not None:
        return plans
    wanted = reading.act("had_wanted")
    if wanted is not None and wanted.figures and session.batch is not None:
        reply = had_wanted(session, reading, answers, wanted.figures[-1])
        if reply is not None:
            return reply
    if reading.has("ceiling") and session.last is not None and not _new_figures(session, reading):
        reply = ceiling(session, answers)
        if reply is not None:
            return reply
    water = reading.act("top_up_water")
    if water is not None and water.figures and session.last is not None:
        reply = topped_up(session, answers, water)
        if reply is not None:
            return reply
    top_up = reading.act("top_up") or reading.act("top_up_to")
    if top_up is not None and len(top_up.figures) >= 2 and session.last is not None:
        reply = topped_up(session, answers, top_up)
        if reply is not None:
            return reply
    scale = reading.act("scale") or reading.act("scale_n") or reading.act("scale_first")
    if scale is not None and session.batch is not None and not reading.ingredients and not reading.liquids and not _new_figures(session, reading):
        return scaled(session, reading, answers, scale)
    return None


def _new_figures(session: Session, reading: Reading) -> bool:
    """Figures that are not merely figures already shown ("where does the 224 come from")."""
    shown_now = [f.value for f in session.last.solution.figures.values()] if session.last is not None else []
    return any(not any(abs(s.value - v) <= 0.005 * max(abs(v), 1) for v in shown_now) for s in reading.said) or bool(reading.ingredients or reading.liquids)


def again(session: Session, answers: Answers, batch: Batch, index: int, words: str = "") -> Reply:
    """Answer a batch anew, without a change of facts."""
    merged = Merged(batch)
    answers.merged = merged
    worked = work_out(batch)
    reading = Reading(answers.heard)
    reply = answers.answer(reading, merged, worked, index)
    return reply if not words else reply.model_copy(update={"text": f"{words}\n{reply.text}"})


def undo(session: Session, answers: Answers) -> Reply:
    """Take back the last change alone."""
    if session.draft is not None:
        session.draft, session.wants = None, ()
        if session.batch is None:
            return answers.noted("Taken back.")
        return again(session, answers, session.batch, session.current)
    if not session.history:
        return answers.noted("There is nothing to take back.")
    batches, current = session.history.pop()
    session.batches, session.current = list(batches), current
    session.firsts = session.firsts[: len(session.batches)]
    if session.batch is None:
        session.last = None
        return answers.noted("Taken back; the bench is clear.")
    mark = len(session.history)
    reply = again(session, answers, session.batch, session.current)
    del session.history[mark:]
    return reply


def back_to_first(session: Session, reading: Reading, answers: Answers) -> Reply:
    if not session.firsts:
        return answers.noted("There is no earlier plan yet.")
    if len(session.batches) > 1 and reading.act("first") is not None and (session.current != 0 or session.current < 0):
        return again(session, answers, session.batches[0], 0)
    return again(session, answers, session.firsts[0], 0)


def back_to_named(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    for named in reading.named:
        for i in range(len(session.batches) - 1, -1, -1):
            if named.name in (session.batches[i].name, *session.batches[i].plants):
                return again(session, answers, session.batches[i], i)
    return None


def known(session: Session, answers: Answers) -> Reply:
    batch = session.batch
    if batch is None or not (batch.facts or batch.name):
        return answers.noted("Nothing so far. " + HELP)
    worked = work_out(batch)
    values = [answering.value_of(worked, k) for k in batch.facts if k in worked.solution.figures]
    lines = [sentence([f"{_caption(k)} {shown(k, f.value)}" for k, f in batch.facts.items()]) or batch.name]
    state = ", ".join(t for t in ("fresh", "dried", "neat") if t in batch.tags)
    head = f"{batch.title or 'This batch'}{' (' + state + ')' if state else ''}: "
    others = [b.title for i, b in enumerate(session.batches) if i != session.current and b.title]
    if others:
        lines.append("Other plans: " + ", ".join(others) + ".")
    return answers.reply("answered", head + "\n".join(lines), batch=batch, values=tuple(values))


def _caption(key: str) -> str:
    caption = VOCABULARY[base(key)].caption
    return f"{about(key)} {caption}" if about(key) else caption


def gap(session: Session, answers: Answers) -> Reply:
    assert session.gap is not None
    key, difference, words = session.gap
    value = Value(quantity=base(key), about="", value=difference, unit=VOCABULARY[base(key)].unit, origin="found", text=shown(key, difference))
    return answers.reply("answered", f"By {shown(key, difference)}: {words}.", values=(value,))


def why(session: Session, reading: Reading, answers: Answers) -> Reply:
    """The working of a figure: every leaf with its own origin, every step in order, the asked figure last."""
    worked = session.last
    assert worked is not None
    figures = worked.solution.figures
    keys = _meant(session, reading, worked)
    steps = answering.steps_for(worked, keys)
    leaves: list[str] = []
    for key in keys:
        leaves += [f.key for f in worked.solution.leaves(key)]
    leaves = list(dict.fromkeys(k for k in leaves if k in figures))
    for loose in reading.loose:
        answers.used.append(Used(text=loose.text[:40], start=loose.start, end=min(loose.end, loose.start + 40), quantity="reference"))
    for said in reading.said:
        answers.used.append(Used(text=reading.heard[said.start : said.end][:40], start=said.start, end=min(said.end, said.start + 40), quantity="reference"))
    lines = []
    if leaves:
        lines.append("From " + ", ".join(f"{_caption(k)} {shown(k, figures[k].value)} ({figures[k].origin})" for k in leaves) + ":")
    for n, step in enumerate(steps, 1):
        lines.append(f"{n}. {step.says}\n   {step.working}")
    head = sentence([phrase_for(k, figures[k].value) for k in keys])
    values = [answering.value_of(worked, k) for k in (*leaves, *keys)]
    assumed = answering.assumptions_for(worked, keys)
    return answers.reply("answered", "\n".join([head, *lines, answering.assumption_line(assumed)]).rstrip(), batch=worked.batch, values=tuple(values), steps=tuple(steps), assumptions=tuple(assumed))


def _meant(session: Session, reading: Reading, worked: Worked) -> list[str]:
    """The figures a "why" is about: those named by their number or their name, else those last answered."""
    figures = worked.solution.figures
    numbers = [l.value for l in reading.loose] + [s.value for s in reading.said] + [f for a in reading.acts for f in a.figures]
    numbers += [r.value for r in reading.references if r.value is not None]
    by_number = [k for n in numbers for k, f in figures.items() if f.origin == "found" and abs(f.value - n) <= max(0.5, 0.005 * abs(n))]
    if by_number:
        return by_number[:1]
    asked, _ = answering.settle_asked(worked, [a.key for a in reading.asked])
    found = [k for k in asked if figures[k].origin == "found"]
    if found:
        return found
    if reading.has("why") and any(w in reading.heard.lower() for w in ("isn't it still", "isnt it still", "not still", "weaker", "lower")) and "finished_strength" in figures:
        return ["finished_strength"]
    return [k for k in session.last_keys if k in figures] or [k for k in answering.told(worked)][:1]


def scaled(session: Session, reading: Reading, answers: Answers, act) -> Reply:
    batch = session.batch
    assert batch is not None
    factor = act.figures[0] if act.figures else float(act.arguments[0])
    if act.name == "scale_first" and session.firsts:
        batch = session.firsts[session.current if session.current >= 0 else 0]
    for loose in reading.loose:
        answers.used.append(Used(text=loose.text[:40], start=loose.start, end=loose.end, quantity="reference"))
    if not 0 < factor < 1e6:
        return answers.reply("refused", "A batch cannot be multiplied by that.", questions=(Question(text="How many times the batch?", choices=("double it", "half of it")),))
    larger = batch.scaled(factor, session.turn)
    if "formula" in larger.frames and "bottles" not in larger.facts and "bottle_size" in larger.facts:
        size = larger.facts["bottle_size"]
        larger = larger.with_facts({"bottle_size": Fact(size.value * factor, size.origin, session.turn, size.said_unit)})
    worked = work_out(larger)
    main = [k for k in ("herb", "menstruum") if k in worked.solution.figures] if not larger.members else []
    if main:
        larger = larger.having(wanted=tuple(dict.fromkeys((*main, *larger.wanted))))
    return again(session, answers, larger, session.current)


# ── lifting what is there ────────────────────────────────────────────────────────────────────────────────────────────────

POOLS = (("blend", "blend_strength"), ("in_jar", "finished_strength"), ("menstruum", "strength"))


def topped_up(session: Session, answers: Answers, act) -> Reply | None:
    """"How much more 95 to get it back up to 60": what is there and the spirit added become a mix with one volume unknown."""
    worked = session.last
    assert worked is not None
    if act.name == "top_up_water":
        added, target = 0.0, act.figures[-1]
    else:
        added, target = act.figures[:2] if act.name == "top_up" else (act.figures[1], act.figures[0])
    for volume, strength in POOLS:
        have, now = worked.value(volume), worked.value(strength)
        if have is None or now is None:
            continue
        more = f"{added:g} %" if added else "water"
        there = "what is there"
        facts = {
            f"volume[{there}]": Fact(have, "said", session.turn),
            f"strength_of[{there}]": Fact(now, "said", session.turn),
            f"strength_of[{more}]": Fact(added, "said", session.turn),
            "blend_strength": Fact(target, "said", session.turn),
        }
        batch = Batch(
            name=worked.batch.name, plants=worked.batch.plants, frames=frozenset({"mix"}), tags=worked.batch.tags - {"fresh", "dried"}, members=(there, more),
            wanted=(f"volume[{more}]",), spoken=worked.batch.spoken,
        ).with_facts(facts)  # fmt: skip
        return again(session, answers, batch, session.current)
    return None


def had_wanted(session: Session, reading: Reading, answers: Answers, target: float) -> Reply | None:
    """"Had I wanted 25, how much decoction was the limit?": from the ingredients, with the volume that is asked for left open."""
    batch = session.batch
    assert batch is not None
    if "mix" not in batch.frames or not batch.members:
        return None
    words = set(reading.heard.lower().replace("?", " ").replace(",", " ").split())
    open_member = next((m for m in batch.members if m in words), None) or next((m for m in batch.members if m in WATERY_MEMBERS), batch.members[-1])
    facts = {k: f for k, f in batch.facts.items() if k not in (f"volume[{open_member}]", "blend", "blend_strength")}
    changed = batch.having(facts=facts, wanted=(f"volume[{open_member}]",)).with_facts({"blend_strength": Fact(target, "said", session.turn)})
    for loose in (*reading.loose, *reading.said):
        answers.used.append(Used(text=reading.heard[loose.start : loose.end][:40], start=loose.start, end=min(loose.end, loose.start + 40), quantity="reference"))
    return again(session, answers, changed, session.current)


def ceiling(session: Session, answers: Answers) -> Reply | None:
    """The highest finish this plant and ratio can reach with this stock, poured as it is."""
    batch = session.batch
    assert session.last is not None
    if batch is None:
        return None
    stock = session.last.value("stock_strength") or session.last.value("strength")
    if stock is None:
        return None
    neat = work_out(batch.without("finished_strength", "strength"), extra={"strength": stock})
    if neat.value("finished_strength") is None:
        return None
    value = answering.value_of(neat, "finished_strength").model_copy(update={"quantity": "ceiling"})
    text = f"At most {shown('finished_strength', neat.solution.figures['finished_strength'].value)}, poured at {shown('strength', stock)} as it is."
    return answers.reply("answered", text, batch=batch, values=(value,), steps=tuple(answering.steps_for(neat, ("finished_strength",))))


# ── claims ───────────────────────────────────────────────────────────────────────────────────────────────────────────────


def claimed(session: Session, reading: Reading, merged: Merged, answers: Answers) -> Reply | None:
    """A figure inside a checking question is compared, never put in the batch."""
    for claim in reading.claims:
        worked = work_out(merged.batch.without(claim.key), wanted=(claim.key,))
        right = worked.value(claim.key)
        if right is not None and not worked.solution.conflicts and worked.solution.figures[claim.key].origin == "found":
            answers.used.append(Used(text=reading.heard[claim.start : claim.end][:40], start=claim.start, end=claim.end, quantity="reference"))
            return verdict(session, answers, worked, claim.key, claim.value, right)
    if not (reading.has("check") or reading.has("claim") and "?" in reading.heard):
        return None
    fresh = [s for s in reading.said if s.key in merged.new_keys]
    act = reading.act("claim")
    candidates = [s for s in fresh if act is not None and any(abs(s.value - f) < 1e-9 for f in act.figures)] or list(reversed(fresh))
    given = {s.quantity for s in fresh}
    for loose in merged.unplaced:
        keys = [k for k in (*(f for f in merged.batch.facts if f in merged.new_keys), *session.last_keys) if VOCABULARY[base(k)].unit == UNIT_OF_KIND.get(loose.kind)]
        for key in keys:
            worked = work_out(merged.batch)
            right = worked.value(key)
            if right is not None and not worked.solution.conflicts:
                answers.used += [Used(text=l.text[:40], start=l.start, end=l.end, quantity="reference") for l in merged.unplaced]
                return verdict(session, answers, worked, key, loose.value, right)
    del given
    for claim in candidates:
        without = merged.batch.without(claim.key)
        worked = work_out(without, wanted=(claim.key,))
        right = worked.value(claim.key)
        if right is None or worked.solution.conflicts or worked.solution.figures[claim.key].origin != "found":
            continue
        return verdict(session, answers, worked, claim.key, claim.value, right)
    return None


def verdict(session: Session, answers: Answers, worked: Worked, key: str, claim: float, right: float) -> Reply:
    close = abs(claim - right) <= max(0.005 * abs(right), _bench(right))
    if close:
        text = f"Yes: {phrase_for(key, right)}."
    else:
        text = f"No: {phrase_for(key, right)}, not {shown(key, claim)}."
    index = session.current if session.batch is not None else -1
    session.keep(worked.batch, index)
    session.last, session.last_keys = worked, (key,)
    value = answering.value_of(worked, key)
    says = [s for s in answering.steps_for(worked, (key,))]
    lines = [text, *(s.working for s in says)]
    return answers.reply(
        "answered", "\n".join(lines), batch=worked.batch, steps=tuple(says),
        values=(value, Value(quantity=base(key), about=about(key), batch=worked.batch.title, verdict=close, unit=value.unit, origin="found", text="right" if close else "wrong")),
    )  # fmt: skip


def _bench(value: float) -> float:
    text = number(value, "mL")
    return 0.5 * 10 ** -(len(text.split(".")[1]) if "." in text else 0)


# ── two plans ────────────────────────────────────────────────────────────────────────────────────────────────────────────

SPLITS = (" against ", " versus ", " vs ", " or ", " compared to ", " compared with ", " and ")


def two_plans(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """"Which needs more liquid, 90 g dried at 1:5 or 300 g fresh at 1:2?": each half read by itself, then laid side by side."""
    asks = reading.has("compare") or reading.heard.lower().lstrip().startswith("which")
    if not asks:
        return None
    text = reading.heard
    for split in SPLITS:
        at = text.lower().find(split)
        while at >= 0:
            left, right = text[:at], text[at + len(split) :]
            one, two = session.read(left), session.read(right)
            if _comparable(one, two):
                return side_by_side(session, answers, (one, 0), (two, at + len(split)), reading)
            at = text.lower().find(split, at + 1)
    return None


def _comparable(one: Reading, two: Reading) -> bool:
    a, b = {s.quantity for s in one.said}, {s.quantity for s in two.said}
    return len(a & b) >= 1 and len(one.said) >= 2 and len(two.said) >= 2


def side_by_side(session: Session, answers: Answers, first: tuple[Reading, int], second: tuple[Reading, int], whole: Reading) -> Reply | None:
    from assistant.session.merging import lay_over

    plans: list[Worked] = []
    asked = tuple(dict.fromkeys(a.quantity for a in (*whole.asked, *first[0].asked, *second[0].asked)))
    used: list[Used] = []
    for reading, offset in (first, second):
        reading.frames |= whole.frames & {"dose", "oil", "tea"}
        merged = lay_over(Batch(), reading, session.turn, ())
        if merged.unplaced or merged.bad:
            return None
        used += [Used(text=whole.heard[a + offset : b + offset][:40], start=a + offset, end=b + offset, quantity=q) for a, b, q in merged.used]
        plans.append(work_out(merged.batch.having(wanted=asked or merged.batch.wanted)))
    keys = [answering.settle_asked(p, p.batch.wanted)[0] or answering.told(p)[:1] for p in plans]
    common = [k for k in keys[0] if k in keys[1]]
    if not common:
        return None
    answers.used += used
    for plan in plans:
        session.keep(plan.batch, -1)
    session.last, session.last_keys = plans[1], (common[0],)
    return compared(session, answers, plans, common)


def compared(session: Session, answers: Answers, plans: list[Worked], keys: list[str]) -> Reply:
    names = _plan_names(plans)
    values: list[Value] = []
    lines = []
    for key in keys:
        pair = [p.solution.figures[key].value for p in plans]
        for name, plan, amount in zip(names, plans, pair, strict=True):
            values.append(answering.value_of(plan, key).model_copy(update={"batch": name, "value": amount}))
        difference = abs(pair[0] - pair[1])
        more = names[0] if pair[0] > pair[1] else names[1]
        words = f"{names[0]} {shown(key, pair[0])}, {names[1]} {shown(key, pair[1])}"
        session.gap = (key, difference, words)
        values.append(Value(quantity=base(key), batch="gap", value=difference, unit=VOCABULARY[base(key)].unit, origin="found", text=shown(key, difference)))
        tail = f": {more} is more by {shown(key, difference)}" if difference > 1e-9 else ": the same"
        lines.append(f"{VOCABULARY[base(key)].caption.capitalize()}: {words}{tail}.")
    session.gap = (keys[0], abs(plans[0].solution.figures[keys[0]].value - plans[1].solution.figures[keys[0]].value), lines[0].split(": ", 1)[1].rstrip("."))
    steps = tuple(s for p in plans for s in answering.steps_for(p, keys))
    return answers.reply("answered", "\n".join(lines), values=tuple(values), steps=steps)


def _plan_names(plans: list[Worked]) -> list[str]:
    names = []
    for n, plan in enumerate(plans):
        tags = plan.batch.tags
        state = "fresh" if "fresh" in tags else "dried" if "dried" in tags else ""
        names.append(" ".join(x for x in (state, plan.batch.title) if x) or ("first" if n == 0 else "second"))
    if names[0] == names[1]:
        names = [f"{names[0]} (first)", f"{names[1]} (second)"]
    return names


def variants(session: Session, reading: Reading, merged: Merged, answers: Answers) -> Reply | None:
    """One figure said twice over to be compared: "by hand it keeps 2 ml/g, the press 0.7; both"."""
    if len(merged.doubled) != 1 or not (reading.has("compare") or any(w in reading.heard.lower().split() for w in ("both", "each", "either", "respectively"))):
        return None
    key, amounts = merged.doubled[0]
    if len(amounts) != 2:
        return None
    plans = []
    for amount in amounts:
        said = next(s for s in reading.said if s.key == key)
        batch = merged.batch.with_facts({key: fact_of(Said(said.quantity, amount, said.start, said.end, said.member), session.turn)})
        plans.append(work_out(batch))
    keys = [answering.settle_asked(p, p.batch.wanted)[0] for p in plans]
    common = [k for k in (keys[0] or ["pressed"]) if all(k in p.solution.figures for p in plans)]
    if not common:
        return None
    session.keep(plans[0].batch, session.current if session.batch is not None else -1)
    session.last, session.last_keys = plans[0], tuple(common)
    return compared(session, answers, plans, common)
