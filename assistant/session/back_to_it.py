"""A figure that was let go and is taken again: "and back to the 96", "no, the 60 again", "put the 1:4 back". What was changed with it goes back as well."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.listening.statements import Loose, Reading, Said
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import VOCABULARY, about, base
from assistant.session.batch import Batch
from assistant.session.work import take_as

if TYPE_CHECKING:
    from assistant.session.conversation import Session

BACK = looked_for(
    r"\b(?:back (?:to|at|with|on)|return(?:ing)? to|revert to|stick (?:with|to)|stay (?:with|at)|keep (?:to|with)|leave it (?:at|with)|after all)"
    r"(?:\s+(?:the|my|a|an|about|at|in|with|using|old|first|original))*\s*$",
    re.IGNORECASE,
)
AGAIN = looked_for(
    r"^\s*(?:g|grams?|m[lL]s?|%|percent|spirit|vodka|litres?|one|then)?\s*(?:again|back(?: in)?|after all|as (?:it was|before)|like before)\W*$", re.IGNORECASE
)
NEAR = 1e-6  # of the figure


def back_to_it(session: Session, reading: Reading) -> None:
    """Give the one figure that is gone back to the place it had. Changes the reading; does nothing where it never stood in the plan in hand."""
    batch = session.batch
    if batch is None or session.draft is not None or reading.ingredients or reading.liquids or reading.named or len(reading.figures) != 1:
        return
    figure = reading.figures[0]
    if not (BACK.search(reading.heard[: figure.start]) or AGAIN.match(reading.heard[figure.end :])):
        return
    for mark in reversed(session.journal.before):
        before = mark.in_hand
        if before is None or mark.current != session.current or mark.draft is not None:
            continue
        key = _the_one(figure, before, batch)
        if key:
            take_as(reading, figure, base(key))
            _with_it(reading, key, before, batch)
            return


def _the_one(figure: Said | Loose, before: Batch, now: Batch) -> str:
    """The fact that stood at this figure before and does not now, "" where there is none; what the words name first."""
    held = [
        k
        for k, f in before.facts.items()
        if not about(k) and abs(f.value - figure.value) <= NEAR * max(abs(f.value), 1) and k in now.facts and now.facts[k].value != f.value
    ]
    unit = VOCABULARY[figure.quantity].unit if isinstance(figure, Said) and figure.said_unit else ""
    held = [k for k in held if not unit or VOCABULARY[base(k)].unit == unit]
    named = [k for k in held if isinstance(figure, Said) and base(k) == figure.quantity]
    return max(named or held, key=lambda k: now.facts[k].turn, default="")


def _with_it(reading: Reading, key: str, before: Batch, now: Batch) -> None:
    """What was changed in the same breath goes back with it."""
    turn = now.facts[key].turn
    for other, fact in now.facts.items():
        if other == key or about(other) or fact.turn != turn or any(s.quantity == base(other) for s in reading.said):
            continue
        if other in before.facts:
            reading.said.append(Said(base(other), before.facts[other].value, 0, 0, said_unit=before.facts[other].said_unit))
        else:
            reading.freed.add(base(other))
