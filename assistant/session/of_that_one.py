"""One ingredient of a formula gone on about: "and the hops?" asks the same of another, "it's 1:5, grams of root in that?" goes on about the one asked for."""

from __future__ import annotations

import re

from assistant.dataclass import replace
from assistant.listening.ingredients import called
from assistant.listening.statements import Asked, Reading
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import about, base
from assistant.session.batch import Batch

LEADS = looked_for(r"^\W*(?:(?:and|so|then|ok|okay|or|what|how|about|of|for|the|my)\W+)*$", re.IGNORECASE)
BEHIND = looked_for(r"^\W*(?:tincture)?\W*(?:then)?\W*(?:(?P<per>(?:a|per|each|every|in a|in each) (?:day|dose|taking)|daily))?\W*$", re.IGNORECASE)
IT = looked_for(
    r"(?:^|[.;,]|\b(?:and|if|but|well|ok|say|so))\W*(?:its|it['’]s|it is|it was|that['’]?s|that is|this is|that one['’]?s|made at|made)\b", re.IGNORECASE
)
THAT = looked_for(r"\b(?:that|it|this|those|them)\b", re.IGNORECASE)
GRAMS = looked_for(r"\b(?:grams?|g|herb|plant|root|leaf|leaves|flowers?|bark|berr\w+|seeds?|dried|dry)\b", re.IGNORECASE)
IN_GRAMS = looked_for(r"\b(?:grams?|g)\b\s*(?:of|in|is|for)?\s*(?:that|it|this)?\W*$", re.IGNORECASE)
A_DAY = looked_for(r"\b(?:a|per|each|every) day\b|\bdaily\b", re.IGNORECASE)
A_DOSE = looked_for(r"\b(?:a|per|each|every|in a|one) (?:dose|taking|spoon\w*)\b", re.IGNORECASE)
# What was asked of it → what its herb is called there.
ITS_HERB = {"volume_a_dose": "herb_a_dose_of", "volume_a_day": "herb_a_day_of", "volume": "herb_in", "drops_a_dose": "herb_a_dose_of"}
ITS_VOLUME = {v: k for k, v in ITS_HERB.items() if k != "drops_a_dose"}
BY_TIME = {"dose": ("volume_a_dose", "herb_a_dose_of"), "day": ("volume_a_day", "herb_a_day_of")}
SOME_OF_IT = frozenset({"herb", "herb_per_dose", "herb_per_day", "daily", "dose", "menstruum", "herb_per_ml", "herb_for_course", "batch"})
STRENGTHS = frozenset({"strength", "stock_strength", "finished_strength", "blend_strength"})
STRONGEST = 96.0  # percent


def of_that_one(reading: Reading, batch: Batch | None) -> None:
    """Let the sentence be about the ingredient that was asked for last, or ask the same of the one it names. Changes the reading."""
    if batch is None or len(batch.members) < 2 or reading.ingredients or reading.liquids:
        return
    wanted = [k for k in batch.wanted if about(k) in batch.members]
    owners = {about(k) for k in wanted}
    named = {called(n.name, batch.members) for n in (*reading.named, *reading.mentions)}
    if named and not (named == owners and reading.figures):
        _the_same_of_another(reading, batch, wanted)
    elif len(owners) == 1 and "formula" in batch.frames:
        _of_the_one_asked(reading, owners.pop(), base(wanted[0]))


def _the_same_of_another(reading: Reading, batch: Batch, wanted: list[str]) -> None:
    """ "And the hops?": what was asked of one ingredient is asked of this one; "hops a day?" by the day. Changes the reading."""
    names = {n.start: n for n in (*reading.named, *reading.mentions)}
    if len(names) != 1 or reading.figures or reading.tags - {"internal"} or any(a.name != "whatif" for a in reading.acts):
        return
    name = next(iter(names.values()))
    member, behind = called(name.name, batch.members), BEHIND.match(reading.heard[name.end :])
    if not member or behind is None or not LEADS.match(reading.heard[: name.start]):
        return
    if behind["per"] and "formula" in batch.frames:
        told = any(base(k) == "ratio_of" and about(k) == member for k in batch.facts)
        quantity = BY_TIME["dose" if "day" not in behind["per"] and behind["per"] != "daily" else "day"][told]
    elif len({about(k) for k in wanted}) == 1 and not behind["per"]:
        quantity = base(wanted[0])
    else:
        return
    reading.let_go("whatif")
    reading.asked[:] = [Asked(quantity, name.start, name.end, member)]


def _of_the_one_asked(reading: Reading, owner: str, wanted: str) -> None:
    """ "It's dried 1:5. grams of root in that?": ratio, strength and question are that one's. Changes the reading."""
    heard = reading.heard
    figures = [s for s in reading.said if s.quantity == "ratio" or (s.quantity in STRENGTHS and s.value <= STRONGEST)]
    told = [s for s in figures if reading.named or IT.search(heard[: s.start])]
    if len(told) == 1 and len(reading.figures) == 1:
        quantity = "ratio_of" if told[0].quantity == "ratio" else "strength_of"
        reading.said[:] = [replace(s, quantity=quantity, member=owner, weak=False) if s is told[0] else s for s in reading.said]
    elif not (THAT.search(heard) and not reading.figures):
        return
    grams = IN_GRAMS.search(heard)
    asks = [a for a in reading.asked if a.quantity in SOME_OF_IT] or ([Asked("herb", grams.start(), grams.end())] if grams else [])
    if not asks or {a.quantity for a in reading.asked} - SOME_OF_IT:
        return
    time = "day" if A_DAY.search(heard) else "dose" if A_DOSE.search(heard) else ""
    herb = GRAMS.search(heard[min(a.start for a in asks) :]) is not None or wanted in ITS_VOLUME
    asked = BY_TIME[time][herb] if time else ITS_HERB.get(wanted, wanted) if herb else wanted
    reading.asked[:] = [Asked(asked, asks[0].start, asks[0].end, owner)]


__all__ = ["of_that_one"]
