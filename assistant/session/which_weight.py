"""Which weight of a wilted plant a sentence goes by: "1:2 going by the 900", "and by the weight before", also when the other was taken first."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.listening.statements import Act, Loose, Reading, Reference, forget
from assistant.patterns import looked_for
from assistant.session.batch import Batch

if TYPE_CHECKING:
    from assistant.session.conversation import Session

LED_BY = looked_for(r"\b(?:by|on|of|count|counting|use|using|take|taking|from|off|with|went by|for)\s+(?:the|that|my|its|those)?\s*$", re.IGNORECASE)
POINTED = looked_for(r"\b(?:the|that|my|its|those)\s*$", re.IGNORECASE)
LED_STRONGLY = looked_for(r"\b(?:by|count|counting|go(?:ing)? on|reckoned on|based on)\s+(?:the|that|my|its|those)?\s*$", re.IGNORECASE)
BEFORE = looked_for(
    r"\b(?:weight (?:before|as picked|when picked|when fresh)|fresh weight|picked weight|as picked|before (?:it |they )?wilt\w*|first weight|weight it was)\b",
    re.IGNORECASE,
)
AFTER = looked_for(r"\b(?:weight (?:after|now|as wilted)|wilted weight|after (?:it |they )?wilt\w*|as wilted|second weight)\b", re.IGNORECASE)
WEIGHTS = {"herb": "count_before", "wilted": "count_after"}
NEAR = 1e-6


def which_weight(session: Session, reading: Reading) -> None:
    """Read a weight pointed at as the one the ratio counts. Changes the reading."""
    if reading.ingredients or reading.liquids or any(a.name in WEIGHTS.values() for a in reading.acts):
        return
    told = {q: next((s for s in reading.said if s.quantity == q), None) for q in WEIGHTS}
    batch = before_it_was_settled(session)
    if all(told.values()):  # both in this sentence, and one of them again
        weights = {q: s.value for q, s in told.items() if s is not None}
    elif batch is not None:
        weights, told = {q: batch.facts[q].value for q in WEIGHTS}, {}
    else:
        return
    others = [f for f in reading.figures if not any(f is s for s in told.values())]
    bare = [f for f in others if (f.kind in ("#", "g") if isinstance(f, Loose) else f.quantity in WEIGHTS)]
    for figure in (*bare, *reading.references):
        led, value = reading.heard[: figure.start], figure.value or 0.0
        meant = next((q for q in WEIGHTS if abs(weights[q] - value) < NEAR * weights[q]), "")
        if not meant or not (LED_STRONGLY.search(led) or (LED_BY.search(led) and POINTED.search(led))):
            continue
        if not isinstance(figure, Reference):
            forget(figure, reading.said, reading.loose)
            reading.references.append(Reference("reference", figure.start, figure.end, value))
        reading.acts.append(Act(WEIGHTS[meant], (), figure.start, figure.end))
        return
    if bare:
        return
    before, after = BEFORE.search(reading.heard), AFTER.search(reading.heard)
    if (before is None) != (after is None):
        hit = before or after
        assert hit is not None
        reading.acts.append(Act("count_before" if before else "count_after", (), hit.start(), hit.end()))


def before_it_was_settled(session: Session) -> Batch | None:
    """The plan in hand, or as it was before one weight gave way, with both weights of the wilted plant; None where there were never two."""
    held = session.draft if session.draft is not None else session.batch
    if held is None:
        return None
    if WEIGHTS.keys() <= held.facts.keys():
        return held
    for mark in reversed(session.journal.before):
        if mark.current != session.current and mark.draft is None:
            break
        then = mark.in_hand
        if then is not None and WEIGHTS.keys() <= then.facts.keys():
            return then if _settled(held, then) else None
    both = session.both_weights
    return both if both is not None and _settled(held, both) else None


def _settled(held: Batch, then: Batch) -> bool:
    """Whether the plan in hand is the one of then, with one of its two weights taken."""
    return then.name == held.name and "herb" in held.facts and any(abs(held.facts["herb"].value - then.facts[q].value) < NEAR for q in WEIGHTS)
