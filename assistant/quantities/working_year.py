"""Quantities of the working year: what a year needs, spirit shared out, dates, the pressing day, orders, the ledger, racks, crowns, refills, kits.

A date is a day counted as the calendar counts them (1 January of the year 1 is day 1), so that weeks add to it as to any figure.
"""

from __future__ import annotations

from assistant.quantities.quantity import MUCH, TINY, Quantity

LAST_DAY = 3_652_059.0  # 31 December 9999
DATES = frozenset({"needed_by", "latest_start", "press_by", "runs_out_on", "next_start", "today"})
MONTHS = frozenset({"gather_month"})


def _volume(name: str, caption: str, *spoken: str, low: float = 0.0, indexed: bool = False) -> Quantity:
    return Quantity(name, "mL", caption, low, MUCH, spoken, indexed)


def _count(name: str, caption: str, *spoken: str, low: float = 0.0, indexed: bool = False) -> Quantity:
    return Quantity(name, "1", caption, low, 1e9, spoken, indexed)


def _days(name: str, caption: str, *spoken: str, low: float = 0.0) -> Quantity:
    return Quantity(name, "day", caption, low, 1e6, spoken)


def _date(name: str, caption: str, *spoken: str) -> Quantity:
    return Quantity(name, "day", caption, 1.0, LAST_DAY, spoken)


