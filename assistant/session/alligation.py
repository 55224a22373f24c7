"""Alligation by simple parts, as the old books teach it: the parts of a strong and of a weak spirit that make one between them."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import TYPE_CHECKING

from assistant.listening.statements import Reading
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import about, base
from assistant.reply import Reply, Step, Value
from assistant.session.repeating import refer
from assistant.session.wording import number, shown

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

ASKS_PARTS = looked_for(
    r"\b(?:how many|what|which|in what|the|of) parts?\b|\bparts? (?:of each|each|do i|would|are|is|for)\b|\balligation\b|\bby (?:simple )?parts\b"
    r"|\b(?:the|by|a) cross\b|\bcross[- ]?wise\b",
    re.IGNORECASE,
)
EXACT = looked_for(r"\b(?:exact\w*|shrink\w*|contraction|taken into account|true|properly)\b", re.IGNORECASE)
SAYS = (
    "Set the strong and the weak on the left, the wanted one in the middle, and take the differences crosswise; "
    "by parts the shrinkage is left out, so it is an approximation."
)


def by_parts(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """The parts of each spirit, and beside them whatever else the sentence settles; None where no parts are asked for."""
    if not ASKS_PARTS.search(reading.heard):
        return None
    from assistant.session.alligation_of_many import of_many

    many = of_many(session, reading, answers)
    if many is not None:
        return many
    strengths = {line.name: v for line in reading.liquids for q, v, _, _ in line.figures if q == "strength_of"}
    told = any(q not in ("strength_of",) for line in reading.liquids for q, _, _, _ in line.figures)
    target = next((s.value for s in reading.said if s.quantity == "blend_strength"), None)
    if not reading.liquids and not reading.said and session.batch is not None:
        facts = session.batch.facts
        strengths = {about(k): f.value for k, f in facts.items() if base(k) == "strength_of"}
        target = session.batch.value("blend_strength")
        return _again(session, reading, answers, strengths, target)
    if told or len(strengths) != 2 or target is None or not _between(strengths, target):
        return None
    exact = session.take(reading, answers)
    steps, values, lines = _parts(strengths, target)
    if exact.status != "answered":
        refer(answers, reading)
        return answers.reply("answered", "\n".join(lines), values=tuple(values), steps=tuple(steps))
    return exact.model_copy(update={"text": "\n".join([*lines, exact.text]), "values": (*values, *exact.values), "steps": (*steps, *exact.steps)})


def _again(session: Session, reading: Reading, answers: Answers, strengths: Mapping[str, float], target: float | None) -> Reply | None:
    """ "And by simple parts?" of the blend in hand; its volumes too, where what is made is known."""
    if EXACT.search(reading.heard) or len(strengths) != 2 or target is None or not _between(strengths, target):
        return None
    steps, values, lines = _parts(strengths, target)
    blend = session.last.value("blend") if session.last is not None else None
    if blend is not None:
        whole = abs(max(strengths.values()) - min(strengths.values()))
        for name, part in _crosswise(strengths, target).items():
            volume = blend * part / whole
            lines.append(f"{name}: {shown('blend', blend)} × {number(part, '1')} ÷ {number(whole, '1')} = {shown('blend', volume)}")
            values.append(Value(quantity="volume", about=name, value=volume, unit="mL", origin="found", text=shown("blend", volume)))
    refer(answers, reading)
    return answers.reply("answered", "\n".join(lines), values=tuple(values), steps=tuple(steps))


def _between(strengths: Mapping[str, float], target: float) -> bool:
    return min(strengths.values()) < target < max(strengths.values())


def _crosswise(strengths: Mapping[str, float], target: float) -> dict[str, float]:
    """Each one's parts: how far the other lies from what is wanted."""
    (one, a), (two, b) = strengths.items()
    return {one: abs(b - target), two: abs(a - target)}


def _parts(strengths: Mapping[str, float], target: float) -> tuple[list[Step], list[Value], list[str]]:
    parts = _crosswise(strengths, target)
    steps: list[Step] = []
    values: list[Value] = []
    for name, part in parts.items():
        other = next(v for n, v in strengths.items() if n != name)
        high, low = max(other, target), min(other, target)
        working = f"parts of {name}: {high:g} − {low:g} = {part:g}"
        steps.append(Step(quantity="part", about=name, value=part, unit="1", relation="alligation", says=SAYS, working=working))
        values.append(Value(quantity="part", about=name, value=part, unit="1", origin="found", text=f"{part:g} parts of {name}"))
    head = "By alligation: " + " and ".join(f"{part:g} parts of {name}" for name, part in parts.items()) + f" make {target:g} %."
    return steps, values, [head, *(s.working for s in steps)]
