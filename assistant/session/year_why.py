"""Why a figure of a way out is what it is: where a batch finishes, what spirit it gets, what dries."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.listening.statements import Reading
from assistant.reply import Reply, Step, Value
from assistant.session.explaining import worked_through
from assistant.session.figuring import Worked, work_out
from assistant.session.repeating import refer
from assistant.session.wording import shown
from assistant.session.year_ways import IN_ORDER, LEAST_LEFT, WEAKER, Jar, finishes, shares_of, weakened

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

SLACK = 0.051  # a finish is pointed at by its tenths
HALF = 0.51  # mL: spirit by whole millilitres


def why(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """ "Where does the 41.9 come from?" after the ways out: worked through; None where the number is none of theirs."""
    batch = session.batch
    numbers = [f.value for f in reading.loose] + [s.value for s in reading.said] + [f for a in reading.acts for f in a.figures]
    numbers += [r.value for r in reading.references if r.value is not None]
    if batch is None or "sharing" not in batch.frames or not numbers:
        return None
    worked = work_out(batch)
    if any(abs(f.value - numbers[0]) <= HALF for f in worked.solution.figures.values()):
        return None  # it is in the sums of the whole
    for way, jar, spirit, made in finishes(session, worked):
        found = _of(jar, spirit, made, numbers[0])
        if found is not None:
            refer(answers, reading)
            reply = worked_through(found, ["finished_strength"], answers)
            return reply.model_copy(update={"text": f"{jar.name.capitalize()}, {way}:\n{reply.text}"})
    return _by_spirit(session, reading, worked, numbers[0], answers)


def _of(jar: Jar, spirit: float, made: float, number: float) -> Worked | None:
    mixed = weakened(jar, spirit, made) if jar.plan is not None else None
    finish = mixed.value("finished_strength") if mixed is not None else None
    return mixed if finish is not None and abs(finish - number) <= SLACK else None


SAYS = {
    IN_ORDER: "Each in its turn gets what it wants, as long as there is any: this is what the others leave.",
    LEAST_LEFT: "So much that the least plant is left over within what was said, found by linear programming; with the others it makes what there is.",
}


def _by_spirit(session: Session, reading: Reading, worked: Worked, number: float, answers: Answers) -> Reply | None:
    there = worked.value("spirit_there") or 0.0
    for way, shares in shares_of(session, worked).items():
        for share in shares:
            if way == WEAKER or abs(share.spirit - number) > HALF:
                continue
            refer(answers, reading)
            others = [s for s in shares if s is not share and s.spirit > 0]
            parts = " − ".join([shown("spirit_there", there), *(shown("spirit_given", s.spirit) for s in others)])
            step = Step(quantity="spirit_given", about=share.name, batch=way, value=share.spirit, unit="mL", relation="sharing", says=SAYS[way],
                        working=f"{parts} = {shown('spirit_given', share.spirit)}")  # fmt: skip
            values = (Value(quantity="spirit_given", about=share.name, batch=way, value=share.spirit, unit="mL", text=shown("spirit_given", share.spirit)),)
            text = f"{share.name.capitalize()}, {way}: {shown('spirit_given', share.spirit)}.\n1. {step.says}\n   {step.working}"
            return answers.reply("answered", text, batch=worked.batch, values=values, steps=(step,))
    return None
