"""The catalogue of known wrong moves of the craft, in the order of the work.

The idea of a catalogue of procedural errors that predict the wrong answer is from published work on diagnosing arithmetic (Brown and
Burton 1978); the moves themselves are common practice, no source.
"""

from __future__ import annotations

from assistant.teaching.wrong_move import (
    OUNCE_FLUID,
    OUNCE_WEIGHT,
    WrongMove,
    other_water,
    ounces_as,
    poured_neat,
    ratio_of_the_other,
    strengths_as,
    written,
)

CATALOGUE: tuple[WrongMove, ...] = (
    # ratio
    written(
        "ratio upside down",
        "the ratio is taken upside down: divided by where it multiplies",
        "1 to R is R mL for each gram of plant.",
        {
            "ratio": "menstruum = herb / ratio",
            "planned menstruum": "planned_menstruum = planned_herb / ratio",
            "herb per mL": "herb_per_ml = ratio",
            "plant the spirit serves": "menstruum_served = herb_served / ratio",
            "plant for a second run": "second_herb = pressed * ratio",
            "herb in the bottle": "herb_in[i] = volume[i] * ratio_of[i]",
            "extract for the day": "volume_a_day[i] = herb_a_day_of[i] / ratio_of[i]",
            "ratio by weight": "menstruum_weight = herb / ratio_by_weight",
            "drying ratio": "herb = dried / drying_ratio",
            "dry equivalent ratio": "dry_matter = (menstruum + plant_water) * dry_ratio",
        },
    ),
    written(
        "ratio part counted in the total",
        "the plant is counted as a part of the whole: 1 to R taken as one of R and one parts",
        "The R counts the menstruum alone.",
        {
            "ratio": "menstruum = herb * (ratio + 1)",
            "herb per mL": "herb_per_ml = 1 / (ratio + 1)",
            "herb in the bottle": "herb_in[i] = volume[i] / (ratio_of[i] + 1)",
            "extract for the day": "volume_a_day[i] = herb_a_day_of[i] * (ratio_of[i] + 1)",
            "planned menstruum": "planned_menstruum = planned_herb * (ratio + 1)",
        },
    ),
    written(
        "plant taken as one of the R parts",
        "the R is taken as the parts in all, the plant among them",
        "The R counts the menstruum alone.",
        {"ratio": "menstruum = herb * (ratio - 1)", "herb in the bottle": "herb_in[i] = volume[i] / (ratio_of[i] - 1)"},
    ),
    WrongMove(
        "fresh for dried", "the plant is treated as dried, at 1:5", "A fresh plant goes by its own ratio.", change=ratio_of_the_other(5.0, "fresh")
    ),
    WrongMove(
        "dried for fresh", "the plant is treated as fresh, at 1:2", "A dried herb goes by its own ratio.", change=ratio_of_the_other(2.0, "dried")
    ),
    written(
        "weight for volume",
        "the menstruum is weighed in grams instead of measured in mL",
        "Herb is weighed, liquid is measured.",
        {"ratio": "menstruum = herb * ratio / density(strength)"},
    ),
    written(
        "grams taken for mL",
        "grams are taken for millilitres, as if everything weighed like water",
        "Grams are millilitres times the density.",
        {
            "volume to weight": "weight[i] = volume[i]",
            "melted volume": "batch_volume = sum(weight[i])",
            "honey by weight": "honey = honey_volume",
            "pure alcohol by weight": "alcohol_grams = alcohol",
            "alcohol in a dose": "alcohol_per_dose = dose * dose_strength / 100",
            "weight of the menstruum": "menstruum_weight = menstruum",
            "syrup by volume": "syrup_weight = syrup",
        },
    ),
    # plant water
    written(
        "plant water forgotten",
        "the water in the plant is forgotten",
        "The plant's own water mixes in and thins what was poured.",
        {
            "plant water mixes in": "in_jar = menstruum",
            "plant water by volume": "in_jar = menstruum",
            "dry equivalent ratio": "dry_matter * dry_ratio = menstruum",
        },
    ),
    written(
        "plant water taken off the menstruum",
        "the plant's water is taken off what is to be poured",
        "What is poured goes by the ratio; the plant's water comes on top.",
        {"ratio": "menstruum + plant_water = herb * ratio"},
    ),
    written(
        "water content of the menstruum",
        "the water content is taken of the menstruum instead of the plant",
        "The water content is a share of the plant's fresh weight.",
        {"plant water": "plant_water = menstruum * water_content / 100"},
    ),
    written(
        "volumes simply added",
        "the volumes are simply added, without the shrinking",
        "Spirit and water shrink when they mix: go by weight.",
        {
            "plant water mixes in": "in_jar = menstruum + plant_water",
            "weight in all": "blend = sum(volume[i])",
            "weight in the bottle": "made = sum(volume[i])",
        },
    ),
    written(
        "fresh weight for dry matter",
        "the fresh weight is taken where the dry matter counts",
        "Take the plant's water off first.",
        {
            "dry matter": "dry_matter = herb",
            "held back": "held_back = herb * held_per_gram",
            "dried equivalent": "dried_equivalent = herb / in_jar",
            "dry equivalent ratio": "herb * dry_ratio = menstruum + plant_water",
        },
    ),
    written(
        "water and dry matter swapped",
        "the water content is taken for the dry matter, or the other way round",
        "Dry matter is what is not water.",
        {"dry matter": "dry_matter = herb * water_content / 100", "plant water": "plant_water = herb * (1 - water_content / 100)"},
    ),
    *(
        WrongMove(
            f"water content {abs(step):g} points {'higher' if step > 0 else 'lower'}",
            f"the plant is taken {abs(step):g} points {'wetter' if step > 0 else 'drier'} than it is",
            "Take the water content of the plant in hand.",
            change=other_water(step),
        )
        for step in (10.0, 5.0, -5.0, -10.0)
    ),
    # drying
    written(
        "water left in the dried herb forgotten",
        "the dried herb is taken as bone dry",
        "Dried herb keeps a little water: divide by what is not water.",
        {"drying": "dried = dry_matter", "wilting": "wilted = dry_matter"},
    ),
    written(
        "water shares subtracted",
        "the two water contents are subtracted from each other",
        "The dry matter stays; the shares are of two different weights.",
        {"drying": "dried = herb * (1 - (water_content - dried_water) / 100)"},
    ),
    written(
        "water left added instead of divided",
        "the water that is left is added on instead of dividing by the share that is dry",
        "Divide by what is not water.",
        {"drying": "dried = dry_matter * (1 + dried_water / 100)", "wilting": "wilted = dry_matter * (1 + wilted_water / 100)"},
    ),
    # spirit and water
    written(
        "water by subtraction",
        "the water is found by subtracting volumes, without the shrinking",
        "Water is what the weights leave to add.",
        {"water to add": "water = menstruum - stock"},
    ),
    written(
        "stock taken as pure",
        "the spirit is taken as pure alcohol",
        "Divide by the strength on the bottle.",
        {
            "stock for the strength": "stock = menstruum * strength / 100",
            "menstruum the spirit makes": "menstruum_served * strength = spirit_in_hand * 100",
        },
    ),
    written(
        "strengths upside down",
        "the two strengths are taken the wrong way round",
        "Spirit = made × target ÷ stock.",
        {
            "stock for the strength": "stock * strength = menstruum * stock_strength",
            "menstruum the spirit makes": "menstruum_served * stock_strength = spirit_in_hand * strength",
        },
    ),
    written(
        "parts of water for the whole",
        "target and difference are taken as parts of spirit to the whole",
        "The difference of the strengths is the part of water, not the whole.",
        {"stock for the strength": "stock * (stock_strength - strength) = menstruum * strength"},
    ),
    WrongMove("stock poured as it is", "the spirit is poured straight from the bottle", "Cut it to the strength wanted first.", change=poured_neat),
    WrongMove(
        "percent for proof",
        "the figure is taken as proof, half of it percent",
        "The figure is a percent already.",
        change=strengths_as(lambda s: s / 2),
    ),
    WrongMove(
        "proof for percent",
        "the proof, twice the percent, is taken as the percent",
        "US proof is twice the percent.",
        change=strengths_as(lambda s: s * 2),
    ),
    WrongMove(
        "stock strength read as proof",
        "the strength on the bottle is taken as proof",
        "The figure is a percent already.",
        change=strengths_as(lambda s: s / 2, "stock_strength"),
    ),
    WrongMove(
        "proof of the stock for its percent",
        "the proof on the bottle is taken as its percent",
        "US proof is twice the percent.",
        change=strengths_as(lambda s: s * 2, "stock_strength"),
    ),
    WrongMove(
        "strength read as proof",
        "the strength poured is taken as proof",
        "The figure is a percent already.",
        change=strengths_as(lambda s: s / 2, "strength"),
    ),
    WrongMove(
        "British for American proof",
        "British proof is taken for American",
        "100 degrees British proof are 57.15 %.",
        change=strengths_as(lambda s: s * 2 * 0.5715),
    ),
    written(
        "proof the wrong way",
        "the proof is halved where it doubles, or doubled where it halves",
        "US proof is twice the percent.",
        {"US proof": "proof_us = strength / 2", "UK proof": "proof_uk = strength * 57.15 / 100"},
    ),
    written(
        "the other country's proof",
        "the other country's proof is taken",
        "US: twice the percent. British: 100 degrees are 57.15 %.",
        {"US proof": "proof_us = strength * 100 / 57.15", "UK proof": "proof_uk = 2 * strength"},
    ),
    # gathering
    written(
        "tare not taken", "the tare is not taken off", "Take the empty bag or basket off what the scale shows.", {"net weight": "picked = gross"}
    ),
    written(
        "tare added",
        "the tare is added instead of taken off",
        "Take the empty bag or basket off what the scale shows.",
        {"net weight": "picked = gross + tare"},
    ),
    written(
        "trimming added instead of divided",
        "the trimming loss is added on instead of dividing by what is kept",
        "Divide by the share that is kept.",
        {"to gather": "to_gather = herb * (1 + trim_loss / 100) * (1 + margin / 100)", "trimming": "herb = picked / (1 + trim_loss / 100)"},
    ),
    written(
        "trimming and margin added together",
        "trimming loss and margin are added together and put on once",
        "First divide by what is kept, then add the margin.",
        {"to gather": "to_gather = herb * (1 + (trim_loss + margin) / 100)"},
    ),
    written(
        "margin divided instead of added",
        "the margin is divided by instead of added",
        "The margin is added on top.",
        {"to gather": "to_gather = herb / (1 - trim_loss / 100) / (1 - margin / 100)"},
    ),
    written("margin forgotten", "the margin is forgotten", "Add the margin at the end.", {"to gather": "to_gather = herb / (1 - trim_loss / 100)"}),
    written(
        "trimming forgotten",
        "the trimming loss is forgotten",
        "Divide by the share that is kept first.",
        {"to gather": "to_gather = herb * (1 + margin / 100)", "trimming": "herb = picked"},
    ),
    # pressing, bottling
    written(
        "pressed from what was poured",
        "the marc's share is taken from what was poured, not from what is in the jar",
        "The liquid in the jar counts, the plant's water with it.",
        {"pressed": "pressed = menstruum - held_back", "yield": "pressed = menstruum * yield_share / 100"},
    ),
    written(
        "loss taken for yield",
        "the yield is taken for what is lost",
        "The yield is what comes back.",
        {"yield": "pressed = in_jar * (1 - yield_share / 100)"},
    ),
    written(
        "rounded the wrong way",
        "the count is rounded the wrong way",
        "Bottles filled go down to whole ones, jars needed go up.",
        {
            "bottles": "bottles = ceil(to_bottle / bottle_size)",
            "jars": "jars = floor(contents / (jar_size * fill / 100))",
            "tins": "tins = ceil(batch_volume / tin_size)",
            "tins by weight": "tins = ceil(batch / tin_weight)",
            "days it lasts": "days = ceil(taken_from / daily)",
            "bottles to dispense": "bottles_needed = floor(supply / bottle_size)",
            "cups in the blend": "cups = ceil(batch / per_cup)",
        },
    ),
    # parts and percents
    written(
        "parts for percent",
        "the parts are taken as percents",
        "Divide by all the parts together.",
        {"part of the blend": "volume[i] = blend * part[i] / 100", "weight by parts": "weight[i] = batch * part[i] / 100"},
    ),
    written(
        "part taken of the rest",
        "the part is set against the other parts instead of against the whole",
        "All the parts together are the whole.",
        {
            "part of the blend": "volume[i] * (parts - part[i]) = blend * part[i]",
            "weight by parts": "weight[i] * (parts - part[i]) = batch * part[i]",
        },
    ),
    written(
        "sugar over liquid",
        "the sugar is set against the liquid instead of against the whole syrup",
        "Degrees Brix are grams of sugar in 100 g of syrup.",
        {"degrees Brix": "brix = sugar_in / liquid * 100", "weight of the syrup": "syrup_weight = liquid"},
    ),
    written(
        "honey counted as sugar", "the honey is counted as all sugar", "A good part of honey is water.", {"sugar counted": "sugar_in = sugar + honey"}
    ),
    # doses
    written(
        "drops for mL",
        "drops are taken for millilitres",
        "So many drops make a mL.",
        {"drops to mL": "dose_drops = dose", "drops of essential oil": "eo_drops = eo", "drops of each oil": "eo_drops_of[i] = eo_volume[i]"},
    ),
    written(
        "times a day forgotten",
        "one dose is taken for the whole day",
        "The dose times how often it is taken.",
        {"a day's dose": "daily = dose", "herb in a day": "herb_per_day = herb_per_dose", "alcohol in a day": "alcohol_per_day = alcohol_per_dose"},
    ),
    written(
        "kilograms for pounds",
        "the child's kilograms are taken where the rule wants pounds",
        "Clark's rule goes by pounds: 1 kg is 2.2046 lb.",
        {"Clark's rule": "child_dose = adult_dose * (child_weight / 1000) / 150"},
    ),
    written(
        "one dose for the course",
        "one day is taken for the whole course",
        "A day's dose times the days.",
        {"volume for the course": "supply = daily"},
    ),
    # cost
    written(
        "bottle and work forgotten",
        "only what is in the bottle is counted",
        "The empty bottle and the work belong to it.",
        {
            "cost of a bottle": "bottle_cost = materials / bottles",
            "cost of a bottle of the blend": "bottle_cost = cost_per_ml * bottle_size",
            "cost of the batch": "batch_cost = materials",
        },
    ),
    written(
        "margin on the cost",
        "the margin is put on the cost instead of taken off the price",
        "Divide the cost by what is left of the price.",
        {"price at a margin": "selling_price = bottle_cost * (1 + mark_up / 100)"},
    ),
    # units
    WrongMove(
        "ounces by weight for fluid ounces",
        "ounces by weight are taken for fluid ounces",
        "An ounce of herb is 28.35 g, a fluid ounce 29.57 mL.",
        change=ounces_as(OUNCE_FLUID / OUNCE_WEIGHT, "g"),
    ),
    WrongMove(
        "fluid ounces for ounces by weight",
        "fluid ounces are taken for ounces by weight",
        "An ounce of herb is 28.35 g, a fluid ounce 29.57 mL.",
        change=ounces_as(OUNCE_WEIGHT / OUNCE_FLUID, "mL"),
    ),
)
