"""Sugar, honey, vinegar and a liquid: syrups and oxymels, which are spoken of as a whole and not by their ingredients.

Parts of sugar and of honey beside a liquid are by weight; parts of an oxymel are by volume.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from assistant.dataclass import replace
from assistant.listening.statements import Asked, Ingredient, Reading, Said
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import about, base
from assistant.session.added_on import on_top_of
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
    ("herb", "ratio_of"): "ratio",
    ("vinegar", "volume"): "menstruum",
    ("vinegar", "strength_of"): "acidity",
}
ASKED_OF_IT = frozenset({"brix", "sugar", "syrup"})
BY_WEIGHT = {"sugar": "sugar_times", "honey": "honey_times"}
BY_VOLUME = {"honey": "honey_to_vinegar", "liquid": "decoction_to_vinegar"}
VOLUME_OF = {"honey": "honey_volume", "vinegar": "menstruum", "liquid": "decoction"}
WHOLE_SHARE = 100.0  # percent
WHOLE = frozenset({"menstruum", "blend", "bottle_size", "syrup", "jar_size"})
Placed = tuple[str, float, int, int]


def lay_sweet(lines: Sequence[Ingredient], reading: Reading, frames: set[str], facts: dict[str, Fact], turn: int, merged: Merged) -> bool:
    """Ingredients of a syrup into facts of the whole; False where anything else beside them makes it a written recipe."""
    if "syrup" not in frames:
        return False
    if _spirit_in_syrup(lines, reading, facts, turn, merged):
        return True
    strained = any(a.quantity in ASKED_OF_IT for a in reading.asked) and not any(s.quantity == "bottles" for s in reading.said)
    placed: list[Placed] = []
    sides: dict[str, tuple[float, int, int]] = {}
    roles = [_role(line, strained) for line in lines]
    if "vinegar" in roles:  # in an oxymel the weight of a plant is what is steeped
        roles = [role or ("herb" if any(q == "weight" for q, *_ in line.figures) else "") for role, line in zip(roles, lines, strict=True)]
    halves = _make_a_whole(lines, roles)
    for line, role in zip(lines, roles, strict=True):
        for quantity, value, start, end in line.figures:
            if (quantity == "part" or (halves and quantity == "share")) and role:
                sides[role] = (value, start, end)
                continue
            key = SWEET.get((role, quantity), "")
            if not key:
                return False
            placed.append((key, value, start, end))
    if sides.keys() <= {"honey", "sugar"} and len(sides) == 1 and any(k in ("decoction", "liquid") for k, *_ in placed):
        ((sweet, (parts, start, end)),) = sides.items()  # "300 mL decoction, 2 parts sugar"
        placed.append((BY_WEIGHT[sweet], 1.0 if SAME_WEIGHT.search(reading.heard) else parts, start, end))
    elif sides:
        more = _to_one("vinegar", BY_VOLUME, sides) if "vinegar" in sides else _to_one("liquid", BY_WEIGHT, sides)
        if not more:
            return False
        placed += more
        _amounts(reading, "vinegar" in sides)
        merged.used.extend((start, end, "part") for _, start, end in sides.values())
    for key, value, start, end in placed:
        there = on_top_of(key, start, reading.heard, facts) if len(lines) == 1 else 0.0
        put(key, value + there, start, end, facts, turn, merged)
    return True


SPIRITS = frozenset({"rum", "brandy", "vodka", "gin", "spirit", "alcohol", "whisky", "whiskey"})
SAME_WEIGHT = looked_for(r"\b(?:same|equal|own) weight\b", re.IGNORECASE)
SYRUP = looked_for(r"\bsyrups?\b", re.IGNORECASE)


def _spirit_in_syrup(lines: Sequence[Ingredient], reading: Reading, facts: dict[str, Fact], turn: int, merged: Merged) -> bool:
    """ "200 mL of 45 % rum to 800 mL elder syrup": the spirit is what keeps it, the other is the syrup; it is asked how strong that is."""
    spirit = [line for line in lines if line.name.split()[-1] in SPIRITS]
    if (
        len(lines) != 2
        or len(spirit) != 1
        or not SYRUP.search(reading.heard)
        or any(q not in ("volume", "strength_of") for line in lines for q, *_ in line.figures)
    ):
        return False
    for line in lines:
        keys = {"volume": "keeping_spirit", "strength_of": "keeping_strength"} if line is spirit[0] else {"volume": "syrup"}
        for quantity, value, start, end in line.figures:
            if quantity in keys:
                put(keys[quantity], value, start, end, facts, turn, merged)
    reading.asked[:] = [Asked("syrup_alcohol", 0, len(reading.heard))]
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


def _make_a_whole(lines: Sequence[Ingredient], roles: Sequence[str]) -> bool:
    """ "Half honey half vinegar", "60 % vinegar and 40 % honey": shares that make up the whole are its parts."""
    shares = [value for line, role in zip(lines, roles, strict=True) if role in VOLUME_OF for quantity, value, *_ in line.figures if quantity == "share"]
    return len(shares) > 1 and abs(sum(shares) - WHOLE_SHARE) < 1.0 and "vinegar" in roles


def _to_one(one: str, keys: dict[str, str], sides: dict[str, tuple[float, int, int]]) -> list[Placed]:
    """ "2:1 sugar to decoction", "3 parts honey to 1 part vinegar": so much to one of the liquid or of the vinegar."""
    if not sides.get(one, (0.0,))[0] or len(sides) < 2 or not sides.keys() <= {one, *keys}:
        return []
    return [(keys[role], part / sides[one][0], start, end) for role, (part, start, end) in sides.items() if role != one]


def _amounts(reading: Reading, oxymel: bool) -> None:
    """A volume beside the parts is that of the stuff named behind it ("i have 250 mL vinegar"), else of what it makes in all."""
    told = {s.quantity for s in reading.said}
    if oxymel and {"bottles", "bottle_size"} <= told and not told & {"jars", "jar_size", "in_jar"}:  # "six 500 mL bottles" are filled like jars
        names = {"bottles": "jars", "bottle_size": "jar_size"}
        reading.said[:] = [replace(s, quantity=names.get(s.quantity, s.quantity), weak=False) for s in reading.said]
        return
    for n, said in enumerate(reading.said):
        if said.quantity not in WHOLE:
            continue
        name = next((m.name.split()[-1] for m in reading.mentions if 0 <= m.start - said.end <= 1), "")
        role = name if name in ("honey", "vinegar") else "liquid" if name in WATERY else ""
        if role or oxymel or said.quantity != "bottle_size":
            key = VOLUME_OF.get(role, "in_jar" if oxymel else "syrup")
            reading.said[n] = replace(said, quantity=key)
