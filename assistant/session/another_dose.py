"""Another dose for the one in hand: "5 mL three times a day …", then "and 4 mL?", "or 2.5?"."""

from __future__ import annotations

import math
import re

from assistant.listening.statements import Loose, Said
from assistant.quantities.vocabulary import VOCABULARY, base
from assistant.session.work import Work, renamed, said_as

ANOTHER = re.compile(
    r"^\W*(?:(?:and|or|so|then|what|how|about|with|at|if|it|it's|its|was|were|make|take|taking|took|say|only|just|that|now|ok|maybe|on|the)\b\W*)*"
    r"\d+(?:[.,]\d+)?\s*(?:mls?|millilit(?:re|er)s?)?\W*(?:(?:instead|then|each|a|at|time|though|please|dose|doses|of|it)\b\W*)*$",
    re.IGNORECASE,
)
BY_ITSELF = ("menstruum", "liquid", "blend")  # what millilitres are taken for where nothing is said of them
MEANT = ("dose", "bottle_size")


def another_dose(said: list[Said], loose: list[Loose], work: Work) -> None:
    """A single figure without a word to it is the dose or the bottle, where of all the figures in hand it is most like that. Changes both lists in place."""
    if "dose" not in work.facts or len(said) + len(loose) != 1 or work.reading.asked or not ANOTHER.match(work.reading.heard):
        return
    figure: Said | Loose = said[0] if said else loose[0]
    if not (figure.kind in ("mL", "#") if isinstance(figure, Loose) else figure.quantity in BY_ITSELF):
        return
    alike = [(abs(math.log(fact.value / figure.value)), key) for key, fact in work.facts.items()
             if VOCABULARY[base(key)].unit == "mL" and fact.value > 0 and figure.value > 0]  # fmt: skip
    if not alike or min(alike)[1] not in MEANT:
        return
    meant = min(alike)[1]
    said[:] = [said_as(figure, meant) if isinstance(figure, Loose) else renamed(figure, meant)]
    loose.clear()
