"""A glycerite that was poured neat, and what a later sentence makes of it: another finish by more of it, or by water at the ratio it has."""

from __future__ import annotations

import re

from assistant.listening.statements import Loose, Said
from assistant.patterns import looked_for
from assistant.session.work import SOME_STRENGTH, Work, said_as

WATER_TOO = looked_for(r"\bwater\b", re.IGNORECASE)
RATIO_STAYS = looked_for(
    r"\b(?:same|still|keep\w*|at the|that|this)\W+(?:at\W+)?(?:the\W+)?(?:ratio|1:\d)|\bratio (?:stays|as it is|the same|unchanged)\b",
    re.IGNORECASE,
)
# So much is enough: what the jar is to hold, where the finish of it was what was talked of.
ENOUGH = looked_for(
    r"^\s*%?\s*(?:percent\s*)?(?:in (?:the|my) jar\s*)?(?:would|will|'d|is|be|'s)?\W*"
    r"(?:do\b|be (?:plenty|enough|fine|ok|alright)|plenty|enough|all (?:i|we) (?:need|want))",
    re.IGNORECASE,
)
FINISHES = frozenset({"finished_glycerine", "finished_strength"})
LEAST_FINISH, MOST_FINISH = 20.0, 95.0


def settle_finish(said: list[Said], loose: list[Loose], work: Work) -> None:
    """A glycerite poured neat, and what of it is wanted: neat after all, neat and more of it, or let down with water at the ratio it has.

    Changes both lists in place, and the reading's freed and denied.
    """
    reading = work.reading
    if "glycerite" not in work.frames:
        return
    if "neat" in reading.tags and not any(s.quantity in SOME_STRENGTH | {"glycerine"} for s in said):
        reading.freed.add("glycerine")  # "and neat?": undiluted after all
    if "neat" not in work.batch.tags | reading.tags:
        return
    if "herb" in work.facts and not any(s.quantity in FINISHES for s in said):
        for figure in [f for f in loose if f.kind in ("#", "%") and LEAST_FINISH <= f.value <= MOST_FINISH and ENOUGH.match(reading.heard[f.end :])][:1]:
            loose.remove(figure)  # "55 would be plenty"
            said.append(said_as(figure, "finished_glycerine"))
    if not any(s.quantity in FINISHES for s in said):
        return
    kept = any(s.quantity in ("ratio", "menstruum") for s in said) or RATIO_STAYS.search(reading.heard) is not None
    if "neat" not in reading.tags and (kept or WATER_TOO.search(reading.heard)):
        reading.denied.add("neat")  # "60 in the jar, still 1:2. glycerine and water?"
    elif not kept and any(a.quantity in ("glycerine_volume", "menstruum", "ratio") for a in reading.asked):
        reading.freed |= {"ratio", "menstruum"}  # poured neat, only more of it lets it finish higher


__all__ = ["settle_finish"]
