"""The single figures beside the tables, each against a second source or worked out from another figure."""

import pytest

from assistant.faults import FigureFault
from assistant.matter import droppers, ethanol, formula, glycerine, oils, scales, sugar, water, whole
from assistant.matter.ethanol import density
from assistant.matter.limits import within


def test_pure_glycerine():
    """1.2613 g/mL at 20 °C: CRC Handbook, physical constants of organic compounds; memory. And the last row of the house's own table."""
    assert pytest.approx(1.2613, abs=0.0005) == glycerine.GRAMS_PER_ML
    assert round(glycerine.glycerine_density(100), 3) == glycerine.GRAMS_PER_ML


def test_water():
    """998.201 kg/m³ at 20 °C and 997.047 at 25 °C: CIPM formula for water without air (Tanaka and others 2001); memory."""
    assert pytest.approx(0.998207, abs=2e-5) == water.GRAMS_PER_ML
    assert pytest.approx(0.997047, abs=2e-5) == droppers.WATER_25
    assert density(0, 25) / 1000 == pytest.approx(droppers.WATER_25, abs=2e-5)


def test_alcohol():
    """0.7893 g/mL at 20 °C: CRC Handbook, ethanol; memory."""
    assert pytest.approx(0.7893, abs=1e-4) == ethanol.GRAMS_PER_ML_OF_ALCOHOL
    assert pytest.approx(789.24, abs=0.005) == formula.ALCOHOL


def test_sugar_that_water_can_hold():
    """203.9 g of sucrose in 100 g of water at 20 °C: CRC Handbook, solubility of sucrose; memory."""
    assert pytest.approx(100 * 203.9 / 303.9, abs=0.01) == sugar.SATURATED


def test_honey():
    """Relative density 1.4171 at 20/20 °C with 18 % of water: US standards for grades of extracted honey, table I; memory. 82.12 g of sugars in
    100 g: USDA 19296; read."""
    assert pytest.approx(1.4171, abs=0.005) == sugar.HONEY_DENSITY
    assert pytest.approx(82.12, abs=0.2) == sugar.HONEY_SUGAR


def test_drops():
    """A dropper of the pharmacopoeia makes drops of 50 mg in the middle, and may be 15 in a hundred out: USP <1101>; read in a copy."""
    assert pytest.approx(1000 * droppers.WATER_25 / 50, abs=0.1) == droppers.UNCOUNTED
    assert droppers.counted_error(20) == pytest.approx(3.0)
    few, many = droppers.drops_of_water()
    assert (1000 * droppers.WATER_25 / few, 1000 * droppers.WATER_25 / many) == pytest.approx((55, 45))


def test_a_scale_in_service_may_be_out_twice_as_far():
    """OIML R 76-1, 3.5.2: the limits in service are twice those on initial verification; memory."""
    assert scales.IN_SERVICE * scales.permitted(100, 1, "III") == 1.0


def test_half_a_step():
    assert scales.half_a_step(0.5) == 0.25


def test_the_class_of_finest_scales():
    """OIML R 76-1, table 6, class I: 0.5 e to 50 000 e, 1 e to 200 000 e, 1.5 e above; memory."""
    assert [scales.permitted(load, 1.0, "I") for load in (50_000, 50_001, 200_000, 200_001, 10_000_000)] == [0.5, 1.0, 1.0, 1.5, 1.5]


def test_an_oil_is_found_by_any_name_in_any_case():
    assert oils.fat("JOJOBA wax") is oils.fat("jojoba")


@pytest.mark.parametrize(("value", "low", "high", "given"), [(100 + 9e-8, 0, 100, 100), (-9e-8, 0, 100, 0), (-9e-10, 0, float("inf"), 0), (7 - 1e-10, 7, 8, 7)])
def test_a_thousand_millionth_of_a_range_is_dust(value, low, high, given):
    assert within(value, low, high, "x", "g") == given


@pytest.mark.parametrize(("value", "low", "high"), [(100 + 1.004e-7, 0, 100), (-1.004e-7, 0, 100), (-1.004e-9, 0, float("inf")), (7 - 1.004e-9, 7, 8)])
def test_more_than_that_is_refused(value, low, high):
    with pytest.raises(FigureFault, match="lies outside"):
        within(value, low, high, "x", "g")


def test_a_refusal_names_the_value_the_span_and_what_to_do():
    with pytest.raises(FigureFault, match=r"x: 12 g lies outside 0 to 10 g\. Try: a x from 0 to 10 g"):
        within(12, 0, 10, "x", "g")
    with pytest.raises(FigureFault, match=r"x: 12 lies outside 0 to 10\. Try: wait"):
        within(12, 0, 10, "x", "", "wait")


@pytest.mark.parametrize(("count", "full"), [(12 - 1.0e-6, 12), (12 - 1.011e-6, 12), (12 - 1.0165e-6, 11), (1e6 - 1.0005e-3, 1e6), (1e6 - 1.0065e-3, 999_999)])
def test_dust_on_a_count_grows_with_the_count(count, full):
    """A millionth of one and a thousand-millionth of the count: at 12 a little more than a millionth, at a million a thousandth and a millionth."""
    assert whole.filled(count) == full
