"""What is asked of a plan before anything was picked, and a sample dried to nothing: each told short, each with a meaning of its own."""

from __future__ import annotations

import re

from assistant.dataclass import replace
from assistant.listening.statements import Asked, Loose, Reading, Said
from assistant.patterns import looked_for
from assistant.session.batch import Batch
from assistant.session.work import take_as

OF_THE_PLAN = frozenset({"menstruum", "stock", "water", "in_jar", "finished_strength", "strength"})
WEIGHTS = frozenset({"herb", "picked", "dried", "gross", "to_gather"})
SPIRIT = frozenset({"strength", "stock_strength", "finished_strength"})
BONE_DRY = looked_for(
    r"\b(?:bone[- ]?dry|stopp?ed losing|stops losing|no more (?:weight|loss)|(?:crisp|oven|brittle|completely|totally|fully|dead|cracker) ?-?dr(?:y|ied)"
    r"|till (?:it|nothing) (?:stopped|lost)|constant weight|all the water(?: is| was)? (?:out|off|gone)|dry matter)\b",
    re.IGNORECASE,
)
WATER_ASKED = looked_for(r"\b(?:water|moisture|wet)\b", re.IGNORECASE)
OF_THE_PRESS = frozenset({"pressed", "bottles", "held_back", "racked"})
FILL = looked_for(
    r"\b(?:fill|make|mix|made|filled|do|put)\b[\w\s]{0,12}\b(?:that|it|this|them|up|bottle)\b|\b(?:in|into|for) (?:that|it|this)\b", re.IGNORECASE
)
FILLING = looked_for(r"\b(?:is|are|'s|of|at|only|just|about|the|some|a)\b ?", re.IGNORECASE)
HAVE = looked_for(r"\b(?:have|got|i've|ive|there's|theres|with|from|out of)\s*$", re.IGNORECASE)
A_UNIT = looked_for(r"^\s*(?:m?ls?|g|grams?|bottles?|jars?|days?|weeks?)\b", re.IGNORECASE)
LEAST, MOST = 20.0, 100.0  # percent
STRONGEST = looked_for(r"\b(?:strongest|best|most|highest)\b(?: \w+){0,3} $", re.IGNORECASE)


def plan_alone(reading: Reading, batch: Batch | None) -> None:
    """Give these sentences their meaning. Changes the reading."""
    _dried_to_nothing(reading)
    if batch is not None:
        _fill_that(reading, batch)
    if reading.ingredients or reading.liquids:
        return
    _nothing_picked(reading, batch)
    if batch is not None:
        _more_of_the_sample(reading, batch)
        _the_spirit_used_up(reading, batch)
    _the_strongest(reading)


def _nothing_picked(reading: Reading, batch: Batch | None) -> None:
    """ "Planned 500 g at 1:2, how much liquid": nothing is in the basket yet, so the plan's weight is what goes in."""
    told = {s.quantity for s in reading.said}
    planned = next((s for s in reading.said if s.quantity == "planned_herb"), None)
    if planned is None or told & WEIGHTS or "menstruum" in told or (batch is not None and batch.facts.keys() & WEIGHTS):
        return
    if "ratio" not in told and (batch is None or "ratio" not in batch.facts):
        return
    asked = {a.quantity for a in reading.asked}
    if not asked or asked - OF_THE_PLAN or any(f.kind in ("g", "oz") for f in reading.loose):
        return
    if asked == {"stock"} and not told & SPIRIT:
        reading.asked[:] = [replace(a, quantity="menstruum") for a in reading.asked]
    reading.said.append(Said("herb", planned.value, planned.start, planned.end, said_unit=planned.said_unit, words=planned.words))


def _dried_to_nothing(reading: Reading) -> None:
    """ "Dried a sample bone dry, 85 g went to 19 g, what % water": what is left is dry matter, what went was water."""
    asked = {a.quantity for a in reading.asked}
    if not BONE_DRY.search(reading.heard) or not WATER_ASKED.search(reading.heard) or asked - {"water_content", "strength", "water"}:
        return
    weights: list[Said | Loose] = [s for s in reading.said if s.quantity in WEIGHTS and not s.member]
    weights += [s for s in reading.said if s.quantity == "strength" and not s.said_unit and "%" not in reading.heard[s.start : s.end + 2]]
    weights += [f for f in reading.loose if f.kind in ("g", "#", "oz")]
    listed = [(value, start, end) for line in reading.ingredients for q, value, start, end in line.figures if q == "weight"]
    if listed and len(listed) == sum(len(line.figures) for line in reading.ingredients):
        weights += [Said("herb", value, start, end) for value, start, end in listed]
    elif listed or reading.ingredients:
        return
    if reading.liquids or len(weights) != 2 or len(reading.said) + len(reading.loose) + len(listed) != 2:
        return
    reading.ingredients.clear()
    fresh, dry = sorted(weights, key=lambda f: -f.value)
    if not 0 < dry.value < fresh.value:
        return
    reading.said.clear()
    reading.loose.clear()
    for quantity, figure in (("herb", fresh), ("dried", dry)):
        reading.said.append(Said(quantity, figure.value, figure.start, figure.end, said_unit=figure.said_unit, words=figure.words))
    reading.said.append(Said("dried_water", 0.0, 0, 0))
    reading.let_go("set", "claim")
    reading.tags = reading.tags - {"dried"} | {"fresh"}
    reading.asked[:] = [Asked("water_content", 0, len(reading.heard))]


