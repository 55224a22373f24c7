"""The working of a figure: every leaf with its own origin, every step in order, the asked figure last."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import TYPE_CHECKING

from assistant.listening.statements import Reading
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import VOCABULARY, base, key_for
from assistant.reply import Question, Reply, Step, Value
from assistant.session import answering
from assistant.session.figuring import Worked
from assistant.session.repeating import refer
from assistant.session.wording import caption, phrase_for, sentence, shown

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

NEAR = 0.005  # a figure pointed at by its number is said as it was shown, rounded
# "Why isn't it still 60?" points at what was said and asks for what became of it.
BECOMES = {
    "strength": "finished_strength",
    "menstruum": "in_jar",
    "herb": "dried",
    "in_jar": "pressed",
    "stock_strength": "strength",
    "to_gather": "herb",
    "acidity": "finished_acidity",
    "glycerine": "finished_glycerine",
}
CONTRARY = looked_for(r"n['’]?t\b|\bnot\b|\bstill\b|\bno longer\b|\bweak(?:er)?\b|\blow(?:er)?\b|\bless\b|\bdrop|\bonly\b|\bjust\b", re.IGNORECASE)


def why(session: Session, reading: Reading, answers: Answers) -> Reply:
    """How a figure came about: the one pointed at, else those last answered."""
    worked = session.last
    assert worked is not None
    refer(answers, reading)
    shrunk = shrinkage(reading, worked, answers)
    if shrunk is not None:
        return shrunk
    keys = meant(session, reading, worked)
    return worked_through(worked, keys, answers)


SHOWN = looked_for(r"\b(?:show|walk|talk|take|run|lead|spell|explain|teach)\b|\bstep by step\b|\bworkings?\b|\bsteps\b", re.IGNORECASE)


def with_working(session: Session, reading: Reading, reply: Reply) -> Reply:
    """ "Show me the working for 500 mL of 60 from 95": the answer, and below it how it came about; any other reply as it is."""
    worked = session.last
    if reply.status != "answered" or worked is None or not reading.has("why") or not SHOWN.search(reading.heard) or not reading.said:
        return reply
    told = [key_for(v.quantity, v.about) if VOCABULARY[v.quantity].indexed else v.quantity for v in reply.values if v.quantity in VOCABULARY]
    keys = [k for k in dict.fromkeys((*session.last_keys, *told)) if k in worked.solution.figures]
    steps = answering.steps_for(worked, keys)
    if not steps:
        return reply
    given = dict.fromkeys(f.key for key in keys for f in worked.solution.leaves(key))
    have = {(v.quantity, v.about) for v in reply.values}
    more = [v for k in given if k in worked.solution.figures and ((v := answering.value_of(worked, k)).quantity, v.about) not in have]
    lines = [f"{n}. {step.says}\n   {step.working}" for n, step in enumerate(steps, 1)]
    return reply.model_copy(update={"text": "\n".join([reply.text, *lines]), "values": (*reply.values, *more), "steps": tuple(steps)})


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


# What is poured together → what it makes: apart they are more.
TOGETHER = ((("menstruum", "plant_water"), "in_jar"), (("stock", "water"), "menstruum"))
ADDS_UP = looked_for(r"\b(?:adds?|added|adding|sums?|total|missing|vanish\w*|disappear\w*|shrink\w*|shrunk|lost|went|gone|short|more than)\b", re.IGNORECASE)


def ml(value: float) -> str:
    return shown("menstruum", value)


def shrinkage(reading: Reading, worked: Worked, answers: Answers) -> Reply | None:
    """ "Why don't those two add to 1000?", "how much went missing?": what the parts are apart, what they make, and the gap."""
    if not ADDS_UP.search(reading.heard):
        return None
    figures = worked.solution.figures
    order = TOGETHER if re.search(r"\bjar\b|\bin there\b|\bplant\b", reading.heard, re.IGNORECASE) else TOGETHER[::-1]
    for parts, whole in order:
        if not all(k in figures for k in (*parts, whole)) or not any(figures[k].origin == "found" for k in (*parts, whole)):
            continue
        apart = sum(figures[k].value for k in parts)
        gap = apart - figures[whole].value
        sums, mixed = " + ".join(ml(figures[k].value) for k in parts), ml(figures[whole].value)
        says = "Alcohol and water shrink when mixed: the small molecules fit between the large ones. Weights add up, volumes do not."
        steps = (
            *answering.steps_for(worked, [k for k in (*parts, whole) if figures[k].origin == "found"]),
            Step(quantity="apart", value=apart, unit="mL", relation="sum", says="Measured apart, before they are mixed.", working=f"{sums} = {ml(apart)}"),
            Step(quantity="shrinkage", value=gap, unit="mL", relation="contraction", says=says, working=f"{ml(apart)} − {mixed} = {ml(gap)}"),
        )  # fmt: skip
        values = [answering.value_of(worked, k) for k in (*parts, whole)]
        values.append(Value(quantity="made", value=figures[whole].value, unit="mL", origin="found", text=mixed))
        values.append(Value(quantity="shrinkage", value=gap, unit="mL", origin="found", text=ml(gap)))
        head = f"Apart they measure {ml(apart)} ({sums}); mixed they make {mixed}: {ml(gap)} is lost to shrinking."
        return answers.reply("answered", f"{head}\n{says}", batch=worked.batch, values=tuple(values), steps=steps)
    return None


def just_numbers(worked: Worked, keys: list[str], answers: Answers) -> Reply:
    """The figures and the arithmetic, without a word of teaching."""
    figures = worked.solution.figures
    if not keys:  # only things said so far, and nothing worked out of them
        keys = [key for key in worked.batch.facts if key in figures]
    if not keys:
        text = "There are no figures yet. What have you in hand, and what shall it become?"
        example = "112 g fresh nettle, 1:2 at 60 %"
        return answers.reply("asking", f"{text} (for example: {example})", batch=worked.batch, questions=(Question(text=text, choices=(example,)),))
    steps = answering.steps_for(worked, keys)
    lines = [sentence([phrase_for(k, figures[k].value) for k in keys]), *(step.working for step in steps)]
    return answers.reply("answered", "\n".join(lines), batch=worked.batch, values=tuple(answering.value_of(worked, k) for k in keys), steps=tuple(steps))


def meant(session: Session, reading: Reading, worked: Worked) -> list[str]:
    """The figures a "why" is about: those named by their number or their name, else those last answered."""
    figures = worked.solution.figures
    numbers = [f.value for f in reading.loose] + [s.value for s in reading.said] + [f for a in reading.acts for f in a.figures]
    numbers += [r.value for r in reading.references if r.value is not None]
    pointed = _by_number(worked, numbers, session.last_keys)
    if pointed:
        key = pointed[0]
        turned = BECOMES.get(base(key), "")
        if (
            figures[key].origin != "found"
            and turned in figures
            and figures[turned].origin == "found"
            and (CONTRARY.search(reading.heard) or "why" in reading.heard.lower())
        ):
            return [turned]
        found = [k for k in session.last_keys if k in figures and figures[k].origin == "found"]
        if figures[key].origin != "found" and found and CONTRARY.search(reading.heard):
            return found  # "why isn't it simply 48?": of a figure that was said, what came out of it
        return [key]
    asked, _ = answering.settle_asked(worked, [a.key for a in reading.asked])
    found = [k for k in asked if k in figures and figures[k].origin == "found"]
    if found:
        return found
    if re.search(r"\b(?:why|how come)\b", reading.heard, re.IGNORECASE) and CONTRARY.search(reading.heard) and "finished_strength" in figures:
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
