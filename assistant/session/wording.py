"""Figures as the bench shows them, and the words of an answer."""

from __future__ import annotations

from assistant.quantities.showing import SIGNS, caption, in_working, number, plural, shown
from assistant.quantities.units import SPOONS, spoon_of, units
from assistant.quantities.vocabulary import VOCABULARY, about, base
from assistant.session.year_work import SAYS as SAYS_OF_THE_YEAR

# How a figure is said in the first line; {v} is the figure, {m} the ingredient.
SAYS = {
    "menstruum": "pour {v}",
    "herb": "{v} of plant",
    "to_gather": "gather {v}",
    "plants_taken": "{v} plants",
    "stand_share": "{v} of the stand",
    "plants_left": "{v} left standing",
    "plants_allowed": "{v} plants at most",
    "left_each": "{v} left on each",
    "stands_needed": "stands like it: {v}",
    "allowed_weight": "{v} at most",
    "stand_plants": "a stand of {v} plants",
    "per_plant": "{v} a plant",
    "ratio": "a ratio of 1:{v}",
    "dry_ratio": "a dry-equivalent ratio of 1:{v}",
    "stock": "{v} of the stock",
    "water": "{v} of water",
    "strength": "pour at {v}",
    "stock_strength": "the stock is {v}",
    "finished_strength": "finishes at {v}",
    "in_jar": "{v} in the jar",
    "pressed": "about {v} pressed out",
    "wetting": "{v} of spirit to wet the plant",
    "held_back": "{v} stays in the marc",
    "yield_share": "{v} comes back",
    "bottles": "{v} bottles",
    "rest": "{v} over",
    "to_fill": "{v} to fill them all",
    "fill_short": "{v} short",
    "stock_bottles": "{v} bottles of spirit",
    "jars": "{v} jars",
    "tins": "{v} tins",
    "bags": "{v} bags",
    "over_weight": "{v} over",
    "in_each": "{v} in each",
    "herb_in_each": "{v} of plant in each",
    "plants_over": "{v} plants too many",
    "water_to_lose": "{v} still to dry off",
    "spirit_short": "{v} of spirit short",
    "herb_served": "the spirit serves {v} of plant",
    "herb_left": "{v} of plant left over",
    "left_dried": "the rest dries down to {v}",
    "dried": "{v} dried",
    "days": "lasts {v}",
    "supply": "{v} for the course",
    "supply_over": "{v} with some over",
    "drops_of_all": "{v} for all the doses",
    "supply_for_all": "{v} for all of them",
    "bottles_for_all": "{v} bottles for all of them",
    "cups": "{v} cups",
    "brix": "{v}",
    "blend_strength": "{v} all together",
    "blend": "{v} in all",
    "volume": "{m} {v}",
    "weight": "{m} {v}",
    "eo_drops_of": "{m} {v}",
    "spare": "{v} to spare",
    "carriers": "{v} to fill",
    "more_menstruum": "{v} more than planned",
    "plant_to_come": "{v} more to pick",
    "bottle_cost": "each comes to {v}",
    "materials": "{v} of materials",
    "batch_cost": "{v} for all of it",
    "cost_per_ml": "{v} a mL",
    "batch": "{v} in all",
    "share": "{m} {v}",
    "more_weight": "add {v} of {m}",
    "have_left": "{v} of {m} left",
    "have_left_weight": "{v} of {m} left",
    "herb_a_day_of": "{m} {v} a day",
    "herb_a_dose_of": "{m} {v} a dose",
    "herb_in_ml": "{m} {v}",
    "herb_in": "{m} {v} of herb",
    "have_short": "{v} of {m} still to find",
    "have_short_weight": "{v} of {m} still to find",
    "alcohol_ml_per_dose": "{v} of pure alcohol a dose",
    "alcohol_ml_per_day": "{v} of pure alcohol a day",
    "alcohol_ml_for_course": "{v} of pure alcohol in that time",
    "alcohol_for_course": "{v} of pure alcohol in that time",
    "eo": "{v} of essential oil",
    "eo_drops": "{v}",
    "eo_weight": "{v} of essential oil",
    "drops_per_tin": "{v} in each tin",
    "sugar": "{v} of sugar",
    "honey": "{v} of honey",
    "sugar_more": "{v} more sugar",
    "honey_more": "{v} more honey",
    "syrup_weight": "{v} of syrup",
    "syrup": "{v} of syrup",
    "boiled_off": "{v} boiled off",
    "keeping_spirit": "{v} of the spirit keeps it",
    "syrup_alcohol": "{v} alcohol in the syrup",
    "fortified": "{v} with the spirit in it",
    "vinegar_stock": "{v} of the vinegar as sold",
    "water_more": "{v} of water to add",
    "water_off": "{v} of water to boil off",
    "boiled_to": "{v} left in the pot",
    "herb_for_days": "{v} of plant for all the days",
    "water_for_days": "{v} of water for all the days",
    "blend_ratio": "a ratio of {v} together",
    "eo_volume": "{m} {v}",
    "finished_acidity": "ends at {v} acidity",
    "finished_glycerine": "ends at {v} glycerine",
    "glycerine_volume": "{v} of glycerine",
    "glycerine_weight": "{v} of glycerine",
    "top_up": "add {v}",
    "percolate": "{v} drips through",
    "drip_hours": "{v} hours of dripping",
    "drip_rate": "let {v} mL drip a minute",
    "drip_drops": "{v} a minute",
    "set_aside": "set the first {v} aside",
    "boil_down_to": "boil the rest down to {v}",
    "second_herb": "{v} of plant for the second run",
    "herb_for_course": "{v} of plant for the course",
    "daily": "{v} a day",
    "dose": "{v} a dose",
    "dose_drops": "{v} a dose",
    "needed_dose": "{v} a dose would carry the grams",
    "other_dose": "{v} of the other carries the same herb",
    "other_carries": "the other carries {v} of dried herb",
    "other_dose_nominal": "{v} by the ratios alone",
    "herb_per_dose": "{v} of herb a dose",
    "herb_per_day": "{v} of herb a day",
    "dried_per_day": "{v} a day counted as dried herb",
    "alcohol_per_dose": "{v} of alcohol a dose",
    "alcohol_per_day": "{v} of alcohol a day",
    "bottles_needed": "{v} bottles to dispense",
    "clark_dose": "by Clark {v}",
    "young_dose": "by Young {v}",
    "fried_dose": "by Fried {v}",
    "water_a_day": "{v} of water a day",
    "selling_price": "sell at {v}",
    "course": "over {v}",
    "doses": "{v} doses",
    "drying_loss": "lost {v}",
    "water_lost": "{v} of water gone",
    "volume_a_day": "{m} {v} a day",
    "volume_in_time": "{m} {v} in that time",
    "herb_in_time": "{m} {v} of herb in that time",
    "volume_a_dose": "{m} {v} a dose",
    "drops_a_dose": "{m} {v} a dose",
    "cups_a_day": "{v} cups a day",
    "child_dose": "the child's proportion is {v}",
    **SAYS_OF_THE_YEAR,
}