def _fill_that(reading: Reading, batch: Batch) -> None:
    """ "Fill that with 40 parts of …": the bottle that a course needs, by a formula."""
    if not {"dose", "course"} <= batch.facts.keys() or batch.members or not FILL.search(reading.heard):
        return
    if reading.ingredients and all(q == "part" for line in reading.ingredients for q, *_ in line.figures):
        facts = batch.facts
        often = facts["times_a_day"].value if "times_a_day" in facts else 1.0
        reading.frames.add("formula")
        if not any(s.quantity in ("blend", "bottle_size") for s in reading.said):
            reading.said.append(Said("blend", facts["dose"].value * often * facts["course"].value, 0, 0))


def _the_spirit_used_up(reading: Reading, batch: Batch) -> None:
    """ "Through the screw press, how many 50 ml bottles", of a spirit that was to be used up as it is: it is what was poured."""
    facts, told = batch.facts, {s.quantity for s in reading.said}
    spirit, strength = facts.get("spirit_in_hand"), facts.get("stock_strength")
    pressed = any(t.startswith("press_") for t in reading.tags) or bool({a.quantity for a in reading.asked} & OF_THE_PRESS)
    if spirit is None or strength is None or not pressed or "ratio" not in facts.keys() | told:
        return
    if facts.keys() & {"herb", "planned_herb", "strength", "finished_strength"} or told & {"herb", "strength", "stock_strength", "menstruum", "spirit_in_hand"}:
        return
    reading.said += [Said("menstruum", spirit.value, 0, 0), Said("strength", strength.value, 0, 0)]
    reading.freed |= {"spirit_in_hand", "stock_strength"}
    if not {a.quantity for a in reading.asked} & OF_THE_PRESS:
        reading.asked[:] = [Asked("bottles" if "bottle_size" in told else "pressed", 0, len(reading.heard))]


HOW_DRY = looked_for(
    r"\b(?:how much|what|how many)\b[^.;?]*\b(?:dry|dried|dries)\b|\b(?:dry|dried|dries)\b[^.;?]*\b(?:how much|what|to)\W*$", re.IGNORECASE
)


def _more_of_the_sample(reading: Reading, batch: Batch) -> None:
    """ "If I put 600 g of that in": as wet as the sample that was dried. "How much dry would 5 kg give": it dries as that did."""
    facts, told = batch.facts, {s.quantity for s in reading.said}
    herb, dried = facts.get("herb"), facts.get("dried")
    of_another = told == {"herb"} and not reading.loose and not facts.keys() & {"ratio", "menstruum"} and HOW_DRY.search(reading.heard)
    if herb is not None and dried is not None and of_another and {a.quantity for a in reading.asked} <= {"herb_left", "left_dried", "dried"}:
        reading.asked[:] = [Asked("dried", 0, len(reading.heard))]
        reading.said.append(Said("drying_ratio", herb.value / dried.value, 0, 0))
        reading.freed |= {"dried", "dried_water", "water_content"}
        return
    if herb is None or dried is None or "dried_water" not in facts or "herb" not in told or not told & {"ratio", "menstruum", "strength"}:
        return
    if told & {"dried", "water_content"} or "dried" in reading.tags or (reading.named and batch.name and reading.named[0].name != batch.name):
        return
    water = 100 - dried.value * (100 - facts["dried_water"].value) / herb.value
    reading.said.append(Said("water_content", water, 0, 0))
    reading.freed |= {"dried", "dried_water"}


FARTHEST = 160  # characters ahead of a figure that tell what it is


def _the_strongest(reading: Reading) -> None:
    """ "My strongest is 95", "I have 96, how much of it and how much water": the spirit there is."""
    told = {s.quantity: s.value for s in reading.said}
    if "stock_strength" in told:
        return
    least = max((told[q] for q in ("strength", "finished_strength") if q in told), default=LEAST)
    asked = {a.quantity for a in reading.asked} & {"stock", "water"}
    bare: list[Said | Loose] = [f for f in reading.loose if f.kind in ("#", "%")]
    bare += [s for s in reading.said if s.quantity == "pressed" and not s.said_unit and "ml" not in reading.heard[s.end : s.end + 4].lower()]
    for figure in [f for f in bare if least <= f.value <= MOST]:
        before = FILLING.sub("", reading.heard[max(0, figure.start - FARTHEST) : figure.start])
        held = asked and least > LEAST and HAVE.search(before) is not None and not A_UNIT.match(reading.heard[figure.end :])
        if STRONGEST.search(before) or held:
            take_as(reading, figure, "stock_strength")
            return
