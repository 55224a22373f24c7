"""Against a general library of fluid properties, where it covers the range (CoolProp, in the test extra).

For spirit it holds a fit made for cooling brines (Melinder 2010: 0 to 60 % by weight), the less exact of the two; for pure water and pure alcohol
equations of state. So each comparison has its own tolerance. It has nothing for strong spirits, sugar or oils.
"""

import pytest
from CoolProp.CoolProp import PropsSI

from assistant.matter.ethanol import density
from assistant.matter.freezing import freezes_at
from assistant.matter.glycerine import glycerine_density

ATMOSPHERE = 101325.0
CELSIUS = range(0, 41, 5)


def weighs(fluid, celsius):
    """kg/m³ at one atmosphere."""
    return PropsSI("D", "T", celsius + 273.15, "P", ATMOSPHERE, fluid)


@pytest.mark.parametrize("celsius", CELSIUS[1:])
def test_water(celsius):
    # Water's equation of state is good to 0.001; the older tables behind the formula to 0.01.
    assert density(0, celsius) == pytest.approx(weighs("Water", celsius), abs=0.01)


@pytest.mark.parametrize("celsius", CELSIUS)
def test_alcohol(celsius):
    # The alcohol equation of state claims 0.02 %: 0.16 kg/m³; it runs that much higher throughout.
    assert density(1, celsius) == pytest.approx(weighs("Ethanol", celsius), abs=0.2)


@pytest.mark.parametrize("celsius", CELSIUS)
@pytest.mark.parametrize("by_weight", range(5, 61, 5))
def test_spirit(by_weight, celsius):
    # A brine fit of a few coefficients: at most 0.5 kg/m³ away, which is a third of a percent of strength.
    assert density(by_weight / 100, celsius) == pytest.approx(weighs(f"INCOMP::MEA[{by_weight / 100}]", celsius), abs=0.5)


@pytest.mark.parametrize("by_weight", range(5, 31, 5))
def test_freezing_of_spirit(by_weight):
    # Ours are rounded to 0.1 °C.
    point = PropsSI("T_FREEZE", "T", 293.15, "P", ATMOSPHERE, f"INCOMP::MEA[{by_weight / 100}]") - 273.15
    assert freezes_at(by_weight / 100) == pytest.approx(point, abs=0.051)


@pytest.mark.parametrize("by_weight", range(11, 30, 2))
def test_freezing_of_spirit_by_another_fit(by_weight):
    # Two fits of the library differ by up to half a degree.
    point = PropsSI("T_FREEZE", "T", 293.15, "P", ATMOSPHERE, f"INCOMP::MEA2[{by_weight / 100}]") - 273.15
    assert freezes_at(by_weight / 100) == pytest.approx(point, abs=0.6)


@pytest.mark.parametrize("by_weight", range(20, 61, 5))
def test_glycerine(by_weight):
    # A brine fit, 0.2 to 0.63 by weight: within 0.1 %.
    assert 1000 * glycerine_density(by_weight) == pytest.approx(weighs(f"INCOMP::MGL[{by_weight / 100}]", 20), rel=0.001)
