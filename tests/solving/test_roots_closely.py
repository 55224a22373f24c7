"""The bracketed search, looked at closely: where it looks, how near it comes, and that it does not look oftener than it must."""

from math import cbrt, copysign, cos, exp, log, sqrt, tanh

import pytest
from scipy.optimize import brentq

from assistant.solving.roots import COARSE, FINE, all_roots, brent, roots, roots_among, roots_in_dips, scan_points

# ── where it looks first ──


def test_percents_are_looked_at_evenly():
    assert scan_points(0.0, 100.0, COARSE) == [0.0, 12.5, 25.0, 37.5, 50.0, 62.5, 75.0, 87.5, 100.0]
    assert scan_points(0.0, 100.0) == [2.5 * n for n in range(41)]
    assert scan_points(-20.0, 40.0, COARSE) == [-20 + 7.5 * n for n in range(9)]
    assert scan_points(-10.0, 150.0, COARSE) == [-10 + 20.0 * n for n in range(9)]
    assert scan_points(0.0, 150.0, COARSE) == [18.75 * n for n in range(9)]


@pytest.mark.parametrize(("high", "evenly"), [(150.0, True), (151.0, False)])
def test_what_may_pass_150_is_looked_at_by_powers_of_ten(high, evenly):
    points = scan_points(1.0, high, COARSE)
    if evenly:
        assert points == [pytest.approx(1 + 149 * n / 8) for n in range(9)]
    else:
        assert points == [1.0, 10.0, 100.0, 151.0]


def test_amounts_are_looked_at_once_or_four_times_a_decade():
    assert scan_points(1.0, 1000.0, COARSE) == [pytest.approx(10**n) for n in range(4)]
    assert scan_points(1.0, 1000.0, FINE) == [pytest.approx(10 ** (n / 4)) for n in range(13)]


def test_an_amount_that_may_be_nothing_begins_at_nothing_and_a_billionth():
    assert scan_points(0.0, 1000.0, COARSE) == [0.0, *(pytest.approx(10**n, rel=1e-9) for n in range(-9, 4))]


def test_an_amount_that_may_lie_on_either_side_of_nothing_is_looked_at_on_both():
    points = scan_points(-200.0, 1000.0, COARSE)
    below = [-200.0, *(pytest.approx(-(10.0**n), rel=1e-9) for n in range(2, -10, -1))]
    assert points == [*below, 0.0, *(pytest.approx(10**n, rel=1e-9) for n in range(-9, 4))]


def test_the_last_step_to_the_end_is_no_sliver():
    """A power of ten that misses the end by rounding alone would be looked at twice."""
    for high in (1000.0, 1e7, 999.5, 1000.5):
        points = scan_points(1.0, high, FINE)
        assert points[-1] == high
        assert points[-1] / points[-2] > 1.0009
    assert 1000.0 in [round(point, 6) for point in scan_points(1.0, 1002.0, COARSE)]


# ── how near it comes ──


@pytest.mark.parametrize("hole", [1e-12, 1e-9, 1e-3])
def test_a_root_however_near_to_a_part_without_values_is_found(hole):
    edge = 7.1
    assert list(roots(lambda x: None if x < edge else x - (edge + hole), 0.0, 100.0)) == [pytest.approx(edge + hole, abs=1e-14)]
    assert list(roots(lambda x: None if x > edge else x - (edge - hole), 0.0, 100.0)) == [pytest.approx(edge - hole, abs=1e-14)]


def test_a_root_on_the_very_edge_of_a_part_without_values_is_found():
    assert list(roots(lambda x: None if x < 7.0 else x - 7.0, 0.0, 100.0)) == [7.0]
    assert list(roots(lambda x: None if x > 7.0 else x - 7.0, 0.0, 100.0)) == [7.0]
    assert list(roots(lambda x: sqrt(x - 30) if x >= 30 else None, 0.0, 100.0)) == [pytest.approx(30.0)]


def test_beside_a_part_without_values_a_curve_that_stays_on_one_side_has_no_root():
    assert list(roots(lambda x: None if x < 7.1 else x, 0.0, 100.0)) == []
    assert list(roots(lambda x: None if x > 7.1 else x + 1, 0.0, 100.0)) == []


@pytest.mark.parametrize("apart", [1e-7, 1e-5, 0.1])
@pytest.mark.parametrize("sign", [1, -1])
def test_two_roots_close_together_are_told_from_low_to_high(apart, sign):
    low = 41.3
    found = all_roots(lambda x: sign * (x - low) * (x - low - apart), 0.0, 100.0)
    assert found == [pytest.approx(low, abs=1e-9), pytest.approx(low + apart, abs=1e-9)]
    assert found[0] < found[1]


def test_a_dip_that_only_comes_near_has_no_roots():
    for gap in (1e-6, 1e-3, 1.0):
        assert all_roots(lambda x, gap=gap: gap + (x - 41.3) ** 2, 0.0, 100.0) == []


def test_a_dip_with_a_hole_at_its_bottom_is_left():
    def curve(x):
        return None if abs(x - 41.3) < 0.3 else (x - 41.2) * (x - 41.4) + 0.5

    assert all_roots(curve, 0.0, 100.0) == []


def test_dips_are_looked_for_between_neighbours_only():
    scan = [(0.0, 4.0), (1.0, 1.0), (2.0, 4.0), (3.0, None), (4.0, 4.0), (5.0, 1.0), (6.0, 4.0)]
    looked = []

    def curve(x):
        looked.append(x)
        return 4 * (x - 1) ** 2 - 0.01 if x < 2.5 else 1.0 + (x - 5) ** 2

    assert list(roots_in_dips(curve, scan)) == [pytest.approx(0.95), pytest.approx(1.05)]
    assert not any(2 < x < 4 for x in looked)


