"""The jar: plant, ratio, menstruum, its strength as poured and once the plant's water has mixed in."""

from __future__ import annotations

from assistant.relations.craft import OIML, balance, practice

RELATIONS = (
    practice("ratio", "menstruum = herb * ratio", "A ratio of 1 to R means R mL of menstruum for each gram of plant.", "!percolation !oxymel_ratio"),
    practice(
        "herb per mL",
        "herb_per_ml = 1 / ratio",
        "Each mL poured stands for one gram shared among R mL.",
        "!decoction !lots !all_ratios !one_plant !over_marc",
    ),
    balance("pure alcohol poured", "alcohol = menstruum * strength / 100", "The strength is the share of pure alcohol in the menstruum.", "spirit"),
    balance("pure alcohol by weight", "alcohol_grams = alcohol * 0.78924", "A mL of pure alcohol weighs 0.78924 g at 20 °C.", "spirit", OIML),
    balance(
        "alcohol stays in the jar",
        "alcohol = in_jar * finished_strength / 100",
        "No alcohol is lost: the same amount is now spread through all the liquid in the jar.",
        "spirit fresh",
    ),
    balance(
        "plant water mixes in",
        "menstruum * density(strength) + plant_water = in_jar * density(finished_strength)",
        "Menstruum and plant water are added by weight, because spirit and water shrink when they mix.",
        "spirit fresh",
        OIML,
    ),
    balance(
        "alcohol of the stock poured neat",
        "menstruum * stock_strength = ceiling_volume * ceiling",
        "Poured as it is, the stock brings all the alcohol there can be.",
        "spirit fresh ceiling",
    ),
    balance(
        "weight of the stock poured neat",
        "menstruum * density(stock_strength) + plant_water = ceiling_volume * density(ceiling)",
        "The plant's water thins even the strongest pour: nothing from this stock finishes higher.",
        "spirit fresh ceiling",
        OIML,
    ),
    practice(
        "dried herb leaves the strength",
        "finished_strength = strength",
        "A dried herb brings no water worth counting, so the strength stays as poured.",
        "spirit dried",
    ),
    practice("dried herb leaves the volume", "in_jar = menstruum", "With a dried herb the liquid in the jar is what was poured.", "dried !oxymel"),
    practice("what was poured is what there was", "in_jar = menstruum", "Nothing said of a fresh plant: the liquid is what was poured.", "plain !oxymel"),
    practice("oil takes no water", "in_jar = menstruum", "Plant water does not mix into oil; what was poured is what there is.", "oil !dried"),
    practice(
        "plant water by volume", "in_jar = menstruum + plant_water", "The plant's water counts 1 mL for each gram and is simply added.", "watery fresh !oxymel"
    ),
    practice(
        "spirit to wet the plant",
        "wetting = herb * wetting_per_gram",
        "Before the oil goes on, the plant is dampened with so many mL of strong spirit to the gram.",
        "oil",
    ),
    practice("plant for a second run", "second_herb = pressed / ratio", "What came back is poured on new plant at the same ratio."),
    practice("plant per mL in the jar", "herb_per_ml_jar = herb / in_jar", "The plant shared among all the liquid in the jar.", "fresh"),
    practice(
        "dried equivalent",
        "dried_equivalent = dry_matter / 0.9 / in_jar",
        "Dry matter as dried herb with 10 % water, shared among the liquid in the jar: fair between fresh and dried.",
        "fresh",
    ),
    practice("dried equivalent of a dried herb", "dried_equivalent = herb / in_jar", "A dried herb counts as it was weighed.", "dried"),
    practice(
        "dry equivalent ratio",
        "dry_matter * dry_ratio = menstruum + plant_water",
        "Only the dry matter counts as plant, and the plant's water counts as part of the liquid.",
        "fresh",
    ),
    practice("ratio by weight", "menstruum_weight = herb * ratio_by_weight", "By weight: R grams of menstruum for each gram of plant."),
    balance("weight of the menstruum", "menstruum_weight = menstruum * menstruum_density", "Millilitres times grams per millilitre are grams."),
    balance("density of the spirit", "menstruum_density = density(strength)", "The density of spirit is read from the table by its strength.", "spirit", OIML),
)
