"""Glycerine and water at 20 °C.

source    Lange's Handbook of Chemistry, 15th edition, table 5.13: specific gravity 20/20 °C of glycerol and water, every 10 % by weight;
          evidence: read
range     0 to 100 % by weight, 20 °C
"""

from assistant.matter.table import Table
from assistant.matter.water import GRAMS_PER_ML as WATER

SOURCE = "Lange's Handbook of Chemistry, 15th edition, table 5.13, 20 °C"
EVIDENCE = "read"

#: Pure glycerine as the bench counts it [g/mL]: common practice, and Lange's last row (1.2614) rounded. Much of it is sold at 86.5 %.
GRAMS_PER_ML = 1.261

# Weight against the same volume of water, both at 20 °C, at 0, 10 … 100 % by weight.
GRAVITIES = (1.0, 1.02395, 1.0488, 1.0747, 1.10135, 1.12845, 1.15605, 1.18355, 1.2109, 1.23755, 1.26362)

_TABLE = Table("glycerine by weight", "%", "density of glycerine and water", "g/mL", 0.0, 10.0, [WATER * sg for sg in GRAVITIES])


def glycerine_density(percent_by_weight: float) -> float:
    """Density of glycerine and water at 20 °C.

    percent_by_weight  grams of glycerine in 100 g, 0 to 100
    gives              density [g/mL]; straight lines between rows, which is within 0.0002 of the curve
    fails              FigureFault outside 0 to 100
    source             Lange's Handbook of Chemistry, 15th edition, table 5.13
    >>> round(glycerine_density(86.5), 3)
    1.226
    """
    return _TABLE.value(percent_by_weight)


def glycerine_by_weight(grams_per_ml: float) -> float:
    """Percent by weight of the glycerine and water that has this density at 20 °C.

    >>> round(glycerine_by_weight(1.2264), 1)
    86.6
    """
    return _TABLE.entry(grams_per_ml)


def glycerine_density_slope(percent_by_weight: float) -> float:
    """How fast the density rises [g/mL for each percent by weight]."""
    return _TABLE.slope(percent_by_weight)
