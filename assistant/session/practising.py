"""Practice in conversation: problems set, answers looked at, hints, the key, worksheets, and what was missed."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.listening.statements import Loose, Reading, Said
from assistant.newfile import named_in
from assistant.patterns import looked_for
from assistant.quantities.showing import caption, shown
from assistant.quantities.spelt import SPELT
from assistant.quantities.vocabulary import VOCABULARY, about, base
from assistant.reply import Question, Reply, Step, Value
from assistant.session import filing
from assistant.session.asked_unit import unit_asked
from assistant.session.cases import case_of, steps_of
from assistant.session.repeating import refer
from assistant.session.steps_told import reckoned
from assistant.session.wording import in_unit
from assistant.teaching import mistakes
from assistant.teaching.practice import ALSO_CALLED, LEVELS, Hears, Missed, hint, set_problems, topic
from assistant.teaching.problems import Problem
from assistant.teaching.sheets import answer_of, worksheet
from assistant.teaching.working import as_text, worked

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

MOST = 30  # problems on one sheet
GRADES = 3
RESULT = looked_for(
    r"(?:=|\bthat['’]?s|\bis|\bmakes|\bgives|\bgot|\bget|\bcomes? to|\bcame to|\bso)\s*(?:a|about|me|it)?\s*$", re.IGNORECASE
)  # before what a step came to
# Words of somebody who tells how she reckoned: plainly so, and so once she was asked.
STEPS_BY_THEMSELVES = looked_for(
    r"\b(?:first(?:ly)?|then|next|step)\b.*\bI\b|\bI (?:just |simply )?(?:divided|multiplied|added|subtracted|halved|doubled|took off|timesed)\b", re.IGNORECASE
)
STEPS_TOLD = looked_for(r"\bfirst|\bthen|\bstep|\btook|\bdid|\btimes|\bdivided|\bmultipl|[x×*÷/=]|\bgot\b", re.IGNORECASE)
SHEET_WORDS = frozenset("sheet worksheet problems sums exercises questions key answers solutions".split())
ON_THAT = looked_for(r"\bon (?:that|this|it)\b|\b(?:the )?same (?:kind|sort)\b", re.IGNORECASE)
SHEET_NUMBER = looked_for(r"\b(?:work)?sheet\s*(?:number|no\.?|#)?\s*(\d{1,6})\b", re.IGNORECASE)  # by which the same sheet is set again


def handle(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """A reply where the sentence belongs to practice; None where it does not."""
    for room in (_first_step, _filed, _answered, _set, _hint, _key, _in_unit, _missed):
        reply = room(session, reading, answers)
        if reply is not None:
            session.lesson = session.lesson.turned(turn=session.turn)
            return reply
    return None


# ── setting ──────────────────────────────────────────────────────────────────────────────────────────────────────────────


def heard_by(session: Session) -> Hears:
    """What a fresh conversation of the same kind answers to a problem: the figure of the key, found and not assumed."""

    def hears(text: str, key: str) -> float | None:
        reply = type(session)().say(text)
        if reply.status != "answered" or any(a.quantity not in ("trim_loss", "margin", "drops_per_ml", "rack_loss") for a in reply.assumptions):
            return None
        called = {base(key), ALSO_CALLED.get(base(key), "")}
        return next((v.value for v in reply.values if v.quantity in called and v.about == about(key) and v.value is not None), None)

    return hears


def _set(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    act, again = reading.act("practise"), reading.act("sheet_number")
    if act is None and again is None:
        form = _form(re.findall(r"[a-z]+", reading.heard.lower()))
        return _sheet(session, answers, form) if reading.has("sheet_form") and session.lesson.problems and not reading.said else None
    if reading.ingredients or reading.liquids or any(not s.weak for s in reading.said):
        return None
    words = re.findall(r"[a-z]+", reading.heard.lower())
    level = next((name for name in LEVELS if name in words), "easy" if "simple" in words else "hard" if "difficult" in words else "")
    room = topic(words)
    numbered = SHEET_NUMBER.search(reading.heard)
    number = int(numbered.group(1)) if again is not None and numbered else session.lesson.draw + 1
    count = _count(reading, words)
    like = ("", "")
    of_that = ON_THAT.search(reading.heard) is not None
    if not room and session.last is not None and (of_that or (count == 1 and {"like", "another", "next", "more"} & set(words))):
        like = _like(session)
    elif {"another", "next"} & set(words) and not room and session.lesson.problems:
        last = session.lesson.problems[-1]
        like = (last.relation, base(last.asked))
    problems = set_problems(count, number, heard_by(session), room, level, like)
    refer(answers, reading)
    if not problems:
        text = "I have no problem of that kind. Shall it be another kind, or another grade?"
        return answers.reply("asking", text, questions=(Question(text=text, choices=("ten on dilution, easy", "give me a problem")),))
    session.lesson = session.lesson.turned(problems=problems, at=0, hints=0, draw=number)
    if named_in(reading.heard)[0]:
        return _written(session, reading, answers, "sheet")
    form = _form(words)
    if len(problems) == 1 and form == "text":
        return _asks(session, answers)
    return _sheet(session, answers, form)


def _filed(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """The sheet set last, or its key, into a file."""
    name, _, _ = named_in(reading.heard)
    words = set(re.findall(r"[a-z]+", reading.heard.lower()))
    if not (name or reading.has("sheet_file")) or reading.has("sheet_number"):
        return None
    act = reading.act("practise")
    if act is not None and (_count(reading, []) > 1 or topic(list(words)) or "a" in act.arguments or words & {"another", "new", "fresh", *LEVELS}):
        return None  # a sheet that is still to be set
    if not session.lesson.problems or (session.turn - session.lesson.turn > 1 and not words & SHEET_WORDS):
        return None
    return _written(session, reading, answers, "key" if words & {"key", "answers", "solutions"} and "with" not in words else "sheet")


def _written(session: Session, reading: Reading, answers: Answers, what: str) -> Reply:
    problems = session.lesson.problems
    return filing.written(session, reading, answers, what, [v for n, p in enumerate(problems, 1) for v in _givens(p, n, key=True)], _key_steps(problems))


def _sheet(session: Session, answers: Answers, form: str) -> Reply:
    """The problems set last on one sheet; the printable page has its key behind it."""
    problems, printed = session.lesson.problems, form == "html"
    text = worksheet(problems, session.lesson.draw, form, key=printed).rstrip()
    if form == "text":
        text += "\n\nAnswer the first, ask for a hint, or say “the answers”."
    values = tuple(v for n, p in enumerate(problems, 1) for v in _givens(p, n, key=printed))
    question = Question(text=problems[0].text, wants=(base(problems[0].asked),))
    return answers.reply("asking", text, values=values, questions=(question,), steps=_key_steps(problems) if printed else ())


def _form(words: list[str]) -> str:
    return "html" if {"html", "printable", "page", "print"} & set(words) else "markdown" if "markdown" in words else "text"


def _count(reading: Reading, words: list[str]) -> int:
    act = reading.act("practise")
    numbered = SHEET_NUMBER.search(reading.heard)
    figures = [
        *(act.figures if act is not None else ()),
        *(f.value for f in reading.loose if numbered is None or not numbered.start() <= f.start < numbered.end()),
    ]
    if figures:
        return max(1, min(MOST, int(figures[0])))
    spelt = next((SPELT[w] for w in words if w in SPELT and w != "one"), 0)
    return spelt or (5 if {"worksheet", "sheet", "problems", "questions", "exercises", "sums"} & set(words) else 1)


def _like(session: Session) -> tuple[str, str]:
    assert session.last is not None
    for key in session.last_keys:
        steps = session.last.solution.derivation(key)
        if steps:
            return steps[-1].relation, base(key)
    return "", ""


def _asks(session: Session, answers: Answers, before: str = "", verdict: tuple[Value, ...] = (), steps: tuple[Step, ...] = ()) -> Reply:
    problem = session.lesson.problem
    assert problem is not None
    question = Question(text=problem.text, wants=(base(problem.asked),))
    text = f"{before}\n{problem.text}" if before else problem.text
    return answers.reply("asking", text, values=(*verdict, *_givens(problem, session.lesson.at + 1)), questions=(question,), steps=steps)


def _givens(problem: Problem, number: int, *, key: bool = False) -> list[Value]:
    figures = [(k, v, "said") for k, v in problem.given] + ([(problem.asked, problem.answer, "found")] if key else [])
    return [_value(k, v, f"problem {number}", origin) for k, v, origin in figures]


def _value(key: str, value: float, batch: str, origin: str) -> Value:
    return Value(
        quantity=base(key),
        about=about(key),
        batch=batch,
        value=value,
        unit=VOCABULARY[base(key)].unit,
        origin="found" if origin == "found" else "said",
        text=shown(key, value),
    )


# ── an answer ────────────────────────────────────────────────────────────────────────────────────────────────────────────


def _figures(reading: Reading) -> list[Said | Loose]:
    return sorted([*reading.said, *reading.loose, *reading.claims], key=lambda f: f.start)


def _unit_said(figure: Said | Loose) -> str:
    """The bench unit a figure was said with, "" for a bare number or one that goes by no unit."""
    if isinstance(figure, Loose):
        return {"g": "g", "mL": "mL", "%": "percent", "drop": "drop", "day": "day"}.get(figure.kind, "")
    unit = VOCABULARY[base(figure.key)].unit
    return unit if figure.said_unit or unit not in ("1", "g/mL", "mL/g") else ""


def _answered(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """A figure said right after a problem is its answer."""
    lesson = session.lesson
    problem = lesson.problem
    figures = _figures(reading)
    if (
        problem is None
        or reading.has("practise")
        or reading.has("sheet_number")
        or len(figures) != 1
        or reading.ingredients
        or reading.liquids
        or reading.asked
    ):
        return None
    if session.turn - lesson.turn > 1 or reading.named or len(reading.heard.split()) > 12:
        return None
    figure = figures[0]
    claim = figure.value
    unit, wanted = _unit_said(figure), VOCABULARY[base(problem.asked)].unit
    if unit not in ("", wanted):
        refer(answers, reading)
        text = f"The answer is wanted in {wanted}, as the {caption(problem.asked)}."
        return answers.reply("asking", text, values=tuple(_givens(problem, lesson.at + 1)), questions=(Question(text=text, wants=(base(problem.asked),)),))
    refer(answers, reading)
    if mistakes.is_right(problem.asked, claim, problem.answer, mistakes.said_to(reading.heard[figure.start : figure.end], claim)):
        after = lesson.turned(at=lesson.at + 1, hints=0, right=lesson.right + 1)
        session.lesson = after
        right = f"Right: {answer_of(problem)}."
        verdict = (_value(problem.asked, problem.answer, f"problem {lesson.at + 1}", "found"), _verdict(problem, lesson.at + 1, right=True))
        if after.problem is not None:
            return _asks(session, answers, right, verdict)
        if len(after.problems) > 1:
            right += f" That was the last of sheet {after.draw}."
        return answers.reply("answered", right, values=verdict)
    found = mistakes.diagnose(problem.case, problem.asked, claim)
    move = found[0].move if found else ""
    session.lesson = lesson.turned(missed=(*lesson.missed, Missed(problem.relation, problem.asked, claim, problem.answer, move)))
    text = f"No, {shown(problem.asked, claim)} is not it. {mistakes.as_text(found)}\nTry again, ask for a hint, or say “the answer please”."
    said = Value(
        quantity="reference",
        batch=f"problem {lesson.at + 1}",
        value=claim,
        unit=VOCABULARY[base(problem.asked)].unit,
        origin="said",
        text=shown(problem.asked, claim),
    )
    question = Question(text=problem.text, wants=(base(problem.asked),))
    if not found:
        session.lesson = session.lesson.turned(steps_of=(problem.case, problem.asked), steps_asked=True)
    return answers.reply("answered", text, values=(_verdict(problem, lesson.at + 1, right=False), said), questions=(question,))


def _verdict(problem: Problem, number: int, *, right: bool) -> Value:
    return Value(
        quantity=base(problem.asked),
        about=about(problem.asked),
        batch=f"problem {number}",
        verdict=right,
        unit=VOCABULARY[base(problem.asked)].unit,
        text="right" if right else "wrong",
    )


def ask_for_steps(session: Session, key: str, *, asked: bool = True) -> None:
    """After a wrong figure: the next sentence may tell the apprentice's first steps; `asked` where no known move gives the figure."""
    if session.last is not None:
        session.lesson = session.lesson.turned(steps_of=(case_of(session.last), key), steps_asked=asked, turn=session.turn)


