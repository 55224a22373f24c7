"""Whether a proof is the percent that somebody makes of it: "is it so that 120 proof is twenty four per cent?"."""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING

from assistant.listening.statements import Loose, Reading, Said
from assistant.patterns import looked_for
from assistant.quantities.showing import shown
from assistant.reply import Reply, Value
from assistant.session.checking import is_questioned
from assistant.session.placing import PROOFS
from assistant.session.repeating import refer

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

IS = looked_for(
    r"^\W*(?:(?:really|about|only|just|the same as|equal to|in)\W+)*(?:is|are|=|equals|makes?|be|comes? to|means|at)\W+(?:(?:only|just|about|really)\W+)*$",
    re.IGNORECASE,
)
IS_IT = looked_for(r"^\W*(?:(?:so|and|but|then)\W+)*(?:is|isn['’]?t)\b", re.IGNORECASE)
CLOSE = 0.01  # of the percent: as near as anybody says it


def proof_checked(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """The verdict; None for any other sentence."""
    del session
    if len(reading.figures) != 2 or not (is_questioned(reading) or reading.has("is_it") or "?" in reading.heard):
        return None
    proof, claimed = reading.figures
    between = reading.heard[proof.end : claimed.start] if proof.end <= claimed.start else ""
    turned = not between.strip() and IS_IT.match(reading.heard) is not None  # "is 80 proof 40 percent?"
    if not isinstance(proof, Said) or proof.said_unit not in PROOFS or not (turned or IS.match(between)):
        return None
    percent = claimed.kind == "%" if isinstance(claimed, Loose) else claimed.said_unit in ("%", "percent", "per cent")
    if not percent:
        return None
    refer(answers, reading, *((start, end) for start, end, _ in reading.numbers))  # "someone divided by five" too
    name, told = reading.heard[proof.start : proof.end], shown("strength", proof.value)
    value = Value(quantity="strength", value=proof.value, unit="percent", origin="found", text=told)
    working = f"{proof.value / PROOFS[proof.said_unit]:g} × {PROOFS[proof.said_unit]:g} = {told}"
    if math.isclose(proof.value, claimed.value, rel_tol=CLOSE):
        return answers.reply("answered", f"Yes: {name} is {told}.\n{working}", values=(value,))
    return answers.reply("answered", f"No: {name} is {told}, not {shown('strength', claimed.value)}.\n{working}", values=(value,))
