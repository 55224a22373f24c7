"""A worksheet or its key into a file of the person's own naming. The door hands over what writes; without it nothing is written, and that is said."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from assistant.faults import BenchError
from assistant.listening.statements import Reading
from assistant.newfile import form_of, named_in
from assistant.reply import Question, Reply, Step, Used, Value
from assistant.session.repeating import refer
from assistant.teaching.sheets import answer_key, worksheet

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

NAMES = {"sheet": "write the worksheet to sheet.html", "key": "write the answers to key.html"}


def written(session: Session, reading: Reading, answers: Answers, what: str, figures: Sequence[Value], steps: Sequence[Step]) -> Reply:
    """Write the problems set last; what = sheet (with the key behind it where that is said) or key. figures and steps are those of the key."""
    lesson = session.lesson
    name, start, end = named_in(reading.heard)
    if not name:
        text = "Under which name?"
        return answers.reply("asking", text, questions=(Question(text=text, choices=(NAMES[what],)),))
    refer(answers, reading)
    answers.used = [u for u in answers.used if u.end <= start or u.start >= end]
    answers.used.append(Used(text=name[:40], start=start, end=min(end, start + 40), quantity="label"))
    with_key = re.search(r"\bwith (?:the |an )?(?:answers?|key|solutions)\b", reading.heard, re.IGNORECASE) is not None
    form = form_of(name)
    page = answer_key(lesson.problems, lesson.draw, form) if what == "key" else worksheet(lesson.problems, lesson.draw, form, key=with_key)
    session.lesson = lesson.turned(at=-1, hints=0)  # it is worked on paper: the next figure said is no answer
    count = Value(quantity="problems", value=len(lesson.problems), unit="1", origin="found", text=str(len(lesson.problems)))
    number = Value(quantity="worksheet", value=lesson.draw, unit="1", origin="found", text=str(lesson.draw))
    if session.writer is None:
        text = "Nothing was written: only the conversation at the prompt writes a file, or gallipot --worksheet. It would hold:\n" + page.rstrip()
        question = Question(text="Will you copy it from here?", choices=(f'gallipot --worksheet "ten on dilution, easy" {name}',))
        return answers.reply("asking", text, values=(count, number, *figures), questions=(question,), steps=tuple(steps))
    try:
        session.writer(name, page)
    except BenchError as fault:
        other = NAMES[what].replace(".html", f"-{lesson.draw}.html")
        asked = Question(text="Under which other name?", choices=(other,))
        return answers.reply("asking", f"{fault.where}: {fault.what}. {asked.text} (for example: {other})", values=(number,), questions=(asked,))
    kept = "answers to" if what == "key" else "problems with their answers," if with_key else "problems without answers,"
    told = f"Written: {name}, {len(lesson.problems)} {kept} worksheet {lesson.draw}."
    if what == "sheet" and not with_key:
        told += f" “{NAMES['key']}” writes the answers."
    return answers.noted(told).model_copy(update={"values": (count, number)})
