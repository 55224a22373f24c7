"""What kind of work a batch is: the tags that decide which relations speak in it."""

from __future__ import annotations

from assistant.quantities.vocabulary import about, base
from assistant.session.batch import Batch
from assistant.session.stands import stand_tags
from assistant.session.year_work import year_tags

# Of all that was heard, what decides which relations speak; the rest is for the rules.
OWN_TAGS = frozenset(
    """over_marc fresh dried neat added_to in_turn each_day own_fresh other_fresh no_room takes_room by_weight dry_basis double press_drained press_hand
    press_cloth press_ricer press_screw press_hydraulic""".split()
)
SOBER = frozenset({"oil", "vinegar", "glycerite", "salve", "tea", "syrup", "essential", "plain_water"})
NOT_BY_THE_DAY = frozenset({"ratio", "herb_per_ml", "menstruum", "dose", "dose_drops", "daily", "per_cup", "cups_a_day"})  # it is a tincture, or cups
MIXED_BY_WEIGHT = frozenset({"salve", "tea"})


# What lets a honey be a syrup, and no plant lying in it.
WATERY = frozenset({"liquid", "decoction", "boiled_to", "boiled_from", "menstruum", "ratio", "honey_to_vinegar", "honey_times", "sugar"})


def relation_tags(batch: Batch) -> frozenset[str]:
    """The tags that decide which relations speak, from the frames and the facts of a batch."""
    tags = set(batch.tags & OWN_TAGS)
    frames, facts = batch.frames, batch.facts
    tags |= frames
    if "fresh" in tags and "dried" in tags:
        tags.discard("dried")
    if frames & {"child_rule", "young", "fried"}:
        tags.add("child")
        if "course" in facts:
            tags.add("dose")
    if facts.keys() & {"dropper_size", "dropperfuls"}:
        tags.add("dropper")
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
    if "tin_weight" in facts and ("bagged" in frames or ("tea" in frames and batch.members)):
        tags |= {"bagged", "bags_of_batch" if "tea" in frames or batch.members else "bags_of_dried" if "fresh" in tags else "bags_of_herb"}
    wanted = set(batch.wanted)
    if "mix" in frames or any(k.startswith("strength_of[") for k in facts):
        tags |= {"mix_strength", "shrinks"}
    if "herb_per_day" in facts and not facts.keys() & {"dose", "dose_drops", "times_a_day"}:
        tags.add("daily_herb")  # nobody said how it is split over the day
    if "on_days" in facts:
        tags.add("on_off")
    if "dose" in frames and "fresh" in tags and "ratio" in facts and "other_ratio" not in facts and not batch.members:
        tags |= {"own_fresh", "swapped"}
    if "other_ratio" in facts or "other_dose" in wanted:
        tags.add("swapped")
    if "other_carries" in facts:
        tags.add("other_known")  # worked out from its own jar
    if "dose" in frames:
        tags.add(
            "takes_blend"
            if frames & {"mix", "formula"}
            else "takes_jar"
            if tags & {"fresh", "dried"} or ("finished_strength" in facts and "strength" not in facts)
            else "takes_poured"
        )
        if (
            {"bottle_size", "course"} <= facts.keys()
            and not facts.keys() & {"dose", "dose_drops", "dropperfuls", "daily", "herb_per_dose", "herb_per_day"}
            and not batch.members
        ):
            tags.add("bottle_is_course")
        tags.add(
            "from_bottles"
            if {"bottle_size", "bottles"} <= facts.keys() and not batch.members
            else "from_bottle"
            if "bottle_size" in facts and "tea" not in frames and not _less_than_planned(batch)
            else "from_blend"
            if frames & {"mix", "formula"}
            else "from_pot"
            if "decoction" in frames and "syrup" not in frames and "pressed" not in facts
            else ("from_fortified" if _has_spirit_in_it(batch) else "from_syrup")
            if "syrup" in frames and (facts.keys() & {"syrup", "brix", "sugar"} or "pressed" not in facts)
            else "from_pressed"
        )
    if (
        frames & {"mix", "formula"}
        and "course" in facts
        and facts.keys() & {"dose", "dose_drops", "daily"}
        and not facts.keys() & {"blend", "bottle_size", "bottles"}
        and not {base(k) for k in facts if about(k)} & {"volume", "poured", "have", "once_volume", "herb_a_day_of"}
    ):
        tags.add("fills_people" if "people" in facts else "fills_course")
        tags.discard("from_blend")
    if "dose" in frames and {"margin", "course"} <= facts.keys():
        tags.add("over")
    if "child_rule" in frames:
        tags.add("child_rule")
    if "adult_weight" in facts:
        tags.add("adult_weighed")
    if "to_gather" in wanted or "to_gather" in facts:
        tags.add("gathering")
    if "carried" in frames and "carriers" in wanted and facts.keys() & {"dried", "trim_loss", "margin"} and "picked" not in facts:
        tags.add("gathering")  # so many bags of fresh plant for so much dried
    tags |= stand_tags(facts.keys(), wanted)
    tags |= year_tags(batch, tags)
    if "gathering" in tags and "dried" in tags and "fresh" not in tags and ("plants_sought" in tags or "water_content" in facts):
        tags.add("gathers_dried")  # what goes in dried is dug or picked fresh
    if facts.keys() & {"jar_size", "jars"}:
        tags.add("jars")
    fits = "contents" in wanted or ("fill" in wanted and "jars" in tags)
    if ("herb_room" in facts or (fits and "herb" in facts) or _jar_for_plant(set(facts), tags)) and "no_room" not in tags:
        tags.add("room")
    if wanted & {"contents", "fill"} and "fill" not in facts:
        tags.add("how_full")
    if "ceiling" in wanted:
        tags.add("ceiling")
    pressing = facts.keys() & {"held_per_gram", "yield_share"} and ("pressed" in facts or "pressed" in wanted)
    if (
        (
            wanted & {"yield_share", "held_back", "held_per_gram", "in_jar"}
            or pressing
            or ("cost" in frames and "bottle_size" in facts and not batch.members)
        )
        and not tags & {"fresh", "dried"}
        and not frames & {"oil", "mix", "formula"}
        and not facts.keys() & {"water_content", "in_jar"}
    ):
        tags.add("plain")
    if "glycerite" in frames and "glycerine_volume" in facts and not facts.keys() & {"herb", "ratio", "water_content", "in_jar"}:
        tags.add("plain")  # glycerine tipped into a decoction: no plant water comes to it
    if "to_bottle" not in facts and facts.keys() & {"bottle_size", "bottles"}:
        tags.add(_bottled_from(batch, tags))
    if "bottle_size" in facts and (wanted & {"bottles", "rest", "bottle_cost"} or "cost" in frames or not frames & {"dose", "formula"}):
        tags.add("bottling")
    if "bottle_size" in wanted and "bottles" in facts and "bottle_size" not in facts:
        tags |= {"bottling", _bottled_from(batch, tags)}
    if "cost" in frames:
        tags.add("costed")
        if "cost_per_ml" in facts and not batch.members:
            tags.add("by_the_litre")
        if facts.keys() & {"herb_price", "spirit_price"}:
            tags.add("unit_prices")
            if not facts.keys() & {"herb", "herb_price", "ratio", "planned_herb", "dried", "bottles", "bottle_size"}:
                tags.add("spirit_alone")  # "what's in a litre of 50, money wise"
            if "stock_used" not in facts:
                tags.add("stock_is_used" if facts.keys() & {"stock_strength", "stock"} else "poured_as_bought")
            elif {"herb", "pressed"} <= facts.keys() and not facts.keys() & {"menstruum", "stock", "strength", "ratio", "water"}:
                tags.add("poured_as_bought")
        if wanted & {"batch_cost", "selling_price"} and not facts.keys() & {"bottles", "bottle_size", "tins", "tin_size", "tin_weight"}:
            tags.add("unbottled")
        if "formula" in frames and "bottle_size" not in facts:
            tags.add("one_bottle")
    if "commission" in facts or "left_each" in wanted:
        tags.add("commission")
        if "bottle_cost" in facts:
            tags.add("cost_said")
    if "oxymel" in batch.tags or ({"syrup", "vinegar"} <= frames and facts.keys() & {"honey_volume", "honey_to_vinegar"}):
        tags.add("oxymel")
        if {"honey_to_vinegar", "ratio"} <= facts.keys():
            tags.add("oxymel_ratio")
        if {"jars", "jar_size"} <= facts.keys() and not facts.keys() & {"menstruum", "honey_volume", "in_jar"}:
            tags.add("fills_jars")
            tags.discard("jars")
    if "mix" in frames and "herb" in facts and not any(k.startswith("ratio_of[") for k in facts):
        tags |= {"one_plant", "whole_ratio"}
    if "essential_in_it" in frames and "by_weight" in tags:
        tags.add("essential_by_weight")
    if "tea" in frames and "course" in facts and "batch" not in facts:
        tags.add("for_course")
    if wanted & {"keeping_spirit", "keeping_strength"} or facts.keys() & {"keeping_spirit", "keeping_strength"}:
        tags.add("keeping")
    if "stock_bottles" in wanted and not facts.keys() & {"strength", "stock_strength", "finished_strength", "stock"}:
        tags.add("as_bought")
    if _has_spirit_in_it(batch):
        tags.add("fortified")
        tags.discard("keeping")
    honeyed = facts.keys() & {"honey", "honey_volume", "honey_to_herb"} or "honey" in wanted
    if honeyed and {"herb", "water_content"} <= facts.keys() and not facts.keys() & WATERY:
        tags.add("in_honey")
    if facts.keys() & {"syrup_had", "brix_had"}:
        tags.add("corrected")
    if "acidity_stock" in facts:
        tags.add("cut")
    if "decoction" in facts and facts.keys() & {"boiled_to", "boiled_share", "boiled_off", "boiled_off_share"}:
        tags.add("strained_off")  # what stays in the marc is no decoction any more
    if "decoction" in frames and "cup_size" in facts:
        tags.add("by_cups")
    if "decoction" in frames and wanted & {"herb_for_days", "water_for_days"}:
        tags.add("cups_counted" if {"cup_size", "cups_a_day"} <= facts.keys() else "pot_a_day")
    if "more_menstruum" in wanted:
        tags.add("over_plan")
    if "plant_to_come" in wanted:
        tags.add("under_plan")
    if "drops_per_tin" in facts:
        tags.add("drops_each")
    if "planned_herb" in facts and wanted & {"herb_left", "left_dried"} and not facts.keys() & {"spirit_in_hand", "stock", "menstruum", "herb_served"}:
        tags.add("surplus")
    if "herb_per_day" in facts and not facts.keys() & NOT_BY_THE_DAY and not frames & {"formula", "decoction"}:
        tags |= {"by_the_day"} | ({"for_the_days"} if "course" in facts else set())
    if "kept_back" in facts:
        tags.add("keeps_some")
    if "bottles_to_fill" in facts:
        tags.add("filling")
    if "wanted_glycerine" in facts:
        tags.add("topped_up")
    if frames & {"formula", "written"} and "bottle_size" in facts and ("bottles" in facts or not ("short" in tags or _amount_is_told(batch))):
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
    if "drying_loss" in facts:
        tags |= {"by_drying_ratio", "by_drying_loss"}
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
    if "planned_share" in bases:
        tags.add("filled_up")
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
        if all(f"ratio_of[{m}]" in facts for m in members):
            tags |= {"all_ratios", "whole_ratio"}
    if "herb_a_day_of" in bases and all(f"herb_a_day_of[{m}]" in facts for m in members):
        tags |= {"by_grams", "ratios"}
    return tags


