"""Figures as the bench shows them, and the words of an answer."""

from __future__ import annotations

from assistant.quantities.vocabulary import VOCABULARY, about, base

SIGNS = {"percent": " %", "g": " g", "mL": " mL", "g/mL": " g/mL", "mL/g": " mL/g", "drop": " drops", "day": " days", "1": "", "degC": " °C"}

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
    "child_dose": "the child's proportion is {v}",
}


def plural(value: float, word: str) -> str:
    return word if round(value, 6) == 1 else word + "s"


def number(value: float, unit: str) -> str:
    """A value rounded to what the bench can read: whole units from 100 up, tenths from 10, hundredths below."""
    if unit == "day" or (unit == "1" and value == int(value)):
        return f"{value:,.0f}".replace(",", "")
    size = abs(value)
    if unit == "percent":
        text = f"{value:.1f}" if size >= 10 or size == 0 else f"{value:.2f}"
    elif unit in ("g/mL", "mL/g"):
        text = f"{value:.3g}" if size < 1 else f"{value:.2f}"
    elif unit == "drop":
        text = f"{value:.0f}" if size >= 10 else f"{value:.1f}"
    elif size >= 100:
        text = f"{value:.0f}"
    elif size >= 10:
        text = f"{value:.1f}"
    elif size >= 1 or size == 0:
        text = f"{value:.2f}"
    else:
        text = f"{value:.3f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def shown(key: str, value: float) -> str:
    """A value with its unit: "224 mL", "60 %", "1:2" for a ratio."""
    name = base(key)
    unit = VOCABULARY[name].unit if name in VOCABULARY else "1"
    text = number(value, unit)
    if name in ("ratio", "dry_ratio", "ratio_by_weight", "ratio_of"):
        return f"1:{text}"
    if name == "brix":
        return f"{text} °Bx"
    if name == "drying_ratio":
        return f"{text}:1"
    if unit in ("drop", "day"):
        return f"{text} {plural(value, SIGNS[unit].strip()[:-1])}"
    return text + SIGNS.get(unit, f" {unit}")


def in_working(key: str, value: float) -> str:
    """A value as it stands in a line of working: a ratio is the number that is multiplied by."""
    if base(key) in ("ratio", "dry_ratio", "ratio_by_weight", "ratio_of", "drying_ratio"):
        return number(value, "1")
    return shown(key, value)


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


def caption(key: str) -> str:
    """What a quantity is called, with the ingredient before it: "thyme volume"."""
    name = VOCABULARY[base(key)].caption if base(key) in VOCABULARY else base(key)
    return f"{about(key)} {name}" if about(key) else name


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
