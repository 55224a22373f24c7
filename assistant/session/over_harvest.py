"""More plant came home than was planned, or less: what is asked for is the difference.

"How much more spirit is that", "extra menstruum?": to the plan's pour. "The extra dried": what the surplus dries to. "How much more to pick": what the
basket lacks.
"""

from __future__ import annotations

import re

from assistant.dataclass import replace
from assistant.listening.statements import Asked, Loose, Reading, Said
from assistant.patterns import looked_for
from assistant.session.batch import Batch
from assistant.session.work import Work, take_as

MORE = looked_for(r"\b(?:how much|what|any)?\s*\b(?:more|extra|additional|further|on top|top up|less)\b", re.IGNORECASE)
ASKS = frozenset({"menstruum", "spirit_short", "stock", "planned_menstruum", "spare"})
LACKING = frozenset({"to_gather", "herb", "menstruum", "spirit_short"})  # what the same words ask for where nothing is planned
SHELF = frozenset({"spirit_in_hand", "stock"})
MORE_ALONE = looked_for(r"\bhow much (?:more|extra)\b(?: is (?:that|it))?\W*$|\bwhat'?s the (?:extra|difference)\W*$", re.IGNORECASE)

STILL_LACKING = looked_for(
    r"\bhow (?:much|many)\b[^.?;]*\b(?:more|short|missing|lacking|still|left)\b|\bhow (?:far )?short\b"
    r"|\bwhat(?:'s| is|s| am i|'m i)?\b[^.?;]*\b(?:left to|still to|missing|lacking|short)\b"
    r"|\b(?:still|more|left) to (?:pick|gather|get|find|cut|dig|go|harvest)\b",
    re.IGNORECASE,
)
LIQUID = looked_for(
    r"\b(?:menstruum|spirit|vodka|alcohol|brandy|water|oil|pour|liquid|stock)\b[^.;?]*\?"
    r"|\bhow (?:much|many) (?:more )?(?:mls?|spirit|vodka|menstruum)\b",
    re.IGNORECASE,
)


def still_to_pick(said: list[Said], work: Work) -> None:
    """ "Planned 500 g, picked 320, how much more to pick?": what the basket lacks of the plan. Changes the reading's asked."""
    reading, told = work.reading, {s.quantity: s.value for s in said}
    plan = told.get("planned_herb", work.facts["planned_herb"].value if "planned_herb" in work.facts else None)
    herb = told.get("herb", work.facts["herb"].value if "herb" in work.facts else None)
    if plan is None or herb is None or herb >= plan or work.members or "trim_loss" in {*told, *work.facts}:
        return
    hit = STILL_LACKING.search(reading.heard)
    if hit is None or LIQUID.search(reading.heard) or any(a.quantity not in LACKING for a in reading.asked):
        return
    reading.asked[:] = [Asked("plant_to_come", hit.start(), hit.end())]


def more_than_planned(said: list[Said], work: Work) -> None:
    """The question for more becomes one for what the plant in hand takes beyond the plan. Changes the reading's asked."""
    reading, told = work.reading, {s.quantity for s in said}
    have = told | work.facts.keys()
    short = any(a.quantity == "plant_to_come" for a in reading.asked)
    if short or "planned_herb" not in have or "herb" not in have or SHELF & have or work.members or not MORE.search(reading.heard):
        return
    asked = reading.asked
    places = [i for i, a in enumerate(asked) if a.quantity in ASKS and not a.member]
    if places:
        asked[places[0]] = replace(asked[places[0]], quantity="more_menstruum")
        for i in reversed(places[1:]):
            del asked[i]
    elif not asked and (hit := MORE_ALONE.search(reading.heard)) is not None:
        asked.append(Asked("more_menstruum", hit.start(), hit.end()))


