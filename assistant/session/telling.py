"""What is told unasked in each kind of work, and what comes with what was asked."""

from __future__ import annotations

from collections.abc import Sequence

from assistant.session.batch import Batch
from assistant.session.stands import told_of_a_stand
from assistant.session.year_work import ORDER, WORK
from assistant.session.year_work import TOLD as TOLD_OF_THE_YEAR

# What is told unasked, in order, where it was found. The first of them that is known makes the first line.
TOLD = {
    "child_rule": ("clark_dose", "child_dose", "dose_drops", "alcohol_per_dose"),
    "young": ("young_dose", "child_dose", "dose_drops", "alcohol_per_dose"),
    "fried": ("fried_dose", "child_dose", "dose_drops", "alcohol_per_dose"),
    "child_dose": ("child_dose", "dose_drops"),
    "salve": ("weight[*]", "batch", "tins", "rest"),
    "tea": ("weight[*]", "batch", "cups", "days", "bags", "have_left_weight[*]", "have_short_weight[*]"),
    "formula": ("volume[*]", "needed_dose", "blend", "blend_strength", "days", "bottle_cost", "herb_a_day_of[*]", "have_left[*]", "have_short[*]"),
    "written": ("weight[*]", "volume[*]", "blend", "batch"),
    "bought": ("materials", "bottle_cost", "batch_cost"),
    "mix": ("volume[*]", "blend_strength", "blend", "blend_ratio", "herb_per_ml", "added"),
    "essential_in_it": ("eo_weight",),
    "essential": ("eo", "eo_drops", "drops_per_tin", "eo_drops_of[*]"),
    "syrup": (
        "sugar_more",
        "honey_more",
        "keeping_spirit",
        "syrup_alcohol",
        "fortified",
        "sugar",
        "honey",
        "brix",
        "syrup_weight",
        "boiled_off",
    ),
    "decoction": ("boiled_to", "cups", "boiled_off", "herb_for_days", "water_for_days"),
    "vinegar": ("vinegar_stock", "water", "menstruum", "finished_acidity", "herb", "ratio"),
    "glycerite": ("top_up", "menstruum", "glycerine", "glycerine_volume", "water", "finished_glycerine", "herb", "ratio"),
    "oil": ("wetting", "menstruum", "herb", "ratio", "menstruum_weight", "pressed"),
    "cost": ("bottles", "bottle_cost", "selling_price", "rest"),
    "dose": (
        "child_dose",
        "days",
        "bottles_for_all",
        "supply_for_all",
        "supply_over",
        "supply",
        "bottles_needed",
        "dose",
        "other_dose",
        "other_dose_nominal",
        "daily",
        "herb_per_day",
        "dried_per_day",
        "alcohol_per_dose",
        "alcohol_per_day",
    ),
    "percolation": ("menstruum", "percolate", "herb", "ratio", "drip_hours", "drip_rate", "set_aside", "boil_down_to", "stock", "water"),
    "dilution": ("stock", "water", "menstruum", "strength", "blend_strength"),
    "tincture": ("menstruum", "herb", "ratio", "strength", "stock", "water", "finished_strength", "in_jar", "pressed"),
}
CHILD_DOSES = {"child_rule": "clark_dose", "young": "young_dose", "fried": "fried_dose"}
ORDER_OF_FRAMES = (
    "child_rule",
    "young",
    "fried",
    "child_dose",
    "cost",
    "bought",
    "salve",
    "tea",
    "formula",
    "written",
    "mix",
    "essential",
    "essential_in_it",
    "syrup",
    "vinegar",
    "glycerite",
    "percolation",
    "decoction",
    "oil",
    "dose",
    "dilution",
)

