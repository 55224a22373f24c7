"""The alcohol of what is swallowed: "a teaspoon of 45 % tincture, how much alcohol is she getting", "grams alcohol in 5 mL of that", "the 25 one"."""

from __future__ import annotations

import re

from assistant.dataclass import replace
from assistant.listening.statements import Loose, Said
from assistant.patterns import looked_for
from assistant.session.work import Work, renamed, said_as

ALCOHOLS = {"alcohol": "alcohol_per_dose", "alcohol_grams": "alcohol_per_dose"}
TAKEN = frozenset({"menstruum", "blend", "pressed", "stock", "bottle_size"})
MOST = 15.0  # mL: a tablespoon; more is no dose
OF_IT = looked_for(r"^\s*(?:of|from)\s+(?:that|it|this|the (?:mix|blend|lot|bottle))\b", re.IGNORECASE)
OF_THE_ONE = looked_for(r"^\s*(?:%|percent)?\s*(?:one|stuff|tincture|version|bottle)\b", re.IGNORECASE)
THE = looked_for(r"\b(?:the|my|a|her|his)\s*$", re.IGNORECASE)
LEAST_STRENGTH, MOST_STRENGTH = 5.0, 96.0  # percent


def settle_alcohol(said: list[Said], loose: list[Loose], work: Work) -> None:
    """A small volume whose alcohol is asked for is a dose. Changes both lists in place, the reading's asked, and the frames."""
    reading, heard = work.reading, work.reading.heard
    if "dose" in work.frames and "strength" in work.facts and not work.members:
        for figure in [f for f in loose if f.kind in ("#", "%") and LEAST_STRENGTH <= f.value <= MOST_STRENGTH]:
            if OF_THE_ONE.match(heard[figure.end :]) and THE.search(heard[: figure.start]):
                loose.remove(figure)  # "and if it were the 25 one"
                said.append(said_as(figure, "strength"))
    if not {a.quantity for a in reading.asked} & (ALCOHOLS.keys() | {"alcohol_per_dose", "alcohol_ml_per_dose"}) or any(s.quantity == "dose" for s in said):
        return
    taken = next((s for s in said if s.quantity in TAKEN and s.value <= MOST and not s.member), None)
    mixed = bool(work.members) and taken is not None and OF_IT.match(heard[taken.end :]) is not None
    if taken is None or not (mixed or "dose" in work.frames):
        return
    said[said.index(taken)] = renamed(taken, "dose")
    work.frames.add("dose")
    reading.asked[:] = [replace(a, quantity=ALCOHOLS.get(a.quantity, a.quantity)) for a in reading.asked]
