"""Syrups, honeys, vinegars, glycerites and decoctions. Grams, mL, percents (°Bx is percent by weight)."""

from __future__ import annotations

from assistant.relations.craft import balance, practice

FREE_WATER = "free-water method of the dispensing handbooks: USP Syrup (850 g in 1000 mL) keeps itself, the rest at 18 % alcohol (memory)"

RELATIONS = (
    balance("honey by weight", "honey = honey_volume * honey_density", "Millilitres of honey times its density.", "syrup"),
    practice("sugar counted", "sugar_in = sugar + honey * honey_sugar / 100", "The sugar itself and the sugar in the honey.", "syrup"),
    balance("weight of the syrup", "syrup_weight = sugar + honey + liquid", "The weights add up.", "syrup"),
    practice(
        "degrees Brix",
        "brix = sugar_in / syrup_weight * 100",
        "Degrees Brix are grams of sugar in 100 g of syrup.",
        "syrup",
        "definition of degree Brix (common practice)",
    ),
    practice("decoction counts as water", "liquid = decoction * 0.99820", "A decoction is taken as plain water.", "syrup !oxymel"),
    practice("plant water in the honey", "liquid = plant_water", "The plant's own water thins the honey it lies in.", "syrup in_honey"),
    practice("sugar by weight of liquid", "sugar = liquid * sugar_times", "So many times the weight of the liquid in sugar.", "syrup"),
    practice("honey by weight of liquid", "honey = liquid * honey_times", "So many times the weight of the liquid in honey.", "syrup"),
    practice(
        "vinegar and honey at the ratio",
        "menstruum + honey_volume + decoction = herb * ratio",
        "Honey and vinegar together are what the ratio counts.",
        "oxymel oxymel_ratio",
    ),
    practice("jars to fill", "in_jar = jars * jar_size", "So many jars of that size.", "oxymel fills_jars"),
    practice("honey by parts of vinegar", "honey_volume = menstruum * honey_to_vinegar", "So many volumes of honey to one of vinegar.", "oxymel"),
    practice("decoction by parts of vinegar", "decoction = menstruum * decoction_to_vinegar", "So many volumes of decoction to one of vinegar.", "oxymel"),
    balance("syrup by volume", "syrup_weight = syrup * syrup_density(brix)", "Grams over grams per millilitre are millilitres.", "syrup"),
    balance("boiled off", "boiled_off = boiled_from - boiled_to", "What was there before, less what is left.", "decoction"),
    practice("boiled down to a share", "boiled_to = boiled_from * boiled_share / 100", "A share of what there was is left in the pot.", "decoction"),
    practice("boiled down by a share", "boiled_off = boiled_from * boiled_off_share / 100", "A share of what there was goes off as steam.", "decoction"),
    practice("cups in the pot", "cups = floor(boiled_to / cup_size)", "What is left, in whole cups.", "decoction by_cups"),
    practice("plant in a cup of it", "per_cup = herb * cup_size / boiled_to", "The plant, shared among what is left, by the cup.", "decoction by_cups"),
    practice(
        "plant in so many cups",
        "herb_for_days = per_cup * cups_a_day * course",
        "What each cup holds, for all the cups of all the days.",
        "decoction cups_counted",
    ),
    practice("plant for so many pots", "herb_for_days = herb * course", "A pot a day, for all the days.", "decoction pot_a_day"),
    practice("water for so many pots", "water_for_days = boiled_from * course", "A pot a day, for all the days.", "decoction pot_a_day"),
    balance("weight of a sweet juice", "syrup_had = juice * syrup_density(brix_had)", "Millilitres times grams per millilitre are grams.", "syrup corrected"),
    balance("sugar in the syrup there is", "sugar_there = syrup_had * brix_had / 100", "Degrees Brix are grams of sugar in 100 g.", "syrup corrected"),
    balance(
        "sugar to sweeten it",
        "brix * (syrup_had + sugar_more) = 100 * (sugar_there + sugar_more)",
        "The sugar added makes both the sugar and the syrup more.",
        "syrup corrected",
    ),
    balance("water to boil off it", "brix * (syrup_had - water_off) = 100 * sugar_there", "Water goes, the sugar stays.", "syrup corrected"),
    balance("water to thin it", "brix * (syrup_had + water_more) = 100 * sugar_there", "Water comes, the sugar stays.", "syrup corrected"),
    balance("syrup and spirit", "fortified = syrup + keeping_spirit", "Syrup and spirit are simply added, without shrinkage.", "syrup fortified"),
    balance(
        "alcohol in the syrup",
        "keeping_spirit * keeping_strength = fortified * syrup_alcohol",
        "The alcohol of the spirit is spread through syrup and spirit together.",
        "syrup fortified",
    ),
    practice("honey by volume of liquid", "honey_volume = decoction * honey_volumes", "So many volumes of honey to one of the liquid.", "syrup !oxymel"),
    practice("honey by weight of plant", "honey = herb * honey_to_herb", "So many times the weight of the plant in honey.", "syrup"),
    balance("vinegar to measure", "vinegar_stock * acidity_stock = menstruum * acidity", "The acid in the stronger vinegar is all the acid.", "vinegar cut"),
    balance("water beside the vinegar", "water = menstruum - vinegar_stock", "Vinegar and water are mixed by volume, without shrinkage.", "vinegar cut"),
    practice("what is left is the decoction", "decoction = boiled_to", "The reduced liquid is what goes on.", "decoction !strained_off"),
    practice(
        "acid is shared", "acidity * menstruum = finished_acidity * in_jar", "The acid poured is spread through vinegar and plant water together.", "vinegar"
    ),
    practice(
        "glycerine is shared",
        "glycerine * menstruum = finished_glycerine * in_jar",
        "The glycerine poured is spread through the pour and the plant water.",
        "glycerite",
    ),
    practice("glycerine as sold", "glycerine = glycerine_stock", "Nothing is added to the glycerine.", "glycerite neat"),
    practice(
        "glycerine to measure", "glycerine_volume * glycerine_stock = menstruum * glycerine", "The pour holds its percent of pure glycerine.", "glycerite"
    ),
    practice(
        "glycerine to lift it",
        "wanted_glycerine * (in_jar + top_up) = finished_glycerine * in_jar + glycerine_stock * top_up",
        "What is added brings its own glycerine and its own volume.",
        "glycerite topped_up",
    ),
    practice(
        "weight of a mL of the pour",
        "menstruum_density = (1.261 * glycerine + 0.9982 * (100 - glycerine)) / 100",
        "Glycerine at 1.261 and water at 0.998 g a mL, each by its share; they hardly shrink.",
        "glycerite",
    ),
    balance("glycerine in grams", "glycerine_weight = glycerine_volume * 1.261", "Glycerine weighs 1.261 g per mL.", "glycerite"),
    balance("honey still to add", "honey_more = honey - honey_had", "What it takes in all, less what is in it.", "syrup"),
    balance("sugar still to add", "sugar_more = sugar - sugar_had", "What it takes in all, less what is in it.", "syrup"),
    practice(
        "free water",
        "free_water = syrup + keeping_spirit - sugar_in / 0.85",
        "Each 85 g of sugar in 100 mL keeps the water with it; what is beyond that is free.",
        "syrup keeping",
        FREE_WATER,
    ),
    practice(
        "spirit keeps the free water",
        "keeping_spirit * keeping_strength = 18 * free_water",
        "The free water wants 18 % of alcohol.",
        "syrup keeping",
        FREE_WATER,
    ),
    practice("herb per mL of the decoction", "herb = herb_per_ml * decoction", "All the herb, shared among what is left.", "decoction !one_plant"),
    practice("vinegar counts as water", "liquid = (menstruum + decoction) * 0.99820", "In an oxymel vinegar and decoction are taken as plain water.", "oxymel"),
    practice(
        "vinegar and honey by volume", "in_jar = menstruum + honey_volume + decoction", "Vinegar and honey mix by volume, without shrinkage.", "oxymel !fresh"
    ),
    practice(
        "vinegar, honey and plant water",
        "in_jar = menstruum + honey_volume + decoction + plant_water",
        "Vinegar, honey and the plant's water, simply added.",
        "oxymel fresh",
    ),
    practice("water beside the glycerine", "water = menstruum - glycerine_volume", "Glycerine and water are mixed by volume, without shrinkage.", "glycerite"),
)
