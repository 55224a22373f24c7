"""Recipes by weight: salves, balms, butters, teas, powders; tins and essential oils. Grams, mL, parts, drops."""

from __future__ import annotations

from assistant.relations.craft import balance, practice

RELATIONS = (
    balance("the batch", "batch = sum(weight[i])", "The weights add up to the batch.", "recipe"),
    practice("weight by parts", "weight[i] * parts = batch * part[i]", "Each takes its share of the parts.", "recipe by_parts"),
    practice("weight by percent", "weight[i] = batch * share[i] / 100", "Each takes its percent of the whole.", "recipe"),
    balance("volume to weight", "weight[i] = volume[i] * density_of[i]", "Millilitres times grams per millilitre are grams.", "recipe melts"),
    practice("the recipe so many times, by weight", "weight[i] = once_weight[i] * times", "Each weight of the recipe, so many times.", "times"),
    practice("the recipe so many times, by volume", "volume[i] = once_volume[i] * times", "Each volume of the recipe, so many times.", "times"),
    practice("it makes so many times", "blend = once_makes * times", "What the recipe makes, so many times.", "times makes"),
    practice("it weighs so many times", "batch = once_weighs * times", "What the recipe weighs, so many times.", "times weighs"),
    practice("as many as are wanted", "count_wanted = once_count * times", "What the recipe fills, so many times.", "times"),
    practice("what the recipe weighs", "once_weighs = sum(once_weight[i])", "Its weights together.", "times all_weighed"),
    practice("what runs out first, by weight", "weight[i] = runs_out_weight[i]", "All of what runs out first goes in, and sets the batch.", "short"),
    balance("left on the shelf, by weight", "have_left_weight[i] = have_weight[i] - weight[i]", "What was there, less what goes in.", "short"),
    balance("still to find, by weight", "have_short_weight[i] = weight[i] - have_weight[i]", "What goes in, less what there is.", "short"),
    balance("still to add", "more_weight[i] = weight[i] - had_weight[i]", "What it takes, less what is in the pot.", "added_to"),
    practice("melted volume", "batch_volume = sum(weight[i] / density_of[i])", "The melted parts fill the tins by volume.", "recipe melts"),
    practice("tins", "tins = floor(batch_volume / tin_size)", "Tins are whole: as many as the melt fills.", "recipe tins_by_volume"),
    practice("left after the tins", "rest = batch_volume - tins * tin_size", "What does not fill another tin.", "recipe tins_by_volume"),
    practice("tins by weight", "tins = floor(batch / tin_weight)", "Tins are whole: as many as the batch fills.", "recipe tins_by_weight"),
    practice("bags of the blend", "bags = floor(batch / tin_weight)", "Bags are whole: as many as the blend fills.", "bagged bags_of_batch"),
    practice("bags of what was dried", "bags = floor(dried / tin_weight)", "Bags are whole: as many as the dried herb fills.", "bagged bags_of_dried"),
    practice("bags of the herb", "bags = floor(herb / tin_weight)", "Bags are whole: as many as the herb fills.", "bagged bags_of_herb"),
    balance("left of the blend after the bags", "over_weight = batch - bags * tin_weight", "What does not fill another bag.", "bagged bags_of_batch"),
    balance("left of what was dried after the bags", "over_weight = dried - bags * tin_weight", "What does not fill another bag.", "bagged bags_of_dried"),
    balance("left of the herb after the bags", "over_weight = herb - bags * tin_weight", "What does not fill another bag.", "bagged bags_of_herb"),
    practice("cups in the blend", "cups = floor(batch / per_cup)", "Each cup takes its grams; only whole cups count.", "tea"),
    practice("grams a cup", "per_cup = spoon * spoons_per_cup", "Spoonfuls times the weight of one.", "tea"),
    practice("tea for the course", "batch = per_cup * cups_a_day * course", "Grams a cup, cups a day, for all the days.", "tea for_course"),
    practice("water for the tea", "water_a_day = cups_a_day * cup_size", "Cups a day, each of its size.", "tea"),
    practice("essential oil by weight", "eo_weight = batch * eo_share / 100", "Percent by weight of the whole batch.", "essential_by_weight"),
    practice("days the tea lasts", "days = floor(batch / (per_cup * cups_a_day))", "Only whole days count.", "tea"),
    practice("essential oil", "eo = eo_base * eo_share / 100", "Percent by volume of the whole batch.", "essential"),
    practice("essential oil into the bottle", "eo_base = bottle_size", "The bottle is what it goes into.", "essential eo_in_bottle"),
    practice("essential oil into the oil", "eo_base = menstruum", "The oil is what it goes into.", "essential eo_in_oil"),
    practice("essential oil into the melt", "eo_base = batch_volume", "The melt is what it goes into.", "essential eo_in_melt"),
    practice("essential oil into the tins", "eo_base = tins * tin_size", "All the tins are what it goes into.", "essential eo_in_tins"),
    balance(
        "essential oil into a weight of salve", "eo_base * salve_density = batch", "Grams over grams per millilitre are millilitres.", "essential eo_in_weight"
    ),
    balance("essential oil on the scale", "eo_weight = eo * eo_density", "Millilitres times grams per millilitre are grams.", "essential !essential_by_weight"),
    practice("drops of all the oils", "eo_drops = sum(eo_drops_of[i])", "The drops of all of them.", "essential drops_told"),
    practice("drops of essential oil", "eo_drops = eo * drops_per_ml", "So many drops make a mL.", "essential"),
    practice("drops for each tin", "drops_per_tin = eo_drops / tins", "The drops shared among the tins.", "essential !recipe"),
    practice("drops for all the tins", "eo_drops = drops_per_tin * tins", "So many drops in each tin, for all of them.", "essential recipe drops_each"),
    practice("share of the oils", "eo_volume[i] = eo * eo_part[i] / 100", "Each oil takes its share of them.", "essential"),
    practice("the oils by parts", "eo_volume[i] * parts = eo * part[i]", "Each oil takes its share of the parts.", "essential by_parts !recipe"),
    practice("drops of each oil", "eo_drops_of[i] = eo_volume[i] * drops_per_ml", "So many drops make a mL.", "essential"),
)
