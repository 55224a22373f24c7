"""Sugar and water: the weight of a syrup, and of honey.

source    CRC Handbook of Chemistry and Physics, table of aqueous sucrose at 20 °C; evidence: read in a public copy of the table's columns, in which
          grams per litre = °Bx × density / 100 holds in every row
range     0 to 84 °Bx (grams of sugar in 100 g of syrup), 20 °C. Above 67.1 °Bx a sugar syrup is more than saturated at 20 °C.
"""

from assistant.matter.table import Table

SOURCE = "CRC Handbook, aqueous sucrose at 20 °C"
EVIDENCE = "read"

LAST_BRIX = 84.0

#: Grams of sucrose in 100 g of a saturated solution at 20 °C: Mohos, Confectionery and Chocolate Engineering (2010), tables A2.2 and A2.3; read.
SATURATED = 67.09

#: Honey unless it was weighed [g/mL] and its sugar [percent by weight]: common practice. USP purified honey is 1.400 to 1.435 (read); USDA 19296
#: gives 82.1 g of sugars in 100 g (read).
HONEY_DENSITY = 1.42
HONEY_SUGAR = 82.0

# kg/m³ at 0, 2, 4 … 84 °Bx.
DENSITIES = (
    998.2, 1006.0, 1013.9, 1021.8, 1029.9, 1038.1, 1046.5, 1054.9, 1063.5, 1072.2, 1081.0, 1089.9, 1099.0, 1108.2, 1117.5,
    1127.0, 1136.6, 1146.4, 1156.2, 1166.3, 1176.5, 1186.8, 1197.2, 1207.9, 1218.6, 1229.5, 1240.6, 1251.8, 1263.2, 1274.7,
    1286.4, 1298.3, 1310.3, 1322.4, 1334.8, 1347.2, 1359.9, 1372.6, 1385.5, 1398.6, 1411.7, 1425.0, 1438.3,
)  # fmt: skip

_TABLE = Table("syrup strength", "°Bx", "density of a syrup", "g/mL", 0.0, 2.0, [rho / 1000 for rho in DENSITIES])


def syrup_density(brix: float) -> float:
    """Density of a sugar syrup at 20 °C.

    brix    grams of sugar in 100 g, 0 to 84 °Bx
    gives   density [g/mL]; straight lines between rows, which is within 0.00002 of the curve
    fails   FigureFault outside 0 to 84
    source  CRC Handbook, aqueous sucrose at 20 °C
    >>> round(syrup_density(65), 4)
    1.3163
    """
    return _TABLE.value(brix)


def brix_of_density(grams_per_ml: float) -> float:
    """°Bx of the syrup that has this density at 20 °C, 0.9982 to 1.4383 g/mL.

    >>> round(brix_of_density(1.33), 1)
    67.2
    """
    return _TABLE.entry(grams_per_ml)


def syrup_density_slope(brix: float) -> float:
    """How fast the density of a syrup rises [g/mL for each °Bx]."""
    return _TABLE.slope(brix)