QUANTITIES = (
    # what a year needs
    _volume("used_last_year", "used last year", "went through last year"),
    Quantity("growth", "percent", "more than last year", -100.0, 1000.0, ("growth",)),
    Quantity("fall", "percent", "less than last year", 0.0, 100.0, ("fall",)),
    _volume("still_left", "left from before", "still there"),
    _volume("needed_for_year", "needed for the year", "year's need"),
    _volume("to_make", "to make", "still to be made", low=-MUCH),
    Quantity("gather_month", "1", "month of gathering", 1.0, 12.0, ("picked in",)),
    # the year's plans together
    Quantity("gather_for", "g", "to gather for it", 0.0, MUCH, (), True),
    _volume("stock_for", "spirit for it", indexed=True),
    _count("bottles_for", "bottles of it", indexed=True),
    _volume("need_for", "needed of it", indexed=True),
    _volume("left_for", "left of it from before", indexed=True),
    _volume("pour_for", "to pour for it", indexed=True),
    _volume("need_all", "needed in all", "all the year needs"),
    _volume("left_all", "left in all", "all that is left from before"),
    _volume("pour_all", "to pour in all", "all the menstruum of the year"),
    Quantity("gather_all", "g", "to gather in all", 0.0, MUCH, ("gather in all",)),
    _volume("stock_all", "spirit to buy in all", "spirit in all"),
    _count("bottles_all", "bottles in all"),
    # spirit shared among batches
    _volume("spirit_for", "spirit wanted", indexed=True),
    _volume("spirit_there", "spirit there is", "spirit for all of them"),
    _volume("spirit_wanted", "spirit wanted by all", "all they want"),
    _volume("spirit_lacking", "spirit lacking", "shortfall of spirit", low=-MUCH),
    Quantity("share_met", "percent", "share of the need that is met", 0.0, 1e6, ("share met",)),
    _volume("spirit_given", "spirit given", indexed=True),
    Quantity("least_finish", "percent", "no weaker than", 0.0, 100.0, ("weakest finish",)),
    # dates
    _date("needed_by", "bottled by", "to be bottled", "deadline"),
    _date("latest_start", "start by", "latest start", "started"),
    _date("press_by", "press by", "pressing day"),
    _date("today", "today"),
    _date("runs_out_on", "runs out on", "day it is gone"),
    _date("next_start", "start the next by", "next batch by"),
    _days("jar_days", "time in the jar", "days in the jar", "macerates"),
    _days("settle_days", "time to settle", "days to settle"),
    _days("lead_days", "from jar to bottle", "lead time"),
    _volume("used_a_day", "used a day", "goes out a day"),
    _count("takers", "people who take it", "how many take it"),
    _volume("each_a_day", "each takes a day"),
    _days("days_left", "days until it is gone", "days left"),
    _days("days_to_spare", "days to spare", "slack", low=-1e6),
    # the pressing day
    _volume("jar_out", "expected from the press", indexed=True),
    Quantity("jar_herb", "g", "plant in the jar", 0.0, MUCH, (), True),
    Quantity("jar_dry", "g", "dry matter in the jar", 0.0, MUCH, (), True),
    Quantity("jar_water", "percent", "water of the plant in the jar", 0.0, 99.9, (), True),
    Quantity("room_of", "mL/g", "room it takes in the jar", 0.0, 50.0, (), True),
    Quantity("drained_per_gram", "mL/g", "held by the drained marc", 0.0, 50.0, ("drained marc holds",)),
    _volume("marc_room", "soaked marc", indexed=True),
    Quantity("basket", "mL", "press basket", TINY, MUCH, ("basket of the press",)),
    _count("press_loads", "press loads", indexed=True),
    _count("bottles_from", "bottles to have ready", indexed=True),
    _volume("left_from", "over after bottling", indexed=True),
    _volume("day_out", "from the press in all"),
    _count("day_loads", "press loads in all", "loads"),
    _count("day_bottles", "bottles and labels in all", "labels"),
    # orders and the market
    _volume("promised", "promised", indexed=True),
    _volume("promised_all", "promised in all", "ordered in all"),
    _volume("lot_has", "in the lot", indexed=True),
    _volume("order_short", "short of the order", low=-MUCH, indexed=True),
    _count("line_price", "price of the line", indexed=True),
    _count("line_cost", "cost of the line until now", indexed=True),
    _volume("line_spirit", "spirit in a bottle", indexed=True),
    _count("spirit_was", "price of a litre of spirit before"),
    _count("spirit_now", "price of a litre of spirit now"),
    _count("line_cost_now", "cost of the line now", indexed=True),
    Quantity("line_margin", "percent", "margin of the line", -1e6, 100.0, (), True),
    Quantity("least_margin", "percent", "least margin", 0.0, 100.0, ("floor of the margin",)),
    _count("taken_to_market", "taken to market", "bottles taken"),
    _count("sold", "bottles sold"),
    _count("left_of_market", "brought home", "left unsold"),
    _count("stall_fee", "stall", "pitch", "price of the stall"),
    _count("takings", "takings", "taken in money"),
    Quantity("market_gain", "1", "left of the takings", -1e9, 1e9, ("what the day made",)),
    # the spirit ledger
    _volume("spirit_bought", "spirit bought", "bought in all"),
    _volume("spirit_used", "spirit that was used", "went into kept lots"),
    _volume("spirit_on_shelf", "spirit on the shelf", "still on the shelf"),
    Quantity("bought_strength", "percent", "strength as bought", 0.0, 100.0),
    Quantity("used_strength", "percent", "strength as used", 0.0, 100.0),
    Quantity("shelf_strength", "percent", "strength on the shelf", 0.0, 100.0),
    _volume("pure_bought", "pure alcohol bought"),
    _volume("pure_used", "pure alcohol used"),
    _volume("pure_gone", "pure alcohol poured away", "spilt or poured away"),
    _volume("pure_on_shelf", "pure alcohol on the shelf"),
    _volume("pure_missing", "pure alcohol unaccounted for", "unaccounted for", "missing spirit", low=-MUCH),
    Quantity("missing_share", "percent", "share unaccounted for", -1e6, 100.0, ("percent unaccounted for",)),
    # drying and racks
    Quantity("still_to_lose", "g", "still to lose", -MUCH, MUCH, ("water still to go",)),
    Quantity("water_now", "g", "water still in it", -MUCH, MUCH, ("water left in it",)),
    Quantity("spread", "g", "spread on a square metre", TINY, 1e5, ("grams a square metre",)),
    _count("rack_area", "square metres of a rack", "area of a rack", low=TINY),
    Quantity("racks_hold", "g", "what the racks hold", TINY, MUCH, ("all the racks hold",)),
    Quantity("rack_load", "g", "on one rack", TINY, MUCH, ("load of a rack",)),
    _count("racks", "racks", "how many racks", "trays"),
    _count("racks_had", "racks there are", "racks in hand", low=TINY),
    Quantity("rack_each", "g", "on each of the racks there are", TINY, MUCH, ("spread evenly",)),
    Quantity("rack_over", "g", "left off the racks", 0.0, MUCH, ("does not fit on the racks",)),
    Quantity("rack_room", "g", "room left on the racks", 0.0, MUCH, ("still fits on the racks",)),
    # roots in rotation
    _count("crown_years", "years to grow", "years in the ground", low=TINY),
    Quantity("crown_loss", "percent", "crowns that fail", 0.0, 99.9, ("die off",)),
    _count("crowns_to_plant", "crowns to plant a year", "to plant"),
    _count("crowns_standing", "crowns in the ground", "crowns standing"),
    _count("bed_holds", "crowns in a bed", "places in a bed", low=TINY),
    _count("beds", "beds", "how many beds"),
    # refills
    _volume("dispensed", "dispensed", "bottle handed out"),
    _volume("left_in_bottle", "left in the bottle", "brought back"),
    _volume("taken", "taken from the bottle", "has taken"),
    _days("elapsed", "days gone by", "days since"),
    _volume("meant", "meant to be taken", "was to take"),
    Quantity("share_taken", "percent", "taken of what was meant", -1e6, 1e6, ("share that was taken",)),
    _days("bottle_days", "days the full bottle holds", "a bottle lasts"),
    # kits of a class
    _count("students", "students", "people in the class", low=TINY),
    _count("spare_kits", "spare kits", "spare kits"),
    _count("kits", "kits", "how many kits"),
    _volume("per_kit", "in each kit", "for each student", low=TINY),
    _volume("kit_volume", "for all the kits"),
    _count("cost_a_head", "cost a head", "each student pays"),
    # batches out of what stands on the shelf
    _volume("shelf_has", "on the shelf for it", "there is for it"),
    _volume("each_batch", "for each batch", "each batch takes", low=TINY),
    _count("batches_out", "batches out of it", "how many batches"),
    _volume("batches_over", "left after the batches"),
    _count("batches_meant", "batches wanted", "batches meant"),
    _volume("batches_lack", "lacking for the batches", low=-MUCH),
    Quantity("shelf_has_weight", "g", "on the shelf for it by weight", 0.0, MUCH, ()),
    Quantity("each_batch_weight", "g", "for each batch by weight", TINY, MUCH, ()),
    Quantity("batches_over_weight", "g", "left after the batches by weight", 0.0, MUCH, ()),
    Quantity("batches_lack_weight", "g", "lacking for the batches by weight", -MUCH, MUCH, ()),
)
