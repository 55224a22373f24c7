"""What a stand of plants brings to a batch: which relations speak, and what is told of it."""

from __future__ import annotations

from collections.abc import Collection, Set

from assistant.dataclass import replace
from assistant.listening.statements import Said
from assistant.session.work import Work

STAND = frozenset("stand_plants plants_taken per_plant plants_left share_allowed stand_share plants_allowed allowed_weight stands_needed".split())
MANY_PLANTS = 3.0  # times what one gives: a weight of so much is no correction of it
# What by itself says how much plant a batch takes.
SIZES = frozenset({"herb", "to_gather", "menstruum", "in_jar", "pressed", "dried", "picked", "planned_herb", "bottles", "stock"})
TOLD_FIRST = ("plants_taken", "stand_share", "plants_left", "plants_allowed", "allowed_weight", "stand_plants", "per_plant", "gathered_weight")


def stand_tags(facts: Collection[str], wanted: Set[str]) -> set[str]:
    """The tags a stand sets, by what was said of it: plants are counted from the batch, or the batch from the plants."""
    given = set(facts)
    if not (given | wanted) & STAND:
        return set()
    tags = {"stand"}
    sized = bool(given & SIZES)
    counted = "plants_taken" in given or {"stand_plants", "plants_left"} <= given
    if {"stand_share", "stand_plants"} <= given and not counted:
        tags.add("share_said")
        counted = True
    if "share_allowed" in given:
        tags.add("share_allowed")
        if "stand_plants" not in given and (counted or sized):
            tags.add("stand_sought")
        elif not counted and not sized:
            tags.add("as_allowed")
            counted = True
    if "stands_needed" in given | wanted:
        tags.add("stands_sought")
    if "per_plant" in given:
        if not counted and sized:
            tags |= {"plants_sought", "gathering"}
        elif counted and not sized:
            tags.add("from_stand")
    elif counted and "herb" in given:
        tags.add("weighed_stand")
    return tags


def plant_wanted(said: list[Said], work: Work) -> None:
    """ "I want 500 g" of a stand whose plants were weighed: so much plant in all, and no other weight of each. Changes the list in place."""
    per_plant = work.facts.get("per_plant")
    if per_plant is None or "stand" not in work.batch.frames:
        return
    for i, s in enumerate(said):
        if s.quantity == "herb" and s.weak and not s.member and s.value > MANY_PLANTS * per_plant.value:
            said[i] = replace(s, weak=False)


def told_of_a_stand(facts: Collection[str]) -> list[str]:
    """Keys of a stand that are told, in order."""
    if not set(facts) & STAND:
        return []
    weighed = "plants_taken" in facts and set(facts) & SIZES  # else the weight is told as what is gathered
    hidden = set() if weighed else {"gathered_weight"}
    if "stand_plants" in facts or "ratio" in facts:
        hidden.add("per_plant")
    if "per_plant" not in facts:
        hidden.add("gathered_weight")
    return [key for key in TOLD_FIRST if key not in facts and key not in hidden]
