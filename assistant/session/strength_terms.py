"""A strength by volume told by weight, and the other way round: "60 % by weight in volume terms?"."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.faults import BenchError
from assistant.listening.statements import Reading
from assistant.matter.ethanol import mass_fraction_of, strength_of
from assistant.patterns import looked_for
from assistant.reply import Reply, Step, Value
from assistant.session.repeating import refer
from assistant.session.wording import number

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

TERM = looked_for(
    r"(?P<volume>\bby vol(?:ume)?\b|\bv/v\b|\babv\b|\bvolume (?:terms|percent|percentage|strength)\b|\b(?:in|as|per cent|percent|%)\s+vol(?:ume)?\b)"
    r"|(?P<weight>\bby (?:weight|mass)\b|\bw/w\b|\b(?:weight|mass) (?:terms|percent|percentage|strength)\b|\b(?:in|as|per cent|percent|%)\s+(?:weight|mass)\b)",
    re.IGNORECASE,
)
ASKS = looked_for(r"\?|\b(?:what|how (?:much|many|strong)|convert|turn|express|give)\b", re.IGNORECASE)


def in_other_terms(_session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """A lone strength turned into the other way of counting it; None where the sentence does not name both ways."""
    figures = reading.figures
    if len(figures) != 1 or reading.named or reading.ingredients or reading.liquids or not ASKS.search(reading.heard):
        return None
    figure = figures[0]
    if not reading.heard[figure.start : figure.end].rstrip().lower().endswith(("%", "percent", "per cent", "abv")):
        return None
    terms = [(m.start(), str(m.lastgroup)) for m in TERM.finditer(reading.heard)]
    if reading.heard[figure.start : figure.end].rstrip().lower().endswith("abv"):
        terms = [(figure.end, "volume"), *(t for t in terms if t[0] >= figure.end)]
    if {kind for _, kind in terms} != {"volume", "weight"}:
        return None
    behind = [kind for start, kind in terms if 0 <= start - figure.end <= 1]  # "60 % by weight" says how the 60 counts
    given = behind[0] if behind else next(kind for start, kind in reversed(terms) if start > figure.start or start == terms[-1][0])
    if not behind:  # "what is the weight percent of 60 %": what is asked for stands first
        given = "volume" if terms[0][1] == "weight" else "weight"
    value = figure.value
    try:
        turned = 100.0 * mass_fraction_of(value) if given == "volume" else strength_of(value / 100.0)
    except BenchError:
        return None
    sought = "weight" if given == "volume" else "volume"
    refer(answers, reading)
    text = f"{number(value, 'percent')} % by {given} is {number(turned, 'percent')} % by {sought}."
    says = "By weight counts grams of alcohol in 100 g, by volume mL of alcohol in 100 mL; alcohol is lighter than water, so by weight reads lower."
    quantity = "strength_by_weight" if sought == "weight" else "strength"
    shown = f"{number(turned, 'percent')} %"
    step = Step(quantity=quantity, value=turned, unit="percent", relation="density", says=says, working=text.rstrip("."))
    return answers.reply(
        "answered", f"{text}\n{says}", values=(Value(quantity=quantity, value=turned, unit="percent", origin="found", text=shown),), steps=(step,)
    )
