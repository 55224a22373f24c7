"""A figure pointed at by its number and given another: "not 112, 121", "the 60 should be 50"; numbers as they were said."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.listening.statements import Loose, Reading, Reference, Said, forget
from assistant.patterns import looked_for
from assistant.quantities.units import units
from assistant.quantities.vocabulary import VOCABULARY, about, base
from assistant.session.batch import Fact

if TYPE_CHECKING:
    from assistant.session.conversation import Session

def size_said(unit: str, measures: str) -> float:
    """Bench units in one of the unit a figure was said in; one where it has none of its own."""
    known = units().spellings.get(unit.lower()) if unit else None
    return known.size(measures) if known is not None else 1.0


PROOF_SIZES = {"US proof": 0.5, "UK proof": 0.5715}


def said_number(fact: Fact, measures: str) -> float:
    """A fact's number as it was said: 4 for 4 oz, 80 for 80 proof."""
    return fact.value / PROOF_SIZES.get(fact.said_unit, size_said(fact.said_unit, measures))


def same_number(fact: Fact, number: float, measures: str) -> bool:
    """Whether a fact is this number, in bench units or as it was said ("4" for 4 oz)."""
    return any(abs(value - number) <= 0.001 * max(abs(number), 1e-9) for value in (fact.value, said_number(fact, measures)))


Figure = Said | Loose
CUE = looked_for(
    r"\b(?:mean|meant|really|actually|not|should|instead|but|rather|wrong|mistake|misread|sorry|oops|said|say|now|turned out|wasn['’]?t|isn['’]?t)\b",
    re.IGNORECASE,
)


def swap(session: Session, reading: Reading) -> None:
    """ "Not 60, 65", "change the 1:2 to 1:3": the second figure takes the place of the first. Changes the reading."""
    if not reading.has("swap") and not reading.has("swap_back"):
        _swap_by_cue(session, reading)
        return
    for act in reading.acts:
        if act.name not in ("swap", "swap_back"):
            continue
        figures = [f for f in reading.figures if act.start <= f.start and f.end <= act.end]
        if len(figures) < 2:
            continue
        old, new = (figures[0], figures[1]) if act.name == "swap" else (figures[1], figures[0])
        key, fact = _holder(session, old)
        if not key:
            forget(old, reading.said, reading.loose)
            reading.references.append(_reference(old))
            continue
        forget(old, reading.said, reading.loose)
        forget(new, reading.said, reading.loose)
        reading.references.append(_reference(old))
        reading.said.append(as_like(new, key, fact, session.measures))


def _swap_by_cue(session: Session, reading: Reading) -> None:
    """ "Did I say 42? I mean 45", "that 68 was with the lid on, really 61": of two figures of a kind the one that stands already is the old one."""
    batch = session.batch
    free = [f for f in reading.figures if isinstance(f, Loose) or f.weak]
    if batch is None or len(free) != 2 or not CUE.search(reading.heard):
        return
    kinds = {f.kind if isinstance(f, Loose) else VOCABULARY[f.quantity].unit for f in free}
    held = [f for f in free if any(same_number(fact, n, session.measures) for fact in batch.facts.values() for n in (f.value, number_of(f)))]
    if len(kinds) != 1 or len(held) != 1:
        return
    old = held[0]
    new = free[1] if old is free[0] else free[0]
    key, fact = _holder(session, old)
    if key:
        forget(old, reading.said, reading.loose)
        forget(new, reading.said, reading.loose)
        reading.references.append(_reference(old))
        reading.said.append(as_like(new, key, fact, session.measures))


def _reference(figure: Figure) -> Reference:
    return Reference("reference", figure.start, figure.end, figure.value)


def _holder(session: Session, old: Figure) -> tuple[str, Fact | None]:
    """The key that bears this figure: one that was said, else one that was found."""
    batch = session.batch
    if batch is None:
        return "", None
    number = number_of(old)
    said = [k for k, f in batch.facts.items() if same_number(f, old.value, session.measures) or same_number(f, number, session.measures)]
    if isinstance(old, Said) and old.key in said:
        return old.key, batch.facts[old.key]
    if said:
        key = next((k for k in batch.changed if k in said), said[-1])
        return key, batch.facts[key]
    if session.last is not None:
        for key, figure in session.last.solution.figures.items():
            if figure.origin in ("found", "assumed") and abs(figure.value - old.value) <= max(0.5, 0.005 * abs(old.value)):
                return key, None
    return "", None


def number_of(figure: Figure) -> float:
    """A figure's bare number where it has no unit, else its value."""
    return figure.number if isinstance(figure, Loose) and figure.number is not None else figure.value


def as_like(figure: Figure, key: str, like: Fact | None, measures: str) -> Said:
    """A figure as this key's; a bare number is in the unit its like was said in."""
    value, unit = figure.value, figure.said_unit
    if isinstance(figure, Loose) and figure.kind in ("#", "n") and like is not None:
        value, unit = number_of(figure) * size_said(like.said_unit, measures), like.said_unit
    return Said(base(key), value, figure.start, figure.end, about(key), unit, figure.low, figure.high, None, False, figure.words)
