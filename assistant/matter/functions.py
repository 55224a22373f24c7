"""FUNCTIONS: every named function that a relation may write, by its name. The solver knows the shape of the table, this file its meaning."""

from collections.abc import Mapping
from types import MappingProxyType

from assistant.matter import ethanol, formula, glycerine, hydrometer, sugar, whole
from assistant.matter.function import Function


def _strength_from_weight(percent: float) -> float:
    return ethanol.strength_of(percent / 100)


def _weight_from_strength(strength: float) -> float:
    return 100 * ethanol.mass_fraction_of(strength)


def _itself(whole_number: float) -> float:
    """The least that gives this whole number: filling 12 bottles takes 12 bottles' worth."""
    return whole_number


_TABLE = (
    Function(
        name="density",
        takes=("percent",),
        unit="g/mL",
        low=0.0,
        high=100.0,
        call=ethanol.density_of,
        inverse=ethanol.strength_of_density,
        derivative=ethanol.density_slope,
        source=formula.SOURCE,
        evidence=formula.EVIDENCE,
    ),
    Function(
        name="mass_percent",  # strength by volume → strength by weight
        takes=("percent",),
        unit="percent",
        low=0.0,
        high=100.0,
        call=_weight_from_strength,
        inverse=_strength_from_weight,
        derivative=ethanol.weight_slope,
        source=formula.SOURCE,
        evidence=formula.EVIDENCE,
    ),
    Function(
        name="true_strength",  # reading of a glass hydrometer, temperature → strength at 20 °C
        takes=("percent", "degC"),
        unit="percent",
        low=0.0,
        high=100.0,
        call=hydrometer.true_strength,
        inverse=hydrometer.strength_read_for,
        derivative=hydrometer.true_strength_slope,
        source=hydrometer.SOURCE,
        evidence=formula.EVIDENCE,
    ),
    Function(
        name="syrup_density",
        takes=("percent",),
        unit="g/mL",
        low=0.0,
        high=sugar.LAST_BRIX,
        call=sugar.syrup_density,
        inverse=sugar.brix_of_density,
        derivative=sugar.syrup_density_slope,
        source=sugar.SOURCE,
        evidence=sugar.EVIDENCE,
    ),
    Function(
        name="glycerine_density",  # takes percent by weight
        takes=("percent",),
        unit="g/mL",
        low=0.0,
        high=100.0,
        call=glycerine.glycerine_density,
        inverse=glycerine.glycerine_by_weight,
        derivative=glycerine.glycerine_density_slope,
        source=glycerine.SOURCE,
        evidence=glycerine.EVIDENCE,
    ),
    Function(
        name="floor",
        takes=("1",),
        unit="1",
        low=0.0,
        high=1e9,
        call=whole.filled,
        inverse=_itself,
        derivative=None,
        source="bottles are whole: the least volume that fills N bottles is N bottles",
        evidence="common practice",
        in_steps=True,
    ),
    Function(
        name="ceil",
        takes=("1",),
        unit="1",
        low=0.0,
        high=1e9,
        call=whole.needed,
        inverse=_itself,
        derivative=None,
        source="jars are whole: N jars hold at most N jars",
        evidence="common practice",
        in_steps=True,
    ),
)

FUNCTIONS: Mapping[str, Function] = MappingProxyType({function.name: function for function in _TABLE})
