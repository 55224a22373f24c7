"""A plant weighed where it grew and again at home: which weight to believe, what went between, and what it does to the batch."""

from __future__ import annotations

import re
from math import hypot
from typing import TYPE_CHECKING

from assistant.dataclass import dataclass, replace
from assistant.listening.measured_on import is_of_the_field
from assistant.listening.statements import Reading, Weighing
from assistant.quantities.vocabulary import VOCABULARY, base
from assistant.reply import Question, Reply, Value
from assistant.session import answering
from assistant.session.batch import Batch, Fact
from assistant.session.figuring import Worked, work_out
from assistant.session.instruments import Error, Instrument, Instruments
from assistant.session.used import piece
from assistant.session.wording import caption, number, shown, slack_text

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

# What may have gone on the way, the words that say so, and the words that offer it.
CAUSES = (
    ("tare", re.compile(r"\b(?:bag|basket|tare|string|hook|pot|bowl|sack|container|wrapp\w*)\b", re.IGNORECASE), "it was the bag"),
    ("trimmed", re.compile(r"\b(?:trim\w*|stalks?|stems?|stripp\w*|garbl\w*|waste|picked over|cleaned|soil|dirt|earth|mud)\b", re.IGNORECASE), "I trimmed it"),
    ("dew", re.compile(r"\b(?:dew\w*|rain\w*|wet|damp|drip\w*|shook|shaken|water on)\b", re.IGNORECASE), "it was dew"),
    ("wilted", re.compile(r"\b(?:wilt\w*|limp|dried a bit|in the sun|hours? in|drying out|withered)\b", re.IGNORECASE), "it wilted on the way"),
)
BATCH_KEYS = ("menstruum", "stock", "water", "finished_strength", "in_jar", "pressed")


@dataclass(frozen=True, slots=True)
class TwiceWeighed:
    """The two weights in g, the ± of the first and of their difference, and the batch before the second was taken."""

    field: float
    home: float
    field_error: float
    sure: float
    before: Batch | None = None


def reconciled(session: Session, reading: Reading, answers: Answers) -> Reply:
    """Two weights of one plant: within what the scales can tell they are one; beyond it something went, and is asked about."""
    field, home = (next(w for w in reading.weighings if w.place == place) for place in ("field", "home"))
    answers.used += [piece(reading.heard, w.start, w.end, "herb") for w in (field, home) if w.end]  # the first may be from before
    session.weighings = (replace(field, start=0, end=0), replace(home, start=0, end=0))
    instruments = Instruments(session.instruments)
    scales = {w.place: _scale(instruments, w) for w in (field, home)}
    errors = {w.place: _error(scales[w.place], w) for w in (field, home)}
    gap, sure = field.grams - home.grams, hypot(*(e.plus_minus for e in errors.values()))
    before = session.batch if session.batch is not None and "herb" in session.batch.facts else None
    lines = [_compared(field, home, gap, sure), "- " + "; ".join(_told(w, errors[w.place]) for w in (field, home))]
    values = [_weight(w, errors[w.place]) for w in (field, home)]
    values.append(Value(quantity="weight_difference", value=abs(gap), unit="g", plus_minus=sure, text=shown("herb", abs(gap))))
    questions: list[Question] = []
    believed: Weighing | None = home
    if abs(gap) <= sure:
        believed, other = (home, field) if errors["home"].plus_minus <= errors["field"].plus_minus else (field, home)
        lines.append(f"The scales alone can be that far apart. Believe the finer one, {shown('herb', believed.grams)} ({_where(believed)}).")
        if scales[other.place] is None and scales[believed.place] is None:
            lines.append("How finely they read you have not told me: “my spring scale reads in 10 g steps”.")
    elif gap > 0:
        share = 100 * gap / field.grams
        lines.append(f"That is more than the scales can be apart: {_span(gap, sure)} went on the way, {number(share, 'percent')} % of it.")
        lines.append(f"Believe {_where(home)}, {shown('herb', home.grams)}: that is what goes into the jar.")
        values.append(Value(quantity="trim_loss", about="if trimmed", value=share, unit="percent", text=f"{number(share, 'percent')} %"))
        asked = "Was it the bag, stalks trimmed off, dew, or did it wilt?"
        questions.append(Question(text=asked, wants=("tare", "trim_loss"), choices=tuple(offer for *_, offer in CAUSES)))
    else:
        believed = None
        lines.append(f"It is heavier at home than the scales can explain, by {_span(-gap, sure)}: rain on it, a bowl under it, or another lot with it.")
        lines.append("Until it is weighed again, the empty bowl first, nothing is changed.")
        questions.append(Question(text="Was there a bowl or bag under it at home?", wants=("tare",), choices=(f"it is {number(field.grams, 'g')} g",)))
    if believed is not None:
        changed = _batch_with(session, believed, scales[believed.place])
        told = _what_it_does(before, changed)
        if told is not None:
            lines.append(told[0])
            values += told[1]
        session.keep(changed, session.current if before is not None else -1)
        session.last = work_out(changed)
        session.last_keys = tuple(k for k in session.last_keys if k in session.last.solution.figures) or _first_keys(session.last)
        session.twice_weighed = TwiceWeighed(field.grams, home.grams, errors["field"].plus_minus, sure, before) if gap > sure else None
    lines += [q.text for q in questions]
    return answers.reply("answered", "\n".join(lines), batch=session.batch, values=tuple(values), questions=tuple(questions))


