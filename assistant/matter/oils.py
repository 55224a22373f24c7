"""Oils, waxes and butters: what a millilitre weighs, and what the standards allow.

Any oil counts as 0.915 g/mL and beeswax as 0.96 g/mL unless the person states a density: that is the convention of the bench (common practice), and
the ranges below show how far it can be out. The liquid wax jojoba, castor oil and the butters lie well away from 0.915 and carry a figure of their
own. A relative density at t/20 °C is against water at 20 °C; `low` and `high` here are g/mL at `celsius`, worked out from what the source prints.
"""

from assistant.dataclass import dataclass

#: Density of an oil and of beeswax when nothing was said [g/mL].
OIL = 0.915
BEESWAX = 0.96
# Most essential oils float: lavender 0.88, peppermint 0.90, tea tree 0.89; clove and cinnamon sink, at 1.04 and more. Common practice, no source.
ESSENTIAL_OIL = 0.90
ESSENTIAL_RANGE = (0.84, 1.06)

_WATER_20 = 0.99820
_WATER_25 = 0.99704


@dataclass(frozen=True, slots=True)
class Fat:
    """An oil, wax or butter.

    name      as it is called at the bench
    spoken    other names
    density   the figure the bench uses [g/mL]
    low, high range of the source [g/mL at `celsius`]
    celsius   temperature of that range
    source, evidence
    """

    name: str
    spoken: tuple[str, ...]
    density: float
    low: float
    high: float
    celsius: float
    source: str
    evidence: str


FATS = (
    Fat("olive oil", ("olive",), OIL, 0.910 * _WATER_20, 0.916 * _WATER_20, 20, "Codex CXS 33-1981, appendix, 20 °C / water at 20 °C", "memory"),
    Fat(
        "sunflower oil",
        ("sunflower",),
        OIL,
        0.916 * _WATER_20,
        0.923 * _WATER_20,
        20,
        "Codex CXS 210-1999, table 2 as amended 2022, 20 °C / water at 20 °C",
        "read",
    ),
    Fat("almond oil", ("almond", "sweet almond oil"), OIL, 0.910 * _WATER_25, 0.915 * _WATER_25, 25, "USP29-NF24, Almond Oil, 25/25 °C", "read"),
    Fat("peanut oil", ("arachis oil", "groundnut oil"), OIL, 0.912 * _WATER_25, 0.920 * _WATER_25, 25, "USP-NF 23, Peanut Oil, 25/25 °C", "read"),
    Fat("coconut oil", ("coconut",), OIL, 0.908 * _WATER_20, 0.921 * _WATER_20, 40, "Codex CXS 210-1999, 40 °C / water at 20 °C: melted", "read"),
    Fat("castor oil", ("castor",), 0.96, 0.957 * _WATER_25, 0.961 * _WATER_25, 25, "USP29-NF24, Castor Oil, 25/25 °C", "read"),
    Fat("jojoba", ("jojoba oil", "jojoba wax"), 0.868, 0.863, 0.873, 25, "handbook figures", "memory"),
    Fat("shea butter", ("shea",), 0.91, 0.89, 0.93, 40, "Codex CXS 325R-2017, table 2: melted", "read"),
    Fat("cocoa butter", ("cacao butter",), 0.89, 0.882 * _WATER_20, 0.898 * _WATER_20, 40, "a maker's specification, 40 °C: melted (weak)", "read"),
    Fat("lanolin", ("wool fat",), 0.94, 0.932, 0.945, 15, "handbook figures", "memory"),
    Fat(
        "beeswax",
        ("wax", "bees wax"),
        BEESWAX,
        0.958 * _WATER_20,
        0.970 * _WATER_20,
        20,
        "pharmacognosy text; books differ (yellow 0.955 to 0.967)",
        "read",
    ),
)

_BY_NAME = {name: fat for fat in FATS for name in (fat.name, *fat.spoken)}


def fat(name: str) -> Fat | None:
    """The oil, wax or butter of this name, or None where it is not listed.

    >>> fat("olive").density
    0.915
    """
    return _BY_NAME.get(name.lower())
