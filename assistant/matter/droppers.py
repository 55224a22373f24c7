"""Droppers: how many drops a millilitre makes, and how far a counted dropper may be out.

source    USP 32, chapter <1101> Medicine Dropper: 45 to 55 mg of water a drop at 25 °C, volume error at most 15 %; evidence: read (copy of the pharmacopoeia)
"""

from __future__ import annotations

COUNTED = 15.0  # [percent of the volume] how far a counted dropper may be out
DROP_OF_WATER = (45.0, 55.0)  # [mg], the official dropper held upright
WATER_25 = 0.99705  # [g/mL] at 25 °C; OIML R 22 at 0 %, memory
UNCOUNTED = 20.0  # [drops/mL] until a person has counted their own; common practice
OF_SPIRIT = 38.0  # [drops/mL] of a spirit extract where water gives 16 to 20; drop tables, read
SOURCE = "USP <1101>"


def drops_of_water() -> tuple[float, float]:
    """The fewest and the most drops that an official dropper makes of a mL of water.

    >>> [round(n, 1) for n in drops_of_water()]
    [18.1, 22.2]
    """
    light, heavy = DROP_OF_WATER
    return 1000 * WATER_25 / heavy, 1000 * WATER_25 / light


def counted_error(drops_per_ml: float) -> float:
    """± of a counted dropper [drops/mL].

    >>> counted_error(34)
    5.1
    """
    return drops_per_ml * COUNTED / 100
