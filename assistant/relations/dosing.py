"""Doses and how long a bottle lasts; the historical proportions for children. mL, drops, days, grams."""

from __future__ import annotations

from assistant.relations.craft import OIML, balance, practice

HISTORICAL = "Clark's rule, historical (weight in pounds over 150); for licensed practice only"

RELATIONS = (
    practice("drops to mL", "dose_drops = dose * drops_per_ml", "So many drops make a mL."),
    practice("dropperfuls to mL", "dose = dropperfuls * dropper_size", "So many squeezes of the dropper, each of what it lifts.", "dropper"),
    balance("a day's dose", "daily = dose * times_a_day", "The dose times how often it is taken."),
    practice("doses in it", "doses = floor(taken_from / dose)", "Only whole doses count.", "dose"),
    balance("drops with every dose", "drops_of_all = drops_beside * doses", "So many drops with each dose, for all of them.", "dose"),
    balance("herb for the days", "herb_for_course = herb_per_day * course", "The grams of a day, times the days.", "by_the_day"),
    balance("tea for the days", "batch = herb_per_day * course", "The grams of a day, times the days.", "by_the_day tea"),
    practice("days the herb lasts", "days = floor(herb / herb_per_day)", "Only whole days count.", "by_the_day !tea"),
    practice("days the tea lasts by the day", "days = floor(batch / herb_per_day)", "Only whole days count.", "by_the_day tea !for_the_days"),
    practice("days it lasts", "days = floor(taken_from / daily)", "Only whole days count.", "dose !tea !on_off !in_turn"),
    practice("days it is taken", "dosing_days = floor(taken_from / daily)", "Only whole days count.", "dose on_off"),
    practice(
        "rounds between",
        "rounds = floor((dosing_days - 1) / on_days)",
        "After each full round of days on, before the last day, come the days off.",
        "dose on_off",
    ),
    balance("days with days off", "days = dosing_days + off_days * rounds", "The days it is taken, and the days off between.", "dose on_off"),
    practice(
        "days of the course it is taken", "days_taken = ceil(course * on_share / 100)", "Only the days on count, up to the next whole one.", "dose on_off"
    ),
    balance("share of the days", "on_share = on_days / (on_days + off_days) * 100", "Of each round only the days on count.", "dose on_off"),
    balance("volume with days off", "supply = daily * days_taken", "What a day takes, times the days it is taken.", "dose on_off"),
    balance(
        "doses in turn", "supply = sum(dose_in[i] * times_in[i] * days_in[i])", "Each stretch: dose, times a day, days; then all together.", "regimen in_turn"
    ),
    balance("days in turn", "course = sum(days_in[i])", "The days of all the stretches.", "regimen in_turn"),
    balance("doses of a day", "daily = sum(dose_in[i] * times_in[i])", "All that is taken in a day.", "regimen each_day"),
    practice("taken from the bottle", "taken_from = bottle_size", "It is taken from the bottle.", "from_bottle"),
    balance("taken from the bottles", "taken_from = bottles * bottle_size", "So many bottles of that size.", "from_bottles"),
    practice("the bottle is the course", "supply = bottle_size", "The bottle is to last the course.", "bottle_is_course"),
    practice("taken from the blend", "taken_from = blend", "It is taken from what was blended.", "from_blend"),
    practice("taken from the syrup", "taken_from = syrup", "It is taken from the syrup.", "from_syrup"),
    practice("taken from the syrup with its spirit", "taken_from = fortified", "It is taken from both.", "from_fortified"),
    practice("taken from the decoction", "taken_from = boiled_to", "It is drunk from what was boiled down.", "from_pot"),
    practice("taken from what was pressed", "taken_from = pressed", "It is taken from what was pressed.", "from_pressed"),
    practice("bottles to dispense", "bottles_needed = ceil(supply / bottle_size)", "The next whole number of bottles that holds the course.", "dose !over"),
    practice(
        "bottles with some over", "bottles_needed = ceil(supply_over / bottle_size)", "The next whole number of bottles that holds it.", "dose over"
    ),
    balance("volume with some over", "supply_over = supply * (1 + margin / 100)", "What the course takes, and so much more for what is spilt.", "dose over"),
    balance("volume for the course", "supply = daily * course", "What a day takes, times the days.", "dose !on_off !in_turn"),
    balance("volume for several people", "supply_for_all = supply * people", "What one takes in the course, times the people.", "dose"),
    practice("bottles for several people", "bottles_for_all = bottles_needed * people", "Each has bottles of their own.", "dose"),
    practice("herb in a dose", "herb_per_dose = dose * herb_per_ml", "The mL of a dose times the herb in each.", "!formula"),
    balance("herb in a day", "herb_per_day = herb_per_dose * times_a_day", "A dose's herb times how often.", "!formula"),
    balance(
        "alcohol in a dose",
        "alcohol_per_dose = dose * dose_strength / 100 * 0.78924",
        "The mL of the dose, times the strength, times 0.78924 g per mL.",
        "",
        OIML,
    ),
    balance("alcohol in a day", "alcohol_per_day = alcohol_per_dose * times_a_day", "A dose's alcohol times how often."),
    balance("alcohol in a dose, by volume", "alcohol_ml_per_dose = dose * dose_strength / 100", "The mL of the dose times the strength."),
    balance("alcohol in a day, by volume", "alcohol_ml_per_day = daily * dose_strength / 100", "The mL of the day times the strength."),
    balance("alcohol in the course, by volume", "alcohol_ml_for_course = alcohol_ml_per_day * course", "A day's alcohol times the days.", "!on_off !in_turn"),
    balance("alcohol in the course", "alcohol_for_course = alcohol_per_day * course", "A day's alcohol times the days.", "!on_off !in_turn"),
    balance("herb in the day's mL", "herb_per_day = daily * herb_per_ml", "The mL of a day times the herb in each.", "daily_herb !formula"),
    practice("the blend is taken", "dose_strength = blend_strength", "What is taken is the blend.", "takes_blend"),
    practice("the tincture is taken", "dose_strength = finished_strength", "What is taken is what is in the jar.", "takes_jar"),
    practice("plant for the course", "herb_for_course = supply * herb_per_ml", "The mL of the course times the herb in each.", "dose !formula"),
    practice("the same herb from another ratio", "other_dose * other_carries = dose * carries", "The same grams of dried herb in both doses.", "dose swapped"),
    practice("carried by a dried 1 to R", "carries = 1 / ratio", "Each mL stands for one gram shared among R mL.", "swapped !own_fresh"),
    practice(
        "carried by a fresh 1 to R",
        "carries = (1 - water_content / 100) / 0.9 / (ratio + water_content / 100)",
        "Dry matter as dried herb with 10 % water, in the pour and the plant's water, simply added.",
        "swapped own_fresh",
    ),
    practice(
        "carried by the other, dried",
        "other_carries = 1 / other_ratio",
        "Each mL stands for one gram shared among R mL.",
        "swapped !other_fresh !other_known",
    ),
    practice(
        "carried by the other, fresh",
        "other_carries = (1 - other_water / 100) / 0.9 / (other_ratio + other_water / 100)",
        "Dry matter as dried herb with 10 % water, in the pour and the plant's water, simply added.",
        "swapped other_fresh !other_known",
    ),
    practice("dried herb in a day", "dried_per_day = daily * carries", "The day's mL times the dried herb each carries.", "dose own_fresh"),
    practice("by the ratios alone", "other_dose_nominal = dose * other_ratio / ratio", "As if a gram were a gram, fresh or dried.", "dose swapped"),
    practice("what was poured is taken", "dose_strength = strength", "What is taken is as strong as it was said.", "takes_poured"),
    practice(
        "Clark's rule",
        "clark_dose = adult_dose * (child_weight / 453.592) / 150",
        "The child's pounds over 150, times the adult dose.",
        "child_rule !adult_weighed",
        HISTORICAL,
    ),
    practice(
        "by a grown-up's own weight",
        "clark_dose = adult_dose * child_weight / adult_weight",
        "The child's weight over the grown-up's, where Clark put 150 pounds.",
        "child_rule adult_weighed",
        HISTORICAL,
    ),
    practice(
        "Young's rule",
        "young_dose = adult_dose * child_years / (child_years + 12)",
        "The child's years over years plus twelve.",
        "young",
        "Young's rule, historical; for licensed practice only",
    ),
    practice(
        "Fried's rule",
        "fried_dose = adult_dose * child_months / 150",
        "The child's months over 150.",
        "fried",
        "Fried's rule, historical; for licensed practice only",
    ),
    practice("the adult's drops", "adult_drops = adult_dose * drops_per_ml", "So many drops make a mL.", "child"),
    practice("the child's drops", "child_drops = child_dose * drops_per_ml", "So many drops make a mL.", "child"),
    practice("by Clark alone", "child_dose = clark_dose", "One rule of thumb was asked for.", "child_rule !young !fried"),
    practice("by Young alone", "child_dose = young_dose", "One rule of thumb was asked for.", "young !child_rule !fried"),
    practice("by Fried alone", "child_dose = fried_dose", "One rule of thumb was asked for.", "fried !child_rule !young"),
    practice("the child's dose is the dose", "dose = child_dose", "What is poured is the child's proportion.", "child"),
)
