"""The one vocabulary: every quantity that can be said, solved, explained and used in a rule.

A quantity is declared once, here. `unit` is its bench unit (g, mL, g/mL, mL/g, percent, drop, day, 1); `low` and `high` are
the physical bracket in that unit, used by the numeric roots and by the sense checks. An indexed quantity exists once for each
ingredient: its key is written `volume[thyme]`.
"""

from __future__ import annotations

from functools import lru_cache

from assistant.quantities.quantity import MUCH, TINY, Quantity
from assistant.quantities.working_year import QUANTITIES as OF_THE_YEAR


def _grams(name: str, caption: str, *spoken: str, indexed: bool = False) -> Quantity:
    return Quantity(name, "g", caption, TINY, MUCH, spoken, indexed)


def _millilitres(name: str, caption: str, *spoken: str, indexed: bool = False) -> Quantity:
    return Quantity(name, "mL", caption, TINY, MUCH, spoken, indexed)


def _percent(name: str, caption: str, *spoken: str, high: float = 100.0, indexed: bool = False) -> Quantity:
    return Quantity(name, "percent", caption, 0.0, high, spoken, indexed)


def _count(name: str, caption: str, *spoken: str, high: float = 1e6, indexed: bool = False) -> Quantity:
    return Quantity(name, "1", caption, 0.0, high, spoken, indexed)


def _money(name: str, caption: str, *spoken: str, indexed: bool = False) -> Quantity:
    return Quantity(name, "1", caption, 0.0, 1e9, spoken, indexed)