def _first_step(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """The apprentice's steps, one after the other: which is the first that does not hold."""
    asked = session.lesson.steps_of
    if asked is None:
        return None
    session.lesson = session.lesson.turned(steps_of=None)
    figures = _figures(reading)
    tells = STEPS_TOLD if session.lesson.steps_asked and not reading.has("check") else STEPS_BY_THEMSELVES
    if session.turn - session.lesson.turn > 1 or not figures or not tells.search(reading.heard):
        return None
    case, key = asked
    solution = case.solved((key,))
    given = [f.value for f in solution.leaves(key)]
    plain = tuple(f.value for f in figures if not any(abs(f.value - g) <= 1e-9 * max(abs(g), 1) for g in given))
    told = tuple(f.value for f in figures if RESULT.search(reading.heard[: f.start]))
    results = told or reckoned(reading.heard) or plain
    refer(answers, reading)
    wrong = mistakes.first_wrong_step(case, key, (*(f.value for f in figures), *results), results)
    if wrong is None:
        return answers.reply(
            "answered",
            "Those steps hold. Work the last one again with them.",
            values=tuple(_value(s.key, s.value, "", "found") for s in solution.derivation(key)),
        )
    step_key, claim = wrong
    step = next(s for s in solution.derivation(key) if s.key == step_key)
    line = next(line for line in worked(case, step_key) if line.key == step_key)
    text = f"The first step that goes wrong is the {caption(step_key)}: {shown(step_key, step.value)}"
    found = () if claim is None else tuple(f for f in mistakes.diagnose(case, step_key, claim) if f.kind in ("trade", "working"))
    text += f", not {shown(step_key, claim)}. {mistakes.as_text(found)}" if claim is not None and found else "; it does not stand among yours."
    text += f"\n{line.rule}\n{line.numbers}"
    return answers.reply("answered", text, values=(_value(step_key, step.value, "", "found"),), steps=tuple(steps_of([line], "")[:1]))


# ── help, key, record ────────────────────────────────────────────────────────────────────────────────────────────────────


def _hint(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    problem = session.lesson.problem
    if problem is None or not reading.has("hint"):
        return None
    grade = min(session.lesson.hints + 1, GRADES)
    session.lesson = session.lesson.turned(hints=grade)
    refer(answers, reading)
    text = hint(problem, grade)
    told = Step(quantity="hint", relation=problem.relation, says=text, working=text)
    return answers.reply("answered", text, values=tuple(_givens(problem, session.lesson.at + 1)), steps=(told,))


def _key(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    lesson = session.lesson
    slow = reading.has("slow") and session.turn - lesson.turn <= 1
    gives_up = reading.has("give_up") and lesson.problem is not None
    if not lesson.problems or not (reading.has("answer_key") or slow or gives_up) or reading.said:
        return None
    refer(answers, reading)
    if len(lesson.problems) == 1 or ("answers" not in reading.heard.lower() and "key" not in reading.heard.lower()):
        problem = lesson.problem or lesson.problems[-1]
        lines = worked(problem.case, problem.asked)
        text = "\n".join([f"{answer_of(problem)[:1].upper()}{answer_of(problem)[1:]}{_also(problem, unit_asked(reading), session.measures)}.", *as_text(lines)])
        number = lesson.problems.index(problem) + 1
        session.lesson = lesson.turned(at=min(number, len(lesson.problems)), hints=0)
        if gives_up and session.lesson.problem is not None:
            return _asks(session, answers, text, tuple(_givens(problem, number, key=True)), tuple(steps_of(lines, f"problem {number}")))
        return answers.reply("answered", text, values=tuple(_givens(problem, number, key=True)), steps=tuple(steps_of(lines, f"problem {number}")))
    text = "\n".join(f"{n}. {answer_of(p)}" for n, p in enumerate(lesson.problems, 1))
    session.lesson = lesson.turned(at=len(lesson.problems))
    values = tuple(v for n, p in enumerate(lesson.problems, 1) for v in _givens(p, n, key=True))
    return answers.reply("answered", f"Answers to worksheet {lesson.draw}\n{text}", values=values, steps=_key_steps(lesson.problems))


def _also(problem: Problem, unit: str, measures: str) -> str:
    """The answer of a problem in another unit, " (2.54 fl oz)", "" where none is asked for or it fits none."""
    return f" ({other})" if unit and (other := in_unit(problem.asked, problem.answer, unit, measures)) else ""


def _in_unit(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """ "In ounces": the problem that was answered last, right after it, else the one that is asked now."""
    lesson, unit = session.lesson, unit_asked(reading)
    if not unit or not lesson.problems or session.turn - lesson.turn > 1 or reading.said or reading.loose or reading.has("answer_key"):
        return None
    done = [p for p in lesson.problems[: max(lesson.at, 0)] if in_unit(p.asked, p.answer, unit, session.measures)]
    if not done or lesson.hints:
        return _givens_in(session, answers, unit)
    number, problem = lesson.problems.index(done[-1]) + 1, done[-1]
    text = f"{answer_of(problem)[:1].upper()}{answer_of(problem)[1:]}{_also(problem, unit, session.measures)}."
    values = tuple(_givens(problem, number, key=True))
    return _asks(session, answers, text, values) if lesson.problem is not None else answers.reply("answered", text, values=values)


def _givens_in(session: Session, answers: Answers, unit: str) -> Reply | None:
    """The figures of the problem that is asked now, in another unit; None where none of them has it."""
    problem = session.lesson.problem
    if problem is None:
        return None
    told = [f"{caption(k)} {shown(k, v)} ({other})" for k, v in problem.given if (other := in_unit(k, v, unit, session.measures))]
    return _asks(session, answers, f"Given: {'; '.join(told)}.") if told else None


def _key_steps(problems: tuple[Problem, ...]) -> tuple[Step, ...]:
    return tuple(step for n, p in enumerate(problems, 1) for step in steps_of(worked(p.case, p.asked), f"problem {n}"))


def _missed(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    if not reading.has("misses") or reading.said:
        return None
    lesson = session.lesson
    refer(answers, reading)
    if not lesson.missed:
        return answers.reply(
            "answered",
            f"Nothing missed; {lesson.right} right." if lesson.right else "Nothing has been practised yet. “Ten on dilution, easy” sets some.",
        )
    values: list[Value] = []
    lines = [f"{lesson.right} right, {len(lesson.missed)} missed:"]
    for n, miss in enumerate(lesson.missed, 1):
        why = f": {miss.move}" if miss.move else ""
        lines.append(f"{n}. {caption(miss.asked)} {shown(miss.asked, miss.claim)}, right is {shown(miss.asked, miss.right)}{why}")
        values += [_value(miss.asked, miss.right, f"missed {n}", "found"), _value(miss.asked, miss.claim, f"missed {n}", "said")]
    counts = (
        Value(quantity="right", value=lesson.right, unit="1", origin="found", text=str(lesson.right)),
        Value(quantity="missed", value=len(lesson.missed), unit="1", origin="found", text=str(len(lesson.missed))),
    )
    return answers.reply("answered", "\n".join(lines), values=(*counts, *values))
