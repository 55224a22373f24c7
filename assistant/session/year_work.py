"""The kinds of work of the year: which tags they set, what is taken for granted in them, what is told of them and in which words."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping

from assistant.cautions.plants import plants
from assistant.dataclass import replace
from assistant.listening.statements import Reading, Reference, Said
from assistant.session.batch import Batch, Fact
from assistant.session.naming import same_plant
from assistant.session.work import Work

ROWS = frozenset({"whole_year", "sharing", "press_day", "orders", "lines"})  # a figure for each of several batches
ONE = frozenset({"year", "timeline", "reserve", "ledger", "drying", "racks", "crowns", "refill", "kits", "market", "batches"})
WORK = ROWS | ONE
# What makes a recipe of a jar: it goes on into the year's plan and the class's kits.
RECIPE = frozenset(
    """ratio dry_ratio strength finished_strength stock_strength water_content dried_water held_per_gram yield_share trim_loss margin rack_loss bottle_size
    spirit_price herb_price empty_bottle""".split()
)
GOES_ON = frozenset({"year", "kits"})
PRESSED = frozenset({"year", "kits"})  # so much has to come out of the press
TOLD = {
    "year": (
        "needed_for_year", "to_make", "to_gather", "herb", "menstruum", "stock", "water", "spirit_short", "finished_strength", "bottles", "rest",
    ),
    "kits": ("kits", "kit_volume", "to_gather", "herb", "menstruum", "stock", "water", "materials", "cost_a_head", "finished_strength"),
    "whole_year": ("gather_all", "stock_all", "bottles_all"),
    "sharing": ("spirit_wanted", "spirit_lacking", "share_met"),
    "timeline": ("latest_start", "press_by", "needed_by", "lead_days"),
    "reserve": ("runs_out_on", "days_left", "next_start", "days_to_spare", "lead_days"),
    "press_day": ("day_out", "day_loads", "day_bottles"),
    "orders": ("order_short[*]", "promised_all"),
    "lines": ("line_margin[*]", "line_cost_now[*]"),
    "market": ("left_of_market", "takings", "market_gain"),
    "ledger": ("pure_missing", "missing_share", "pure_bought", "pure_used", "pure_on_shelf"),
    "drying": ("wilted_water", "water_now", "dried", "still_to_lose"),
    "racks": ("racks", "rack_load", "racks_hold", "rack_over", "rack_room"),
    "crowns": ("plants_taken", "crowns_to_plant", "crowns_standing", "beds"),
    "refill": ("taken", "meant", "share_taken", "bottle_days"),
    "batches": ("batches_out", "batches_over", "batches_over_weight", "batches_lack", "batches_lack_weight"),
}  # fmt: skip
ORDER = (
    "year",
    "whole_year",
    "kits",
    "sharing",
    "reserve",
    "timeline",
    "press_day",
    "orders",
    "lines",
    "market",
    "ledger",
    "drying",
    "racks",
    "crowns",
    "refill",
    "batches",
)
SAYS = {
    "gather_all": "gather {v} in all",
    "stock_all": "{v} of spirit in all",
    "bottles_all": "{v} bottles in all",
    "needed_for_year": "{v} needed for the year",
    "to_make": "{v} to make",
    "kit_volume": "{v} to fill them",
    "kits": "{v} kits",
    "cost_a_head": "{v} a head",
    "spirit_wanted": "they want {v} in all",
    "spirit_lacking": "{v} of spirit lacking",
    "share_met": "{v} of the need is met",
    "spirit_given": "{m} {v}",
    "latest_start": "start by {v}",
    "press_by": "press by {v}",
    "needed_by": "bottled by {v}",
    "lead_days": "{v} from jar to bottle",
    "runs_out_on": "runs out on {v}",
    "days_left": "lasts {v}",
    "next_start": "start the next by {v}",
    "days_to_spare": "{v} to spare",
    "left_of_market": "{v} brought home",
    "takings": "takings {v}",
    "market_gain": "{v} left after what was sold cost and the stall",
    "pure_missing": "{v} of pure alcohol unaccounted for",
    "missing_share": "{v} of what was bought",
    "pure_bought": "{v} pure bought",
    "pure_used": "{v} pure used",
    "pure_on_shelf": "{v} pure on the shelf",
    "wilted_water": "{v} water in it now",
    "water_now": "{v} of water still in it",
    "still_to_lose": "{v} still to lose",
    "racks": "{v} racks",
    "rack_load": "{v} on each",
    "racks_hold": "{v} on all of them",
    "rack_each": "{v} on each of them",
    "rack_over": "{v} does not fit",
    "rack_room": "room for {v} more",
    "crowns_to_plant": "plant {v} a year",
    "crowns_standing": "{v} crowns in the ground",
    "beds": "{v} beds",
    "taken": "{v} taken",
    "meant": "{v} was meant",
    "share_taken": "{v} of what was meant",
    "bottle_days": "a full bottle holds {v}",
    "press_loads": "{m} {v} loads",
    "bottles_from": "{m} {v} bottles",
    "day_out": "{v} from the press",
    "day_loads": "{v} loads",
    "day_bottles": "{v} bottles and as many labels",
    "order_short": "{m} {v} short",
    "batches_out": "enough for {v}",
    "batches_over": "{v} over",
    "batches_over_weight": "{v} over",
    "batches_lack": "{v} short",
    "batches_lack_weight": "{v} short",
    "promised_all": "{v} promised in all",
    "line_margin": "{m} {v}",
    "line_cost_now": "{m} costs {v}",
}


KIN = ({"timeline", "reserve"}, {"drying", "racks"})  # one may go on into the other


def another_work(heard: Collection[str], held: Collection[str]) -> bool:
    """Whether the year's work that a sentence speaks of is another than that in hand."""
    mine = WORK & set(heard)
    return bool(mine) and not mine & set(held) and not any(mine & kin and kin & set(held) for kin in KIN)