def give_or_take(key: str, value: float, plus_minus: float | None) -> str:
    """" ± 10" where it is more than the figure's own rounding; empty where it is not."""
    if plus_minus is None or plus_minus <= 0:
        return ""
    unit = VOCABULARY[base(key)].unit
    if number(value + plus_minus, unit) == number(value, unit):
        return ""
    return f" ± {slack_text(plus_minus, unit)}"


def slack_text(plus_minus: float, unit: str) -> str:
    """A ± to two figures at most, which is all that it is worth (JCGM 100:2008, 7.2.6); whole drops and days stay whole.

    >>> slack_text(13.87, "mL"), slack_text(5.012, "mL"), slack_text(0.514, "percent"), slack_text(12.5, "mL")
    ('14', '5', '0.51', '13')
    """
    if plus_minus >= 99.5:
        return number(plus_minus, unit)
    text = f"{float(f'{plus_minus * (1 + 1e-9):.2g}'):.6f}".rstrip("0").rstrip(".")  # a half goes up: a ± is never told too small
    return text or "0"


# Units a figure is told in beside its own, by how they are written there.
UNITS_ASKED = {
    "quart": "quarts", "pint": "pints", "cup": "cups", "gallon": "gallons", "fluid_ounce": "fl oz", "litre": "L", "centilitre": "cl", "decilitre": "dl",
    "teaspoon": "tsp", "tablespoon": "tbsp", "pound": "lb", "kilogram": "kg", "ounce": "oz",
}  # fmt: skip
TAKEN = frozenset({"dose", "daily", "other_dose", "needed_dose", "child_dose", "adult_dose", "clark_dose", "young_dose", "fried_dose", "supply"})


def in_unit(key: str, value: float, unit: str, measures: str) -> str:
    """The value in a unit the person asked for, "" where it cannot be."""
    known, own = units().spellings.get(unit), VOCABULARY[base(key)].unit
    if known is not None and known.name == "ounce" and own == "mL":
        known = units().by_name["fluid_ounce"]
    if known is None or known.name not in UNITS_ASKED or known.bench != own:
        return ""
    size = spoon_of(known.name, measures) if known.name in SPOONS and base(key) in TAKEN else known.size(measures)
    text, sign = f"{value / size:.2f}".rstrip("0").rstrip("."), UNITS_ASKED[known.name]
    return f"{text} {sign[:-1] if text == '1' and sign.endswith('s') else sign}"


def phrase_for(key: str, value: float, sure: str = "") -> str:
    """A figure as part of a sentence: "pour 224 mL", "thyme 27.3 mL"; `sure` is its " ± 10"."""
    name = base(key)
    text = shown(key, value) + sure
    if name == "ratio":
        return f"a ratio of {text}"
    if name == "dry_ratio":
        return f"a dry-equivalent ratio of {text}"
    form = SAYS.get(name)
    if form is None:
        caption = VOCABULARY[name].caption if name in VOCABULARY else name
        if about(key):
            return f"{about(key)} {caption} {text}"
        return f"{caption} {text}"
    if name == "days_to_spare" and value < 0:
        return f"{shown(key, -value)} too late"
    if name == "more_menstruum" and value < 0:
        return f"{shown(key, -value)} less than planned"
    if name == "rest" and value < 0:
        return f"{shown(key, -value)} short"
    if name in ("batches_lack", "batches_lack_weight") and value <= 0:
        return f"enough, {shown(key, -value)} over"
    if name in ("bottles", "bottles_needed", "bottles_for_all", "jars", "tins", "cups", "bags") and round(value, 6) == 1:
        form = form.replace(" bottles", " bottle").replace(" jars", " jar").replace(" tins", " tin").replace(" cups", " cup").replace(" bags", " bag")
    return form.format(v=text, m=about(key))


def sentence(parts: list[str]) -> str:
    text = ", ".join(p for p in parts if p)
    return text[:1].upper() + text[1:] + "." if text else ""


__all__ = ["SIGNS", "caption", "give_or_take", "in_unit", "in_working", "number", "phrase_for", "plural", "sentence", "shown", "slack_text"]