def settled(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """What went between the two weighings, once it is said: it is put where it belongs. None where the sentence says something else."""
    twice = session.twice_weighed
    session.twice_weighed = None
    batch = session.batch
    if twice is None or batch is None or reading.said or reading.loose or reading.asked or reading.ingredients or reading.named:
        return None
    cause = next((name for name, words, _ in CAUSES if words.search(reading.heard)), "")
    if not cause:
        return None
    gap, sure, kept = twice.field - twice.home, twice.sure, shown("herb", twice.home)
    changed = batch
    if cause == "tare":
        text = f"Then the bag is {shown('tare', gap)} ± {slack_text(sure, 'g')}, and the plant was {kept} all along."
        text += f" Take it off the next time: “{number(twice.field, 'g')} g with the bag, the bag is {number(gap, 'g')} g”."
        value = Value(quantity="tare", value=gap, unit="g", plus_minus=sure, text=shown("tare", gap))
    elif cause == "trimmed":
        loss = 100 * gap / twice.field
        spread = loss * hypot(sure / gap, twice.field_error / twice.field)
        changed = batch.with_facts({"trim_loss": Fact(loss, "measured", session.turn, plus_minus=spread)})
        text = f"Then trimming takes {number(loss, 'percent')} % ± {slack_text(spread, 'percent')}, and what you gather next is reckoned with it."
        text += f" {kept} goes into the jar."
        value = Value(quantity="trim_loss", value=loss, unit="percent", plus_minus=spread, text=f"{number(loss, 'percent')} %", origin="measured")
    elif cause == "dew":
        text = f"Then {shown('herb', gap)} ± {slack_text(sure, 'g')} was water on the leaf, none of the plant's own: {kept} of plant, its own water as it was."
        value = Value(quantity="water_lost", value=gap, unit="g", plus_minus=sure, text=shown("herb", gap))
    else:
        return _wilted(session, reading, answers, twice, batch)
    session.keep(changed, session.current)
    session.last = work_out(changed)
    values = [value, answering.value_of(session.last, "herb")]
    return answers.reply("answered", text, batch=changed, values=tuple(values))


def _wilted(session: Session, reading: Reading, answers: Answers, twice: TwiceWeighed, batch: Batch) -> Reply:
    """What wilted lost water of its own: the dry matter stays, and the water content is worked out again."""
    water = work_out(batch).value("water_content")
    fact = batch.facts["herb"]
    if batch.facts.keys() & {"ratio", "menstruum"} and water is not None:  # which of the two weights the ratio counts is asked, as of any wilted plant
        weighed = {"herb": replace(fact, value=twice.field, tool=""), "wilted": Fact(twice.home, "measured", session.turn)}
        return session.take(reading, answers, onto=batch.with_facts(weighed), index=session.current)
    if water is None:
        question = Question(text="How much water did it hold when it was picked?", wants=("water_content",), choices=("it is 80 % water",))
        held = batch.with_facts({"herb": replace(fact, value=twice.field), "wilted": Fact(twice.home, "measured", session.turn)})
        session.hold(held, ("water_content",), session.current)
        return answers.reply(
            "asking", f"It wilted from {shown('herb', twice.field)} to {shown('herb', twice.home)}. {question.text}", batch=batch, questions=(question,)
        )
    left = 100 * (1 - (1 - water / 100) * twice.field / twice.home)
    changed = batch.with_facts({"water_content": Fact(left, "measured", session.turn), "herb": replace(fact, value=twice.home)})
    changed = changed.having(tags=changed.tags | {"fresh"})
    session.keep(changed, session.current)
    session.last = work_out(changed)
    now, picked = (f"{number(w, 'percent')} %" for w in (left, water))
    text = f"Then it lost {shown('herb', twice.field - twice.home)} of its own water and holds {now} now, where it held {picked} when picked."
    told = _what_it_does(twice.before, changed)
    values = [answering.value_of(session.last, "water_content") if "water_content" in session.last.solution.figures else
              Value(quantity="water_content", value=left, unit="percent", origin="measured", text=f"{number(left, 'percent')} %")]  # fmt: skip
    values.append(Value(quantity="water_lost", value=twice.field - twice.home, unit="g", text=shown("herb", twice.field - twice.home)))
    if told is not None:
        text += "\n" + told[0]
        values += told[1]
    return answers.reply("answered", text, batch=changed, values=tuple(values))


# ── the pieces ───────────────────────────────────────────────────────────────────────────────────────────────────────────


def _scale(instruments: Instruments, weighing: Weighing) -> Instrument | None:
    """The scale of a weighing: the one named, else the one that fits the place."""
    if weighing.tool:
        return instruments.named(weighing.tool)
    fitting = [i for i in instruments if i.kind == "scale" and is_of_the_field(i.name) == (weighing.place == "field")]
    return fitting[-1] if fitting else None


def _error(instrument: Instrument | None, weighing: Weighing) -> Error:
    error = None if instrument is None else instrument.error(weighing.grams)
    if error is not None:
        return error
    text = f"{weighing.grams:.6g}"
    half = 0.5 * 10.0 ** -len(text.split(".")[1]) if "." in text else 0.5
    return Error(half, "at best, by its last digit")


def _where(weighing: Weighing) -> str:
    if weighing.tool:
        return f"the {weighing.tool}"
    return "the weight in the field" if weighing.place == "field" else "the weight at home"


def _told(weighing: Weighing, error: Error) -> str:
    return f"{_where(weighing)}: ± {slack_text(error.plus_minus, 'g')} g ({error.why})"


def _compared(field: Weighing, home: Weighing, gap: float, sure: float) -> str:
    apart = f"{shown('herb', abs(gap))} {'less' if gap >= 0 else 'more'}, ± {slack_text(sure, 'g')}"
    return f"{shown('herb', field.grams)} in the field, {shown('herb', home.grams)} at home: {apart}."


def _span(gap: float, sure: float) -> str:
    return f"{slack_text(gap - sure, 'g')} to {slack_text(gap + sure, 'g')} g"


def _weight(weighing: Weighing, error: Error) -> Value:
    return Value(
        quantity="herb", about=weighing.place, value=weighing.grams, unit="g", origin="said", plus_minus=error.plus_minus, text=shown("herb", weighing.grams)
    )


def _batch_with(session: Session, believed: Weighing, instrument: Instrument | None) -> Batch:
    batch = session.batch or Batch()
    old = batch.facts.get("herb", Fact(believed.grams))
    fact = replace(
        old,
        value=believed.grams,
        origin="said",
        turn=session.turn,
        tool=instrument.name if instrument is not None else "",
        plus_minus=None,
        low=None,
        high=None,
    )
    return batch.with_facts({"herb": fact})


def _what_it_does(before: Batch | None, changed: Batch) -> tuple[str, list[Value]] | None:
    """What the other weight does to what is poured and to what comes of it; and what was poured already, as the ratio it makes."""
    if before is None:
        return None
    old, new = work_out(before), work_out(changed)
    parts: list[str] = []
    values: list[Value] = []
    for key in BATCH_KEYS:
        a, b = old.solution.figures.get(key), new.solution.figures.get(key)
        if a is None or b is None or b.origin != "found" or shown(key, a.value) == shown(key, b.value):
            continue
        parts.append(f"{caption(key)} {shown(key, b.value)} in place of {shown(key, a.value)}")
        values += [answering.value_of(new, key), _old(old, key)]
    poured, herb, ratio = old.value("menstruum"), new.value("herb"), old.value("ratio")
    if not parts:
        return None
    text = "For the batch: " + ", ".join(parts) + "."
    if poured is not None and herb and ratio is not None and "menstruum" not in before.facts:
        text += f" Where the {shown('menstruum', poured)} is poured already, it is 1:{number(poured / herb, '1')} and not {shown('ratio', ratio)}."
        values.append(
            Value(quantity="ratio", about="if poured already", batch=changed.title, value=poured / herb, unit="1", text=f"1:{number(poured / herb, '1')}")
        )
    return text, values


def _old(worked: Worked, key: str) -> Value:
    figure = worked.solution.figures[key]
    return Value(
        quantity=base(key), about="before", batch=worked.batch.title, value=figure.value, unit=VOCABULARY[base(key)].unit, text=shown(key, figure.value)
    )


def _first_keys(worked: Worked) -> tuple[str, ...]:
    return tuple(answering.leading(answering.told(worked)))
