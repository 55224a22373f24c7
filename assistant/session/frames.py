"""What kind of work a batch is: which relations speak in it, what is assumed until said, what is told unasked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from assistant.matter.oils import OIL, fat
from assistant.matter.sugar import HONEY_DENSITY, HONEY_SUGAR
from assistant.quantities.vocabulary import about, base
from assistant.session.batch import Batch
from assistant.session.proportions import runs_short
from assistant.session.stands import stand_tags, told_of_a_stand

# Of all that was heard, what decides which relations speak; the rest is for the rules.
OWN_TAGS = frozenset(
    """fresh dried neat added_to in_turn each_day own_fresh other_fresh no_room by_weight dry_basis double press_drained press_hand press_cloth
    press_ricer press_screw press_hydraulic""".split()
)
SOBER = frozenset({"oil", "vinegar", "glycerite", "salve", "tea", "syrup", "essential"})
MIXED_BY_WEIGHT = frozenset({"salve", "tea"})
PRESS_METHODS = {
    "press_drained": (5.0, "just drained", "4 to 6"),
    "press_hand": (3.0, "squeezed by hand in a cloth", "2.5 to 4"),
    "press_cloth": (2.5, "twisted in cheesecloth on a stick", "2 to 3"),
    "press_ricer": (2.0, "a potato ricer", "1.5 to 2.5"),
    "press_screw": (1.2, "a screw press", "1.0 to 1.5"),
    "press_hydraulic": (0.8, "a hydraulic press", "0.5 to 1.0"),
}
UNMARGINED_PARTS = frozenset({"root", "rhizome", "bark", "bulb"})


@dataclass(frozen=True, slots=True)
class Assumed:
    """A value taken until the person says otherwise, how it is told, and the phrase that changes it."""

    key: str
    value: float
    text: str
    change_by: str
    plus_minus: float | None = None


def density_of(member: str) -> float:
    """Grams per mL of an ingredient of a melt: as listed, by any word of its name, else as oil."""
    for name in (member, *reversed(member.split())):
        known = fat(name)
        if known is not None:
            return known.density
    return OIL


def relation_tags(batch: Batch) -> frozenset[str]:
    """The tags that decide which relations speak, from the frames and the facts of a batch."""
    tags = set(batch.tags & OWN_TAGS)
    frames, facts = batch.frames, batch.facts
    tags |= frames
    if "fresh" in tags and "dried" in tags:
        tags.discard("dried")
    if frames & {"child_rule", "young", "fried"}:
        tags.add("child")
    if "essential" in frames and batch.members and all(f"eo_drops_of[{m}]" in facts for m in batch.members):
        tags.add("drops_told")
    if not frames & SOBER:
        tags.add("spirit")
    if "vinegar" in frames or "glycerite" in frames:
        tags.add("watery")
    tags |= _recipe_tags(batch)
    if "recipe" in tags or (frames & MIXED_BY_WEIGHT and batch.members):
        tags.add("recipe")
    if "salve" in frames:
        tags |= {"melts"}
        if "tin_size" in facts:
            tags.add("tins_by_volume")
        if "tin_weight" in facts:
            tags.add("tins_by_weight")
    wanted = set(batch.wanted)
    if "mix" in frames or any(k.startswith("strength_of[") for k in facts):
        tags |= {"mix_strength", "shrinks"}
    if "on_days" in facts:
        tags.add("on_off")
    if "dose" in frames and "fresh" in tags and "ratio" in facts and "other_ratio" not in facts and not batch.members:
        tags |= {"own_fresh", "swapped"}
    if "other_ratio" in facts or "other_dose" in wanted:
        tags.add("swapped")
    if "dose" in frames:
        tags.add("takes_blend" if frames & {"mix", "formula"} else "takes_jar" if tags & {"fresh", "dried"} else "takes_poured")
        if (
            {"bottle_size", "course"} <= facts.keys()
            and not facts.keys() & {"dose", "dose_drops", "daily", "herb_per_dose", "herb_per_day"}
            and not batch.members
        ):
            tags.add("bottle_is_course")
        tags.add(
            "from_bottles"
            if {"bottle_size", "bottles"} <= facts.keys() and not batch.members
            else "from_bottle"
            if "bottle_size" in facts and "tea" not in frames
            else "from_blend"
            if frames & {"mix", "formula"}
            else "from_pressed"
        )
    if (
        frames & {"mix", "formula"}
        and "course" in facts
        and facts.keys() & {"dose", "dose_drops", "daily"}
        and not facts.keys() & {"blend", "bottle_size", "bottles"}
        and not {base(k) for k in facts if about(k)} & {"volume", "poured", "have", "once_volume", "herb_a_day_of"}
    ):
        tags.add("fills_course")
        tags.discard("from_blend")
    if "child_rule" in frames:
        tags.add("child_rule")
    if "to_gather" in wanted or "to_gather" in facts:
        tags.add("gathering")
    tags |= stand_tags(facts.keys(), wanted)
    if "gathering" in tags and "dried" in tags and "fresh" not in tags and ("plants_sought" in tags or "water_content" in facts):
        tags.add("gathers_dried")  # what goes in dried is dug or picked fresh
    if facts.keys() & {"jar_size", "jars"}:
        tags.add("jars")
    if ("herb_room" in facts or (wanted & {"contents", "fill"} and "jars" in tags and "herb" in facts)) and "no_room" not in tags:
        tags.add("room")
    if wanted & {"contents", "fill"} and "fill" not in facts:
        tags.add("how_full")
    if "ceiling" in wanted:
        tags.add("ceiling")
    if (
        wanted & {"yield_share", "held_back", "held_per_gram", "in_jar"}
        and not tags & {"fresh", "dried"}
        and not frames & {"oil", "mix", "formula"}
        and not facts.keys() & {"water_content", "in_jar"}
    ):
        tags.add("plain")
    if "to_bottle" not in facts and facts.keys() & {"bottle_size", "bottles"}:
        tags.add(_bottled_from(batch, tags))
    if "bottle_size" in facts and (wanted & {"bottles", "rest", "bottle_cost"} or "cost" in frames or not frames & {"dose", "formula"}):
        tags.add("bottling")
    if "bottle_size" in wanted and "bottles" in facts and "bottle_size" not in facts:
        tags |= {"bottling", _bottled_from(batch, tags)}
    if "cost" in frames:
        tags.add("costed")
        if facts.keys() & {"herb_price", "spirit_price"}:
            tags.add("unit_prices")
            if "stock_used" not in facts:
                tags.add("stock_is_used")
        if "formula" in frames and "bottle_size" not in facts:
            tags.add("one_bottle")
    if "oxymel" in batch.tags or ({"syrup", "vinegar"} <= frames and "honey_volume" in facts):
        tags.add("oxymel")
    if "essential_in_it" in frames and "by_weight" in tags:
        tags.add("essential_by_weight")
    if "tea" in frames and "course" in facts and "batch" not in facts:
        tags.add("for_course")
    if wanted & {"keeping_spirit", "keeping_strength"} or facts.keys() & {"keeping_spirit", "keeping_strength"}:
        tags.add("keeping")
    if "wanted_glycerine" in facts:
        tags.add("topped_up")
    if frames & {"formula", "written"} and "bottle_size" in facts and not tags & {"short"} and ("bottles" in facts or not _amount_is_told(batch)):
        tags.add("fills_bottles")
        tags.discard("bottling")
    if "essential" in frames and "eo_base" not in facts:
        if "bottle_size" in facts:
            tags.add("eo_in_bottle")
        elif facts.keys() >= {"tins", "tin_size"} and not batch.members:
            tags.add("eo_in_tins")
        elif "menstruum" in facts:
            tags.add("eo_in_oil")
        elif "batch" in facts and not batch.members:
            tags.add("eo_in_weight")
        elif "salve" in frames:
            tags.add("eo_in_melt")
    if "drying_ratio" in facts:
        tags.add("by_drying_ratio")
    return frozenset(tags)


def _recipe_tags(batch: Batch) -> set[str]:
    """Tags that the ingredients of a recipe bring: by parts, short of one, so many times, priced, with ratios."""
    facts, frames, members = batch.facts, batch.frames, batch.members
    bases = {base(k) for k in facts if about(k)}
    tags: set[str] = set()
    if "part" in bases:
        tags.add("by_parts")
        if "formula" in frames and not all(f"part[{m}]" in facts for m in members) and facts.keys() & {"blend", "bottle_size"}:
            tags.add("of_the_rest")
    if bases & {"have", "have_weight"}:
        tags.add("short")
    if bases & {"once_volume", "once_weight"}:
        tags.add("times")
        if "once_makes" in facts:
            tags.add("makes")
        if all(f"once_weight[{m}]" in facts for m in members):
            tags |= {"weighs", "all_weighed"}
    if "price_of" in bases:
        tags.add("priced")
        if "formula" in frames:
            tags.add("blend_costed")
        if bases & {"weight", "once_weight"} or frames & MIXED_BY_WEIGHT:
            tags.add("priced_by_weight")
        if not frames & MIXED_BY_WEIGHT:
            tags.add("priced_by_volume")
    if "carries_of" in bases:
        tags.add("lots")
    if "ratio_of" in bases:
        tags.add("ratios")
    if "herb_a_day_of" in bases and all(f"herb_a_day_of[{m}]" in facts for m in members):
        tags |= {"by_grams", "ratios"}
    return tags


def _amount_is_told(batch: Batch) -> bool:
    """Whether a recipe says how much it makes, so that a bottle size fills from it and does not set it."""
    facts = batch.facts
    if facts.keys() & {"blend", "batch", "times"}:
        return True
    return all(facts.keys() & {f"volume[{m}]", f"weight[{m}]", f"poured[{m}]"} for m in batch.members)


def _bottled_from(batch: Batch, _tags: set[str]) -> str:
    if batch.frames & {"mix", "formula", "written"}:
        return "bottles_blend"
    if "syrup" in batch.frames:
        return "bottles_syrup"
    if "pressed" not in batch.facts and ("dilution" in batch.frames or not batch.facts.keys() & {"herb", "ratio", "in_jar"}):
        return "bottles_made"
    return "bottles_pressed"


def assumptions(batch: Batch, water_range: tuple[str, float, float] | None, at_risk: bool, part: str) -> list[Assumed]:
    """What is taken for granted for this batch, in the order it is tried. `water_range` is (plant, low, high) in percent."""
    taken: list[Assumed] = []
    frames, facts, tags, wanted = batch.frames, batch.facts, relation_tags(batch), set(batch.wanted)

    def take(key: str, value: float, text: str, change_by: str) -> None:
        if key not in facts:
            taken.append(Assumed(key, value, text, change_by))

    take("trim_loss", 0.0, "no trimming loss counted", "“20 % goes off as stalks”")
    if "gathering" in tags:
        if at_risk or part in UNMARGINED_PARTS:
            take("margin", 0.0, "no margin: roots, barks, bulbs and scarce plants are not gathered to spare", "“margin 10 %”")
        else:
            take("margin", 15.0, "15 % margin (common practice)", "“drop the margin” or “margin 20 %”")
    if "fresh" in tags and water_range is not None and not {"herb", "dried"} <= facts.keys():
        name, low, high = water_range
        middle = (low + high) / 2
        text = f"{name} taken at {middle:g} % water (it runs {low:g} to {high:g} %)"
        if "water_content" not in facts:
            taken.append(Assumed("water_content", middle, text, "“it is 78 % water”", (high - low) / 2))
    if "gathers_dried" in tags and water_range is not None and "water_content" not in facts:
        name, low, high = water_range
        taken.append(
            Assumed(
                "water_content",
                (low + high) / 2,
                f"{name} taken at {(low + high) / 2:g} % water fresh (it runs {low:g} to {high:g} %)",
                "“it is 78 % water”",
                (high - low) / 2,
            )
        )
    if tags & {"fresh", "gathers_dried"}:
        take("dried_water", 10.0, "dried herb keeps 10 % water", "“dried to 8 %”")
    pressing = {"pressed", "held_back", "held_per_gram", "racked", "bottles", "rest"}
    if (wanted & pressing or "pressed" in facts or tags & PRESS_METHODS.keys()) and "yield_share" not in facts and "oil" not in frames:
        method = next((m for m in PRESS_METHODS if m in tags), "press_hand")
        value, words, span = PRESS_METHODS[method]
        if not {"pressed", "in_jar"} <= facts.keys():
            take("held_per_gram", value, f"the marc holds {value:g} mL per g of dry matter ({words}; {span})", "“the press leaves 1.2 mL a gram”")
    if "percolation" in frames:
        take("held_per_gram", 1.5, "the packed powder holds 1.5 mL per g (1 to 2 by herb and grind)", "“the powder holds 2 mL a gram”")
        if frames & {"percolation"} and (facts.get("ratio") is not None and facts["ratio"].value == 1.0):
            take("set_aside_share", 85.0, "the first 85 % set aside (as the old fluidextracts had it)", "“set the first 80 % aside”")
    if "racked" in wanted or tags & {"bottles_pressed"}:
        take("rack_loss", 0.0, "nothing lost in settling", "“I lose 3 % in settling”")
    if tags & {"own_fresh", "other_fresh"}:
        name, low, high = water_range or ("the fresh plant", 75.0, 85.0)
        for key, tag in (("water_content", "own_fresh"), ("other_water", "other_fresh")):
            if tag in tags:
                take(key, (low + high) / 2, f"{name} taken at {(low + high) / 2:g} % water", "“it is 78 % water”")
    if frames & {"dose", "essential"} or any(k in facts for k in ("dose_drops", "eo", "eo_drops")) or wanted & {"eo_drops", "dose_drops"}:
        take("drops_per_ml", 20.0, "20 drops to the mL", "“my dropper makes 34 drops a mL”")
    if "spirit_in_hand" in facts and "stock_strength" in facts and not facts.keys() & {"strength", "finished_strength"} and "spirit" in tags:
        stock = facts["stock_strength"].value
        take("strength", stock, f"poured as it is, at {stock:g} %", "“at 60 %”")
    if "syrup" in frames:
        sweet = facts.keys() & {"honey", "honey_volume"} or wanted & {"honey", "honey_volume", "honey_more"}
        take("honey_sugar", HONEY_SUGAR, "honey counts as 82 % sugar" if sweet else "", "“my honey is 80 % sugar”")
        take("honey_density", HONEY_DENSITY, "honey weighs 1.42 g per mL" if sweet else "", "“my honey weighs 1.40 g per mL”")
        for absent in ("honey", "sugar"):
            if absent not in facts and absent not in wanted and not (absent == "honey" and "honey_volume" in facts):
                if absent == "honey" and ("honey_times" in facts or "honey_more" in wanted):
                    continue
                if not (absent == "sugar" and ("sugar_times" in facts or ("brix" in facts and not wanted & {"honey", "honey_more"}))):
                    taken.append(Assumed(absent, 0.0, "", ""))
        if "oxymel" in tags and not facts.keys() & {"decoction", "boiled_to"}:
            taken.append(Assumed("decoction", 0.0, "", ""))
        if (
            "oxymel" not in tags
            and not facts.keys() & {"liquid", "decoction", "boiled_to", "boiled_from"}
            and facts.keys() & {"honey", "honey_volume", "sugar"}
            and "brix" not in facts
        ):
            taken.append(Assumed("liquid", 0.0, "", ""))
    if "oil" in frames and "salve" not in frames:
        take("menstruum_density", OIL, "oil weighs 0.915 g per mL", "“the oil weighs 0.92 g per mL”")
    if "melts" in tags:
        for member in batch.members:
            density = density_of(member)
            take(f"density_of[{member}]", density, f"{member} weighs {density:g} g per mL", f"“the {member} weighs 0.92 g per mL”")
    if "eo_in_weight" in tags:
        take("salve_density", 0.92, "a salve weighs about 0.92 g per mL", "“the salve weighs 0.93 g per mL”")
    if (
        "syrup" in frames
        and facts.keys() & {"honey_times", "sugar_times"}
        and not facts.keys() & {"liquid", "decoction", "boiled_to", "boiled_from", "honey", "sugar", "honey_volume", "syrup", "syrup_weight"}
    ):
        take("liquid", 100.0, "reckoned on 100 g of liquid", "“400 mL decoction”")
    if "glycerite" in frames:
        if "glycerine_volume" in facts and not facts.keys() & {"menstruum", "glycerine", "ratio", "finished_glycerine"}:
            take("water", 0.0, "no water beside the glycerine", "“glycerine and water, 600 mL poured”")
        take("glycerine_stock", 100.0, "glycerine taken as 100 % (much is sold at 86.5 %)", "“my glycerine is 86.5 %”")
    if "tea" in frames:
        take("cup_size", 236.588, "a US cup, 237 mL", "“cups of 250 mL”")
        take("spoons_per_cup", 1.0, "one spoonful to a cup", "“two spoons per cup”")
    if "fills_bottles" in tags:
        take("bottles", 1.0, "", "")
    if "short" in tags and (first := runs_short(facts, batch.members)) is not None:
        member, there, weighed = first
        take(f"{'runs_out_weight' if weighed else 'runs_out'}[{member}]", there, f"{member} runs out first and sets the batch", "")
    if "formula" in frames and "blend_strength" in wanted and "by_parts" in tags and not facts.keys() & {"blend", "bottle_size"}:
        take("blend", 100.0, "reckoned on 100 mL", "“250 mL in all”")
    if "of_the_rest" in tags:
        for member in batch.members:
            for absent in ("poured", "share", "part"):
                take(f"{absent}[{member}]", 0.0, "", "")
    if "unit_prices" in tags:
        taken.extend(Assumed(absent, 0.0, "", "") for absent in ("herb_price", "spirit_price") if absent not in facts)
    if tags & {"costed", "priced"} and "labour" not in facts:
        taken.append(Assumed("labour", 0.0, "", ""))
        taken.append(Assumed("labour_each", 0.0, "", ""))
    if "room" in tags:
        per_gram = 1.0 if "fresh" in tags else 0.7
        take("herb_room", per_gram, f"soaked herb takes up {per_gram:g} mL a gram", "“the herb takes 1.2 mL a gram”")
    if "jars" in tags and "jars" not in wanted and "jar_size" in facts and ("how_full" in tags or not facts.keys() & {"menstruum", "herb"}):
        take("jars", 1.0, "", "")
    if "jars" in tags and "how_full" not in tags:
        take("fill", 100.0, "jars filled to the brim; fresh plant floats and swells, so leave room", "“fill to 90 %”")
    if "cost" in frames:
        take("empty_bottle", 0.0, "no price for the empty bottle", "“the bottle costs 0.90”")
    if (
        wanted & {"ratio", "menstruum"}
        and "finished_strength" in facts
        and "fresh" in tags
        and not facts.keys() & {"strength", "ratio", "menstruum"}
        and "stock_strength" in facts
    ):
        take("strength", facts["stock_strength"].value, "the stock poured as it is", "“at 60 %”")
    if (
        wanted & {"ratio", "finished_strength", "strength", "ceiling"}
        and "fresh" in tags
        and not facts.keys() & {"herb", "menstruum", "pressed", "in_jar", "stock", "dried", "to_gather", "gross", "picked", "planned_herb", "spirit_in_hand"}
    ):
        take("herb", 100.0, "worked out on 100 g of plant", "“it is 112 g”")
    return taken


# What is told unasked, in order, where it was found. The first of them that is known makes the first line.
TOLD = {
    "child_rule": ("clark_dose", "child_dose", "dose_drops", "alcohol_per_dose"),
    "young": ("young_dose", "child_dose", "dose_drops", "alcohol_per_dose"),
    "fried": ("fried_dose", "child_dose", "dose_drops", "alcohol_per_dose"),
    "salve": ("weight[*]", "batch", "tins", "rest"),
    "tea": ("weight[*]", "batch", "cups", "days", "have_left_weight[*]"),
    "formula": ("volume[*]", "needed_dose", "blend", "blend_strength", "days", "bottle_cost", "herb_a_day_of[*]", "have_left[*]"),
    "written": ("weight[*]", "volume[*]", "blend", "batch"),
    "bought": ("materials", "bottle_cost", "batch_cost"),
    "mix": ("volume[*]", "blend_strength", "blend", "herb_per_ml", "added"),
    "essential_in_it": ("eo_weight",),
    "essential": ("eo", "eo_drops", "drops_per_tin", "eo_drops_of[*]"),
    "syrup": ("sugar_more", "honey_more", "sugar", "honey", "brix", "syrup_weight", "boiled_off"),
    "vinegar": ("menstruum", "finished_acidity", "herb", "ratio"),
    "glycerite": ("top_up", "menstruum", "glycerine_volume", "water", "finished_glycerine", "herb", "ratio"),
    "oil": ("menstruum", "herb", "ratio", "menstruum_weight", "pressed"),
    "cost": ("bottles", "bottle_cost", "selling_price", "rest"),
    "dose": (
        "child_dose",
        "days",
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
    "allowed_weight": ("plants_allowed",),
    "rest": ("bottles",),
    "tins": ("rest",),
    "herb_served": ("stock", "spirit_short", "herb_left"),
    "spirit_short": ("stock", "herb_served"),
    "strength": ("stock", "water"),
    "dose": ("dose_drops",),
    "eo": ("eo_drops",),
    "cups": (),
    "days": ("daily",),
    "finished_strength": ("in_jar",),
    "herb": (),
    "blend_strength": ("blend",),
    "child_dose": ("alcohol_per_dose",),
    "supply": ("volume[*]",),
}


def told_keys(batch: Batch) -> list[str]:
    """Keys to tell unasked, members spelt out."""
    order: list[str] = []
    frames: Sequence[str] = [f for f in ORDER_OF_FRAMES if f in batch.frames]
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
    if "pressed" in batch.facts:
        order += ["yield_share", "held_per_gram", "held_back"]
    if "rack_loss" in batch.facts:
        order += ["racked"]
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


def member_keys(batch: Batch, name: str) -> list[str]:
    return [f"{name}[{m}]" for m in batch.members]


def is_of(member: str, key: str) -> bool:
    return about(key) == member
