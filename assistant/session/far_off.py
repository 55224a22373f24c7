"""How far what is taken for granted may be from what the person's figures make of it, before those figures are in doubt instead.

A jar that told another density of oil tells of the oil; one that makes it 0.46 g/mL tells of a slip, or of an older figure that no longer holds.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from assistant.quantities.vocabulary import base

# key → least and most that such a thing is met with (common practice, no source; densities a tenth around those of matter/).
MET_WITH: Mapping[str, tuple[float, float]] = {
    "density_of": (0.80, 1.50),
    "menstruum_density": (0.80, 1.10),
    "salve_density": (0.80, 1.10),
    "eo_density": (0.75, 1.20),
    "honey_density": (1.30, 1.50),
    "honey_sugar": (65.0, 95.0),
    "held_per_gram": (0.0, 9.0),
    "drops_per_ml": (10.0, 80.0),
    "water_content": (20.0, 97.0),
    "dried_water": (0.0, 40.0),
    "glycerine_stock": (50.0, 100.0),
    "cup_size": (80.0, 600.0),
    "spoons_per_cup": (0.25, 6.0),
}


def far_off(displaced: Iterable[tuple[str, float]]) -> list[str]:
    """Of figures that displaced an assumption (key, value), those that no such thing has."""
    odd = []
    for key, value in displaced:
        least, most = MET_WITH.get(base(key), (float("-inf"), float("inf")))
        if not least - 1e-9 <= value <= most + 1e-9:
            odd.append(key)
    return odd
