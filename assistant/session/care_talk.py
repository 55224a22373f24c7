"""Talk about the cautions: all of them, why one was given, quiet on a note, and whether it will keep."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.listening.statements import Reading
from assistant.reply import Caution, Question, Reply
from assistant.session import plant_talk, stand_talk
from assistant.session.caring import all_cautions, caution_line
from assistant.session.figuring import Worked, work_out
from assistant.session.wording import shown

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

# What keeping hangs on, in each kind of work, as it is told when nothing speaks against it.
KEEPS_BY = ("finished_strength", "blend_strength", "brix", "finished_acidity", "finished_glycerine", "dried_water", "strength")


def handle(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """A reply where the sentence is talk about cautions and bears no new figure; None otherwise."""
    if "practising" in reading.tags:
        session.practises = True
        if not reading.said and not reading.asked and not reading.named:
            return answers.noted(
                "Noted: you practise, and your clients are yours. What only sends a person to a practitioner is told as a caution from here on, no longer as a stop."  # noqa: E501  (one sentence, or one expression)
            )
    for room in (stand_talk.handle, plant_talk.handle):
        told = room(session, reading, answers)
        if told is not None:
            return told
    if reading.said or reading.ingredients or reading.liquids:
        return None
    if reading.has("caution_why") or (reading.has("caution_why_that") and session.cautioned == session.turn - 1):
        return why(session, answers)
    if reading.has("caution_quiet") and session.last_cautions:
        return quiet(session, answers)
    if session.batch is None or not (session.batch.facts or session.batch.name):
        return None
    if reading.has("cautions_all"):
        return everything(session, reading, answers)
    doses = "dose" in session.batch.frames and session.batch.facts.keys() & {"dose", "daily", "dose_drops", "dropperfuls"}
    for_how_long = bool(doses) and any(a.quantity == "days" for a in reading.asked)  # how long there is enough of it
    if reading.has("cautions_keeping") and not for_how_long:
        return keeping(session, reading, answers)
    return None


def why(session: Session, answers: Answers) -> Reply | None:
    """Why the last cautions were given, and where that is from."""
    if not session.last_cautions:
        return None
    lines = []
    for caution in session.last_cautions:
        lines.append(caution_line(caution))
        if caution.why:
            lines.append(f"  Why: {caution.why}")
        if caution.source:
            lines.append(f"  Source: {caution.source}")
    return answers.reply("answered", "\n".join(lines), batch=session.batch, cautions=tuple(session.last_cautions))


def quiet(session: Session, answers: Answers) -> Reply:
    """The last notes are not given again; warnings are given once a batch anyway, and a stop is never muted."""
    notes = [c for c in session.last_cautions if c.level == "note"]
    batch = session.batch
    if batch is None:
        session.muted.update(c.id for c in notes)
    elif session.draft is not None:
        session.draft = session.draft.having(muted=batch.muted | {c.id for c in notes})
    else:
        session.keep(batch.having(muted=batch.muted | {c.id for c in notes}), session.current)
    if any(c.level == "stop" for c in session.last_cautions):
        return answers.noted("A stop is not muted: say how it is meant, or take another plant.")
    return answers.noted("Quiet on that, for this batch." if notes else "That is given once for a batch; it comes again only if a figure tips over its limit.")


def everything(session: Session, reading: Reading, answers: Answers) -> Reply:
    """Every caution that holds for the batch, given before or not."""
    assert session.batch is not None
    worked = work_out(session.batch)
    cautions = all_cautions(session, worked, reading)
    if not cautions:
        return answers.reply("answered", "Nothing else that I know of. What I do not know of the plant or the place, I cannot tell.", batch=session.batch)
    session.last_cautions, session.cautioned = tuple(cautions), session.turn
    return answers.reply("answered", "\n".join(caution_line(c) for c in cautions), batch=session.batch, cautions=tuple(cautions))


def keeping(session: Session, reading: Reading, answers: Answers) -> Reply:
    """Will it keep: the keeping cautions, or the figure that it rests on."""
    assert session.batch is not None
    worked = work_out(session.batch)
    cautions = [c for c in all_cautions(session, worked, reading) if c.theme == "keeping"]
    if cautions:
        session.last_cautions, session.cautioned = tuple(cautions), session.turn
        return answers.reply("answered", "\n".join(caution_line(c) for c in cautions), batch=session.batch, cautions=tuple(cautions))
    figure = _rests_on(worked)
    if figure is None:
        question = Question(
            text="What does it finish at? Say the strength, and the water in the plant if it is fresh.",
            wants=("finished_strength",),
            choices=("at 60 %", "80 % water"),
        )
        return answers.reply("asking", question.text, batch=session.batch, questions=(question,))
    key, value = figure
    from assistant.session import answering

    note = Caution(
        id="keeps-by-the-figure",
        level="note",
        theme="keeping",
        text=f"Nothing in the figures speaks against keeping: {shown(key, value)}. Cool, dark, closed, and a label with the date.",
    )
    return answers.reply("answered", note.text, batch=session.batch, values=(answering.value_of(worked, key),), cautions=(note,))


def _rests_on(worked: Worked) -> tuple[str, float] | None:
    for key in KEEPS_BY:
        value = worked.value(key)
        if value is not None:
            return key, value
    return None
