"""Talk of instruments and of what a figure is worth: which sentence it is, and who answers it."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.dataclass import replace
from assistant.listening.measured_on import is_of_the_field
from assistant.listening.statements import Act, Reading, Weighing
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import VOCABULARY, about, base
from assistant.reply import Question, Reply, Value
from assistant.session import answering
from assistant.session.batch import Batch
from assistant.session.figuring import work_out
from assistant.session.instruments import READ_OFF, SIGN, Instrument, Instruments, taken_up
from assistant.session.used import piece, references
from assistant.session.wording import number, phrase_for, slack_text

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session


#: "how far off was I", "how sure are you of that": asked of a guess or of a caution
OTHER_QUESTIONS = ("gap", "check", "claim", "caution_why", "caution_why_that")


def handle(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """A reply where the sentence is about instruments or about how exact a figure is; None elsewhere. Instruments described beside other talk are kept."""
    if reading.tools_gone and not _says_more(reading):
        return gone(session, reading, answers)
    if reading.tools:
        told = keep(session, reading, answers)
        if _is_poured(session.batch) and any(t.kind == "glass" and t.step for t in reading.tools):
            reading.acts.append(Act("round", (), reading.tools[0].start, reading.tools[0].end))  # "my cylinder only reads in 2 mL", of a formula in hand
            return None
        if not _says_more(reading) and not _goes_on(session, reading):
            return told
        answers.kept_beside = f"Kept: {', '.join(t.name for t in reading.tools)}."
    if reading.has("tools_known") and not _says_more(reading) and not reading.tools:
        return known(session, answers)
    if reading.has("which_weight") and session.weighings and not _says_more(reading):
        reading.weighings = session.weighings
    if reading.weighed_again is not None and not reading.weighings:
        earlier = _weighed_outside(session)
        if earlier is not None:
            reading.weighings = (earlier, reading.weighed_again)
    if reading.weighings:
        from assistant.session import two_weights

        answers.used += references(reading)
        return two_weights.reconciled(session, reading, answers)
    if session.twice_weighed is not None:
        from assistant.session import two_weights

        settled = two_weights.settled(session, reading, answers)
        if settled is not None:
            return settled
    if reading.glass is None and reading.glass_again is not None and any(i.kind == "glass" for i in session.instruments):
        reading.glass = reading.glass_again
        answers.used += [piece(reading.heard, s.start, s.end, "reference") for s in reading.figures]
    if reading.glass is not None:
        from assistant.session import glass

        return glass.which(session, reading, answers)
    if reading.slack_alone is not None and session.batch is not None:
        of = _figure_of(reading, session.batch)
        if of is not None:
            changed = replace(session.batch.facts[of], plus_minus=reading.slack_alone.plus_minus, low=None, high=None, tool="")
            return session.take(reading, answers, onto=session.batch.with_facts({of: changed}), index=session.current)
    if reading.within is not None:
        from assistant.session import within

        return within.reached_by(session, reading, answers)
    if reading.read_on and not _says_more(reading):
        return read_on(session, reading, answers)
    if (reading.has("exactness") or reading.has("matters")) and not any(reading.has(act) for act in OTHER_QUESTIONS):
        from assistant.session import exactness

        asked = exactness.ranked if reading.has("matters") else exactness.told
        if not _says_more(reading):
            return asked(session, reading, answers)
        first = session.take(reading, answers)
        if first.status != "answered":
            return first
        answers.kept_beside = ""
        then = asked(session, reading, answers)
        return first.model_copy(update={"text": f"{first.text}\n{then.text}", "values": (*first.values, *then.values)})
    return None


def _weighed_outside(session: Session) -> Weighing | None:
    """The weight of the batch in hand, where it was read on a scale that is carried out."""
    fact = session.batch.facts.get("herb") if session.batch is not None else None
    if fact is None or not is_of_the_field(fact.tool):
        return None
    return Weighing(fact.value, "field", fact.tool, 0, 0)


#: the words for a figure whose ± is told by itself
CALLED = {
    "herb": "weight plant herb scale weighed", "water_content": "water moisture", "menstruum": "pour poured menstruum volume liquid", "strength": "strength",
    "stock_strength": "stock bottle label", "held_per_gram": "marc press", "drops_per_ml": "drops dropper",
}  # fmt: skip


def _figure_of(reading: Reading, batch: Batch) -> str | None:
    """The figure of a batch that a ± said by itself is of: the one it names, else the last said in its unit."""
    slack = reading.slack_alone
    assert slack is not None
    fitting = [k for k in batch.facts if not slack.unit or VOCABULARY[base(k)].unit == slack.unit or (slack.unit == "drop" and k == "drops_per_ml")]
    words = set(reading.heard.lower().replace(",", " ").replace("?", " ").split())
    named = [k for k in fitting if words & set(CALLED.get(base(k), "").split()) or about(k) in words]
    measured = [k for k in fitting if any(base(k) in quantities for quantities in READ_OFF.values())] or fitting
    chosen = named or measured
    return chosen[-1] if chosen else None


def _says_more(reading: Reading) -> bool:
    """Whether a sentence bears figures of a batch, apart from the drops of a dropper."""
    said = [s for s in reading.said if s.quantity != "drops_per_ml" or not any(t.kind == "dropper" for t in reading.tools)]
    return bool(said or reading.weighings or reading.loose or reading.ingredients or reading.liquids or reading.named)


def _is_poured(batch: Batch | None) -> bool:
    """Whether a batch is a formula of liquids, which a new glass is to be read off for."""
    return batch is not None and bool({"formula", "mix"} & batch.frames) and len(batch.members) > 1


def _goes_on(session: Session, reading: Reading) -> bool:
    """Whether the batch in hand is counted in drops, so that a dropper changes its figures, or something was asked beside."""
    if not any(t.kind == "dropper" for t in reading.tools):
        return bool(reading.asked and session.batch is not None and not reading.tools_gone and session.batch.facts)
    return session.batch is not None and bool({"dose", "essential"} & session.batch.frames or session.wants)


# ── told, listed, gone ───────────────────────────────────────────────────────────────────────────────────────────────────


def keep(session: Session, reading: Reading, answers: Answers) -> Reply:
    """The instruments of a sentence are kept; the reply says how far each may be out."""
    session.instruments = Instruments(session.instruments).with_(reading.tools)
    taken_up(session.instruments)
    told = [found for tool in reading.tools if (found := session.instruments.named(tool.name)) is not None]
    answers.used += references(reading)
    answers.used += [piece(reading.heard, s.start, s.end, s.quantity) for s in reading.said if s.quantity == "drops_per_ml"]
    lines = [f"Noted: {in_words(one)}." for one in told]
    questions = [Question(text=f"How far apart are the marks of the {one.name}?", choices=(f"the {one.name.split(' mL ')[-1]} is marked every 10 {one.unit}",))
                 for one in told if one.error(one.capacity or 0.0) is None]  # fmt: skip
    lines += [q.text for q in questions]
    values = [value for one in told for value in values_of(one)]
    moved = _with_it(session)
    if moved:
        lines.append(moved[0])
        values += moved[1]
    return answers.noted("\n".join(lines), values=values, questions=questions)


def _with_it(session: Session) -> tuple[str, list[Value]] | None:
    """What an instrument told only now makes of the figures last given."""
    if session.last is None or session.batch is None or session.draft is not None:
        return None
    worked = work_out(session.last.batch)
    keys = [k for k in session.last_keys if k in worked.solution.figures and answering.how_sure(worked, k)]
    if not keys:
        return None
    session.last = worked
    figures = worked.solution.figures
    parts = [phrase_for(k, figures[k].value, answering.how_sure(worked, k)) for k in keys]
    return f"With it: {', '.join(parts)}.", [answering.value_of(worked, k) for k in keys]


def known(session: Session, answers: Answers) -> Reply:
    """The instruments that were told."""
    if not session.instruments:
        question = Question(text="What do you weigh and measure with?", choices=("my kitchen scale reads in 1 g steps", "my cylinder is 100 mL, class B"))
        return answers.noted(f"You have told me of none. {question.text}", questions=[question])
    lines = ["Your instruments:", *(f"- {in_words(one)}" for one in session.instruments)]
    return answers.noted("\n".join(lines), values=[value for one in session.instruments for value in values_of(one)])


def gone(session: Session, reading: Reading, answers: Answers) -> Reply:
    """Instruments a person no longer has."""
    answers.used += references(reading)
    instruments = Instruments(session.instruments)
    there = [found.name for name in reading.tools_gone if (found := instruments.named(name)) is not None]
    if not there:
        listed = ", ".join(i.name for i in instruments) or "none"
        question = Question(
            text=f"Which one is it? I know of {listed}.", choices=tuple(f"forget the {i.name}" for i in instruments) or ("what instruments do I have",)
        )
        return answers.reply("asking", f"I know of no {reading.tools_gone[0]}. {question.text}", questions=(question,))
    session.instruments = instruments.without(reading.tools_gone)
    taken_up(session.instruments)
    return answers.noted(f"Gone: {', '.join(there)}.")


ASKS_READING = looked_for(
    r"\b(?:what(?:'?s| is| will| does| should)?|how (?:much|heavy))\b[^.;]*\bon (?:the|my|a) "
    r"|\b(?:in|as) (?:g|grams?|grammes?|ml|mls|millilit\w+|kilos?|oz|ounces)\b|\b(?:grams|grammes|ml|mls)\s*\?"
    r"|\b(?:how many|hw many|how much in) (?:g|grams?|grammes?|kilos?|oz|ounces)\b|\bhow heavy\b|\bwhat\b[^.;]*\bweighs?\b",
    re.IGNORECASE,
)


def read_on(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """ "That was on the spring scale": the figures of its kind that were said last were read on it, and are answered for again."""
    batch = session.batch
    where = reading.read_on[0]
    if ASKS_READING.search(reading.heard):
        return None  # "what's that on the scale?": the weight is asked for
    instrument = Instruments(session.instruments).named(where.name)
    if batch is None or not batch.facts:
        return None
    kind = instrument.kind if instrument is not None else "scale"
    latest = max((f.turn for k, f in batch.facts.items() if base(k) in READ_OFF[kind]), default=None)
    keys = [k for k, f in batch.facts.items() if base(k) in READ_OFF[kind] and f.turn == latest]
    if not keys:
        return None
    if instrument is None:
        question = Question(text=f"How finely does the {where.name} read?", choices=(f"the {where.name} reads in 10 g steps",))
        return answers.reply("asking", f"I do not know the {where.name} yet. {question.text}", batch=batch, questions=(question,))
    changed = {k: replace(batch.facts[k], tool=instrument.name, plus_minus=None if batch.facts[k].low is None else batch.facts[k].plus_minus) for k in keys}
    return session.take(reading, answers, onto=batch.with_facts(changed), index=session.current)


# ── in words and values ──────────────────────────────────────────────────────────────────────────────────────────────────


def in_words(one: Instrument) -> str:
    """An instrument as it is told: "spring scale, to 1000 g in 10 g steps: ± 5 g (half a 10 g step)"."""
    sign = SIGN[one.unit]
    if one.kind == "dropper":
        with_ = f" of {number(one.strength, 'percent')} %" if one.strength else ""
        error = one.error(one.per_ml or 0.0)
        return f"{one.name}, {number(one.per_ml or 0.0, 'drop')} drops a mL{with_}" + (
            f": ± {slack_text(error.plus_minus, 'drop')} drops ({error.why})" if error else ""
        )
    parts = [one.name]
    if one.capacity and not one.name.startswith(f"{one.capacity:g} mL"):
        parts.append(f"to {number(one.capacity, one.unit)} {sign}")
    if one.step:
        parts.append(f"in {one.step:g} {sign} steps")
    text = " ".join([parts[0] + ("," if len(parts) > 1 else ""), *parts[1:]])
    if one.accuracy:
        text += f", class {one.accuracy}"
    error = one.error(one.capacity or 0.0) if one.kind != "scale" else one.error(min(one.capacity or 0.0, 100 * (one.step or 1.0)) or 1.0)
    if error is None:
        return text
    return f"{text}: ± {slack_text(error.plus_minus, one.unit)} {sign} ({error.why})"


def values_of(one: Instrument) -> list[Value]:
    """The figures of an instrument as a reply carries them; `reads_to` is its ±."""
    values = []
    sign = SIGN[one.unit]
    for quantity, figure in (("capacity", one.capacity), ("step", one.step), ("drops_per_ml", one.per_ml), ("counted_with", one.strength)):
        if figure is not None:
            unit = "percent" if quantity == "counted_with" else "1" if quantity == "drops_per_ml" else one.unit
            text = f"{figure:g} {'%' if unit == 'percent' else sign}"
            values.append(Value(quantity=quantity, about=one.name, value=figure, unit=unit, origin="said", text=text))
    reading = one.per_ml or one.capacity or 0.0
    error = one.error(reading) if one.kind != "scale" else one.error(min(one.capacity or 0.0, 100 * (one.step or 1.0)) or 1.0)
    if error is not None:
        unit = "1" if one.kind == "dropper" else one.unit
        values.append(Value(quantity="reads_to", about=one.name, value=error.plus_minus, unit=unit, text=f"± {slack_text(error.plus_minus, one.unit)} {sign}"))
    return values
