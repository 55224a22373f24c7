"""Going on about a jar: all of it thrown in, what the marc keeps per gram, what comes back, a mix that is poured on a plant."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.dataclass import replace
from assistant.listening.statements import Asked, Reading, Reference, Said
from assistant.session.batch import Batch, Fact

if TYPE_CHECKING:
    from assistant.session.conversation import Session

PER_GRAM = re.compile(r"\bper (?:dry )?(?:g|gram|gramme)\s*[?.!]*\s*$", re.IGNORECASE)
HOW_MUCH = re.compile(r"\b(?:how much|how many|what'?s that|what is that|what do i get)\b", re.IGNORECASE)
PLANNED = ("planned_herb", "planned_menstruum")
FIRST_RATIO = re.compile(r"\b(?:at|by|with|keep|to) (?:the|my|our) (?:proper|original|planned|right|first|old|intended|usual) ratio\b", re.IGNORECASE)
POURED = ("planned_menstruum", "spirit_in_hand")  # what all the plant may be thrown into, the plan's pour first


def settle_jar(reading: Reading, batch: Batch, first: Batch | None) -> None:
    """Give the words of a sentence about the jar in hand their meaning; `first` is the batch as it was begun. Changes the reading."""
    if first is not None and FIRST_RATIO.search(reading.heard) and "herb" in batch.facts and not any(s.quantity == "ratio" for s in reading.said):
        told = first.facts.get("ratio")
        herb, poured = (first.facts.get(k) for k in PLANNED)
        ratio = told.value if told is not None else poured.value / herb.value if herb is not None and poured is not None else None
        if ratio is not None:
            reading.said.append(Said("ratio", ratio, 0, 0))
            reading.freed.add("menstruum")
            reading.asked[:] = [a for a in reading.asked if a.quantity != "ratio"]
    given = {s.quantity for s in reading.said}
    known = given | batch.facts.keys()
    if PER_GRAM.search(reading.heard) and known & {"pressed", "held_back"} and known & {"menstruum", "in_jar", "held_back"}:
        reading.asked[:] = [Asked("held_per_gram", 0, len(reading.heard))]
    if "yield_share" in given and not reading.asked and "pressed" not in given and HOW_MUCH.search(reading.heard) and known & {"menstruum", "in_jar", "herb"}:
        reading.acts[:] = [a for a in reading.acts if a.name not in ("gap", "claim")]
        reading.asked.append(Asked("pressed", 0, len(reading.heard)))  # "I get 75 % of it back, how much is that"
    if reading.has("all_in"):
        for figure in [f for f in reading.loose if any(k in batch.facts and abs(batch.facts[k].value - f.value) < 1e-9 for k in POURED)]:
            reading.loose.remove(figure)  # "shove it all in the 1200"
            reading.references.append(Reference("reference", figure.start, figure.end, figure.value))


def all_thrown_in(batch: Batch, turn: int) -> tuple[Batch, str]:
    """All the plant in what there is to pour, whatever ratio that makes; the key of what is poured, "" where nothing was told of it."""
    key = next((k for k in POURED if k in batch.facts), "")
    if not key or (key == "planned_menstruum" and "herb" not in batch.facts):
        return batch, ""
    there = replace(batch.facts[key], turn=turn)
    if key == "planned_menstruum":
        return batch.without("ratio", "menstruum", *PLANNED).with_facts({"menstruum": there}), "menstruum"
    poured = "menstruum" if "neat" in batch.tags or "strength" not in batch.facts else "stock"
    gone = ("ratio",) if poured == "menstruum" else ("ratio", key)
    return batch.without(*gone).with_facts({poured: there}), poured


def from_blend(session: Session, reading: Reading) -> Batch | None:
    """ "Enough for how much dried thyme at 1:5?" after two spirits were tipped together: the mix is the menstruum of a new plan."""
    batch, worked = session.batch, session.last
    if batch is None or worked is None or session.draft is not None or "mix" not in batch.frames or reading.ingredients or reading.liquids:
        return None
    given = {s.quantity for s in reading.said}
    if not given & {"ratio", "herb"} or given - {"ratio", "herb", "water_content"} or "ratio" in batch.facts:
        return None
    blend, strength = worked.value("blend"), worked.value("blend_strength")
    if blend is None or strength is None:
        return None
    if "ratio" in given and "herb" not in given:
        reading.asked[:] = [Asked("herb", 0, len(reading.heard))]
    return Batch().with_facts({"menstruum": Fact(blend, "said", session.turn), "strength": Fact(strength, "said", session.turn)})
