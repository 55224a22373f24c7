"""What is known so far, what can be said, and how the person likes to be spoken to."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.listening.statements import Reading
from assistant.reply import Reply
from assistant.session import answering
from assistant.session.figuring import work_out
from assistant.session.repeating import again
from assistant.session.wording import caption, sentence, shown

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

HELP = (
    "Say what you have, and what you want to know, in any order:\n"
    "  “I picked 112 g fresh nettle, make it 1:2 at 60 %”\n"
    "  “make 500 mL of 60 % from 95 %” · “600 g fresh leaf at 80 % water, what does it dry to?”\n"
    "  “finish at 50 %, my stock is 95” · “how much do I get pressed, with a ricer?”\n"
    "Then: “no wait, it was 120” · “what if 1:3” · “double it” · “the same but dried” · “undo” · “back to the first one”\n"
    "And: “why” · “is it 224?” · “compare the two” · “what do you know so far” · “in ounces” · “what's a pint in mL” · “start afresh”"
)

# habit → what is said when it is taken up
HABITS = {
    ("decimal_comma", True): "A comma is the decimal sign from here on.",
    ("decimal_comma", False): "A point is the decimal sign from here on.",
    ("plain", True): "Plain lines from here on, no tables.",
    ("plain", False): "Back to the usual layout.",
    ("fahrenheit", True): "Temperatures in °F from here on.",
    ("fahrenheit", False): "Temperatures in °C from here on.",
}


def known(session: Session, answers: Answers) -> Reply:
    """Everything said of the batch in hand, and which other plans there are."""
    batch = session.batch
    if batch is None or not (batch.facts or batch.name):
        return answers.noted("Nothing so far. " + HELP)
    worked = work_out(batch)
    values = [answering.value_of(worked, k) for k in batch.facts if k in worked.solution.figures]
    lines = [sentence([f"{caption(k)} {shown(k, f.value)}" for k, f in batch.facts.items()]) or batch.name]
    state = ", ".join(t for t in ("fresh", "dried", "neat") if t in batch.tags)
    head = f"{batch.title or 'This batch'}{' (' + state + ')' if state else ''}: "
    assumed = answering.assumptions_for(worked, session.last_keys)
    lines.append(answering.assumption_line(assumed))
    others = [b.title for i, b in enumerate(session.batches) if i != session.current and b.title]
    if others:
        lines.append("Other plans: " + ", ".join(others) + ".")
    text = head + "\n".join(line for line in lines if line)
    if not values:
        return answers.noted(text, batch)
    return answers.reply("answered", text, batch=batch, values=tuple(values), assumptions=tuple(assumed))


def habits(session: Session, reading: Reading) -> list[str]:
    """Take up what the person prefers; the sentences that say so."""
    told = []
    units = reading.act("units")
    if units is not None:
        session.measures = units.arguments[0]
        told.append("US measures from here on." if session.measures == "us" else f"{session.measures.capitalize()} measures from here on.")
    for act in reading.acts:
        if act.name == "habit":
            name, value = act.arguments[0], act.arguments[1] == "on"
            setattr(session, name, value)
            told.append(HABITS[name, value])
    return list(dict.fromkeys(told))


def small_talk(session: Session, answers: Answers) -> Reply:
    """Nothing to work out in it: thanks, a hum, an ok. What is still open is asked once more."""
    if session.draft is not None:
        return again(answers, session.draft, session.current)
    return answers.noted("Ready when you are." if session.batch is not None else "Ready. " + HELP)
