"""A question about a figure that has given way since: "as a ratio, with the 700?" after what the most would be goes back to the 700."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.listening.statements import Reading, Reference
from assistant.patterns import looked_for
from assistant.session.batch import Batch

if TYPE_CHECKING:
    from assistant.session.conversation import Session

POINTED = looked_for(r"\b(?:the|that|my|our|those)\s*$", re.IGNORECASE)
LEFT_OUT = looked_for(r"\b(?:without|drop|minus|no|not|except|less|skip|lose|leave out|take out|instead of)\s+(?:the|that|my|our|those)\s*$", re.IGNORECASE)
NEAR = 1e-6  # of the figure: the same as said before
BARE = frozenset({"#", "mL", "g"})


def as_it_was(session: Session, reading: Reading, target: Batch) -> Batch:
    """The last moment of the plan in hand at which the one figure a question points at still stood; `target` where it points at none.

    Changes the reading: a figure that only points changes nothing.
    """
    if not reading.asked or reading.said or len(reading.loose) != 1 or session.draft is not None or target is not session.batch:
        return target
    figure = reading.loose[0]
    led = reading.heard[: figure.start]
    if figure.kind not in BARE or not POINTED.search(led) or LEFT_OUT.search(led):
        return target
    found = () if session.last is None else [f.value for f in session.last.solution.figures.values()]
    pointing = Reference("reference", figure.start, figure.end, figure.value)
    if any(_same(f.value, figure.value) for f in target.facts.values()):
        reading.loose.clear()  # it stands still
        reading.references.append(pointing)
        return target
    if any(_same(value, figure.value) for value in found):
        return target
    for mark in reversed(session.journal.before):
        before = mark.in_hand
        if before is None or mark.current != session.current or before.members != target.members:
            continue
        if any(_same(f.value, figure.value) for f in before.facts.values()):
            reading.loose.clear()
            reading.references.append(pointing)
            return before
    return target


def _same(one: float, other: float) -> bool:
    return abs(one - other) <= NEAR * max(abs(one), abs(other), 1.0)
