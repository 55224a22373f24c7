"""What a later sentence carries on from what was last worked out: another drying ratio, so much to end with, the bottle of the swapped tincture."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.dataclass import replace
from assistant.listening.statements import Asked, Loose, Reading, Said, forget
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import base
from assistant.session.batch import Batch, Fact

if TYPE_CHECKING:
    from assistant.session.conversation import Session

END_WITH = looked_for(
    r"\b(?:end(?: up)?|finish(?: up)?|come out|left) with (?:that|it|this|all that)\b|\bto (?:get|make|give|have) (?:that|it|this)(?: much)?\b", re.IGNORECASE
)
OF_THE_PLANT = looked_for(
    r"\bhow (?:much|many)(?: grams| g)?(?: of)?(?: the| dried| dry| fresh)* (?:herbs?|plant|roots?|lea(?:f|ves)|berries|bark|flowers?|blossoms?|seeds?|tops|[a-z]+ ?(?:root|leaf|berries|flowers))\b",  # noqa: E501  (one expression)
    re.IGNORECASE,
)
OVER_THE_MARC = looked_for(
    r"\b(?:over|on|onto|through|on to|to) (?:the |that |its )?(?:same |spent |pressed |wet )*marc\b|\bmarc\b[^.;?]{0,20}\b(?:again|second time|once more)\b",
    re.IGNORECASE,
)
SAME = 0.05  # percent
ASKS_ANEW = looked_for(r"\b(?:what|how|get|gets|back|come|comes|much|many|out)\b", re.IGNORECASE)
ALL_TOLD = looked_for(r"\b(?:all together|altogether|in all|all told|total|both|the two)\b", re.IGNORECASE)
SUPPLIES = ("supply", "to_bottle", "bottle_size")
GOES_ON = frozenset({"bottle_size", "times_a_day", "course"})
NOT_THE_OTHER = frozenset({"dose", "dose_drops", "daily", "herb_per_dose", "herb_per_day", "other_ratio", "ratio"})


MADE = ("racked", "pressed", "blend", "fortified", "syrup")


def batches_of_it(session: Session, reading: Reading) -> None:
    """ "Each batch of cream takes 120 mL, how many batches" right after an oil was pressed: what was pressed is what there is. Changes the reading."""
    batch, last = session.batch, session.last
    if "batches" not in reading.frames or batch is None or last is None or "batches" in batch.frames:
        return
    if [s.quantity for s in reading.said] != ["each_batch"]:
        return
    there = next((v for key in MADE if (v := last.value(key)) is not None), None)
    if there is not None:
        reading.said.append(Said("shelf_has", there, 0, 0))


def carried_on(session: Session, reading: Reading, target: Batch) -> Batch:
    """The batch in hand as the sentence goes on from it; `target` where it goes on from nothing. Changes the reading."""
    if session.draft is not None or session.last is None or target is not session.batch:
        return target
    told = {s.quantity for s in reading.said}
    pressed_otherwise = any(t.startswith("press_") for t in reading.tags) and not told and "pressed" in target.facts
    if pressed_otherwise and target.wanted and "pressed" not in target.wanted and not ASKS_ANEW.search(reading.heard):
        reading.asked[:] = [a for a in reading.asked if a.quantity != "pressed"]  # "with the screw press?": what was asked of what comes out
    if "finished_strength" in target.wanted and "strength" in target.facts and "stock_strength" not in target.facts and [s.quantity for s in reading.said] == [
        "stock_strength"
    ]:
        reading.said[:] = [replace(s, quantity="strength", weak=False) for s in reading.said]  # "with 80?": where it would finish then
    if OVER_THE_MARC.search(reading.heard):
        _over_the_marc(reading, target)
    if "drying_ratio" in told and not told & {"herb", "dried"}:
        _dried_otherwise(session, reading, target)
    elif END_WITH.search(reading.heard) and "pressed" not in told:
        _so_much_out(session, reading)
    elif "other_ratio" in target.facts and told & GOES_ON and not told & NOT_THE_OTHER and not target.tags & {"own_fresh", "other_fresh"}:
        return _the_other(session, target)
    return target


def _over_the_marc(reading: Reading, target: Batch) -> None:
    """ "500 more of the same over the marc": a second pour on what is soaked already; all that was poured, less what the marc keeps, comes out."""
    if "herb" not in target.facts or not target.facts.keys() & {"ratio", "menstruum"}:
        return
    other = next((s.value for s in reading.said if s.quantity in ("strength", "stock_strength")), None)
    if other is not None and "strength" in target.facts and abs(other - target.facts["strength"].value) > SAME:
        return  # of another strength: what comes of both is a mix of its own
    poured = ("menstruum", "pressed", "spirit_in_hand", "herb")
    liquids: list[Said | Loose] = [s for s in reading.said if s.quantity in poured and not s.said_unit.startswith("g")]
    liquids += [f for f in reading.loose if f.kind in ("mL", "#")]
    if len(liquids) != 1:
        return
    more = liquids[0]
    first = target.facts["menstruum"].value if "menstruum" in target.facts else target.facts["herb"].value * target.facts["ratio"].value
    forget(more, reading.said, reading.loose)
    reading.said.append(Said("menstruum", first + more.value, more.start, more.end))
    reading.freed |= {"ratio", "pressed"}
    reading.tags.add("over_marc")
    reading.let_go("same")
    if ALL_TOLD.search(reading.heard) or not reading.asked:
        reading.asked[:] = [Asked("pressed", 0, len(reading.heard))]


def _dried_otherwise(session: Session, reading: Reading, target: Batch) -> None:
    """ "Say it dried 4 to 1 this year": the fresh plant there was, dried by another ratio; what goes in follows."""
    if "herb" not in target.facts or "dried" not in target.tags or "drying_ratio" in target.facts:
        return
    for mark in reversed(session.journal.before):
        before = mark.in_hand
        if before is None or not {"drying_ratio", "herb"} <= before.facts.keys():
            continue
        ratio = next(s for s in reading.said if s.quantity == "drying_ratio")
        if ratio.value > 0:
            reading.said[:] = [s for s in reading.said if s is not ratio]
            reading.said.append(Said("herb", before.facts["herb"].value / ratio.value, ratio.start, ratio.end))
        return


def _so_much_out(session: Session, reading: Reading) -> None:
    """ "How much berries to end with that": what the course takes is what has to come out of the press."""
    key = next((k for k in SUPPLIES if session.last is not None and k in session.last_keys and session.last.value(k)), "")
    if not key or session.last is None:
        return
    reading.said.append(Said("pressed", float(session.last.value(key) or 0.0), 0, 0))
    if OF_THE_PLANT.search(reading.heard) or not reading.asked or {a.quantity for a in reading.asked} & {"herb", "herb_for_course"}:
        reading.asked[:] = [Asked("herb", 0, len(reading.heard))]


def _the_other(session: Session, target: Batch) -> Batch:
    """ "My new batch is 1:3, dose now?", then "three times a day from a 100 mL bottle": it is the new one that is taken."""
    dose = session.last.value("other_dose") if session.last is not None else None
    if dose is None or not any(base(k) in ("other_dose", "herb_per_dose", "dose") for k in session.last_keys):
        return target
    facts = {k: f for k, f in target.facts.items() if k not in ("other_ratio", "dose", "dose_drops")}
    facts["ratio"] = replace(target.facts["other_ratio"])
    facts["dose"] = Fact(dose, "said", session.turn)
    return target.having(facts=facts, wanted=())
