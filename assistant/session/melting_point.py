""" "What heat does beeswax melt at?": the range a wax or butter of a salve melts in; disturbs no batch."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.listening.statements import Reading
from assistant.matter.melting import MELTS, melting
from assistant.patterns import looked_for
from assistant.reply import Reply, Value
from assistant.session.repeating import refer
from assistant.session.wording import number

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

MELTS_WORD = looked_for(r"\b(?:melt(?:s|ed|ing)?|(?:go|goes|gone|get|gets|turn|turns) (?:runny|liquid|clear|soft)|liquef\w+)\b", re.IGNORECASE)
HEAT = looked_for(
    r"\b(?:what|which|how) (?:heat|temp\w*|hot|warm|many degrees|degrees?)\b|\bmelting (?:point|range|temp\w*)\b|\bat what\b|\bwhat does\b", re.IGNORECASE
)
NAMES = looked_for(r"\b(" + "|".join(sorted((n for m in MELTS for n in (m.name, *m.spoken)), key=len, reverse=True)) + r")\b", re.IGNORECASE)


def melting_point(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """The reply to a question about a melting point, None for any other sentence."""
    del session
    named = NAMES.search(reading.heard)
    if named is None or not MELTS_WORD.search(reading.heard) or not HEAT.search(reading.heard):
        return None
    if reading.said or reading.loose or reading.ingredients or reading.liquids:
        return None
    found = melting(named.group(1))
    if found is None:
        return None
    refer(answers, reading)
    text = f"{number(found.low, 'degC')} to {number(found.high, 'degC')} °C"
    value = Value(
        quantity="melts_at", about=found.name, value=(found.low + found.high) / 2, low=found.low, high=found.high, unit="degC", origin="found", text=text
    )
    seen = "as remembered" if found.evidence == "memory" else "as read"
    line = f"{found.name.capitalize()} melts at {text} ({found.source}; {seen}). A water bath is hot enough: never on a bare flame."
    return answers.reply("answered", line, values=(value,))
