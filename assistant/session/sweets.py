"""Sugar, honey, vinegar and a liquid: syrups and oxymels, which are spoken of as a whole and not by their ingredients.

Parts of sugar and of honey beside a liquid are by weight; parts of an oxymel are by volume of what it makes in all.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from assistant.listening.statements import Ingredient, Reading, Said
from assistant.quantities.vocabulary import about, base
from assistant.session.batch import Fact
from assistant.session.checks import wrong_with

if TYPE_CHECKING:
    from assistant.session.merging import Merged

WATERY = frozenset({"decoction", "infusion", "water", "tea", "juice"})
# Role and kind of figure → the quantity of the whole syrup.
SWEET = {
    ("sugar", "weight"): "sugar",
    ("honey", "weight"): "honey",
    ("honey", "volume"): "honey_volume",
    ("liquid", "volume"): "decoction",
    ("liquid", "weight"): "liquid",
    ("herb", "weight"): "herb",
    ("vinegar", "volume"): "menstruum",
    ("vinegar", "strength_of"): "acidity",
}
ASKED_OF_IT = frozenset({"brix", "sugar", "syrup"})
WHOLE = frozenset({"menstruum", "blend", "bottle_size", "syrup", "jar_size"})
Placed = tuple[str, float, int, int]


def lay_sweet(lines: Sequence[Ingredient], reading: Reading, frames: set[str], facts: dict[str, Fact], turn: int, merged: Merged) -> bool:
    """Ingredients of a syrup into facts of the whole; False where anything else beside them makes it a written recipe."""
    if "syrup" not in frames:
        return False
    strained = any(a.quantity in ASKED_OF_IT for a in reading.asked) and not any(s.quantity == "bottles" for s in reading.said)
    placed: list[Placed] = []
    sides: dict[str, tuple[float, int, int]] = {}
    for line in lines:
        role = _role(line, strained)
        for quantity, value, start, end in line.figures:
            if quantity == "part" and role:
                sides[role] = (value, start, end)
                continue
            key = SWEET.get((role, quantity), "")
            if not key:
                return False
            placed.append((key, value, start, end))
    if sides:
        more = _by_volume(sides, reading) if "vinegar" in sides else _by_weight(sides)
        if not more:
            return False
        placed += more
    for key, value, start, end in placed:
        put(key, value, start, end, facts, turn, merged)
    return True


def put(key: str, value: float, start: int, end: int, facts: dict[str, Fact], turn: int, merged: Merged) -> None:
    """A figure of the sentence into facts, or among what cannot be."""
    fault = wrong_with(key, value)
    if fault:
        merged.bad.append((key, Said(base(key), value, start, end, about(key)), fault))
        return
    facts[key] = Fact(value, "said", turn)
    merged.new_keys.add(key)
    if end > start:
        merged.used.append((start, end, base(key)))


def _role(line: Ingredient, strained: bool) -> str:
    first, last = line.name.split()[0], line.name.split()[-1]
    if last in ("sugar", "honey", "vinegar"):
        return last
    if last in WATERY or first in WATERY:
        return "liquid"
    if strained and all(q == "weight" for q, *_ in line.figures):
        return "herb"  # strained off: the plant counts for nothing in the syrup
    return ""


def _by_weight(sides: dict[str, tuple[float, int, int]]) -> list[Placed]:
    """ "2:1 sugar to decoction"."""
    if "liquid" not in sides or len(sides) < 2 or not sides["liquid"][0]:
        return []
    return [(f"{role}_times", sides[role][0] / sides["liquid"][0], *sides[role][1:]) for role in ("sugar", "honey") if role in sides]


def _by_volume(sides: dict[str, tuple[float, int, int]], reading: Reading) -> list[Placed]:
    """ "3 parts honey to 1 part vinegar, 400 mL": the parts of what it makes in all."""
    whole = next((s for s in reading.said if s.quantity in WHOLE), None)
    total = sum(part for part, *_ in sides.values())
    if whole is None or not total or not sides.keys() <= {"honey", "vinegar", "liquid"}:
        return []
    reading.said.remove(whole)
    keys = {"honey": "honey_volume", "vinegar": "menstruum", "liquid": "decoction"}
    placed = [(keys[role], whole.value * part / total, start, end) for role, (part, start, end) in sides.items()]
    return [(key, value, whole.start, whole.end) if n == 0 else (key, value, start, end) for n, (key, value, start, end) in enumerate(placed)]
