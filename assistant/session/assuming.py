"""What is taken for granted in each kind of work until it is said, how it is told, and the phrase that changes it."""

from __future__ import annotations

from assistant.dataclass import dataclass, replace
from assistant.matter.oils import ESSENTIAL_OIL, ESSENTIAL_RANGE, OIL, fat
from assistant.matter.sugar import HONEY_DENSITY, HONEY_SUGAR
from assistant.session.batch import Batch
from assistant.session.frames import relation_tags
from assistant.session.instruments import at_hand
from assistant.session.proportions import runs_short
from assistant.session.year_work import PRESSED, take_year

PRESS_METHODS = {
    "press_drained": (5.0, "just drained", "4 to 6"),
    "press_hand": (3.0, "squeezed by hand in a cloth", "2.5 to 4"),
    "press_cloth": (2.5, "twisted in cheesecloth on a stick", "2 to 3"),
    "press_ricer": (2.0, "a potato ricer", "1.5 to 2.5"),
    "press_screw": (1.2, "a screw press", "1.0 to 1.5"),
    "press_hydraulic": (0.8, "a hydraulic press", "0.5 to 1.0"),
}
UNMARGINED_PARTS = frozenset({"root", "rhizome", "bark", "bulb"})


# By one of these a syrup is told to be sweet; without any nothing is known of it, not even that it is not.
SWEETENED = frozenset(
    {"sugar", "sugar_times", "brix", "honey", "honey_volume", "honey_times", "honey_to_vinegar", "honey_to_herb", "honey_volumes", "sugar_had", "honey_had"}
)


@dataclass(frozen=True, slots=True)
class Assumed:
    """A value taken until the person says otherwise, how it is told, and the phrase that changes it."""

    key: str
    value: float
    text: str
    change_by: str
    plus_minus: float | None = None


AS_IT_IS = 60.0  # percent: a spirit this weak is poured as it is unless another strength is said
ONE_BOTTLES = frozenset({"bottle_cost", "selling_price", "mark_up", "on_cost"})
OF_A_BATCH = frozenset(
    """bottles tins tin_size tin_weight blend batch herb menstruum planned_herb planned_menstruum ratio pressed racked in_jar stock made labour
    batch_volume""".split()
)


def density_of(member: str) -> float:
    """Grams per mL of an ingredient of a melt: as listed, by any word of its name, else as oil."""
    for name in (member, *reversed(member.split())):
        known = fat(name)
        if known is not None:
            return known.density
    return OIL


