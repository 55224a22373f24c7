"""The hydrometer and the density formula, looked at closely: the glass, the ends of the scale, the slopes, against an independent way round."""

import pytest
from scipy.optimize import brentq

from assistant.faults import FigureFault
from assistant.matter.ethanol import density, density_of, density_slope, mass_fraction_of, strength_of, weight_slope
from assistant.matter.formula import ALCOHOL, A, B, coefficients_at, fraction_at, value, value_and_slope
from assistant.matter.freezing import freezes_at
from assistant.matter.hydrometer import strength_read_for, true_strength, true_strength_slope

GLASS = 25e-6  # cubic expansion of soda-lime glass a degree, as OIML R 22 takes it for its tables of readings; memory


def floats(strength, celsius):
    """The density [kg/m³] at which a stem graduated at 20 °C stands where it does: its own weight by a volume that the glass has changed."""
    return density(mass_fraction_of(strength), celsius) * (1 + GLASS * (celsius - 20))


@pytest.mark.parametrize("celsius", [-10, 0, 5, 15, 20, 25, 30, 40])
@pytest.mark.parametrize("reading", [30.0, 45.5, 60.0, 75.0, 90.0])
def test_the_true_strength_is_what_floats_the_stem_there(reading, celsius):
    shown = 1000 * density_of(reading)
    true = brentq(lambda strength: floats(strength, celsius) - shown, 32 if celsius < 0 else 15, 100, xtol=1e-12)
    assert true_strength(reading, celsius) == pytest.approx(true, abs=1e-8)
    assert strength_read_for(true, celsius) == pytest.approx(reading, abs=1e-8)


@pytest.mark.parametrize(("reading", "celsius"), [(30.0, 10.0), (60.0, 30.0), (90.0, 5.0), (50.0, 20.0)])
def test_the_slope_of_the_true_strength(reading, celsius):
    step = 1e-4
    measured = (true_strength(reading + step, celsius) - true_strength(reading - step, celsius)) / (2 * step)
    assert true_strength_slope(reading, celsius) == pytest.approx(measured, rel=1e-6)


@pytest.mark.parametrize(("strength", "celsius"), [(0.0, 4.0), (0.0, 10.0), (100.0, 30.0), (100.0, 40.0)])
def test_beyond_its_scale_a_stem_goes_on_in_a_straight_line(strength, celsius):
    """From the end of the scale as far as its density lies beyond it, by the slope there."""
    end, at_end = (0.0, A[0]) if strength == 0 else (100.0, ALCOHOL)
    beside = abs(end - 1e-4)
    slope = (1000 * density_of(beside) - at_end) / (1e-4 if end == 0 else -1e-4)
    assert strength_read_for(strength, celsius) == pytest.approx(end + (floats(strength, celsius) - at_end) / slope, abs=1e-4)


@pytest.mark.parametrize(("reading", "celsius", "low", "high"), [(0.0, 30.0, "limit", 100.0), (100.0, 10.0, 0.0, "limit")])
def test_a_refused_reading_names_both_ends(reading, celsius, low, high):
    limit = strength_read_for(0.0 if low == "limit" else 100.0, celsius)
    with pytest.raises(FigureFault) as caught:
        true_strength(reading, celsius)
    assert (caught.value.low, caught.value.high) == (limit if low == "limit" else low, limit if high == "limit" else high)
    assert caught.value.got == reading
    assert f"reads {limit:.1f} %" in str(caught.value)


def test_a_reading_at_either_end_of_what_floats_there_is_answered():
    for celsius in (10.0, 30.0, 40.0):
        weakest, strongest = strength_read_for(0.0, celsius), strength_read_for(100.0, celsius)
        for reading, true in ((weakest, 0.0), (strongest, 100.0)):
            if 0 <= reading <= 100:
                assert true_strength(reading, celsius) == pytest.approx(true, abs=1e-6)


def test_a_reading_in_ice_is_refused():
    assert true_strength(20.0, -5.0) > 20
    with pytest.raises(FigureFault, match="ice"):
        true_strength(1.0, -5.0)
    with pytest.raises(FigureFault, match="ice"):
        strength_read_for(1.0, -5.0)


# ── the formula ──


def test_the_powers_of_the_temperature_as_they_are_printed():
    """OIML R 22 (1975), general formula, B1 to B6; memory."""
    assert B == (-2.0618513e-1, -5.2682542e-3, 3.6130013e-5, -3.8957702e-7, 7.169354e-9, -9.9739231e-11)


@pytest.mark.parametrize("celsius", [-20.0, 0.0, 20.0, 40.0])
@pytest.mark.parametrize("p", [0.35, 0.5, 0.777, 1.0])
def test_the_slope_in_the_mass_fraction(p, celsius):
    rho = coefficients_at(celsius)
    here, slope = value_and_slope(rho, p)
    assert here == pytest.approx(value(rho, p), rel=1e-12)
    assert slope == pytest.approx((value(rho, p + 1e-5) - value(rho, p - 1e-5)) / 2e-5, rel=1e-6)


@pytest.mark.parametrize("celsius", [-20.0, 0.0, 20.0, 40.0])
def test_the_mass_fraction_of_a_density_against_an_independent_search(celsius):
    rho = coefficients_at(celsius)
    for share in (0.01, 0.2, 0.5, 0.8, 0.99):
        target = value(rho, 1.0) + share * (value(rho, 0.31) - value(rho, 1.0))
        assert fraction_at(rho, target) == pytest.approx(brentq(lambda p, target=target: value(rho, p) - target, 0.3, 1.0, xtol=1e-14), abs=1e-12)


@pytest.mark.parametrize("strength", [5.0, 30.0, 60.0, 95.0])
def test_slopes_in_the_strength(strength):
    step = 1e-3
    assert density_slope(strength) == pytest.approx((density_of(strength + step) - density_of(strength - step)) / (2 * step), rel=1e-6)
    by_weight = (mass_fraction_of(strength + step) - mass_fraction_of(strength - step)) / (2 * step)
    assert weight_slope(strength) == pytest.approx(100 * by_weight, rel=1e-6)


def test_strength_is_the_share_of_alcohol_by_volume():
    for p in (0.1, 0.45, 0.9):
        assert strength_of(p) == pytest.approx(100 * p * density(p) / density(1.0), rel=1e-12)


@pytest.mark.parametrize(("grams", "celsius"), [(0, 0), (5, -2.0), (10, -4.4), (15, -7.4), (20, -11.1), (25, -15.4), (30, -20.1)])
def test_where_it_begins_to_freeze(grams, celsius):
    """Melinder, as the library CoolProp carries it (INCOMP::MEA), rounded to a tenth; half way between two points half way."""
    assert freezes_at(grams / 100) == pytest.approx(celsius, abs=1e-9)
    assert freezes_at(1.0) == -20.1


def test_half_way_between_two_points():
    assert freezes_at(0.025) == pytest.approx(-1.0)
    assert freezes_at(0.125) == pytest.approx(-5.9)
    assert freezes_at(0.2999) == pytest.approx(-20.1, abs=0.02)
