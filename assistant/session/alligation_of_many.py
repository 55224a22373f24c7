"""Alligation of three strengths or more, told or drawn, and the drawn square of two that a sentence brings itself."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from assistant.listening.statements import Loose, Reading, Said
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import VOCABULARY, base
from assistant.reply import Question, Reply, Step, Value
from assistant.session.repeating import refer
from assistant.teaching import drawings
from assistant.teaching.crosswise import linked_parts, links

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

SAYS = "Link each strength above the wanted one with one below it, and take the differences crosswise; by parts the shrinkage is left out."
MAKES = looked_for(r"\b(?:make|makes|making|get|gets|give|gives|reach|want|wanted|wants)\s+(?:it |me |us )?(?:a |an |the )?$", re.IGNORECASE)
INTO = looked_for(r"\b(?:to|for|into|at)\s+(?:a |an |the )?$", re.IGNORECASE)
COUNT = looked_for(r"\s*(?:spirits|strengths|lots|bottles|liquids|stocks|kinds)\b", re.IGNORECASE)


def of_many(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """Three strengths or more, or two that are to be drawn, and the one they are to make, all in this sentence."""
    draws = reading.has("draw")
    figures: list[Said | Loose] = sorted([*reading.loose, *reading.said], key=lambda f: f.start)
    percents: list[Said | Loose | _Said] = [f for f in figures if _is_percent(f) and not COUNT.match(reading.heard[f.end :])]
    counts = [f for f in figures if isinstance(f, Loose) and COUNT.match(reading.heard[f.end :])]
    if reading.liquids:
        percents += [_Said(v, a, b) for line in reading.liquids for q, v, a, b in line.figures if q == "strength_of"]
        percents.sort(key=lambda f: f.start)
    if len(percents) + len(counts) < len(figures) or len({f.value for f in percents}) < len(percents):
        return None
    makes = [f for f in percents if MAKES.search(reading.heard[: f.start])] or [f for f in percents if INTO.search(reading.heard[: f.start])][-1:]
    if len(makes) != 1 or len(percents) < (3 if draws else 4):
        return None
    wanted, strengths = float(makes[0].value), [float(f.value) for f in percents if f is not makes[0]]
    refer(answers, reading, *((f.start, f.end) for f in (*percents, *counts)))
    spoken = session.plain or re.search(r"\b(?:describe|read out)\b", reading.heard, re.IGNORECASE) is not None
    if not min(strengths) < wanted < max(strengths):
        text = f"{wanted:g} % does not lie between {min(strengths):g} and {max(strengths):g} %, so no mix of these makes it."
        question = Question(text="Which strength do you want, between them?", choices=(f"{(min(strengths) + max(strengths)) / 2:g} %",))
        return answers.reply("refused", f"{text} {question.text}", questions=(question,))
    parts = linked_parts(strengths, wanted)
    steps, values = [], []
    for strength, links_ in parts.items():
        name, total = f"{strength:g} %", sum(links_)
        from_links = " + ".join(f"{part:g}" for part in links_)
        working = f"parts of {name}: {from_links}" + (f" = {total:g}" if len(links_) > 1 else "")
        steps.append(Step(quantity="part", about=name, value=total, unit="1", relation="alligation", says=SAYS, working=working))
        values.append(Value(quantity="part", about=name, value=total, unit="1", origin="found", text=f"{total:g} parts of {name}"))
    if draws:
        drawing = drawings.alligation(*_ends(strengths), wanted) if len(strengths) == 2 else drawings.alligation_of_many(strengths, wanted)
        text = drawing.spoken if spoken else "\n".join(drawing.lines)
        return answers.reply("answered", text, values=tuple(values), steps=tuple(steps))
    told = [f"{sum(p):g} parts of {s:g} %" for s, p in parts.items()]
    head = f"By alligation: {', '.join(told[:-1])} and {told[-1]} make {wanted:g} %."
    linked = "; ".join(f"{a:g} with {b:g}: {wanted - b:g} to {a - wanted:g}" for a, b in links(strengths, wanted))
    last = "One way of many: each linked pair makes it by itself. By parts the shrinkage is left out."
    return answers.reply("answered", f"{head}\nLinked {linked}.\n{last}", values=tuple(values), steps=tuple(steps))


class _Said(NamedTuple):
    """A strength of one of the liquids of a sentence, with its place."""

    value: float
    start: int
    end: int


def _is_percent(figure: Said | Loose) -> bool:
    if isinstance(figure, Loose):
        return figure.kind in ("#", "%") and 0 <= figure.value <= 100
    return VOCABULARY[base(figure.key)].unit == "percent" or (not figure.said_unit and 0 <= figure.value <= 100)  # a bare "get 50"


def _ends(strengths: Sequence[float]) -> tuple[float, float]:
    return max(strengths), min(strengths)