def year_tags(batch: Batch, tags: set[str]) -> set[str]:
    """What the year's work adds to the tags of a batch."""
    frames, facts = batch.frames, batch.facts
    more: set[str] = set()
    if not frames & WORK:
        return more
    if "orders" in frames and "rack_loss" in facts:
        more.add("lots_settle")
    if "whole_year" in frames and "several" not in batch.tags:
        more.add("one_stock")
    if frames & {"timeline", "reserve"}:
        more.add("timeline")
    if "fall" in facts or "fall" in batch.wanted:
        more.add("falling")
    if "year" in frames and ("fresh" in tags or "to_gather" in batch.wanted):
        more.add("gathering")
    if frames & PRESSED and "bottle_size" in facts:
        more |= {"bottling", "bottles_pressed"}
    if "racks" in frames and {"herb", "racks_hold"} <= facts.keys():
        more.add("over_racks" if facts["herb"].value > facts["racks_hold"].value else "within_racks")
    elif "racks" in frames and {"herb", "racks_had"} <= facts.keys() and facts.keys() & {"rack_load", "spread", "rack_area"}:
        load = facts["rack_load"].value if "rack_load" in facts else _told(facts, "spread", A_SQUARE_METRE) * _told(facts, "rack_area", 1.0)
        more.add("over_racks" if facts["herb"].value > facts["racks_had"].value * load else "within_racks")
    if "kits" in frames:
        if facts.keys() & {"herb_price", "spirit_price"}:
            more |= {"unit_kits", "priced_kits"}
        elif "materials" in facts:
            more.add("priced_kits")
        if "fresh" in tags:
            more.add("gathering")
    return more


A_SQUARE_METRE = 1000.0  # g of fresh leaf, one layer; common practice


def _told(facts: Mapping[str, Fact], key: str, otherwise: float) -> float:
    return facts[key].value if key in facts else otherwise


def take_year(batch: Batch, tags: frozenset[str], take: Callable[[str, float, str, str], None]) -> None:
    """What is taken for granted in the year's work until it is said."""
    frames, facts, wanted = batch.frames, batch.facts, set(batch.wanted)
    if "year" in frames:
        if "fall" not in facts:
            take("growth", 0.0, "as much goes as last year", "“expect 10 % more”")
        if "to_make" not in facts:
            take("still_left", 0.0, "nothing left from before", "“600 mL left”")
    if frames & PRESSED:
        take("rack_loss", 0.0, "nothing lost in settling", "“I lose 3 % in settling”")
    if "kits" in frames:
        take("spare_kits", 0.0, "none to spare", "“two spare”")
        if tags & {"priced_kits"}:
            take("empty_bottle", 0.0, "no price for the empty bottle", "“the bottle costs 0.90”")
        if tags & {"unit_kits"}:
            if "stock_strength" not in facts and "strength" in facts:
                strength = facts["strength"].value
                take("stock_strength", strength, f"spirit bought at {strength:g} %, as it is poured", "“from 95 %”")
            take("herb_price", 0.0, "the herb costs nothing", "“herb 30 a kilo”")
            take("spirit_price", 0.0, "the spirit costs nothing", "“spirit 28 a litre”")
    if "timeline" in tags and "lead_days" not in facts:
        if not {"latest_start", "needed_by"} <= facts.keys() or "settle_days" in wanted:
            take("jar_days", 28.0, "four weeks in the jar (common practice; two to six)", "“six weeks in the jar”")
        take("settle_days", 0.0, "no time to settle", "“a week to settle”")
    if "ledger" in frames:
        said = next((facts[k].value for k in ("stock_strength", "bought_strength", "shelf_strength", "used_strength") if k in facts), None)
        for key in ("bought_strength", "used_strength", "shelf_strength"):
            if said is not None:
                take(key, said, f"all of it at {said:g} %", "“the shelf is at 60 %”")
        take("pure_gone", 0.0, "nothing spilt or poured away", "“used up 200 mL of the 95 %”")
        if not {"spirit_used", "pure_used"} & facts.keys() | wanted:
            take("spirit_used", 0.0, "nothing used", "“used 3 L”")
    if "press_day" in frames:
        for member in batch.members:
            _take_state(batch, member, take)
        take("drained_per_gram", 5.0, "drained marc holds 5 mL per g of dry matter (4 to 6)", "“drained marc holds 4 mL a gram”")
    known = facts.keys() & {"rack_load", "racks_hold"} or ({"herb", "racks_had"} <= facts.keys() and not facts.keys() & {"spread", "rack_area"})
    if "racks" in frames and not known:
        take("spread", A_SQUARE_METRE, "a kilo of fresh leaf to the square metre, one layer (common practice)", "“700 g to the square metre”")
        take("rack_area", 1.0, "a rack of one square metre", "“racks of 60 by 90 cm”")
    if "crowns" in frames:
        take("crown_loss", 0.0, "no crown fails", "“a tenth fail”")
        take("crown_years", 1.0, "lifted every year", "“three years to grow”")
    if "market" in frames:
        take("stall_fee", 0.0, "no price for the stall", "“stall 25”")


