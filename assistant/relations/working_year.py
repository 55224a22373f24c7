"""The working year: many batches at once. mL, grams, days, counts, plain money; a date is a day as the calendar counts them.

Every relation speaks only under its own tag, so that a single batch at the bench never meets them.
"""

from __future__ import annotations

from assistant.relations.craft import balance, practice

YEAR_PLAN = (
    practice(
        "needed for the year",
        "needed_for_year = used_last_year * (1 + growth / 100)",
        "What went last year, and as much more as is looked for.",
        "year !falling",
    ),
    practice("needed in a lean year", "needed_for_year = used_last_year * (1 - fall / 100)", "What went last year, and so much less.", "year falling"),
    balance("to make", "to_make = needed_for_year - still_left", "What is needed, less what is still there.", "year"),
    practice("what is made is what comes out", "racked = to_make", "So much has to come out of the press and stay clear of its lees.", "year"),
)

WHOLE_YEAR = (
    balance("needed in all", "need_all = sum(need_for[i])", "Every plan of the year together.", "whole_year"),
    balance("left in all", "left_all = sum(left_for[i])", "Every plan of the year together.", "whole_year"),
    balance("to pour in all", "pour_all = sum(pour_for[i])", "Every plan of the year together.", "whole_year"),
    balance("to gather in all", "gather_all = sum(gather_for[i])", "Every plan of the year together.", "whole_year"),
    balance("spirit in all", "stock_all = sum(stock_for[i])", "Every plan of the year together.", "whole_year one_stock"),
    balance("bottles for the year", "bottles_all = sum(bottles_for[i])", "Every plan of the year together.", "whole_year"),
)

SHARED_SPIRIT = (
    balance("spirit wanted by all", "spirit_wanted = sum(spirit_for[i])", "What each batch wants, all together.", "sharing"),
    balance("spirit lacking", "spirit_lacking = spirit_wanted - spirit_there", "What they want, less what there is.", "sharing"),
    practice("share of the need", "share_met = spirit_there / spirit_wanted * 100", "What there is, out of what they want.", "sharing"),
    practice("each its share", "spirit_given[i] = spirit_for[i] * share_met / 100", "Every batch gets the same share of what it wants.", "sharing"),
)

CALENDAR = (
    balance("from jar to bottle", "lead_days = jar_days + settle_days", "The time in the jar, then the time to settle.", "timeline"),
    balance("backwards from the day", "latest_start = needed_by - lead_days", "Counted back from the day it must be bottled.", "timeline"),
    balance("press by", "press_by = needed_by - settle_days", "Pressed, it still has to settle.", "timeline"),
    balance("what goes out a day", "used_a_day = takers * each_a_day", "So many people, each so much.", "reserve"),
    practice("days until it is gone", "days_left = floor(still_left / used_a_day)", "What is left, by what goes out a day; whole days only.", "reserve"),
    balance("the day it is gone", "runs_out_on = today + days_left", "So many days from today.", "reserve"),
    balance("days to spare", "days_to_spare = days_left - lead_days", "The days that are left, less those the next batch takes.", "reserve timeline"),
    balance("start the next by", "next_start = runs_out_on - lead_days", "Counted back from the day the old is gone.", "reserve timeline"),
)

PRESSING_DAY = (
    balance("dry matter of a jar", "jar_dry[i] = jar_herb[i] * (1 - jar_water[i] / 100)", "What is not water is dry matter.", "press_day"),
    practice(
        "soaked marc",
        "marc_room[i] = jar_herb[i] * room_of[i] + jar_dry[i] * drained_per_gram",
        "The herb's own room, and what it still holds once drained.",
        "press_day",
    ),
    practice("press loads", "press_loads[i] = ceil(marc_room[i] / basket)", "The soaked marc by baskets; two batches never share one.", "press_day"),
    practice("bottles of each", "bottles_from[i] = floor(jar_out[i] / bottle_size)", "Bottles are whole.", "press_day"),
    balance("over of each", "left_from[i] = jar_out[i] - bottles_from[i] * bottle_size", "What does not fill another bottle.", "press_day"),
    balance("pressed in all", "day_out = sum(jar_out[i])", "All jars together.", "press_day"),
    balance("loads in all", "day_loads = sum(press_loads[i])", "All jars together.", "press_day"),
    balance("bottles in all", "day_bottles = sum(bottles_from[i])", "A label goes on each.", "press_day"),
)

ORDERS = (
    balance("short of the order", "order_short[i] = promised[i] - lot_has[i]", "What is promised, less what the lot holds.", "orders !lots_settle"),
    practice(
        "short once it has settled",
        "order_short[i] = promised[i] - lot_has[i] * (1 - rack_loss / 100)",
        "What is promised, less what is clear of its lees.",
        "orders lots_settle",
    ),
    balance("promised in all", "promised_all = sum(promised[i])", "All that is promised, together.", "orders"),
    practice(
        "cost at the new price",
        "line_cost_now[i] = line_cost[i] + line_spirit[i] * (spirit_now - spirit_was) / 1000",
        "The spirit in a bottle costs so much more; the rest stays as it was.",
        "lines",
    ),
    practice("margin of a line", "line_margin[i] = (1 - line_cost_now[i] / line_price[i]) * 100", "What the cost leaves of the price.", "lines"),
    balance("brought home", "left_of_market = taken_to_market - sold", "What was taken, less what was sold.", "market"),
    balance("takings", "takings = sold * selling_price", "Bottles sold, at their price.", "market"),
    balance("left of the takings", "market_gain = takings - sold * bottle_cost - stall_fee", "The takings, less what was sold cost, less the stall.", "market"),
)

