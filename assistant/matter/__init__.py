"""Physical facts: what spirit, water, sugar, glycerine, oils and waxes weigh.

Holds     a module and a table per substance, each figure with its unit, range, source and evidence (read | memory | computed | common practice)
Exports   FUNCTIONS, the table of named functions that relations refer to (assistant.matter.function says what one is)
Knows not ingredients, batches, ratios, sentences. It raises FigureFault and nothing else.

    formula.py      OIML R 22: density by mass fraction and temperature, -20 to 40 °C
    ethanol.py      spirit and water: density, strength by volume and by weight, mixing
    hydrometer.py   what a glass hydrometer shows away from 20 °C
    freezing.py     where spirit and water begin to freeze
    water.py        the one figure for water
    sugar.py        syrup: sucrose in water at 20 °C; honey
    glycerine.py    glycerine and water at 20 °C
    oils.py         oils, waxes and butters, one density each with the range its standard allows
    whole.py        whole bottles and jars
    cylinders.py    what a measuring cylinder reads, and how far it may be out
    scales.py       how far a scale may be out;  droppers.py   drops in a mL, and how far a counted dropper may be out
    table.py        a printed table read both ways;  limits.py  how a figure outside a table is refused
    function.py     what a named function is;  functions.py   FUNCTIONS
"""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from assistant.matter.function import Function
    from assistant.matter.functions import FUNCTIONS

__all__ = ["FUNCTIONS", "Function"]


def __getattr__(name: str) -> Any:
    if name == "FUNCTIONS":
        from assistant.matter.functions import FUNCTIONS

        return FUNCTIONS
    if name == "Function":
        from assistant.matter.function import Function

        return Function
    raise AttributeError(f"assistant.matter has no {name!r}")