_ALL = (
    # gathering
    _grams("herb", "plant weight", "herb", "plant", "weight of plant", "clean weight"),
    _grams("to_gather", "to gather", "pick", "harvest", "cut", "gather"),
    _percent("margin", "margin", "safety margin", "extra", high=500.0),
    _percent("trim_loss", "trimming loss", "loss as stalks", "waste", "garbling loss"),
    Quantity("gross", "g", "weight on the scale", TINY, MUCH, ("gross weight", "with the bag")),
    Quantity("tare", "g", "tare", 0.0, MUCH, ("bag", "basket", "bowl", "empty weight")),
    _grams("picked", "net weight picked", "net weight", "without the bag"),
    _grams("carrier_holds", "in each bag or basket", "each basket holds"),
    _count("carriers", "bags or baskets it takes", "baskets to fill"),
    _count("carriers_had", "bags or baskets there are", "full baskets"),
    _grams("planned_herb", "planned plant weight", "the plan"),
    Quantity("plant_to_come", "g", "plant still to pick", -MUCH, MUCH, ("still to pick",)),
    _count("stand_plants", "plants in the stand", "plants there", "stand"),
    _count("plants_taken", "plants taken", "plants lifted", "plants needed"),
    _grams("per_plant", "grams a plant", "each plant gives"),
    _percent("stand_share", "share of the stand", "share taken"),
    _grams("gathered_weight", "weight taken from the stand", "gathered from the stand"),
    Quantity("plants_left", "1", "plants left standing", 0.0, 1e9, ("plants left",)),
    _percent("share_allowed", "share of the stand at most", "at most of the stand"),
    Quantity("plants_allowed", "1", "plants that may be taken", 0.0, 1e9, ("plants at most",)),
    Quantity("plants_over", "1", "plants too many", -1e9, 1e9, ("over the share",)),
    Quantity("stands_needed", "1", "stands like it", 0.0, 1e6, ("stands needed",)),
    Quantity("allowed_weight", "g", "weight that may be taken", 0.0, MUCH, ("weight at most",)),
    # drying
    _percent("water_content", "water content", "moisture", "percent water", high=99.9),
    Quantity("plant_water", "g", "plant water", 0.0, MUCH, ("water in the plant",)),
    _grams("dry_matter", "dry matter", "dry weight of plant"),
    _grams("dried", "dried weight", "dried herb", "what it dries down to"),
    _percent("dried_water", "water left in the dried herb", "water left after drying", high=99.0),
    Quantity("drying_ratio", "1", "drying ratio (fresh to dried)", 1.0, 100.0, ("fresh to dry",)),
    _percent("drying_loss", "loss in drying"),
    Quantity("water_lost", "g", "water lost in drying", 0.0, MUCH, ("water dried off",)),
    _grams("wilted", "wilted weight", "weight after wilting"),
    _percent("wilted_water", "water content after wilting", high=99.9),
    Quantity("water_to_lose", "g", "water still to dry off", -MUCH, MUCH, ("still to come off",)),
    # maceration
    Quantity("ratio", "1", "ratio", 1e-3, 1e4, ("plant to menstruum", "one to")),
    Quantity("dry_ratio", "1", "dry equivalent ratio", 1e-3, 1e4, ("dry equivalent",)),
    Quantity("ratio_by_weight", "1", "ratio by weight", 1e-3, 1e4, ("by weight",)),
    _millilitres("menstruum", "menstruum", "liquid to pour", "poured", "volume of menstruum"),
    _grams("menstruum_weight", "weight of the menstruum", "menstruum by weight"),
    Quantity("menstruum_density", "g/mL", "density of the menstruum", 0.5, 2.0, ("weighs per mL",)),
    _percent("strength", "strength poured", "at percent", "strength of the menstruum"),
    _percent("strength_by_weight", "strength by weight", "percent by weight"),
    _percent("finished_strength", "finished strength", "finish", "final strength", "strength in the jar"),
    _millilitres("ceiling_volume", "liquid in the jar, stock poured neat"),
    _percent("ceiling", "highest finish from this stock", "ceiling"),
    _millilitres("in_jar", "liquid in the jar", "finished volume", "total liquid"),
    Quantity("alcohol", "mL", "pure alcohol", 0.0, MUCH, ("pure alcohol in it", "ethanol")),
    Quantity("alcohol_grams", "g", "pure alcohol by weight", 0.0, MUCH, ("grams of alcohol",)),
    Quantity("herb_per_ml", "g/mL", "herb per mL", 1e-6, 1e3, ("grams per mL", "each mL carries")),
    Quantity("herb_per_ml_jar", "g/mL", "plant per mL in the jar", 1e-6, 1e3, ("real herb per mL",)),
    Quantity("dried_equivalent", "g/mL", "dried-equivalent per mL", 1e-6, 1e3, ("dry equivalent per mL",)),
    # spirit
    _millilitres("stock", "stock spirit", "spirit to measure", "of the spirit"),
    _percent("stock_strength", "stock strength", "strength on the bottle", "spirit on the shelf"),
    Quantity("water", "mL", "water to add", -MUCH, MUCH, ("water",)),
    _count("proof_us", "US proof", "proof", high=200.0),
    _count("proof_uk", "UK proof", "degrees proof", high=175.0),
    _millilitres("spirit_in_hand", "spirit in hand", "left on the shelf", "spirit left"),
    Quantity("spirit_short", "mL", "spirit still to fetch", -MUCH, MUCH, ("short of spirit",)),
    _grams("herb_served", "plant the spirit serves", "largest batch"),
    Quantity("herb_left", "g", "plant left over", -MUCH, MUCH, ("to hang and dry",)),
    Quantity("left_dried", "g", "the rest dried", -MUCH, MUCH, ("what the rest dries to",)),
    Quantity("menstruum_served", "mL", "menstruum the spirit makes", TINY, MUCH, ("how far it stretches",)),
    Quantity("stretched_strength", "percent", "strength that stretches to all", 0.0, 100.0, ()),
    _millilitres("planned_menstruum", "menstruum as planned", "mixed for the plan"),
    Quantity("more_menstruum", "mL", "more to pour than planned", -MUCH, MUCH, ()),
    Quantity("spare", "mL", "menstruum to spare", -MUCH, MUCH, ("left over menstruum",)),
    _percent("hydrometer", "hydrometer reading", "reads", "the hydrometer says"),
    Quantity("celsius", "degC", "temperature of the liquid", -20.0, 40.0, ("temperature",)),
    # blends of liquids
    Quantity("volume", "mL", "volume", 0.0, MUCH, ("mL of",), True),
    _percent("strength_of", "strength", "percent of", indexed=True),
    _millilitres("blend", "blend", "total", "the bottle", "made in all"),
    _percent("blend_strength", "strength of the blend", "how strong it is together"),
    # pressing
    Quantity("held_per_gram", "mL/g", "held back per gram", 0.0, 50.0, ("marc holds", "held per g")),
    Quantity("wetting_per_gram", "mL/g", "spirit to wet each gram", 0.0, 50.0, ("wetting per gram", "damping per gram")),
    Quantity("wetting", "mL", "spirit to wet the plant", 0.0, MUCH, ("spirit to wet it", "spirit to dampen it")),
    Quantity("held_back", "mL", "held back in the marc", 0.0, MUCH, ("stuck in the marc", "soaked up")),
    _millilitres("pressed", "pressed", "pressed out", "tincture out", "what comes out"),
    _percent("yield_share", "yield", "percent back", "get back"),
    Quantity("rack_loss", "percent", "loss in racking", 0.0, 99.9, ("lost in settling", "lost in filtering")),
    Quantity("rack_lost", "mL", "lost in racking", 0.0, MUCH, ("sediment", "sludge")),
    _millilitres("racked", "racked", "settled", "filtered"),
    _grams("all_herb", "all the herb", "both macerations together"),
    _millilitres("all_out", "all the liquid that came out", "both pressings"),
    # vessels
    _millilitres("jar_size", "jar size", "jar", "crock"),
    _percent("fill", "fill", "how full", high=1000.0),
    _count("jars", "jars", "how many jars"),
    Quantity("herb_room", "mL/g", "room the herb takes", 0.0, 50.0, ("herb takes up",)),
    Quantity("contents", "mL", "herb and liquid together", TINY, MUCH, ("contents",)),
    _millilitres("in_each", "in each", "each jar"),
    _grams("herb_in_each", "plant in each jar"),
    _millilitres("bottle_size", "bottle size", "bottle"),
    _count("bottles", "bottles", "how many bottles"),
    Quantity("to_bottle", "mL", "to bottle", TINY, MUCH, ("volume to bottle",)),
    _count("bottles_to_fill", "bottles to fill"),
    _millilitres("to_fill", "to fill them all"),
    Quantity("fill_short", "mL", "lacking for the bottles", -MUCH, MUCH, ()),
    _millilitres("stock_bottle", "bottle the spirit comes in"),
    _count("stock_bottles", "bottles of spirit", "bottles to open"),
    _millilitres("kept_back", "kept back unbottled", "kept back"),
    Quantity("rest", "mL", "left over", -MUCH, MUCH, ("rest", "over")),
    # recipes by weight: salve, tea, powders
    Quantity("part", "1", "parts", 0.0, 1e6, ("part",), True),
    Quantity("parts", "1", "parts in all", TINY, 1e7, ("total parts",)),
    Quantity("share", "percent", "share", 0.0, 100.0, ("percent of the whole",), True),
    Quantity("weight", "g", "weight", 0.0, MUCH, ("grams of",), True),
    _grams("batch", "batch weight", "total weight", "batch"),
    Quantity("density_of", "g/mL", "density", 0.3, 3.0, ("weighs per mL",), True),
    Quantity("batch_volume", "mL", "batch volume", TINY, MUCH, ("melted volume",)),
    Quantity("tin_size", "mL", "tin size", TINY, MUCH, ("tin", "pot")),
    Quantity("tin_weight", "g", "weight in each tin or bag", TINY, MUCH, ("in each tin",)),
    _count("tins", "tins", "how many tins"),
    _count("bags", "bags", "how many bags"),
    Quantity("over_weight", "g", "left after the bags", -MUCH, MUCH, ()),
    # essential oil
    Quantity("eo_share", "percent", "essential oil share", 0.0, 100.0, ("essential oil percent",)),
    Quantity("eo", "mL", "essential oil", 0.0, MUCH, ("essential oil volume",)),
    Quantity("eo_drops", "drop", "drops of essential oil", 0.0, 1e7, ("drops",)),
    Quantity("eo_base", "mL", "volume it goes into", TINY, MUCH, ("base",)),
    Quantity("eo_part", "percent", "share of the essential oils", 0.0, 100.0, (), True),
    Quantity("eo_volume", "mL", "essential oil", 0.0, MUCH, (), True),
    Quantity("eo_drops_of", "drop", "drops", 0.0, 1e7, (), True),
    Quantity("drops_per_tin", "drop", "drops in each tin", 0.0, 1e6, ("drops for each",)),
    # sweet
    Quantity("sugar", "g", "sugar", 0.0, MUCH, ("sugar",)),
    Quantity("honey", "g", "honey", 0.0, MUCH, ("honey",)),
    Quantity("honey_volume", "mL", "honey", 0.0, MUCH, ("honey by volume",)),
    _percent("honey_sugar", "sugar in the honey"),
    Quantity("honey_density", "g/mL", "density of honey", 1.0, 2.0, ()),
    Quantity("liquid", "g", "water in the syrup", 0.0, MUCH, ("water or decoction by weight",)),
    Quantity("decoction", "mL", "decoction", 0.0, MUCH, ("infusion", "strained tea")),
    Quantity("sugar_times", "1", "sugar to liquid by weight", 0.0, 1e3, ("times its weight",)),
    _percent("brix", "syrup strength", "Brix", "degrees Brix", "°Bx"),
    Quantity("sugar_in", "g", "sugar counted", 0.0, MUCH, ()),
    _grams("syrup_weight", "syrup by weight", "total weight of the syrup"),
    _millilitres("syrup", "syrup", "syrup by volume"),
    _millilitres("boiled_from", "before boiling down", "started at"),
    _millilitres("boiled_to", "after boiling down", "boiled to"),
    Quantity("boiled_off", "mL", "boiled off", 0.0, MUCH, ("gone up the chimney", "lost as steam")),
    # sour, glycerine
    _percent("acidity", "acidity poured", "vinegar strength"),
    _percent("finished_acidity", "finished acidity", "acidity in the end"),
    _percent("glycerine", "glycerine poured", "glycerine percent"),
    _percent("finished_glycerine", "finished glycerine", "glycerine in the jar"),
    Quantity("glycerine_volume", "mL", "glycerine to measure", 0.0, MUCH, ("pure glycerine",)),
    _percent("wanted_glycerine", "glycerine wanted after topping up"),
    _percent("glycerine_stock", "strength of the glycerine", "glycerine as sold"),
    Quantity("top_up", "mL", "to add", -MUCH, MUCH, ("more to add",)),
    # tea
    _grams("per_cup", "per cup", "grams a cup"),
    _grams("spoon", "weight of a spoonful", "one teaspoon weighs"),
    _count("spoons_per_cup", "spoons per cup"),
    _count("cups", "cups", "how many cups"),
    _count("cups_a_day", "cups a day"),
    # dose
    Quantity("dose", "mL", "dose", 0.0, 1e5, ("each dose",)),
    Quantity("dose_drops", "drop", "drops per dose", 0.0, 1e6, ("drops",)),
    Quantity("drops_per_ml", "1", "drops in a mL", 1.0, 200.0, ("drops per mL",)),
    _count("times_a_day", "times a day", high=100.0),
    Quantity("daily", "mL", "daily dose", 0.0, 1e5, ("per day", "mL a day")),
    Quantity("days", "day", "days it lasts", 0.0, 1e6, ("how long it lasts", "days' supply")),
    Quantity("course", "day", "days of the course", 0.0, 1e6, ("for how long",)),
    Quantity("supply", "mL", "volume for the course", 0.0, MUCH, ("needed for the course",)),
    Quantity("drops_beside", "drop", "drops with each dose", 0.0, 1e6, ()),
    Quantity("drops_of_all", "drop", "drops for all the doses", 0.0, 1e7, ()),
    _count("people", "people it is for", high=1000.0),
    Quantity("supply_for_all", "mL", "volume for all of them", 0.0, MUCH, ()),
    _count("bottles_for_all", "bottles for all of them"),
    Quantity("supply_over", "mL", "volume with some over", 0.0, MUCH, ()),
    Quantity("herb_per_dose", "g", "herb per dose", 0.0, 1e6, ()),
    Quantity("herb_per_day", "g", "herb per day", 0.0, 1e6, ("grams of herb a day",)),
    Quantity("alcohol_per_dose", "g", "alcohol per dose", 0.0, 1e6, ()),
    Quantity("alcohol_per_day", "g", "alcohol per day", 0.0, 1e6, ()),
    _percent("dose_strength", "strength of what is taken"),
    Quantity("adult_dose", "mL", "adult dose", 0.0, 1e5, ("grown-up dose",)),
    Quantity("adult_drops", "drop", "adult dose in drops", 0.0, 1e6, ()),
    Quantity("child_drops", "drop", "child's proportion in drops", 0.0, 1e6, ()),
    Quantity("child_weight", "g", "child's weight", 100.0, 3e5, ()),
    Quantity("adult_weight", "g", "grown-up's weight", 100.0, 3e5, ()),
    Quantity("child_years", "1", "child's age in years", 0.0, 18.0, ()),
    Quantity("child_months", "1", "child's age in months", 0.0, 216.0, ()),
    Quantity("child_dose", "mL", "child's proportion", 0.0, 1e5, ("child's dose",)),
    Quantity("ratio_of", "1", "ratio", 1e-3, 1e4, (), True),
    Quantity("herb_in", "g", "herb in the bottle", 0.0, MUCH, (), True),
    Quantity("herb_a_day_of", "g", "herb per day", 0.0, 1e6, (), True),
    Quantity("herb_a_dose_of", "g", "herb per dose", 0.0, 1e6, (), True),
    # cost
    _money("price_of", "price per unit", indexed=True),
    _money("cost_of", "cost", indexed=True),
    _money("materials", "materials", "spent on materials"),
    _money("empty_bottle", "empty bottle", "price of the bottle"),
    _money("labour", "labour", "work"),
    _money("bottle_cost", "cost of a bottle", "each bottle comes to"),
    _money("spirit_price", "price of spirit per mL"),
    _money("herb_price", "price of herb per g"),
    _money("selling_price", "selling price", "price"),
    _percent("commission", "share the shop keeps", "commission"),
    Quantity("left_each", "1", "left for you on each", -1e9, 1e9, ("left on each",)),
    _percent("on_cost", "mark-up on the cost", high=10000.0),
    Quantity("mark_up", "percent", "margin on the price", 0.0, 99.99, ("profit margin",)),
    # formulas and recipes of many parts
    Quantity("have", "mL", "on the shelf", 0.0, MUCH, ("left of it",), True),
    Quantity("have_weight", "g", "on the shelf", 0.0, MUCH, (), True),
    Quantity("runs_out", "mL", "what runs out first", 0.0, MUCH, (), True),
    Quantity("runs_out_weight", "g", "what runs out first", 0.0, MUCH, (), True),
    Quantity("have_left", "mL", "left on the shelf", -MUCH, MUCH, (), True),
    Quantity("have_left_weight", "g", "left on the shelf", -MUCH, MUCH, (), True),
    Quantity("once_volume", "mL", "in the recipe", 0.0, MUCH, (), True),
    Quantity("once_weight", "g", "in the recipe", 0.0, MUCH, (), True),
    Quantity("once_makes", "mL", "what the recipe makes", TINY, MUCH, ("the recipe makes",)),
    Quantity("once_weighs", "g", "what the recipe weighs", TINY, MUCH, ()),
    Quantity("times", "1", "times the recipe", 0.0, 1e6, ("how many times",)),
    _millilitres("made", "volume once mixed", "what it shrinks to"),
    Quantity("poured", "mL", "fixed amount", 0.0, MUCH, (), True),
    Quantity("rest_volume", "mL", "left for the parts", -MUCH, MUCH, ("rest of the bottle",)),
    Quantity("volume_a_day", "mL", "per day", 0.0, MUCH, (), True),
    Quantity("formula_a_day", "mL", "formula per day", 0.0, MUCH, ("volume a day",)),
    Quantity("over_dose", "mL", "more than the dose holds, per day", -MUCH, MUCH, ()),
    Quantity("needed_dose", "mL", "dose the grams need", 0.0, 1e5, ()),
    Quantity("herb_in_ml", "g/mL", "herb per mL", 0.0, 1e3, (), True),
    _grams("second_herb", "plant for the second run", "second run", "double infusion"),
    _grams("herb_for_course", "plant for the course", "root to tincture"),
    Quantity("other_ratio", "1", "ratio of the other", 1e-3, 1e4, ("the other ratio",)),
    Quantity("other_dose", "mL", "dose of the other", 0.0, 1e5, ("equivalent dose",)),
    _millilitres("cup_size", "size of a cup", "cup"),
    Quantity("water_a_day", "mL", "water per day", 0.0, MUCH, ()),
    Quantity("honey_more", "g", "more honey", -MUCH, MUCH, ("honey to add",)),
    Quantity("honey_had", "g", "honey in it already", 0.0, MUCH, ()),
    Quantity("sugar_had", "g", "sugar in it already", 0.0, MUCH, ()),
    Quantity("eo_weight", "g", "essential oil by weight", 0.0, MUCH, ()),
    Quantity("had_weight", "g", "in the pot", 0.0, MUCH, (), True),
    Quantity("more_weight", "g", "to add", -MUCH, MUCH, ("more of it",), True),
    _millilitres("keeping_spirit", "spirit that keeps it", "brandy to keep it"),
    _percent("keeping_strength", "strength of that spirit"),
    Quantity("free_water", "mL", "free water", -MUCH, MUCH, ()),
    # the same herb from another preparation
    Quantity("carries", "g/mL", "dried herb carried per mL", 1e-6, 1e3, ()),
    Quantity("other_carries", "g/mL", "dried herb per mL of the other", 1e-6, 1e3, ()),
    Quantity("dried_per_day", "g", "as dried herb per day", 0.0, 1e6, ("dried herb a day",)),
    _percent("other_water", "water content of the other", high=99.9),
    Quantity("other_dose_nominal", "mL", "dose of the other by the ratios alone", 0.0, 1e5, ()),
    _percent("press_loss", "lost in pressing"),
    Quantity("clark_dose", "mL", "by Clark's rule", 0.0, 1e5, ()),
    Quantity("young_dose", "mL", "by Young's rule", 0.0, 1e5, ()),
    Quantity("fried_dose", "mL", "by Fried's rule", 0.0, 1e5, ()),
    Quantity("honey_times", "1", "honey to liquid by weight", 0.0, 1e3, ()),
    Quantity("honey_to_vinegar", "1", "honey to vinegar by volume", 0.0, 1e3, ()),
    Quantity("decoction_to_vinegar", "1", "decoction to vinegar by volume", 0.0, 1e3, ()),
    Quantity("eo_density", "g/mL", "density of the essential oil", 0.7, 1.3, ()),
    Quantity("salve_density", "g/mL", "density of the salve", 0.5, 2.0, ()),
    Quantity("carries_of", "g/mL", "herb per mL", 0.0, 1e3, (), True),
    Quantity("blend_ratio", "1", "ratio of what was put together", 1e-3, 1e4, ("merged ratio",)),
    _percent("planned_share", "share as planned", indexed=True),
    _count("doses", "doses in it"),
    Quantity("volume_in_time", "mL", "in that time", 0.0, MUCH, (), True),
    Quantity("herb_in_time", "g", "herb in that time", 0.0, MUCH, (), True),
    Quantity("volume_a_dose", "mL", "per dose", 0.0, MUCH, (), True),
    Quantity("drops_a_dose", "drop", "per dose in drops", 0.0, 1e7, (), True),
    Quantity("have_short", "mL", "still missing", -MUCH, MUCH, (), True),
    Quantity("have_short_weight", "g", "still missing", -MUCH, MUCH, (), True),
    _millilitres("dropper_size", "what the dropper lifts", "one squeeze of the dropper"),
    _count("dropperfuls", "dropperfuls a dose"),
    Quantity("alcohol_ml_per_dose", "mL", "pure alcohol per dose", 0.0, 1e5, ()),
    Quantity("alcohol_ml_per_day", "mL", "pure alcohol per day", 0.0, 1e5, ()),
    Quantity("alcohol_ml_for_course", "mL", "pure alcohol in the course", 0.0, MUCH, ()),
    Quantity("alcohol_for_course", "g", "pure alcohol in the course", 0.0, MUCH, ()),
    # doses that change
    Quantity("dose_in", "mL", "dose", 0.0, 1e5, (), True),
    Quantity("times_in", "1", "times a day", 0.0, 100.0, (), True),
    Quantity("days_in", "day", "days", 0.0, 1e5, (), True),
    Quantity("on_days", "day", "days on", 0.0, 1e4, ()),
    Quantity("off_days", "day", "days off", 0.0, 1e4, ()),
    _percent("on_share", "share of the days it is taken"),
    Quantity("rounds", "1", "full rounds", 0.0, 1e6, ()),
    Quantity("days_taken", "day", "days of the course it is taken", 0.0, 1e6, ()),
    Quantity("dosing_days", "day", "days it is taken", 0.0, 1e6, ()),
    # percolation
    _millilitres("percolate", "percolate", "what drips through", "percolate wanted"),
    Quantity("powder_holds", "mL", "held by the powder", 0.0, MUCH, ()),
    Quantity("drip_rate", "1", "mL dripping a minute", 0.0, 1e4, ("drip rate",)),
    Quantity("drip_per_kilo", "1", "mL a minute for each kg", 0.0, 1e3, ()),
    Quantity("drip_drops", "1", "drops a minute", 0.0, 1e5, ()),
    Quantity("drip_hours", "1", "hours of dripping", 0.0, 1e6, ("how many hours",)),
    _percent("set_aside_share", "first portion set aside", "reserved"),
    Quantity("set_aside", "mL", "set aside", 0.0, MUCH, ("reserve",)),
    Quantity("boil_down_to", "mL", "the rest boiled down to", 0.0, MUCH, ()),
    # what is taken from, and the bottles it needs
    _millilitres("taken_from", "volume it is taken from"),
    _count("bottles_needed", "bottles needed", "how many to dispense"),
    Quantity("sugar_more", "g", "more sugar", -MUCH, MUCH, ("sugar to add",)),
    Quantity("labour_each", "1", "work in each bottle", 0.0, 1e9, ()),
    _money("cost_per_ml", "cost of a mL"),
    _money("batch_cost", "cost of the batch", "all of it costs"),
    Quantity("stock_used", "mL", "spirit used", 0.0, MUCH, ()),
    Quantity("oil_weight", "g", "oil by weight", 0.0, MUCH, ()),
    Quantity("glycerine_weight", "g", "glycerine by weight", 0.0, MUCH, ("glycerine in grams",)),
    # a syrup mended or kept with spirit, vinegar cut down, a pot boiled for days
    _percent("boiled_share", "left after boiling down"),
    _percent("boiled_off_share", "boiled away"),
    _grams("syrup_had", "syrup there is"),
    _percent("brix_had", "what the syrup reads"),
    Quantity("sugar_there", "g", "sugar in the syrup there is", 0.0, MUCH, ()),
    Quantity("water_off", "g", "water to boil off", -MUCH, MUCH, ("water to drive off",)),
    Quantity("water_more", "g", "water to thin it with", -MUCH, MUCH, ()),
    _millilitres("juice", "sweet juice there is"),
    _percent("syrup_alcohol", "alcohol in the syrup"),
    _millilitres("fortified", "syrup and spirit together"),
    _percent("acidity_stock", "vinegar as sold", "strength of the vinegar on the shelf"),
    Quantity("vinegar_stock", "mL", "vinegar to measure", 0.0, MUCH, ()),
    Quantity("honey_volumes", "1", "honey to liquid by volume", 0.0, 1e3, ()),
    Quantity("honey_to_herb", "1", "honey to plant by weight", 0.0, 1e3, ()),
    _count("once_count", "what the recipe fills"),
    _count("count_wanted", "wanted to fill"),
    Quantity("lots_herb", "g", "plant in the blend", 0.0, MUCH, ()),
    Quantity("herb_for_days", "g", "plant for all the days", 0.0, MUCH, ()),
    Quantity("water_for_days", "mL", "water for all the days", 0.0, MUCH, ()),
    *OF_THE_YEAR,
)

VOCABULARY: dict[str, Quantity] = {q.name: q for q in _ALL}


@lru_cache(maxsize=4096)
def base(key: str) -> str:
    """`volume[lemon balm]` → `volume`."""
    cut = key.find("[")
    return key if cut < 0 else key[:cut]


@lru_cache(maxsize=4096)
def about(key: str) -> str:
    """`volume[lemon balm]` → `lemon balm`; empty for a quantity of the whole batch."""
    cut = key.find("[")
    return "" if cut < 0 else key[cut + 1 : -1]


def key_for(name: str, member: str = "") -> str:
    """The key of a quantity, of one ingredient where `member` is given."""
    return f"{name}[{member}]" if member else name


def quantity(key: str) -> Quantity:
    """The declaration behind a key. Fails with KeyError on an unknown name."""
    return VOCABULARY[base(key)]


def bracket(key: str) -> tuple[float, float]:
    """Physical low and high of a key, in its bench unit."""
    q = VOCABULARY[base(key)]
    return q.low, q.high