@pytest.mark.parametrize("middle", [6.25, 48.75, 93.75])
@pytest.mark.parametrize("sign", [1, -1])
def test_two_roots_just_midway_between_two_points_are_told_once(middle, sign):
    """Both points come equally near to nothing."""
    found = all_roots(lambda x: sign * (abs(x - middle) - 0.0625), 0.0, 100.0)
    assert found == [pytest.approx(middle - 0.0625), pytest.approx(middle + 0.0625)]


@pytest.mark.parametrize("sign", [1, -1])
def test_a_dip_that_touches_nothing_where_it_is_looked_at_has_its_root_there(sign):
    scan = [(x, sign * (x - 1) ** 2) for x in (0.0, 1.5, 3.0)]
    assert list(roots_in_dips(lambda x: sign * (x - 1) ** 2, scan)) == [1.0]


def test_a_rising_curve_has_no_dip():
    looked = []
    assert list(roots_in_dips(lambda x: looked.append(x), [(0.0, 1.0), (1.0, 2.0), (2.0, 3.0)])) == []
    assert looked == []


def test_a_root_that_a_point_of_the_scan_hits_is_told_once():
    assert list(roots_among(lambda x: x - 2, [(1.0, -1.0), (2.0, 0.0), (3.0, 1.0)])) == [2.0]
    assert list(roots_among(lambda x: x, [(0.0, 0.0), (1.0, 1.0)])) == [0.0]


# ── what is no root ──


def test_a_pole_is_no_root_for_brent():
    assert brent(lambda x: 1 / (x - 0.3) if x != 0.3 else None, 0.0, -1 / 0.3, 1.0, 1 / 0.7) is None
    assert brent(lambda x: 1 / (x - 0.3) if x != 0.3 else 1e300, 0.0, -1 / 0.3, 1.0, 1 / 0.7) is None


def test_an_end_that_is_already_the_root_is_given_back():
    assert brent(lambda x: x - 1, 0.0, -1.0, 1.0, 0.0) == 1.0
    assert brent(lambda x: x, 0.0, 0.0, 1.0, 1.0) == 0.0


def test_a_step_changes_order_where_it_is_and_the_caller_weighs_it():
    assert brent(lambda x: -1.0 if x < 3.3 else 1.0, 0.0, -1.0, 10.0, 1.0) == pytest.approx(3.3)
    assert brent(lambda x: -1.0 if x < 0 else 1.0, -1.0, -1.0, 2.0, 1.0) == pytest.approx(0, abs=1e-50)  # no double is near enough to nothing to end it


# ── how often it looks ──


@pytest.mark.parametrize(("a", "b"), [(-1.0, 1.0), (1.0, -1.0), (-3.0, 3.0), (0.0, 5.0)])
def test_a_straight_line_is_met_at_the_first_look(a, b):
    looks = []

    def line(x):
        looks.append(x)
        return 2 * x - 0.5

    assert brent(line, a, 2 * a - 0.5, b, 2 * b - 0.5) == pytest.approx(0.25, rel=1e-14)
    assert looks[0] == pytest.approx(0.25, rel=1e-14)
    assert len(looks) <= 2


CURVES = [
    (lambda x: cos(x) - x, 0.0, 1.0),
    (lambda x: x**3 - 2 * x - 5, 2.0, 3.0),  # the example of Wallis, 1685
    (lambda x: exp(x) - 10, 0.0, 5.0),
    (lambda x: log(x) - 1, 1.0, 100.0),
    (lambda x: x**5 + x - 1, -1.0, 3.0),
    (lambda x: (x - 1) * (1 + (x - 1) ** 2), 0.0, 7.0),
    (lambda x: x - 0.1, -5.0, 80.0),
    (lambda x: 1 / x - 0.02, 1.0, 1000.0),
    (lambda x: x**0.2 - 2, 1.0, 1000.0),
    (lambda x: 4 - x * x, -1.0, 100.0),
    (lambda x: tanh(50 * (x - 0.3)), -1.0, 2.0),
    (lambda x: copysign(sqrt(abs(x - 0.3)), x - 0.3), -1.0, 2.0),  # upright at its root
    (lambda x: cbrt(x - 0.3), -1.0, 2.0),
    (lambda x: exp(50 * x) - 2, -1.0, 2.0),
    (lambda x: x * exp(-4 * x * x) + x / 100 - 0.003, -3.0, 8.0),
    (lambda x: x**4 - 2e-5, 1e-6, 1e7),
]


@pytest.mark.parametrize("case", range(len(CURVES)))
@pytest.mark.parametrize("turned", [False, True])
def test_it_agrees_with_an_independent_brent_and_looks_as_often(case, turned):
    curve, low, high = CURVES[case]
    looks = []

    def counted(x):
        looks.append(x)
        return curve(x)

    a, b = (high, low) if turned else (low, high)
    found = brent(counted, a, curve(a), b, curve(b))
    theirs, told = brentq(curve, low, high, xtol=1e-300, rtol=4 * 2.3e-16, full_output=True)
    assert found == pytest.approx(theirs, rel=1e-14, abs=1e-14)
    assert abs(len(looks) + 2 - told.function_calls) <= 1  # theirs counts both ends; the last bit of cos, exp and log differs between machines
    assert all(low <= x <= high for x in looks)