def _jar_for_plant(known: set[str], tags: set[str]) -> bool:
    """Whether it is asked how much plant a jar takes: the plant takes room in it too."""
    return "takes_room" in tags and {"jar_size", "ratio"} <= known and bool(tags & {"fresh", "dried"}) and not known & {"herb", "menstruum"}


def _less_than_planned(batch: Batch) -> bool:
    """Whether one ingredient turned out short after the bottle was told: what there is of the blend is taken then, not that bottle."""
    short = [f.turn for k, f in batch.facts.items() if base(k) == "have"]
    return bool(short) and "formula" in batch.frames and max(short) > batch.facts["bottle_size"].turn


def _amount_is_told(batch: Batch) -> bool:
    """Whether a recipe says how much it makes, so that a bottle size fills from it and does not set it."""
    facts = batch.facts
    if facts.keys() & {"blend", "batch", "times"}:
        return True
    return all(facts.keys() & {f"volume[{m}]", f"weight[{m}]", f"poured[{m}]"} for m in batch.members)


def _has_spirit_in_it(batch: Batch) -> bool:
    """Whether a syrup has spirit in it, or is to have: not where the spirit that keeps it is looked for."""
    wanted = {base(w) for w in batch.wanted}
    told = "keeping_spirit" in batch.facts and "keeping_strength" not in wanted
    return told or "syrup_alcohol" in batch.facts.keys() | wanted


def _bottled_from(batch: Batch, _tags: set[str]) -> str:
    if batch.frames & {"mix", "formula", "written"}:
        return "bottles_blend"
    if "syrup" in batch.frames:
        return "bottles_fortified" if _has_spirit_in_it(batch) else "bottles_syrup"
    if "pressed" not in batch.facts and "pressed" not in batch.wanted and ("dilution" in batch.frames or not batch.facts.keys() & {"herb", "ratio", "in_jar"}):
        return "bottles_made"
    return "bottles_pressed"
