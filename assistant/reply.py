"""What is answered: the reply, as a person reads it and as a program reads it.

Holds the records of a reply and the invariants between them; knows no trade, no grammar and no screen.
Every `value`, `low`, `high` and `plus_minus` is in the bench unit named beside it (BENCH_UNITS): strengths, acidity, °Bx, yield
and water content are percent numbers, 60.0 and not 0.6; the R of a ratio, money, bottles, jars and plants have the unit "1".
The unit a person asked for appears in `text` alone.

All records are frozen (assistant/record.py) and hold tuples, so that a batch may keep its reply without fear. Lists are accepted and become tuples.
"""

import math
import re
from collections.abc import Iterator
from typing import Literal

from assistant.record import Record

BENCH_UNITS = ("g", "mL", "g/mL", "mL/g", "percent", "drop", "day", "1", "degC")
LONGEST_PIECE = 40  # characters of a sentence that one `used` piece may claim

Status = Literal["answered", "noted", "asking", "conflict", "refused", "not_understood"]
Origin = Literal["said", "measured", "assumed", "found"]
Level = Literal["stop", "warn", "note"]

Number = float  # finite: nan and inf are refused


class Value(Record):
    """One figure. Where it is not one number, `value` is null and low/high, date or verdict hold it.

    about   the ingredient as said, lower case, without "tincture"; "" when the figure is of the whole batch
    batch   short name of the plan it belongs to, which tells two compared plans apart
    """

    quantity: str
    about: str = ""
    batch: str = ""
    value: Number | None = None
    unit: str = "1"
    origin: Origin = "found"
    plus_minus: Number | None = None
    text: str = ""
    low: Number | None = None
    high: Number | None = None
    date: str | None = None  # ISO, 2031-05-14
    verdict: bool | None = None


class Step(Record):
    """One step of a derivation: the relation used, its sentence, and the arithmetic as text ("112 g × 2 = 224 mL")."""

    quantity: str
    about: str = ""
    batch: str = ""
    value: Number | None = None
    unit: str = "1"
    relation: str = ""
    says: str = ""
    working: str = ""


class Assumption(Record):
    """What was taken for granted, and the phrase that changes it. `value` is null for a convention that is no number."""

    text: str
    quantity: str = ""
    value: Number | None = None
    unit: str = "1"
    change_by: str = ""


class Question(Record):
    """What is asked back: the quantities that would settle it, and the answers offered, each of which can be said as it stands."""

    text: str
    wants: tuple[str, ...] = ()
    choices: tuple[str, ...] = ()


class Caution(Record):
    id: str
    level: Level
    theme: str = ""
    text: str
    why: str = ""
    source: str = ""


class Used(Record):
    """A piece of the sentence and what it became: heard[start:end] == text, LONGEST_PIECE characters at most.

    quantity   a name of the vocabulary, or "reference" ("the 224"), "label" (lot 24-07) or "time" (ten minutes ago)
    """

    text: str
    start: int
    end: int
    quantity: str


class Reply(Record):
    """One answer to one sentence.

    turn    number of the sentence in this conversation, from 1
    heard   the sentence as given
    status  answered (figures or an explanation), noted (facts kept, nothing to tell yet), asking, conflict,
            refused (a stop is a refusal with a question), not_understood
    text    the whole reply as printed, lines not yet wrapped; its first line is the answer; every figure in it stands in values or steps
    unused  words heard and not used: never a number, a unit, a negation or an unknown verb
    """

    turn: int = 0
    heard: str = ""
    status: Status
    batch: str = ""
    values: tuple[Value, ...] = ()
    steps: tuple[Step, ...] = ()
    assumptions: tuple[Assumption, ...] = ()
    questions: tuple[Question, ...] = ()
    cautions: tuple[Caution, ...] = ()
    used: tuple[Used, ...] = ()
    unused: tuple[str, ...] = ()
    text: str = ""

    @property
    def is_good(self) -> bool:
        """True where the exit code is 0."""
        return self.status in ("answered", "noted")


def breaches(reply: Reply) -> Iterator[str]:
    """Where a reply breaks the contract that no type can hold, a sentence each; nothing for a sound reply.

    1. a used piece is exactly what stands in the sentence at its place, and no longer than LONGEST_PIECE
    2. units are bench units
    3. a reply that gives no figure (asking, conflict, refused, not_understood) has no value of origin found
    4. conflict, asking and refused end in a question
    5. a value holds something: a number, a range, a date or a verdict
    6. no word left unused is a number
    7. a reply says something
    """
    for piece in reply.used:
        if reply.heard[piece.start : piece.end] != piece.text:
            yield f"used piece {piece.text!r} does not stand at {piece.start}–{piece.end}"
        if len(piece.text) > LONGEST_PIECE:
            yield f"used piece {piece.text!r} is longer than {LONGEST_PIECE} characters"
    measured = [(x.quantity, x.unit) for group in (reply.values, reply.steps, reply.assumptions) for x in group]
    for quantity, unit in measured:
        if unit not in BENCH_UNITS:
            yield f"{quantity} is in {unit!r}, which is no bench unit"
    for figure in reply.values:
        if not reply.is_good and figure.origin == "found":
            yield f"{reply.status}, yet {figure.quantity} was found"
        if all(x is None for x in (figure.value, figure.low, figure.high, figure.date, figure.verdict)):
            yield f"{figure.quantity} holds nothing"
        if any(x is not None and not math.isfinite(x) for x in (figure.value, figure.low, figure.high, figure.plus_minus)):
            yield f"{figure.quantity} is no finite number"
    if reply.status in ("conflict", "asking", "refused") and not reply.questions:
        yield f"{reply.status} without a question"
    for word in reply.unused:
        if re.search(r"\d", word):
            yield f"the number {word!r} was left unused"
    if not reply.text.strip():
        yield "nothing is said"
