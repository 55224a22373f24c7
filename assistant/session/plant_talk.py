"""What is known of a plant: its parts, water, usual ratios and strengths, and what to mind, each with its source.

Asked for by "what do you know of yarrow", "what strength do people use for myrrh", "how much water is in fresh comfrey". Ranges of the trade
and of published monographs, told as they stand in the list of plants; nothing is reckoned here.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.cautions.plant import PART_KINDS, Part, Plant, Span
from assistant.cautions.plants import plants
from assistant.listening.statements import Reading
from assistant.patterns import looked_for
from assistant.reply import Question, Reply, Step, Value

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

KNOWS = looked_for(
    r"\bwhat (?:do|can) (?:you|we) (?:know|tell me|say) (?:of|about|on)\b|\btell me (?:about|of)\b|\bwhat is known (?:of|about)\b", re.IGNORECASE
)
WATER = looked_for(
    r"\bhow much water (?:is |does |do |has |have )?(?:there )?(?:in|fresh)\b|\bwater content of\b|\bhow (?:wet|watery) (?:is|are)\b"
    r"|\bhow much water .* (?:hold|have|contain)\b",
    re.IGNORECASE,
)
USUAL = looked_for(
    r"\b(?:usual|usually|common|commonly|normal|normally|typical|typically|people|makers|most|recommended|custom|customary|suits?|wants?|needs?|best)\b",
    re.IGNORECASE,
)
STRENGTH = looked_for(r"\b(?:what|which|how)\b.*\b(?:strength|percent|percentage|abv|spirit|alcohol|menstruum|strong)\b", re.IGNORECASE)
RATIO = looked_for(r"\b(?:what|which)\b.*\bratio\b", re.IGNORECASE)
FOR = looked_for(r"\b(?:for|of|with)\b", re.IGNORECASE)
SPANS = (
    ("water", "water_content", "water", " %"),
    ("fresh_ratio", "ratio", "fresh", ""),
    ("fresh_strength", "strength", "fresh at", " %"),
    ("dried_ratio", "ratio", "dried", ""),
    ("dried_strength", "strength", "dried at", " %"),
)
BY_PART = "water-by-part"
OF = {"water": ("water",), "strength": ("fresh_strength", "dried_strength"), "ratio": ("fresh_ratio", "dried_ratio")}


def handle(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """A reply where the sentence asks what is known or usual of one plant and bears no figure; None otherwise."""
    if reading.said or reading.loose or reading.ingredients or reading.liquids or len(reading.named) != 1:
        return None
    wanted = _wanted(reading.heard, in_hand=session.batch is not None and bool(session.batch.facts))
    if not wanted:
        return None
    name = reading.named[0].name
    hit = plants().called(name)
    if hit is not None and hit.question:
        return answers.reply("asking", hit.question, questions=(Question(text=hit.question, choices=tuple(p.name for p in hit.plants)),))
    plant = hit.plant if hit is not None else None
    if plant is None or not plant.is_known:
        text = f"Nothing is known here of {name}: no usual strength, no water content, no warning. That is silence, not safety."
        return answers.reply("answered", text)
    kinds = [PART_KINDS[t] for t in sorted(reading.tags) if t in PART_KINDS]
    parts = [p for p in plant.parts if p.kind in kinds] or list(plant.parts)
    lines = [f"{name[:1].upper()}{name[1:]} ({plant.latin})"]
    values: list[Value] = []
    steps: list[Step] = []
    for part in parts:
        told = _part(plant, part, wanted, values, steps)
        if told:
            lines.append(f"- {part.name}: {told}.")
    if len(lines) == 1:
        lines.append("Its usual figures are not known here.")
    if wanted == "all":
        lines += [f"- {flag.name.replace('-', ' ')}: {flag.note} ({flag.source})." for flag in plant.flags]
    else:
        lines.append("Ranges of the trade, not laws: weigh and taste your own.")
    return answers.reply("answered", "\n".join(lines), values=tuple(values), steps=tuple(steps))


def _wanted(heard: str, *, in_hand: bool) -> str:
    """What is asked: all, water, strength or ratio; "" where it is something else."""
    if KNOWS.search(heard):
        return "all"
    if WATER.search(heard):
        return "" if in_hand else "water"  # of a batch in hand it is the grams of water that are asked for
    usual = USUAL.search(heard) is not None or (not in_hand and FOR.search(heard) is not None)
    if usual and RATIO.search(heard):
        return "ratio"
    return "strength" if usual and STRENGTH.search(heard) and "how much" not in heard.lower() else ""


def _part(plant: Plant, part: Part, wanted: str, values: list[Value], steps: list[Step]) -> str:
    told = []
    for field, quantity, words, unit in SPANS:
        span: Span | None = getattr(part, field)
        if span is None or (wanted != "all" and field not in OF[wanted]):
            continue
        text = _range(span, quantity) + unit
        told.append(f"{words} {text}" if field != "water" else f"{text} water")
        values.append(
            Value(
                quantity=quantity,
                about=plant.name,
                batch=f"{part.name}, {words.removesuffix(' at')}",
                value=span.middle,
                low=span.low,
                high=span.high,
                unit="1" if quantity == "ratio" else "percent",
                origin="assumed",
                text=text,
            )
        )
        steps.append(Step(quantity=quantity, about=plant.name, relation="known of the plant", says=f"{text} for the {part.name}.", working=_source(span)))
    sources = dict.fromkeys(_source(span) for span in _spans(part, wanted))
    return f"{', '.join(told)} ({'; '.join(sources)})" if told else ""


def _source(span: Span) -> str:
    told = {BY_PART: "water as is common for the part"}.get(span.source, span.source)
    return told if span.evidence in ("common practice", told) else f"{told}, {span.evidence}"


def _spans(part: Part, wanted: str) -> list[Span]:
    fields = [field for field, *_ in SPANS if wanted == "all" or field in OF[wanted]]
    return [span for field in fields if (span := getattr(part, field)) is not None]


def _range(span: Span, quantity: str) -> str:
    head = "1:" if quantity == "ratio" else ""
    return f"{head}{span.low:g}" if span.low == span.high else f"{head}{span.low:g} to {head}{span.high:g}"
