"""Spirit and water: the formula's own shape, the ways back, the hydrometer, mixing, and what is refused."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.faults import FigureFault
from assistant.matter.ethanol import (
    density,
    density_of,
    mass_fraction_of,
    mass_of_alcohol,
    mix,
    strength_of,
    strength_of_density,
)
from assistant.matter.formula import COLDEST, A, B, C
from assistant.matter.freezing import POINTS, freezes_at
from assistant.matter.hydrometer import strength_read_for, true_strength

strengths = st.floats(0, 100)
volumes = st.floats(0.01, 1e5)
temperatures = st.floats(0, 40)


def test_the_coefficients_sum_to_what_they_summed_to_when_they_were_checked():
    # One slipped digit anywhere changes a sum; the printed table would notice only where its own rounding lets it.
    assert math.fsum(A) == pytest.approx(789.2391233, abs=1e-6)
    assert math.fsum(B) == pytest.approx(-0.21141763669, abs=1e-11)
    assert [math.fsum(row) for row in C] == pytest.approx([-0.64892308288995, 0.0049018990323093, -3.81329625156e-05, 3.1156462526e-07, -1.442461471e-08])
    assert [len(A), len(B), *map(len, C)] == [12, 6, 11, 10, 9, 4, 2]


@pytest.mark.parametrize("celsius", range(-20, 41, 5))
def test_density_falls_as_strength_rises_at_every_temperature(celsius):
    liquid = [i / 2000 for i in range(2001) if freezes_at(i / 2000) <= celsius]
    weights = [density(p, celsius) for p in liquid]
    assert all(later < earlier for earlier, later in pairwise(weights))


def test_strength_rises_with_weight_and_density_of_the_bench_runs_from_water_to_alcohol():
    by_volume = [strength_of(i / 5000) for i in range(5001)]
    assert all(later > earlier for earlier, later in pairwise(by_volume))
    assert (by_volume[0], by_volume[-1]) == (0, pytest.approx(100, abs=1e-12))
    assert density_of(0) == pytest.approx(0.9982, abs=5e-6)
    assert density_of(100) == pytest.approx(0.78924, abs=1e-6)


@given(strengths)
def test_strength_by_weight_and_back(strength):
    assert strength_of(mass_fraction_of(strength)) == pytest.approx(strength, abs=1e-9)


@given(st.floats(0, 1))
def test_weight_by_strength_and_back(fraction):
    assert mass_fraction_of(strength_of(fraction)) == pytest.approx(fraction, abs=1e-11)


@given(strengths)
def test_density_and_back(strength):
    assert strength_of_density(density_of(strength)) == pytest.approx(strength, abs=1e-9)


@given(strengths)
def test_density_by_volume_is_density_by_weight(strength):
    assert 1000 * density_of(strength) == pytest.approx(density(mass_fraction_of(strength)), abs=1e-8)


@pytest.mark.parametrize("dust", [-1e-8, 100 + 1e-8])
def test_rounding_dust_at_the_ends_is_forgiven(dust):
    assert density_of(dust) == density_of(round(dust))


@pytest.mark.parametrize("strength", [-0.1, 100.1, math.nan, math.inf])
def test_a_strength_outside_0_to_100_is_refused_with_its_limits(strength):
    with pytest.raises(FigureFault) as caught:
        density_of(strength)
    fault = caught.value
    assert (fault.low, fault.high, fault.unit) == (0, 100, "%")
    assert fault.got is strength
    assert str(fault) == f"strength: {strength:g} % lies outside 0 to 100 %. Try: a strength from 0 to 100 %"


@pytest.mark.parametrize(
    ("ask", "where", "limits"),
    [
        (lambda: density(1.2), "mass fraction", (0, 1)),
        (lambda: density(0.5, 41), "temperature", (-20, 40)),
        (lambda: density(0.5, math.nan), "temperature", (-20, 40)),
        (lambda: strength_of(-0.1), "mass fraction", (0, 1)),
        (lambda: strength_of_density(1.0), "density of a spirit", (pytest.approx(0.78924, abs=1e-5), pytest.approx(0.99820, abs=1e-5))),
        (lambda: true_strength(60, -21), "temperature", (-20, 40)),
        (lambda: true_strength(101, 20), "strength", (0, 100)),
        (lambda: mix([-5], [40]), "volume", (0, math.inf)),
        (lambda: mix([5], [140]), "strength", (0, 100)),
        (lambda: mix([5], [40], -1), "water", (0, math.inf)),
    ],
)
def test_a_figure_outside_a_range_is_refused(ask, where, limits):
    with pytest.raises(FigureFault) as caught:
        ask()
    assert caught.value.where == where
    assert (caught.value.low, caught.value.high) == limits
    assert caught.value.try_this


# ── frost ──


def test_freezing_points_fall_and_reach_the_coldest_temperature_of_the_formula():
    assert all(later < earlier for earlier, later in pairwise(POINTS))
    assert POINTS[0] == 0
    assert POINTS[-1] < COLDEST


@pytest.mark.parametrize(("fraction", "celsius"), [(0, -0.1), (0.1, -5), (0.25, -16)])
def test_what_is_partly_ice_is_refused(fraction, celsius):
    with pytest.raises(FigureFault, match="ice"):
        density(fraction, celsius)


@pytest.mark.parametrize(("fraction", "celsius"), [(0, 0), (0.1, -4), (0.31, -20), (1, -20)])
def test_what_is_cold_and_liquid_is_answered(fraction, celsius):
    assert 789 < density(fraction, celsius) < 1000


# ── the hydrometer ──


@given(strengths)
def test_a_hydrometer_reads_true_at_20_degrees(strength):
    assert true_strength(strength, 20) == pytest.approx(strength, abs=1e-9)


@given(strengths, temperatures)
def test_reading_and_true_strength_are_each_other_turned_round(strength, celsius):
    reading = strength_read_for(strength, celsius)
    if 0 <= reading <= 100:
        assert true_strength(reading, celsius) == pytest.approx(strength, abs=1e-8)


@given(st.floats(5, 95))
def test_warm_spirit_reads_high_and_cold_spirit_reads_low(strength):
    assert strength_read_for(strength, 30) > strength > strength_read_for(strength, 10)


@pytest.mark.parametrize(("reading", "celsius", "end"), [(0, 30, "weakest"), (100, 10, "strongest")])
def test_a_reading_that_no_spirit_gives_names_the_end_of_the_scale(reading, celsius, end):
    with pytest.raises(FigureFault, match=end) as caught:
        true_strength(reading, celsius)
    limit = caught.value.low if end == "weakest" else caught.value.high
    assert true_strength(limit, celsius) == pytest.approx(0 if end == "weakest" else 100, abs=1e-6)


def test_a_stem_may_stand_outside_its_scale():
    assert strength_read_for(0, 4) < 0
    assert strength_read_for(100, 30) > 100


# ── mixing ──


@given(st.lists(st.tuples(volumes, strengths), min_size=1, max_size=8), st.floats(0, 1e5))
def test_alcohol_and_weight_are_conserved_in_every_mix(parts, water):
    mixture = mix([v for v, _ in parts], [s for _, s in parts], water)
    assert mixture.volume * mixture.strength == pytest.approx(math.fsum(v * s for v, s in parts), rel=1e-9, abs=1e-9)
    assert mixture.grams == pytest.approx(math.fsum([v * density_of(s) for v, s in parts] + [water]), rel=1e-12)
    assert mixture.grams == pytest.approx(mixture.volume * density_of(min(mixture.strength, 100)), rel=1e-9)


@given(volumes, strengths, volumes, strengths)
def test_mixing_shrinks_by_at_most_a_twenty_eighth_and_weak_spirits_swell_a_trace(v1, s1, v2, s2):
    # A spirit of about 28 % and water come to 0.15 % more than the sum; alcohol and water to 3.55 % less.
    mixture = mix([v1, v2], [s1, s2])
    assert 0.9644 < mixture.volume / (v1 + v2) < 1.0016
    assert min(s1, s2) - 1e-8 <= mixture.strength <= max(s1, s2) + 1e-8


@given(volumes, strengths)
def test_a_spirit_mixed_with_itself_stays_what_it_is(volume, strength):
    mixture = mix([volume, 2 * volume], [strength, strength])
    assert mixture.volume == pytest.approx(3 * volume, rel=1e-9)
    assert mixture.strength == pytest.approx(strength, abs=1e-8)


@given(st.lists(st.tuples(volumes, strengths), min_size=2, max_size=5))
def test_the_order_of_pouring_does_not_matter(parts):
    one_way = mix([v for v, _ in parts], [s for _, s in parts])
    other = mix([v for v, _ in reversed(parts)], [s for _, s in reversed(parts)])
    assert one_way == pytest.approx(other, rel=1e-9, abs=1e-9)


def test_nothing_cannot_be_mixed():
    with pytest.raises(FigureFault, match="nothing to mix"):
        mix([], [])
    with pytest.raises(ValueError, match="shorter"):
        mix([100, 200], [40])


def test_a_millilitre_of_alcohol_weighs_what_the_conventions_say():
    assert mass_of_alcohol(100) == pytest.approx(78.924)
    assert mass_of_alcohol(1) == pytest.approx(density_of(100), abs=1e-6)
