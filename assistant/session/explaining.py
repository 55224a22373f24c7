"""The working of a figure: every leaf with its own origin, every step in order, the asked figure last."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import TYPE_CHECKING

from assistant.listening.statements import Reading
from assistant.quantities.vocabulary import VOCABULARY, base
from assistant.reply import Reply
from assistant.session import answering
from assistant.session.figuring import Worked
from assistant.session.repeating import refer
from assistant.session.wording import caption, phrase_for, sentence, shown

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

NEAR = 0.005  # a figure pointed at by its number is said as it was shown, rounded
# "Why isn't it still 60?" points at what was said and asks for what became of it.
BECOMES = {"strength": "finished_strength", "menstruum": "in_jar", "herb": "dried", "in_jar": "pressed", "stock_strength": "strength", "to_gather": "herb", "acidity": "finished_acidity", "glycerine": "finished_glycerine"}
CONTRARY = re.compile(r"n['’]?t\b|\bnot\b|\bstill\b|\bno longer\b|\bweaker\b|\blower\b|\bless\b|\bdrop|\bonly\b|\bjust\b", re.IGNORECASE)


def why(session: Session, reading: Reading, answers: Answers) -> Reply:
    """How a figure came about: the one pointed at, else those last answered."""
    worked = session.last
    assert worked is not None
    refer(answers, reading)
    keys = meant(session, reading, worked)
    return worked_through(worked, keys, answers)


def worked_through(worked: Worked, keys: list[str], answers: Answers) -> Reply:
    """The figures of these keys with all that leads to them."""
    figures = worked.solution.figures
    steps = answering.steps_for(worked, keys)
    leaves: list[str] = []
    for key in keys:
        leaves += [f.key for f in worked.solution.leaves(key)]
    leaves = [k for k in dict.fromkeys(leaves) if k in figures and k not in keys]
    lines = [sentence([phrase_for(k, figures[k].value) for k in keys])]
    if leaves:
        lines.append("From " + ", ".join(f"{caption(k)} {shown(k, figures[k].value)} ({figures[k].origin})" for k in leaves) + ":")
    elif not steps:
        lines.append("Nothing was worked out there: it is what was said.")
    lines += [f"{n}. {step.says}\n   {step.working}" for n, step in enumerate(steps, 1)]
    assumed = answering.assumptions_for(worked, keys)
    lines.append(answering.assumption_line(assumed))
    values = [answering.value_of(worked, k) for k in (*leaves, *keys)]
    text = "\n".join(line for line in lines if line)
    return answers.reply("answered", text, batch=worked.batch, values=tuple(values), steps=tuple(steps), assumptions=tuple(assumed))


def just_numbers(worked: Worked, keys: list[str], answers: Answers) -> Reply:
    """The figures and the arithmetic, without a word of teaching."""
    figures = worked.solution.figures
    steps = answering.steps_for(worked, keys)
    lines = [sentence([phrase_for(k, figures[k].value) for k in keys]), *(step.working for step in steps)]
    return answers.reply("answered", "\n".join(lines), batch=worked.batch, values=tuple(answering.value_of(worked, k) for k in keys), steps=tuple(steps))


def meant(session: Session, reading: Reading, worked: Worked) -> list[str]:
    """The figures a "why" is about: those named by their number or their name, else those last answered."""
    figures = worked.solution.figures
    numbers = [l.value for l in reading.loose] + [s.value for s in reading.said] + [f for a in reading.acts for f in a.figures]
    numbers += [r.value for r in reading.references if r.value is not None]
    pointed = _by_number(worked, numbers, session.last_keys)
    if pointed:
        key = pointed[0]
        turned = BECOMES.get(base(key), "")
        if figures[key].origin != "found" and turned in figures and figures[turned].origin == "found" and (CONTRARY.search(reading.heard) or "why" in reading.heard.lower()):
            return [turned]
        return [key]
    asked, _ = answering.settle_asked(worked, [a.key for a in reading.asked])
    found = [k for k in asked if k in figures and figures[k].origin == "found"]
    if found:
        return found
    if CONTRARY.search(reading.heard) and "finished_strength" in figures:
        return ["finished_strength"]
    return [k for k in session.last_keys if k in figures] or answering.told(worked)[:1]


def _by_number(worked: Worked, numbers: Iterable[float], last: Iterable[str]) -> list[str]:
    """The keys whose figure is one of these numbers as shown: what was last answered first, found before said."""
    figures = worked.solution.figures
    recent = tuple(last)
    hits: list[tuple[int, int, str]] = []
    for number in numbers:
        for order, (key, figure) in enumerate(figures.items()):
            slack = max(0.05 if VOCABULARY[base(key)].unit == "percent" else 0.5 if abs(number) >= 20 else 0.0, NEAR * abs(number))
            if abs(figure.value - number) <= slack:
                rank = 0 if key in recent and figure.origin == "found" else 1 if figure.origin == "found" else 2
                hits.append((rank, order, key))
        if hits:
            break
    return [key for _, _, key in sorted(hits)]
