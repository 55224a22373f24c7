"""Spirit and water: cutting a stock down, proof, and how far the shelf reaches. mL and percents."""

from __future__ import annotations

from assistant.relations.craft import OIML, balance, practice

RELATIONS = (
    balance(
        "stock for the strength",
        "stock * stock_strength = menstruum * strength",
        "The alcohol in the stock is the alcohol in what is made: volume times strength stays the same.",
        "spirit",
    ),
    balance(
        "water to add",
        "stock * density(stock_strength) + water * density(0) = menstruum * density(strength)",
        "Water is what the weights leave to add, not a subtraction of volumes: spirit and water shrink when they mix.",
        "spirit",
        OIML,
    ),
    practice("as it is bought", "stock = menstruum", "Nothing is added to the spirit.", "as_bought"),
    practice("poured as it is", "strength = stock_strength", "Nothing is added to the spirit: it is poured at the strength on the bottle.", "spirit neat"),
    practice("US proof", "proof_us = 2 * strength", "US proof is twice the percent.", "spirit", "27 CFR 5.1, definition of proof (memory)"),
    practice("UK proof", "proof_uk = strength * 100 / 57.15", "British 100 degrees proof is 57.15 % by volume.", "spirit"),
    balance(
        "strength by weight",
        "strength_by_weight = mass_percent(strength)",
        "By weight: grams of alcohol in 100 g, from the density table.",
        "spirit",
        OIML,
    ),
    balance(
        "true strength",
        "strength = true_strength(hydrometer, celsius)",
        "A glass hydrometer reads true at 20 °C only; the table gives the strength there.",
        "spirit",
        OIML,
    ),
    balance("spirit to fetch", "spirit_short = stock - spirit_in_hand", "What the batch takes, less what is on the shelf."),
    balance(
        "menstruum the spirit makes",
        "menstruum_served * strength = spirit_in_hand * stock_strength",
        "All the alcohol on the shelf, at the strength wanted.",
        "spirit",
    ),
    practice("plant the spirit serves", "menstruum_served = herb_served * ratio", "That menstruum, at the ratio wanted, covers so much plant."),
    balance("plant left over", "herb_left = herb - herb_served", "What the spirit does not reach is left to dry."),
    balance(
        "the rest dried",
        "left_dried * (1 - dried_water / 100) = herb_left * (1 - water_content / 100)",
        "The rest dries down like any fresh plant: its dry matter stays.",
        "fresh",
    ),
)
