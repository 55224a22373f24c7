"""Mixing liquids: N spirits, tinctures, decoctions or water into one. Volumes in mL, strengths in percent."""

from __future__ import annotations

from assistant.relations.craft import OIML, balance, practice

RELATIONS = (
    balance(
        "alcohol in all",
        "sum(volume[i] * strength_of[i]) = blend * blend_strength",
        "The alcohol of all the parts together is the alcohol of the mix.",
        "mix_strength",
    ),
    balance(
        "weight in all",
        "sum(volume[i] * density(strength_of[i])) = blend * density(blend_strength)",
        "The weights add up, the volumes do not: spirit and water shrink when they mix.",
        "mix_strength shrinks",
        OIML,
    ),
    practice("the bottle is filled", "blend = sum(volume[i])", "The parts by volume add up to the bottle.", "formula"),
    practice("part of the blend", "volume[i] * parts = blend * part[i]", "Each takes its share of the parts.", "formula by_parts"),
    practice("parts in all", "parts = sum(part[i])", "All the parts together.", "by_parts"),
    practice("share of the blend", "volume[i] = blend * share[i] / 100", "Each takes its percent of the whole.", "formula"),
    practice("herb in the bottle", "herb_in[i] = volume[i] / ratio_of[i]", "A 1 to R extract holds one gram of herb in R mL.", "formula"),
    practice("herb a day", "herb_a_day_of[i] * blend = herb_in[i] * daily", "The day's mL take their share of the herb in the bottle.", "formula"),
    practice("herb a dose", "herb_a_dose_of[i] * blend = herb_in[i] * dose", "A dose takes its share of the herb in the bottle.", "formula"),
    practice("bottle of the blend", "blend = bottles * bottle_size", "So many bottles of that size.", "fills_bottles"),
)
