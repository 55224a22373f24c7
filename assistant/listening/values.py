"""An island as the value of a quantity: which kinds of figure a quantity can take, and in which unit."""

from __future__ import annotations

from assistant.listening.islands import Item
from assistant.quantities.vocabulary import VOCABULARY

COUNTED_IN_CUPS = frozenset({"cups", "cups_a_day"})
PER_MINUTE = frozenset({"drip_rate", "drip_per_kilo"})
DOSES = frozenset({"dose", "adult_dose", "daily"})


def value_for(name: str, item: Item | None, _notes: list[str] | None = None) -> float | None:
    """The island's value in the bench unit of a quantity, or None where it cannot be one.

    A bare number is taken in the bench unit. "oz" of a liquid is the fluid ounce. "1 ml in each dry gram" is mL/g.
    """
    if item is None or item.value is None:
        return None
    unit = VOCABULARY[name].unit
    if name == "drying_ratio" and item.kind == "ratio":
        sides = item.alt if isinstance(item.alt, tuple) else (1.0, item.value)
        return max(sides) / min(sides) if min(sides) > 0 else None
    if name == "honey_to_vinegar" and item.kind == "ratio":
        sides = item.alt if isinstance(item.alt, tuple) else (1.0, item.value)
        return sides[0] / sides[1] if sides[1] > 0 else None  # honey is named first
    if item.kind == "number" and item.said_unit == "share" and unit == "percent":
        return item.value * 100
    if item.kind == "number" and item.said_unit == "each" and unit == "percent":
        return None  # "100s" are bottles
    if item.kind == "number" and not _plausible(name, item.value):
        return None
    if item.kind in ("number", "parts", "frequency", "money", "temperature", "parts_list"):
        return item.value
    if item.kind in ("percent", "proof"):
        return item.value if unit == "percent" else None
    if item.kind == "ratio":
        return item.value if unit == "1" else None
    if item.kind == "per":
        return item.value
    if item.kind == "time" and name == "drip_hours":
        return item.value * 24
    if item.kind == "amount":
        if name == "spoons_per_cup" and item.unit == "mL":
            return item.said if item.said_unit.startswith(("tsp", "teaspoon", "spoon", "tbsp", "table")) else None
        if unit == "1" and name in PER_MINUTE and item.unit == "mL":
            return item.value
        if name == "drip_drops" and item.unit == "drop":
            return item.value
        if name == "drip_hours" and item.unit == "day":
            return item.value * 24
        if name in COUNTED_IN_CUPS:
            return item.said if item.said_unit.startswith(("cup", "mug")) and item.said != 1 else None  # "that's one cup" counts none
        if name in DOSES and item.unit == "mL" and item.alt is not None and item.said_unit.startswith(("tsp", "teaspoon", "spoon")):
            return float(item.alt)  # in a dose a teaspoon is 5 mL
        if item.unit == unit:
            return item.value
        if unit == "mL" and item.alt is not None and isinstance(item.alt, (int, float)):
            return float(item.alt)
        if name in ("drops_per_ml", "ratio", "herb_per_ml", "menstruum_density") or unit in ("mL/g", "g/mL"):
            return item.value
        if name == "child_years" and item.unit == "day":
            return item.value / 365.0 if not item.said_unit.startswith("month") else item.value / 360.0
        if name == "crown_years" and item.unit == "day":
            return item.value / 365.0
        if name == "child_months" and item.unit == "day":
            return item.value / 30.0
        return None
    return None


def _plausible(name: str, value: float) -> bool:
    """Whether a bare number can be meant for this quantity: nobody says "0.9" for a volume or "40" for a density."""
    unit = VOCABULARY[name].unit
    if name.endswith("density") or name == "density_of":
        return 0.5 < value < 2.0
    if name == "stock":
        return value > 100  # "the bottle is 96" tells its strength
    if unit == "mL" and name not in ("dose", "adult_dose", "eo"):
        return value >= 5
    if unit == "percent":
        return value <= 100 or name == "margin"
    return True