LEDGER = (
    balance("pure alcohol bought", "pure_bought = spirit_bought * bought_strength / 100", "Volume times strength, at 20 °C.", "ledger"),
    balance("pure alcohol used", "pure_used = spirit_used * used_strength / 100", "Volume times strength, at 20 °C.", "ledger"),
    balance("pure alcohol on the shelf", "pure_on_shelf = spirit_on_shelf * shelf_strength / 100", "Volume times strength, at 20 °C.", "ledger"),
    balance(
        "unaccounted for",
        "pure_missing = pure_bought - pure_used - pure_gone - pure_on_shelf",
        "Bought, less used, less poured away, less what stands on the shelf.",
        "ledger",
    ),
    balance("share unaccounted for", "missing_share = pure_missing / pure_bought * 100", "Of all that was bought.", "ledger"),
)

RACKS = (
    balance("still to lose", "still_to_lose = wilted - dried", "What it weighs now, less what it weighs when dry.", "drying"),
    balance("water still in it", "water_now = wilted - dry_matter", "What is not dry matter is water.", "drying"),
    practice("load of a rack", "rack_load = spread * rack_area", "Grams on a square metre, times the square metres of a rack.", "racks"),
    practice("what the racks hold", "racks_hold = racks_had * rack_load", "As many racks, each with its load.", "racks"),
    practice("on each rack there is", "rack_each = herb / racks_had", "What there is, spread evenly over the racks.", "racks"),
    balance("left off the racks", "rack_over = herb - racks_hold", "What there is, less what the racks hold.", "over_racks"),
    balance("room on the racks", "rack_room = racks_hold - herb", "What the racks hold, less what there is.", "within_racks"),
    practice("racks", "racks = ceil(herb / rack_load)", "Up to the next whole rack.", "racks"),
)

ROTATION = (
    practice(
        "crowns to plant", "crowns_to_plant = ceil(plants_taken / (1 - crown_loss / 100))", "As many as are lifted, and those that fail on top.", "crowns"
    ),
    practice("crowns in the ground", "crowns_standing = crowns_to_plant * crown_years", "Each year's planting stands until it is lifted.", "crowns"),
    practice("beds", "beds = ceil(crowns_standing / bed_holds)", "Up to the next whole bed.", "crowns"),
)

REFILLS = (
    balance("taken out of the bottle", "taken = dispensed - left_in_bottle", "What was handed out, less what came back.", "refill"),
    practice("meant to be taken", "meant = daily * elapsed", "What a day takes, times the days gone by.", "refill"),
    practice("taken of what was meant", "share_taken = taken / meant * 100", "What is gone, out of what was meant.", "refill"),
    practice("days a bottle holds", "bottle_days = floor(dispensed / daily)", "Only whole days count.", "refill"),
)

KITS = (
    balance("kits", "kits = students + spare_kits", "One each, and the spare ones.", "kits"),
    balance("for all the kits", "kit_volume = kits * per_kit", "So much in each.", "kits"),
    practice("what fills the kits", "racked = kit_volume", "As much has to come out of the press and stay clear as all the kits take.", "kits"),
    practice(
        "cost a head", "cost_a_head = (materials + kits * empty_bottle) / students", "Materials and bottles, shared among those who come.", "kits priced_kits"
    ),
    practice(
        "materials of the kits",
        "materials = herb * herb_price + stock * spirit_price",
        "The herb at its price a gram, the spirit at its price a mL.",
        "kits unit_kits",
    ),
)

BATCHES = (
    practice("batches out of it", "batches_out = floor(shelf_has / each_batch)", "Only whole batches count.", "batches"),
    balance("left after the batches", "batches_over = shelf_has - batches_out * each_batch", "What there was, less what the batches take.", "batches"),
    balance("lacking for the batches", "batches_lack = batches_meant * each_batch - shelf_has", "What they take in all, less what there is.", "batches"),
    practice("batches out of a weight", "batches_out = floor(shelf_has_weight / each_batch_weight)", "Only whole batches count.", "batches"),
    balance(
        "weight left after the batches",
        "batches_over_weight = shelf_has_weight - batches_out * each_batch_weight",
        "What there was, less what the batches take.",
        "batches",
    ),
    balance(
        "weight lacking for the batches",
        "batches_lack_weight = batches_meant * each_batch_weight - shelf_has_weight",
        "What they take in all, less what there is.",
        "batches",
    ),
)

RELATIONS = (*YEAR_PLAN, *WHOLE_YEAR, *SHARED_SPIRIT, *CALENDAR, *PRESSING_DAY, *ORDERS, *LEDGER, *RACKS, *ROTATION, *REFILLS, *KITS, *BATCHES)
