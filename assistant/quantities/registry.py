"""The pint registry of the bench: our own short unit file, no prefixes of pint's, no cache on disk.

The only module that imports pint, and only when asked: reading a sentence uses the plain factors of units.py.
Meant for checking dimensions of relations and converting between two units by name.
"""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Any

from assistant.quantities.units import UNITS_FILE

if TYPE_CHECKING:
    from pint import UnitRegistry


@cache
def registry() -> UnitRegistry[Any]:
    """A registry that knows the units of units.txt and no others (made once a process, about 90 ms)."""
    import pint

    # filename=None would load pint's own list, where T is tesla and ML a megalitre.
    made: UnitRegistry[Any] = pint.UnitRegistry(str(UNITS_FILE), cache_folder=None, autoconvert_to_preferred=False)
    return made


def convert(value: float, unit: str, to: str) -> float:
    """`value` of one unit in another, both by their names in units.txt.

    fails   pint.DimensionalityError between weight and volume, pint.UndefinedUnitError for a name not listed
    >>> round(convert(1, "pound", "ounce"), 6)
    16.0
    """
    known = registry()
    return float(known.convert(value, unit, to))