SOAKED = {True: 0.7, False: 1.0}  # mL a gram of dried, of fresh herb takes up
MOSTLY_WATER = 80.0  # percent, of a fresh plant that the list does not know


def _take_state(batch: Batch, member: str, take: Callable[[str, float, str, str], None]) -> None:
    """The water of a plant in a jar that is pressed, and the room it takes: as listed, or dried where that was said."""
    said = batch.facts.get(f"jar_water[{member}]")
    hit = plants().called(member)
    span = hit.plant.water_range("") if hit is not None and hit.plant is not None and hit.plant.is_known else None
    water = (span.low + span.high) / 2 if span is not None else MOSTLY_WATER
    take(f"jar_water[{member}]", water, f"{member} fresh, at {water:g} % water", f"“{member} dried”")
    dried = said is not None and said.value == 0
    take(f"room_of[{member}]", SOAKED[dried], f"soaked {member} takes up {SOAKED[dried]:g} mL a gram", "")


def going_on(batch: Batch | None, reading: Reading, fresh: Batch) -> Batch:
    """A year's plan or kits begun after a jar was reckoned: how that jar is made goes on into it, unless another plant is named."""
    if batch is None or not reading.frames & GOES_ON or batch.frames & (ROWS | {"ledger", "timeline", "refill", "market"}):
        return fresh
    names = [n.name for n in reading.named]
    own = (batch.name, *batch.plants)
    if names and not any(same_plant(names[0], name) for name in own if name):
        return fresh
    facts: dict[str, Fact] = {k: f for k, f in batch.facts.items() if k in RECIPE}
    if "ratio" not in facts and "dry_ratio" not in facts:
        return fresh
    tags = batch.tags
    return fresh.having(name=batch.name, plants=batch.plants, tags=tags, denied=batch.denied, frames=batch.frames - WORK - {"dose", "cost"}).with_facts(facts)


ADDED_UP = {
    "spirit_bought": ("bought_strength", "pure_bought"),
    "spirit_used": ("used_strength", "pure_used"),
    "spirit_on_shelf": ("shelf_strength", "pure_on_shelf"),
}


def add_up(said: list[Said], work: Work) -> None:
    """ "Bought 5 L and 3 L": several amounts of a ledger are one sum; at several strengths, one sum of pure alcohol. Changes the list in place."""
    for volume, (strength, pure) in ADDED_UP.items():
        volumes = [s for s in said if s.quantity == volume]
        strengths = [s for s in said if s.quantity == strength]
        if len(volumes) < 2:
            continue
        for other in (*volumes[1:], *strengths[1:]):
            said.remove(other)
            work.reading.references.append(Reference("reference", other.start, other.end, other.value))
        several = len({s.value for s in strengths}) > 1
        if several and len(strengths) == len(volumes):
            said[said.index(volumes[0])] = replace(
                volumes[0], quantity=pure, value=sum(v.value * s.value / 100 for v, s in zip(volumes, strengths, strict=True))
            )
            said.remove(strengths[0])
            work.reading.references.append(Reference("reference", strengths[0].start, strengths[0].end, strengths[0].value))
        else:
            said[said.index(volumes[0])] = replace(volumes[0], value=sum(v.value for v in volumes))


ITS_OWN = frozenset(ORDER) - {"year", "kits", "drying", "racks"}  # work in which nothing of a jar is asked
RECKONED = frozenset(
    """lead_days order_short racks_hold spirit_given press_loads bottles_from line_cost_now finished_strength needed_by""".split()
)


def sort_asked(reading: Reading, frames: Collection[str]) -> None:
    """Of what a sentence about such work seems to ask, only what that work answers: "what is left?" after a market asks for no plant."""
    here = ITS_OWN & set(frames)
    if not here or set(frames) & {"year", "kits"}:
        return
    answered = {key.removesuffix("[*]") for frame in here for key in TOLD[frame]} | RECKONED
    reading.asked = [a for a in reading.asked if a.quantity in answered]