def assumptions(batch: Batch, water_range: tuple[str, float, float] | None, at_risk: bool, part: str) -> list[Assumed]:
    """What is taken for granted for this batch, in the order it is tried. `water_range` is (plant, low, high) in percent."""
    taken: list[Assumed] = []
    frames, facts, tags, wanted = batch.frames, batch.facts, relation_tags(batch), set(batch.wanted)

    def take(key: str, value: float, text: str, change_by: str) -> None:
        if key not in facts:
            taken.append(Assumed(key, value, text, change_by))

    take_year(batch, tags, take)
    take("trim_loss", 0.0, "no trimming loss counted", "“20 % goes off as stalks”")
    if "gathering" in tags:
        if at_risk or part in UNMARGINED_PARTS:
            take("margin", 0.0, "no margin: roots, barks, bulbs and scarce plants are not gathered to spare", "“margin 10 %”")
        else:
            take("margin", 15.0, "15 % margin (common practice)", "“drop the margin” or “margin 20 %”")
    if "fresh" in tags and water_range is not None and not {"herb", "dried"} <= facts.keys():
        name, low, high = water_range
        middle = (low + high) / 2
        text = f"{name} taken at {middle:g} % water (it runs {low:g} to {high:g} %)"
        if "water_content" not in facts:
            taken.append(Assumed("water_content", middle, text, "“it is 78 % water”", (high - low) / 2))
    if "gathers_dried" in tags and water_range is not None and "water_content" not in facts:
        name, low, high = water_range
        taken.append(
            Assumed(
                "water_content",
                (low + high) / 2,
                f"{name} taken at {(low + high) / 2:g} % water fresh (it runs {low:g} to {high:g} %)",
                "“it is 78 % water”",
                (high - low) / 2,
            )
        )
    if tags & {"fresh", "gathers_dried"}:
        take("dried_water", 10.0, "dried herb keeps 10 % water", "“dried to 8 %”")
    if "cost" in frames and "materials" in facts and wanted & ONE_BOTTLES and not facts.keys() & OF_A_BATCH and not batch.members:
        take("bottles", 1.0, "the materials are those of one bottle", "“that filled 12 bottles”")
    pressing = {"pressed", "held_back", "held_per_gram", "racked", "bottles", "rest", "fill_short"}
    bottled_for_cost = "cost" in frames and "bottle_size" in facts and "bottles" not in facts and not batch.members
    asks_press = wanted & pressing or bottled_for_cost or "pressed" in facts or frames & PRESSED or tags & PRESS_METHODS.keys()
    if asks_press and "yield_share" not in facts and "oil" not in frames:
        method = next((m for m in PRESS_METHODS if m in tags), "press_hand")
        value, words, span = PRESS_METHODS[method]
        no_plant = {"pressed", "menstruum"} <= facts.keys() and not facts.keys() & {"herb", "ratio"}  # none is found out from what was lost
        if not {"pressed", "in_jar"} <= facts.keys() and not no_plant:
            low, high = (float(end) for end in span.split(" to "))
            taken_so = len(taken)
            take("held_per_gram", value, f"the marc holds {value:g} mL per g of dry matter ({words}; {span})", "“the press leaves 1.2 mL a gram”")
            taken[taken_so:] = [replace(one, plus_minus=(high - low) / 2) for one in taken[taken_so:]]
    if "percolation" in frames:
        take("held_per_gram", 1.5, "the packed powder holds 1.5 mL per g (1 to 2 by herb and grind)", "“the powder holds 2 mL a gram”")
        if wanted & {"drip_rate", "drip_hours", "drip_drops"} and not facts.keys() & {"drip_rate", "drip_hours", "drip_drops"}:
            take("drip_per_kilo", 2.0, "dripping 2 mL a minute for each kilo (1 to 3, from memory)", "“3 mL a minute a kilo”")
        if frames & {"percolation"} and (facts.get("ratio") is not None and facts["ratio"].value == 1.0):
            take("set_aside_share", 85.0, "the first 85 % set aside (as the old fluidextracts had it)", "“set the first 80 % aside”")
    if ("racked" in wanted or tags & {"bottles_pressed"}) and "rack_lost" not in facts:
        take("rack_loss", 0.0, "nothing lost in settling", "“I lose 3 % in settling”")
    if tags & {"own_fresh", "other_fresh"}:
        name, low, high = water_range or ("the fresh plant", 75.0, 85.0)
        for key, tag in (("water_content", "own_fresh"), ("other_water", "other_fresh")):
            if tag in tags:
                take(key, (low + high) / 2, f"{name} taken at {(low + high) / 2:g} % water", "“it is 78 % water”")
    counts_drops = wanted & {"eo_drops", "dose_drops", "drip_drops"} or facts.keys() & {"dose_drops", "eo", "eo_drops", "drip_drops"}
    if "dropper_size" in facts and not facts.keys() & {"dose", "dose_drops", "daily"}:
        take("dropperfuls", 1.0, "one dropperful a dose", "“two dropperfuls”")
    if frames & {"dose", "essential"} or counts_drops:
        dropper = next((i for i in at_hand() if i.kind == "dropper" and i.per_ml), None)
        if dropper is None:
            take("drops_per_ml", 20.0, "20 drops to the mL", "“my dropper makes 34 drops a mL”")
        elif "drops_per_ml" not in facts and dropper.per_ml:
            by = "as you counted your dropper" + (f" with {dropper.strength:g} %" if dropper.strength else "")
            by = "by the official dropper" if dropper.standard else by
            counted = f"{dropper.per_ml:g} drops to the mL, {by}"
            error = at_hand().error_of("drops_per_ml", dropper.per_ml)
            taken.append(Assumed("drops_per_ml", dropper.per_ml, counted, "“my dropper makes 34 drops a mL”", error))
    as_bought = facts.keys() & {"spirit_in_hand", "spirit_price"} and "spirit" in tags
    as_bought = as_bought or ("spirit" in tags and wanted & {"alcohol", "alcohol_grams"} and not facts.keys() & {"stock", "water"})
    weak = facts["stock_strength"].value <= AS_IT_IS if "stock_strength" in facts else False
    planted = bool(facts.keys() & {"herb", "planned_herb"} and facts.keys() & {"ratio", "ratio_by_weight", "menstruum"})
    planted = planted and not wanted & {"stock", "water", "strength"}
    as_bought = as_bought or ("spirit" in tags and weak and planted and not facts.keys() & {"stock", "water", "spirit_in_hand"})  # a vodka goes on as it is
    if as_bought and "stock_strength" in facts and not facts.keys() & {"strength", "finished_strength"}:
        stock = facts["stock_strength"].value
        take("strength", stock, f"poured as it is, at {stock:g} %", "“at 60 %”")
    if "syrup" in frames:
        sweet = facts.keys() & {"honey", "honey_volume", "honey_to_vinegar"} or wanted & {"honey", "honey_volume", "honey_more"}
        take("honey_sugar", HONEY_SUGAR, "honey counts as 82 % sugar" if sweet else "", "“my honey is 80 % sugar”")
        take("honey_density", HONEY_DENSITY, "honey weighs 1.42 g per mL" if sweet else "", "“my honey weighs 1.40 g per mL”")
        spoken_of = facts.keys() & SWEETENED or wanted & {"sugar", "honey", "honey_volume", "sugar_more", "honey_more", "brix"}
        for absent in ("honey", "sugar") if spoken_of else ():
            by_itself = "corrected" in tags or ("fortified" in tags and not facts.keys() & SWEETENED)  # there already, whatever sweetened it
            if by_itself or (absent == "honey" and facts.keys() & {"honey_to_herb", "honey_volumes"}):
                continue
            if absent not in facts and absent not in wanted and not (absent == "honey" and "honey_volume" in facts):
                if absent == "honey" and (facts.keys() & {"honey_times", "honey_to_vinegar"} or "honey_more" in wanted):
                    continue
                if not (absent == "sugar" and ("sugar_times" in facts or ("brix" in facts and not wanted & {"honey", "honey_more"}))):
                    taken.append(Assumed(absent, 0.0, "", ""))
        if "oxymel" in tags and not facts.keys() & {"decoction", "boiled_to", "decoction_to_vinegar"}:
            taken.append(Assumed("decoction", 0.0, "", ""))
        if (
            not tags & {"oxymel", "in_honey"}
            and not facts.keys() & {"liquid", "decoction", "boiled_to", "boiled_from"}
            and facts.keys() & {"honey", "honey_volume", "sugar"}
            and "brix" not in facts
            and not wanted & {"decoction", "liquid"}
        ):
            taken.append(Assumed("liquid", 0.0, "", ""))
    if "oil" in frames and "salve" not in frames:
        take("menstruum_density", OIL, "oil weighs 0.915 g per mL", "“the oil weighs 0.92 g per mL”")
        if "pressed" in facts and not facts.keys() & {"press_loss", "held_back", "held_per_gram", "in_jar", "menstruum", "herb", "yield_share"}:
            take("yield_share", 100.0, "all the oil counted as coming back, though the herb keeps some", "“I get 85 % back”")
    if "melts" in tags:
        for member in batch.members:
            density = density_of(member)
            take(f"density_of[{member}]", density, f"{member} weighs {density:g} g per mL", f"“the {member} weighs 0.92 g per mL”")
    if "essential" in frames and ("eo_weight" in wanted or "eo_weight" in facts):
        text = f"essential oil weighs about {ESSENTIAL_OIL:g} g per mL (they run {ESSENTIAL_RANGE[0]:g} to {ESSENTIAL_RANGE[1]:g})"
        take("eo_density", ESSENTIAL_OIL, text, "“the essential oil weighs 0.88 g per mL”")
    if "eo_in_weight" in tags:
        take("salve_density", 0.92, "a salve weighs about 0.92 g per mL", "“the salve weighs 0.93 g per mL”")
    if (
        "syrup" in frames
        and facts.keys() & {"honey_times", "sugar_times"}
        and not facts.keys() & {"liquid", "decoction", "boiled_to", "boiled_from", "honey", "sugar", "honey_volume", "syrup", "syrup_weight"}
    ):
        take("liquid", 100.0, "reckoned on 100 g of liquid", "“400 mL decoction”")
    if (
        "honey_to_vinegar" in facts
        and not tags & {"oxymel_ratio", "fills_jars"}
        and not facts.keys() & {"menstruum", "honey_volume", "honey", "decoction", "in_jar", "syrup", "syrup_weight"}
    ):
        take("menstruum", 100.0, "reckoned on 100 mL of vinegar", "“400 mL vinegar”, “600 mL in all”")
    if "glycerite" in frames:
        if "glycerine_volume" in facts and not facts.keys() & {"menstruum", "glycerine", "ratio", "finished_glycerine"}:
            take("water", 0.0, "no water beside the glycerine", "“glycerine and water, 600 mL poured”")
        take("glycerine_stock", 100.0, "glycerine taken as 100 % (much is sold at 86.5 %)", "“my glycerine is 86.5 %”")
    if "tea" in frames:
        take("cup_size", 236.588, "a US cup, 237 mL", "“cups of 250 mL”")
        take("spoons_per_cup", 1.0, "one spoonful to a cup", "“two spoons per cup”")
    if "fills_bottles" in tags:
        take("bottles", 1.0, "", "")
    if "short" in tags and (first := runs_short(facts, batch.members)) is not None:
        member, there, weighed = first
        take(f"{'runs_out_weight' if weighed else 'runs_out'}[{member}]", there, f"{member} runs out first and sets the batch", "")
    if "formula" in frames and "blend_strength" in wanted and "by_parts" in tags and not facts.keys() & {"blend", "bottle_size"}:
        take("blend", 100.0, "reckoned on 100 mL", "“250 mL in all”")
    if "of_the_rest" in tags:
        for member in batch.members:
            for absent in ("poured", "share", "part"):
                take(f"{absent}[{member}]", 0.0, "", "")
    if "unit_prices" in tags:
        take("herb_price", 0.0, *(("the plant not priced", "“the herb is 14 a kilo”") if "herb" in facts else ("", "")))
        spirit = facts.keys() & {"strength", "stock_strength", "stock", "stock_used"}
        take("spirit_price", 0.0, *(("the spirit not priced", "“the spirit is 18 a litre”") if spirit else ("", "")))
    if "left_each" in wanted:
        take("commission", 0.0, "nothing kept by a shop", "“the shop keeps 15 %”")
    if tags & {"costed", "priced"} and "labour" not in facts:
        taken.append(Assumed("labour", 0.0, "", ""))
        taken.append(Assumed("labour_each", 0.0, "", ""))
    if "room" in tags:
        per_gram = 1.0 if "fresh" in tags else 0.7
        take("herb_room", per_gram, f"soaked herb takes up {per_gram:g} mL a gram", "“the herb takes 1.2 mL a gram”")
    if "jars" in tags and "jars" not in wanted and "jar_size" in facts and ("how_full" in tags or not facts.keys() & {"menstruum", "herb"}):
        take("jars", 1.0, "", "")
    if "jars" in tags and "how_full" not in tags:
        take("fill", 100.0, "jars filled to the brim; fresh plant floats and swells, so leave room", "“fill to 90 %”")
    if "cost" in frames:
        take("empty_bottle", 0.0, "no price for the empty bottle", "“the bottle costs 0.90”")
    if (
        wanted & {"ratio", "menstruum"}
        and "finished_strength" in facts
        and "fresh" in tags
        and not facts.keys() & {"strength", "ratio", "menstruum"}
        and "stock_strength" in facts
    ):
        take("strength", facts["stock_strength"].value, "the stock poured as it is", "“at 60 %”")
    if (
        wanted & {"finished_strength", "in_jar", "dried_equivalent"}
        and "stock_strength" in facts
        and "fresh" in tags
        and not facts.keys() & {"strength", "finished_strength", "water", "stock"}
        and not frames & {"mix", "formula", "syrup"}
    ):
        take("strength", facts["stock_strength"].value, "the stock poured as it is", "“at 60 %”")
    if (
        (
            (wanted & {"ratio", "finished_strength", "strength", "ceiling", "dried_equivalent"} and "fresh" in tags)
            or ("water_content" in wanted and {"ratio", "strength", "finished_strength"} <= facts.keys())
        )
        and not facts.keys() & {"herb", "menstruum", "pressed", "in_jar", "stock", "dried", "to_gather", "gross", "picked", "planned_herb", "spirit_in_hand"}
    ):
        take("herb", 100.0, "worked out on 100 g of plant", "“it is 112 g”")
    return taken
