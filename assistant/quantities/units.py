"""Unit words and their plain factors, read from units.txt.

The everyday path needs a table of spellings and a number for each, nothing more; pint reads the same file in
registry.py, and a test proves that both come to the same factors.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType

from assistant.dataclass import dataclass

UNITS_FILE = Path(__file__).with_name("units.txt")
MEASURES = ("us", "imperial", "metric", "australian")
# Where a measure has no size of its own in one country, whose it borrows.
_BORROWED = {"us": (), "imperial": ("us",), "metric": ("us",), "australian": ("metric", "imperial", "us")}
# dimension in the file -> the bench unit every value is kept in
BENCH_UNITS = MappingProxyType({"mass": "g", "volume": "mL", "drops": "drop", "droppers": "dropperful", "time": "day"})
_SHORT = {
    "gram": "g", "milligram": "mg", "microgram": "mcg", "kilogram": "kg", "pound": "lb", "ounce": "oz",
    "millilitre": "mL", "centilitre": "cL", "decilitre": "dL", "litre": "L", "fluid_ounce": "fl oz",
    "fluid_dram": "fl dr", "tablespoon": "tbsp", "teaspoon": "tsp", "quart": "qt", "gallon": "gal",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: its name, how it is shown ("fl oz"), the bench unit it is kept in, and its size there.

    sizes   bench units in one of it, by country's measure; one key "" when all countries agree
    """

    name: str
    shown: str
    dimension: str
    sizes: Mapping[str, float]

    @property
    def bench(self) -> str:
        return BENCH_UNITS[self.dimension]

    def size(self, measure: str = "us") -> float:
        """Bench units in one of this unit, as `measure` (us, imperial, metric, australian) has it."""
        sizes = self.sizes
        if "" in sizes:
            return sizes[""]
        if measure in sizes:
            return sizes[measure]
        return next(sizes[other] for other in _BORROWED[measure] if other in sizes)


@dataclass(frozen=True, slots=True)
class Units:
    """The whole table: units by name, and which unit each spelling (lower case) means."""

    by_name: Mapping[str, Unit]
    spellings: Mapping[str, Unit]
    factors: Mapping[str, float]  # each definition of the file in bench units: pint's names


@cache
def units() -> Units:
    """The table of units.txt; the file is read once a process."""
    return read_units(UNITS_FILE.read_text(encoding="utf-8"))


def read_units(text: str) -> Units:
    """Read a unit file.

    fails   ValueError naming the line, for a definition that is not `name = number, unit or [dimension]` joined
            by * and /, or a spelling given to two units
    """
    factors: dict[str, float] = {}
    dimensions: dict[str, str] = {}
    sizes: dict[str, dict[str, float]] = {}
    spoken: dict[str, tuple[str, ...]] = {}
    spellings: tuple[str, ...] = ()
    for number, line in enumerate(text.splitlines(), 1):
        line = line.strip()
        if line.startswith("#:"):
            spellings = tuple(word.replace("_", " ") for word in line[2:].split())
            continue
        if not line or line.startswith("#"):
            continue
        try:
            name, definition = (piece.strip() for piece in line.split("="))
            factors[name], dimensions[name] = _measure(definition, factors, dimensions)
        except (ValueError, KeyError) as problem:
            raise ValueError(f"units.txt, line {number}: cannot read {line!r}") from problem
        common, _, measure = name.rpartition("_")
        if measure not in MEASURES:
            common, measure = name, ""
        sizes.setdefault(common, {})[measure] = factors[name]
        dimensions[common] = dimensions[name]
        if spellings:
            spoken[common], spellings = spellings, ()
    by_name = {name: Unit(name, _SHORT.get(name, name), dimensions[name], MappingProxyType(by_measure)) for name, by_measure in sizes.items()}
    words: dict[str, Unit] = {}
    for name, its in spoken.items():
        for word in its:
            if word in words:
                raise ValueError(f"units.txt: {word!r} is given to {words[word].name} and to {name}")
            words[word] = by_name[name]
    return Units(MappingProxyType(by_name), MappingProxyType(words), MappingProxyType(factors))


def _measure(definition: str, factors: dict[str, float], dimensions: dict[str, str]) -> tuple[float, str]:
    """`pound / 16` → (28.35, "mass"): a product of numbers and names defined above."""
    if definition.startswith("["):
        return 1.0, definition.strip("[]")
    size, dimension, divide = 1.0, "", False
    for piece in definition.replace("*", " * ").replace("/", " / ").split():
        if piece in "*/":
            divide = piece == "/"
            continue
        if piece[0].isdigit():
            factor = float(piece)
        else:
            factor, dimension = factors[piece], dimensions[piece]
        size = size / factor if divide else size * factor
    if not dimension:
        raise ValueError(definition)
    return size, dimension


def of_liquid(grams: float, measures: str) -> float:
    """mL of as many fluid ounces as these grams are ounces: "4 oz" of a liquid, heard as a weight."""
    known = units().by_name
    return grams / known["ounce"].size(measures) * known["fluid_ounce"].size(measures)


MEDICINE_TEASPOON = 5.0  # mL, whatever the kitchen's holds
SPOONS = frozenset({"teaspoon", "tablespoon"})


def spoon_of(word: str, measures: str) -> float:
    """mL of a spoon of medicine, by its name: a teaspoon is 5 mL, a tablespoon what these measures make it."""
    return units().by_name["tablespoon"].size(measures) if word.lower().startswith(("tb", "ta")) else MEDICINE_TEASPOON
