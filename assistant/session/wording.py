"""Figures as the bench shows them, and the words of an answer."""

from __future__ import annotations

from assistant.quantities.showing import SIGNS, caption, in_working, number, plural, shown
from assistant.quantities.vocabulary import VOCABULARY, about, base

# How a figure is said in the first line; {v} is the figure, {m} the ingredient.
SAYS = {
    "menstruum": "pour {v}",
    "herb": "{v} of plant",
    "to_gather": "gather {v}",
    "ratio": "a ratio of 1:{v}",
    "dry_ratio": "a dry-equivalent ratio of 1:{v}",
    "stock": "{v} of the stock",
    "water": "{v} of water",
    "strength": "pour at {v}",
    "stock_strength": "the stock is {v}",
    "finished_strength": "finishes at {v}",
    "in_jar": "{v} in the jar",
    "pressed": "about {v} pressed out",
    "held_back": "{v} stays in the marc",
    "yield_share": "{v} comes back",
    "bottles": "{v} bottles",
    "rest": "{v} over",
    "jars": "{v} jars",
    "tins": "{v} tins",
    "in_each": "{v} in each",
    "spirit_short": "{v} of spirit short",
    "herb_served": "the spirit serves {v} of plant",
    "herb_left": "{v} of plant left to dry",
    "dried": "{v} dried",
    "days": "lasts {v}",
    "supply": "{v} for the course",
    "cups": "{v} cups",
    "brix": "{v}",
    "blend_strength": "{v} all together",
    "blend": "{v} in all",
    "volume": "{m} {v}",
    "weight": "{m} {v}",
    "eo_drops_of": "{m} {v}",
    "spare": "{v} to spare",
    "bottle_cost": "each comes to {v}",
    "selling_price": "sell at {v}",
    "cups_a_day": "{v} cups a day",
    "child_dose": "the child's proportion is {v}",
}


def give_or_take(key: str, value: float, plus_minus: float | None) -> str:
    """" ± 10 mL" where it is more than the bench reads anyway; empty where it is not."""
    if plus_minus is None or plus_minus <= 0:
        return ""
    unit = VOCABULARY[base(key)].unit
    if number(value + plus_minus, unit) == number(value, unit):
        return ""
    return f" ± {number(plus_minus, unit)}"


UNITS_ASKED = {
    "quarts": (946.353, "mL", "quarts"), "pints": (473.176, "mL", "pints"), "cups": (236.588, "mL", "cups"), "gallons": (3785.41, "mL", "gallons"),
    "fluid ounces": (29.5735, "mL", "fl oz"), "fl oz": (29.5735, "mL", "fl oz"), "litres": (1000.0, "mL", "L"), "liters": (1000.0, "mL", "L"),
    "cl": (10.0, "mL", "cl"), "dl": (100.0, "mL", "dl"), "teaspoons": (4.92892, "mL", "tsp"), "tablespoons": (14.7868, "mL", "tbsp"),
    "pounds": (453.592, "g", "lb"), "lbs": (453.592, "g", "lb"), "lb": (453.592, "g", "lb"), "kilos": (1000.0, "g", "kg"), "kg": (1000.0, "g", "kg"),
    "oz": (28.3495, "g", "oz"), "ounces": (28.3495, "g", "oz"),
}  # fmt: skip
IMPERIAL = {"quarts": 1136.523, "pints": 568.261, "cups": 284.131, "gallons": 4546.09, "fluid ounces": 28.413, "fl oz": 28.413}


def in_unit(key: str, value: float, unit: str, measures: str) -> str:
    """The value in a unit the person asked for, "" where it cannot be."""
    entry = UNITS_ASKED.get(unit)
    own = VOCABULARY[base(key)].unit
    if entry is None:
        return ""
    size, kind, sign = entry
    if unit in ("oz", "ounces") and own == "mL":
        size, kind, sign = (28.413 if measures == "imperial" else 29.5735), "mL", "fl oz"
    elif measures == "imperial" and unit in IMPERIAL:
        size = IMPERIAL[unit]
    if kind != own:
        return ""
    text = f"{value / size:.2f}".rstrip("0").rstrip(".")
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
    if name in ("bottles", "jars", "tins", "cups") and round(value, 6) == 1:
        form = form.replace(" bottles", " bottle").replace(" jars", " jar").replace(" tins", " tin").replace(" cups", " cup")
    return form.format(v=text, m=about(key))


def sentence(parts: list[str]) -> str:
    text = ", ".join(p for p in parts if p)
    return text[:1].upper() + text[1:] + "." if text else ""


__all__ = ["SIGNS", "caption", "give_or_take", "in_unit", "in_working", "number", "phrase_for", "plural", "sentence", "shown"]