SURPLUS = (
    r"\b(?:e?xtras?|extas?|etxra|surplus|surplous|rest|excess|remainder|left ?overs?|what(?:['’]?s| is) (?:over|left(?: over)?|spare)|spare|bit over"
    r"|(?:don['’]?t|didn['’]?t|do not) need)\b"
)
DRIED = r"\b(?:dry|dried|dries|drying|dryed|drid|rack|racks|hang|hung)\b"
DRIES = r"\b(?:dry|dries|drying|racks?|hang|hung)\b"
OF_A_POUR = r"(?! (?:menstruum|menst|spirit|vodka|brandy|water|liquid|oil)\b)"  # "the extra menstruum" is no plant
SURPLUS_DRIED = looked_for(SURPLUS + OF_A_POUR + r"[^?]{0,60}?" + DRIED + "|" + DRIES + r"[^?.;]{0,40}?" + SURPLUS + OF_A_POUR, re.IGNORECASE)
ASKS_FOR_IT = looked_for(r"\?|\b(?:what|much|how heavy|weigh)\b", re.IGNORECASE)
SURPLUS_ALONE = looked_for(
    r"\b(?:how )?much (?:more|extra|over|surplus|too much)\b(?! (?:spirit|menstruum|vodka|water|to)\b)"
    r"|\bwhat['’]?s (?:the |my )?(?:extra|surplus|over)\b",
    re.IGNORECASE,
)
NEEDED = looked_for(r"\b(?:need|needs|needed|want|wants|wanted|planned|recipe|after|only)\b[^\d.;?]{0,30}$", re.IGNORECASE)
CAME = looked_for(r"\b(?:got|cut|picked|brought|have|has|had|came|come|ended up with|gathered|dug|there'?s|it'?s)\b[^\d.;?]{0,30}$", re.IGNORECASE)
CAME_HOME = ("herb", "picked", "gross")
OTHER_WORK = frozenset({"spirit_in_hand", "stock", "stock_strength", "herb_served", "pressed"})
OF_THE_PLANT = frozenset({"herb", "picked", "gross", "dried", "to_gather", "pressed", "planned_herb", "menstruum_weight"})
IT_DRIED = looked_for(r"\b(?:that|it|those|them|they)\b[^?]{0,20}\b(?:dried|dry|dries)\b", re.IGNORECASE)
NUMBER = looked_for(r"\d+(?:\.\d+)?")
NEAR = 0.005  # of the surplus: "the 600 left over" points at it


def surplus_dried(reading: Reading, batch: Batch | None) -> None:
    """ "Needed 1500 g, they cut 2100, if I dry the extra what does it weigh": the plant beyond the plan. Changes the reading."""
    facts = batch.facts if batch is not None else {}
    if reading.ingredients or reading.liquids or (batch is not None and batch.members) or (facts.keys() | {s.quantity for s in reading.said}) & OTHER_WORK:
        return
    spoken_of = batch is not None and "herb_left" in batch.wanted and not reading.asked
    dries = (spoken_of and IT_DRIED.search(reading.heard)) or (SURPLUS_DRIED.search(reading.heard) and ASKS_FOR_IT.search(reading.heard))
    poured = (facts.keys() | {s.quantity for s in reading.said}) & {"ratio", "menstruum"}
    if not dries and (poured or not SURPLUS_ALONE.search(reading.heard)):
        return
    _what_was_needed_and_came(reading)
    told = {s.quantity: s.value for s in reading.said}
    known = {k: f.value for k, f in facts.items()} | told
    came = next((known[q] for q in CAME_HOME if q in known), None)
    if "planned_herb" not in known or came is None or not came > known["planned_herb"]:
        return
    surplus = came - known["planned_herb"]
    for figure in [f for f in reading.loose if f.kind in ("#", "g", "oz") and abs(f.value - surplus) <= NEAR * surplus]:
        reading.only_points(figure)
    reading.asked[:] = [Asked("left_dried" if dries else "herb_left", 0, len(reading.heard))]
    reading.let_go("whatif")
    if not dries:
        return
    reading.in_state("fresh")


def _what_was_needed_and_came(reading: Reading) -> None:
    """Two weights, one behind a word of need and a larger one behind a word of what came, are the plan and the plant there."""
    if any(s.quantity == "planned_herb" for s in reading.said):
        return
    weights: list[Said | Loose] = [s for s in reading.said if s.quantity in OF_THE_PLANT] + [f for f in reading.loose if f.kind in ("#", "g", "oz")]
    weights.sort(key=lambda f: f.start)
    needed = [f for f in weights if NEEDED.search(reading.heard[: f.start])]
    came = [f for f in weights if CAME.search(reading.heard[: f.start]) and f not in needed]
    if len(needed) != 1 or len(came) != 1:
        return
    there = came[0].value
    number = NUMBER.match(reading.heard[needed[0].start :])
    if isinstance(came[0], Loose) and came[0].kind == "#" and there < needed[0].value and number is not None:
        there *= needed[0].value / float(number.group())  # "2 kg, and I have 3"
    if there > needed[0].value:
        take_as(reading, needed[0], "planned_herb")
        take_as(reading, came[0], "herb", there)
