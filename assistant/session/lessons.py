"""Turns of teaching: the working slowly, why a number stands there, the rule turned round, a drawing, what a word means, and a slip of one's own."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.faults import BenchError
from assistant.listening.statements import Act, Reading
from assistant.matter.ethanol import mix
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import VOCABULARY, about, base
from assistant.reply import Question, Reply, Step, Used, Value
from assistant.session import answering, explaining
from assistant.session.batch import Fact
from assistant.session.cases import case_of, steps_of
from assistant.session.figuring import Worked, work_out
from assistant.session.givens import merged_from, read_givens
from assistant.session.merging import Merged, lay_over
from assistant.session.repeating import refer
from assistant.session.wording import caption, phrase_for, sentence, shown
from assistant.teaching import drawings, glossary, rearranging
from assistant.teaching.glossary import Explained
from assistant.teaching.working import as_text, why_this_number, worked

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

# Finish in % vol, from which on it holds (common practice).
KEEPING = ((25.0, "it keeps"), (20.0, "it keeps for a while only, in the cold"), (0.0, "it will not keep: bring it up, or use it within days"))
FOR_EACH = 100.0  # grams of plant where none were named: strengths do not hang on them


def handle(session: Session, reading: Reading, answers: Answers, word: str = "") -> Reply | None:
    """A reply where the sentence asks for a lesson; None where it does not. `word` is all that a "what is …" asks about."""
    told = _meaning(session, reading, answers, word)
    if told is not None:
        return told
    for room in (_given, _slip, _slowly, _why_number, _rearranged, _drawn):
        reply = room(session, reading, answers)
        if reply is not None:
            return reply
    return None


# ── a problem put as a plain list ────────────────────────────────────────────────────────────────────────────────────────


def _given(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    givens = read_givens(reading.heard)
    if givens is None:
        return None
    merged = merged_from(givens, session.turn)
    answers.merged = merged
    answers.used = [Used(text=reading.heard[a:b][:40], start=a, end=min(b, a + 40), quantity=q) for a, b, q in merged.used]
    names = [(m.start(), m.end()) for m in re.finditer(r"\d+(?:\.\d+)?", reading.heard) if not any(a < m.end() and m.start() < b for a, b, _ in merged.used)]
    refer(answers, reading, *(names or [(0, 0)]))
    session.draft, session.wants = None, ()
    plain = Reading(reading.heard)
    plain.notes = []
    return answers.answer(plain, merged, work_out(merged.batch), -1)


# ── what does it mean ────────────────────────────────────────────────────────────────────────────────────────────────────


FURTHER = looked_for(r"\bhow (?:much|many)\b|\band\b.*\?", re.IGNORECASE)  # a question beside that of the word


def _meaning(session: Session, reading: Reading, answers: Answers, word: str) -> Reply | None:
    act = reading.act("means")
    heard = _corrected(reading)
    if session.last is not None and reading.heard.lower().lstrip().startswith("why"):
        return None  # of the figures in hand
    term = glossary.called(word) if word else ""
    ratios = [s for s in reading.said if base(s.key) in ("ratio", "dry_ratio")]
    figures = len(reading.said) > len(ratios) or reading.loose or reading.ingredients or reading.liquids
    if not term and (act is None or figures):  # "a dropperful" by itself is a word, whatever figure was read into it
        return None
    found = (term, glossary.USUAL_RATIO) if term else glossary.named_in(heard)
    if found is None:
        return None
    told = glossary.explain(*found)
    if (
        not reading.said
        and session.batch is not None
        and session.draft is None
        and FURTHER.search(reading.heard)
        and any(base(a.key) != "ratio" for a in reading.asked)
    ):
        return _meant_and_worked(session, reading, answers, told)
    refer(answers, reading)
    values = tuple(
        Value(
            quantity=base(key),
            about=about(key),
            batch="example",
            value=value,
            unit=VOCABULARY[base(key)].unit,
            origin="assumed" if origin != "found" else "found",
            text=shown(key, value),
        )
        for key, value, origin in told.figures
    )
    name = told.term[:1].upper() + told.term[1:]
    return answers.reply("answered", f"{name}: {told.definition}\nFor example: {told.example}", values=values)


def _corrected(reading: Reading) -> str:
    """The sentence with its words as they were understood: "menstrum" is menstruum."""
    heard = reading.heard
    for note in reading.notes:
        said, _, meant = note.partition(" → ")
        heard = heard.replace(said, meant) if meant else heard
    return heard


def _meant_and_worked(session: Session, reading: Reading, answers: Answers, told: Explained) -> Reply:
    """ "And what is marc? How much would it hold?": what the word means, then the figure of the batch in hand."""
    reply = session.take(reading, answers)
    return reply.model_copy(update={"text": f"{told.term[:1].upper() + told.term[1:]}: {told.definition}\n{reply.text}"})


# ── the working ──────────────────────────────────────────────────────────────────────────────────────────────────────────


def _slowly(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    if not reading.has("slow") or session.last is None or reading.ingredients or reading.liquids:
        return None
    keys = [k for k in explaining.meant(session, reading, session.last) if k in session.last.solution.figures]
    refer(answers, reading)
    return lesson(session.last, keys, answers)


def lesson(worked_: Worked, keys: list[str], answers: Answers) -> Reply | None:
    """The figures of these keys with every step of their working, in the words of a teacher."""
    case = case_of(worked_)
    lines = list(dict.fromkeys(line for key in keys for line in worked(case, key)))
    if not lines:
        return None
    figures = worked_.solution.figures
    leaves = [f.key for key in keys for f in worked_.solution.leaves(key)]
    leaves = [k for k in dict.fromkeys(leaves) if k not in keys]
    head = sentence([phrase_for(k, figures[k].value) for k in keys])
    start = "What we have: " + ", ".join(f"{caption(k)} {shown(k, figures[k].value)} ({figures[k].origin})" for k in leaves) + "."
    assumed = answering.assumptions_for(worked_, keys)
    text = "\n".join(x for x in (head, start, *as_text(lines), answering.assumption_line(assumed)) if x)
    values = tuple(answering.value_of(worked_, k) for k in (*leaves, *keys))
    return answers.reply("answered", text, batch=worked_.batch, values=values, steps=tuple(steps_of(lines, worked_.batch.title)), assumptions=tuple(assumed))


NUMBERS = {"twice": 2.0, "double": 2.0, "halve": 2.0, "halved": 2.0, "half": 2.0, "thrice": 3.0}
WHY_NUMBER = looked_for(r"\bwhy\b.*\b(?:times|twice|thrice|doubl\w+|halv\w+|multipl\w+|divid\w+|over|plus|minus|add|take|use)\b", re.IGNORECASE)


def _why_number(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """ "Why times two?": the figure that number is, and the rule it stands in."""
    if session.last is None or not WHY_NUMBER.search(reading.heard) or reading.ingredients or reading.named:
        return None
    numbers = [f.value for f in reading.loose] + [s.value for s in reading.said] + [r.value for r in reading.references if r.value is not None]
    number = next(iter(numbers), next((n for word, n in NUMBERS.items() if re.search(rf"\b{word}\b", reading.heard, re.IGNORECASE)), None))
    if number is None:
        return None
    case = case_of(session.last)
    for key in session.last_keys:
        line = why_this_number(worked(case, key), case, float(number))
        if line is None:
            continue
        refer(answers, reading)
        given = next(
            (k for k, f in session.last.solution.figures.items() if k != line.key and abs(float(f.value) - float(number)) <= 0.005 * max(abs(number), 1e-9)),
            "",
        )
        says = f"That is the {caption(given)}. " if given else ""
        values = [answering.value_of(session.last, k) for k in (given, line.key) if k]
        return answers.reply(
            "answered",
            f"{says}{line.rule}\n{line.numbers}",
            batch=session.last.batch,
            values=tuple(values),
            steps=tuple(steps_of([line], session.last.batch.title)[:1]),
        )
    return None


def _rearranged(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    if not reading.has("rearrange") or session.last is None or reading.said or reading.ingredients:
        return None
    relations = {r.name: r for r in session.last.relations}
    lines: list[str] = []
    keys = [k for k in session.last_keys if session.last.solution.derivation(k)][:1]
    for key in keys:
        step = session.last.solution.derivation(key)[-1]
        moves = rearranging.moves(relations[step.relation], key) if step.relation in relations else ()
        lines += [f"{move.done}\n   {move.equation}" for move in moves]
        lines.append(step.working if moves else "There is no way to turn that rule round: one tries until both sides agree.")
    if not lines:
        return None
    return answers.reply(
        "answered",
        "\n".join(lines),
        batch=session.last.batch,
        values=tuple(answering.value_of(session.last, k) for k in keys),
        steps=tuple(answering.steps_for(session.last, keys)),
    )


# ── drawings ─────────────────────────────────────────────────────────────────────────────────────────────────────────────


def _drawn(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    act = reading.act("draw")
    if act is None or session.last is None or reading.said or reading.ingredients:
        return None
    try:
        found = _drawing(session.last, reading.heard.lower())
    except BenchError as fault:
        return answers.reply("asking", str(fault), batch=session.last.batch, questions=(Question(text=str(fault)),))
    if found is None:
        text = "There is nothing here to draw yet. Say what is in the jar, or two strengths and the one between."
        return answers.reply("asking", text, batch=session.last.batch, questions=(Question(text=text),))
    drawing, keys = found
    spoken = session.plain or re.search(r"\bdescribe\b|\bread out\b|\bsay\b", reading.heard, re.IGNORECASE)
    told = Step(quantity="drawing", batch=session.last.batch.title, relation="drawing", says=drawing.spoken, working=" ".join(drawing.lines))
    values = tuple(answering.value_of(session.last, k) for k in keys)
    return answers.reply("answered", drawing.spoken if spoken else "\n".join(drawing.lines), batch=session.last.batch, values=values, steps=(told,))


def _drawing(worked_: Worked, heard: str) -> tuple[drawings.Drawing, list[str]] | None:
    value = worked_.value
    members = worked_.batch.members
    strong, weak, wanted = value("stock_strength"), 0.0, value("strength")
    keys = ["stock_strength", "strength"]
    mixed = sorted((k for k in (f"strength_of[{m}]" for m in members) if value(k) is not None), key=lambda k: -(value(k) or 0.0))
    if len(mixed) == 2 and value("blend_strength") is not None:
        strong, weak, wanted, keys = value(mixed[0]), value(mixed[1]) or 0.0, value("blend_strength"), [*mixed, "blend_strength"]
    square = strong is not None and wanted is not None and weak < wanted < strong
    for name in ("volume", "weight", "part"):
        shares = {m: value(f"{name}[{m}]") or 0.0 for m in members if value(f"{name}[{m}]")}
        if len(shares) > 1 and not (square and "square" in heard) and "jar" not in heard:
            return drawings.parts(shares, "" if name == "part" else VOCABULARY[name].unit), [f"{name}[{m}]" for m in shares]
    if (
        square
        and strong is not None
        and wanted is not None
        and ("square" in heard or "alligation" in heard or (value("finished_strength") is None and "jar" not in heard))
    ):
        return drawings.alligation(strong, weak, wanted), keys
    liquid = value("in_jar") or value("menstruum")
    if "jar" not in heard and wanted is not None and value("finished_strength") is not None:
        return drawings.strengths(value("stock_strength"), wanted, value("finished_strength")), [
            k for k in ("stock_strength", "strength", "finished_strength") if value(k) is not None
        ]
    if liquid is None:
        return None
    herb = value("herb") or 0.0
    room = herb * (value("herb_room") or (1.0 if "fresh" in worked_.tags else 0.7))
    return drawings.jar(liquid, room, value("jar_size")), [k for k in ("in_jar", "menstruum", "herb", "jar_size") if value(k) is not None]


# ── a slip of one's own ──────────────────────────────────────────────────────────────────────────────────────────────────


def _slip(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    if reading.has("forgot_water"):
        return _forgot_water(session, reading, answers)
    act = reading.act("added_of")
    if act is not None and len(act.figures) >= 2 and session.batch is not None and reading.has("poking_out"):
        return _added(session, reading, answers, act)
    return None


def _forgot_water(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """The jar as it is, whether it keeps, and what to pour next time so that it finishes at what was meant."""
    target, index = session.target(reading)
    merged = lay_over(target, reading, session.turn, session.wants)
    batch = merged.batch
    strength = batch.value("strength") or batch.value("finished_strength")
    if merged.bad or merged.doubled or strength is None or not batch.facts.keys() & {"ratio", "menstruum"}:
        return None
    facts = {"strength": Fact(strength, "said", session.turn)}
    for_each = "herb" not in batch.facts and "menstruum" not in batch.facts
    if for_each:
        facts["herb"] = Fact(FOR_EACH, "assumed", session.turn)
    merged.batch = (
        batch.without("finished_strength").with_facts(facts).having(tags=(batch.tags - {"dried"}) | {"fresh"}, wanted=("finished_strength", "in_jar"))
    )
    jar = work_out(merged.batch)
    finish = jar.value("finished_strength")
    if finish is None or jar.solution.conflicts:
        return None
    answers.merged = merged
    answers.used += [Used(text=reading.heard[a:b][:40], start=a, end=min(b, a + 40), quantity=q) for a, b, q in merged.used]
    reply = answers.answer(reading, merged, jar, index)
    meant, ends = shown("strength", strength), shown("finished_strength", finish)
    keeps = next(words for least, words in KEEPING if finish >= least)
    lines = [f"{'For each 100 g of plant: what' if for_each else 'What'} you have is {ends}, not {meant}; {keeps}."]
    next_time = work_out(merged.batch.without("strength").with_facts({"finished_strength": Fact(strength, "said", session.turn)}).having(wanted=("strength",)))
    pour = next_time.value("strength")
    values = list(reply.values)
    if pour is not None and pour <= 96 and not next_time.solution.impossible:
        lines.append(f"Next time pour at {shown('strength', pour)} to finish at {meant}.")
        values.append(answering.value_of(next_time, "strength").model_copy(update={"batch": "next time"}))
    else:
        lines.append(f"Next time: nothing poured at this ratio finishes at {meant}; pour more to the gram, or wilt or dry the plant first.")
    return reply.model_copy(update={"text": "\n".join([*lines, reply.text]), "values": tuple(values)})


def _added(session: Session, reading: Reading, answers: Answers, act: Act) -> Reply | None:
    """More spirit into a jar that stands: by weight, the new menstruum, its strength and its ratio."""
    assert session.batch is not None
    now = session.last
    volume, strength = act.figures[0], act.figures[1]
    have = None if now is None else now.value("menstruum")
    poured = None if now is None else now.value("strength")
    if now is None or have is None or poured is None or not (volume > 0 and 0 <= strength <= 100):
        return None
    together = mix((have, volume), (poured, strength))
    kept = session.batch.without(
        "ratio", "menstruum", "strength", "finished_strength", "stock", "water", "stock_strength", "alcohol", "spirit_in_hand", "in_jar"
    )
    if "herb" not in kept.facts and now.value("herb") is not None:
        kept = kept.with_facts({"herb": Fact(now.solution.figures["herb"].value, "said", session.turn)})
    changed = kept.with_facts({"menstruum": Fact(together.volume, "measured", session.turn), "strength": Fact(together.strength, "measured", session.turn)})
    changed = changed.having(wanted=("ratio", "finished_strength", "in_jar") if "fresh" in changed.tags else ("ratio",))
    merged = Merged(changed, new_keys={"menstruum", "strength"}, asked=changed.wanted)
    answers.merged = merged
    refer(answers, reading)
    reply = answers.answer(Reading(reading.heard), merged, work_out(changed), session.current)
    more, now_poured = f"{shown('menstruum', volume)} of {shown('strength', strength)}", shown("menstruum", together.volume)
    head = f"With {more} added, {now_poured} at {shown('strength', together.strength)} has been poured."
    added = Value(quantity="added", batch=changed.title, value=volume, unit="mL", origin="said", text=shown("menstruum", volume))
    return reply.model_copy(update={"text": f"{head}\n{reply.text}", "values": (*reply.values, added)})
