"""What is lost of a jar in working it: "I lost 120 ml pressing, what is left", "80 mL went in the filter". So much stays behind; nobody poured it."""

from __future__ import annotations

import re

from assistant.listening.statements import Asked, Loose, Reading, Said
from assistant.patterns import looked_for
from assistant.session.batch import Batch
from assistant.session.work import take_as

LOST = looked_for(
    r"\b(?:los[et]|loses|losing|loss|stay(?:s|ed)|stuck|left behind|kept|held|soaked up|swallowed|drank|disappear\w*"
    r"|(?:gone|went|goes) (?:in(?:to)?|with) (?:the |a |my )?(?:coffee |paper |spent )?(?:filter|cloth|muslin|marc|press|herb|paper))\b",
    re.IGNORECASE,
)
PRESSING = looked_for(
    r"\b(?:press(?:ed|ing|es)?|squeez\w*|wring(?:ing)?|wrung|strain(?:ed|ing)?|cloth|muslin|cheesecloth|marc|spent herb|mashed? herb|ricer)\b",
    re.IGNORECASE,
)
FILTERING = looked_for(
    r"\b(?:filter\w*|coffee papers?|settl\w+|rack(?:ed|ing)?|decant\w*|siphon\w*|sediment|sludge|dregs|lees|sieve|bottom of the jar)\b", re.IGNORECASE
)
SPILT = looked_for(
    r"\b(?:spil(?:t|led)|knocked over|tipped over|down the (?:sink|drain)|on the floor|leak(?:ed|ing)?|boiled over|overflow\w*)\b", re.IGNORECASE
)
MORE = looked_for(r"\b(?:another|more|too|as well|also|a further|then|plus)\b", re.IGNORECASE)
LEFT = looked_for(
    r"\b(?:what(?:'s|s| is| have i| do i| will i| did i|'ve i)?|how (?:much|many ml)s?)\b[^.;?]{0,30}"
    r"\b(?:left|got|have|get|come|comes|came|remain\w*|bottle|back|end up)\b",
    re.IGNORECASE,
)
POURS = frozenset({"menstruum", "pressed", "racked", "in_jar", "stock", "rack_lost", "held_back"})
JAR = frozenset({"ratio", "menstruum", "herb", "pressed", "ratio_by_weight"})
NOT_A_JAR = frozenset({"dose", "formula", "cost", "year", "tea", "salve", "syrup", "mix", "dilution", "decoction"})


def lost_of_it(reading: Reading, batch: Batch | None) -> None:
    """Let a volume that was lost in pressing or filtering be that loss, and what is left the question. Changes the reading."""
    frames = reading.frames | (batch.frames if batch is not None else frozenset())
    known = {s.quantity for s in reading.said} | (batch.facts.keys() if batch is not None else set())
    if frames & NOT_A_JAR or not known & JAR or reading.ingredients or reading.liquids or (batch is not None and batch.members):
        return
    for figure in reading.figures:
        where = _lost_in(figure, reading.heard, known)
        if not where:
            continue
        take_as(reading, figure, where)
        asked = {a.quantity for a in reading.asked}
        if LEFT.search(reading.heard) and asked <= {"herb_left", "rest", "spare", "pressed", "held_back", "racked", "menstruum", "to_gather", "in_jar"}:
            reading.asked[:] = [Asked("racked" if where == "rack_lost" else "pressed", 0, len(reading.heard))]
            reading.let_go("doubt", "claim")
        return


def _lost_in(figure: Said | Loose, heard: str, known: set[str]) -> str:
    """The quantity of a volume by the words of its own clause, "" where it is no loss; what was spilt is lost of what was pressed."""
    volume = (figure.weak and figure.quantity in POURS and figure.said_unit) if isinstance(figure, Said) else figure.kind == "mL"
    start = max(heard.rfind(c, 0, figure.start) for c in ",;?") + 1
    end = min((at for at in (heard.find(c, figure.end) for c in ",;?") if at >= 0), default=len(heard))
    clause = heard[start:end]
    if volume and SPILT.search(clause):
        return "rack_lost"
    again = known & {"held_back", "rack_lost"} and MORE.search(clause)  # "and another 60 mL filtering"
    if not volume or not (again or LOST.search(clause)):
        return ""
    return "rack_lost" if FILTERING.search(clause) else "held_back" if PRESSING.search(clause) else ""