# Asking for one of these brings its companions: spirit without its water is half an answer.
COMPANIONS = {
    "menstruum": ("stock", "water"),
    "stock": ("water", "menstruum"),
    "water": ("stock", "menstruum"),
    "bottles": ("rest",),
    "plants_taken": ("stand_share", "plants_left"),
    "stand_share": ("plants_left",),
    "plants_allowed": ("allowed_weight",),
    "plants_over": ("plants_allowed",),
    "in_each": ("herb_in_each",),
    "stock_bottles": ("stock", "water"),
    "allowed_weight": ("plants_allowed",),
    "rest": ("bottles",),
    "bags": ("over_weight",),
    "tins": ("rest",),
    "herb_served": ("stock", "spirit_short", "herb_left"),
    "spirit_short": ("stock", "herb_served"),
    "strength": ("stock", "water"),
    "vinegar_stock": ("water",),
    "set_aside": ("boil_down_to",),
    "keeping_spirit": ("fortified",),
    "syrup_alcohol": ("fortified",),
    "dose": ("dose_drops",),
    "eo": ("eo_drops",),
    "cups": (),
    "days": ("daily",),
    "finished_strength": ("in_jar",),
    "herb": (),
    "blend_strength": ("blend",),
    "child_dose": ("alcohol_per_dose",),
    "supply": ("volume[*]", "course"),
    "alcohol_per_day": ("alcohol_ml_per_day",),
    "drying_loss": ("water_lost",),
    "dry_ratio": ("dry_matter",),
}


def told_keys(batch: Batch) -> list[str]:
    """Keys to tell unasked, members spelt out."""
    order: list[str] = []
    if batch.frames & WORK:
        return _told_of_the_year(batch)
    frames: Sequence[str] = [f for f in ORDER_OF_FRAMES if f in batch.frames and (f != "decoction" or "boiled_from" in batch.facts)]
    if not frames or ("herb" in batch.facts and not set(frames) & {"salve", "tea", "formula", "mix", "syrup", "written", "bought"}):
        frames = [*frames, "tincture"]
    for frame in frames:
        for key in TOLD[frame]:
            if key.endswith("[*]"):
                order.extend(f"{key[:-3]}[{m}]" for m in batch.members)
            else:
                order.append(key)
    if "spirit_in_hand" in batch.facts:
        order += ["herb_served", "spirit_short", "herb_left"]
    if "planned_herb" in batch.facts:
        order += ["spare"]
    if "jar_size" in batch.facts:
        order += ["jars", "in_each", "contents", "fill"] if not batch.facts.keys() & {"jars"} else ["contents"]
    if "pressed" in batch.facts and not ("oil" in batch.frames and not batch.facts.keys() & {"herb", "menstruum", "in_jar"}):
        order += ["yield_share", "held_per_gram", "held_back"]
    if batch.facts.keys() & {"rack_loss", "rack_lost"}:
        order += ["racked"]
    if batch.facts.keys() & {"honey_to_vinegar", "honey_times", "sugar_times"} and not batch.facts.keys() & {"liquid", "decoction"}:
        at = order.index("brix") if "brix" in order else 0
        order[at:at] = ["honey_volume", "menstruum", "decoction"] if "honey_to_vinegar" in batch.facts else ["decoction"]
    if "honey_to_vinegar" in batch.facts:
        order += ["in_jar"]
    if "bottle_size" in batch.facts:
        order += ["bottles", "rest"]
    if {"gross", "tare"} & batch.facts.keys():
        order += ["picked", "herb"]
    of_the_stand = told_of_a_stand(batch.facts.keys())
    order = [*of_the_stand, *order] if not batch.facts.keys() & {"ratio", "menstruum", "strength"} else [*order, *of_the_stand]
    if "salve" in batch.frames:
        order = [*order, *(f"volume[{m}]" for m in batch.members if {f"volume[{m}]", f"once_volume[{m}]"} & batch.facts.keys())]
    if len(batch.frames & CHILD_DOSES.keys()) == 1:
        order = [k for k in order if k not in CHILD_DOSES.values()]  # one rule of thumb: its figure is the child's proportion
    return list(dict.fromkeys(order))


def _told_of_the_year(batch: Batch) -> list[str]:
    keys = [key for frame in ORDER if frame in batch.frames for key in TOLD_OF_THE_YEAR[frame]]
    return list(dict.fromkeys(k for key in keys for k in ([f"{key[:-3]}[{m}]" for m in batch.members] if key.endswith("[*]") else [key])))
