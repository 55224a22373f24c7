"""Mixing liquids: N spirits, tinctures, decoctions or water into one. Volumes in mL, strengths in percent, herb in grams.

A mix is spoken of by what it makes, shrinkage counted; a formula by the bottle it fills: there the parts add up to the mark, and what they
have made once shrunk is told beside it.
"""

from __future__ import annotations

from assistant.relations.craft import OIML, balance, practice

RELATIONS = (
    balance(
        "alcohol in all",
        "sum(volume[i] * strength_of[i]) = blend * blend_strength",
        "The alcohol of all the parts together is the alcohol of the mix.",
        "mix mix_strength",
    ),
    balance(
        "weight in all",
        "sum(volume[i] * density(strength_of[i])) = blend * density(blend_strength)",
        "The weights add up, the volumes do not: spirit and water shrink when they mix.",
        "mix mix_strength shrinks",
        OIML,
    ),
    balance(
        "alcohol in the bottle",
        "sum(volume[i] * strength_of[i]) = made * blend_strength",
        "The alcohol of all the parts together is the alcohol of the blend.",
        "formula mix_strength",
    ),
    balance(
        "weight in the bottle",
        "sum(volume[i] * density(strength_of[i])) = made * density(blend_strength)",
        "The weights add up, the volumes do not: spirit and water shrink when they mix.",
        "formula mix_strength shrinks",
        OIML,
    ),
    practice(
        "parts that do not shrink",
        "made = blend",
        "By simple parts the volumes are taken to add up: an approximation, close where the strengths lie close.",
        "formula mix_strength !shrinks",
    ),
    practice("the bottle is filled", "blend = sum(volume[i])", "The parts by volume add up to the bottle.", "formula !by_grams"),
    practice("part of the blend", "volume[i] * parts = blend * part[i]", "Each takes its share of the parts.", "formula by_parts !of_the_rest"),
    practice("parts in all", "parts = sum(part[i])", "All the parts together.", "by_parts"),
    practice("share of the blend", "volume[i] = blend * share[i] / 100", "Each takes its percent of the whole.", "formula !of_the_rest"),
    practice(
        "left for the parts",
        "rest_volume = blend * (1 - sum(share[i]) / 100) - sum(poured[i])",
        "What the fixed amounts leave of the bottle goes by parts.",
        "formula of_the_rest",
    ),
    practice(
        "fixed or by parts",
        "volume[i] = poured[i] + blend * share[i] / 100 + rest_volume * part[i] / parts",
        "A fixed amount is poured as it is, a percent is of the whole, the parts share what is left.",
        "formula of_the_rest",
    ),
    practice("what runs out first", "volume[i] = runs_out[i]", "All of what runs out first goes in, and sets the batch.", "short"),
    balance("left on the shelf", "have_left[i] = have[i] - volume[i]", "What was there, less what goes in.", "short"),
    balance("still to find", "have_short[i] = volume[i] - have[i]", "What goes in, less what there is.", "short"),
    balance(
        "short of what was planned",
        "have_short[i] = blend * planned_share[i] / 100 - volume[i]",
        "What the recipe wants of it, less what goes in.",
        "filled_up",
    ),
    balance("herb of the lots", "herb_per_ml * blend = sum(volume[i] * carries_of[i])", "The herb of all the lots, shared among what they make.", "lots"),
    practice("herb in the bottle", "herb_in[i] = volume[i] / ratio_of[i]", "A 1 to R extract holds one gram of herb in R mL.", "ratios"),
    practice("herb a day", "herb_a_day_of[i] * blend = herb_in[i] * daily", "The day's mL take their share of the herb in the bottle.", "ratios !by_grams"),
    practice("herb a dose", "herb_a_dose_of[i] * blend = herb_in[i] * dose", "A dose takes its share of the herb in the bottle.", "ratios !by_grams"),
    practice("extract a day", "volume_a_day[i] * blend = volume[i] * daily", "The day's mL take their share of the bottle.", "formula !by_grams"),
    balance("extract in that time", "volume_in_time[i] = volume_a_day[i] * course", "A day's mL times the days.", "formula !by_grams"),
    balance("herb in that time", "herb_in_time[i] = herb_a_day_of[i] * course", "A day's herb times the days.", "ratios !by_grams"),
    practice("extract a dose", "volume_a_dose[i] * blend = volume[i] * dose", "A dose takes its share of the bottle.", "formula !by_grams"),
    practice("extract a dose in drops", "drops_a_dose[i] = volume_a_dose[i] * drops_per_ml", "So many drops make a mL.", "formula !by_grams"),
    balance("herb of all the lots", "lots_herb = sum(herb_in[i])", "The herb of all of them together.", "ratios !by_grams !one_plant"),
    practice("one plant in all of it", "lots_herb = herb", "Tincture and decoction are of the same plant.", "mix one_plant"),
    practice("herb per mL of both halves", "herb_per_ml * blend = lots_herb", "The plant shared among all the mL they make.", "one_plant"),
    practice("ratio of the blend", "blend = blend_ratio * lots_herb", "All the mL over all the grams of herb in them.", "whole_ratio !by_grams"),
    practice("herb per mL of the blend", "herb_in_ml[i] * blend = herb_in[i]", "The herb in the bottle, shared among its mL.", "ratios"),
    balance("herb of all the parts", "herb_per_ml * blend = sum(herb_in[i])", "The herb of all the parts, shared among the mL they make.", "ratios all_ratios"),
    practice("bottle of the blend", "blend = bottles * bottle_size", "So many bottles of that size.", "fills_bottles"),
    # a formula from grams a day
    practice("extract for the day", "volume_a_day[i] = herb_a_day_of[i] * ratio_of[i]", "One gram of herb stands in R mL of a 1 to R extract.", "by_grams"),
    practice("extracts for the day", "formula_a_day = sum(volume_a_day[i])", "All the extracts together, for one day.", "by_grams"),
    practice("extract for the course", "volume[i] = volume_a_day[i] * course", "The day's volume, for all the days.", "by_grams"),
    practice("the bottle holds the course", "blend = supply", "What is blended is what the course takes.", "fills_course"),
    practice("the bottles hold the course of all", "blend = supply_for_all", "What is blended is what all of them take in the course.", "fills_people"),
    practice("formula for the course", "blend = formula_a_day * course", "The day's volume, for all the days.", "by_grams"),
    practice("more than the dose holds", "over_dose = formula_a_day - daily", "What the herbs need in a day, less what is taken in a day.", "by_grams"),
    practice("dose the grams need", "needed_dose = formula_a_day / times_a_day", "The day's volume, shared among the doses.", "by_grams"),
)
