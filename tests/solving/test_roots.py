"""The bracketed search."""

from math import cos, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.solving.roots import COARSE, FINE, all_roots, brent, roots, scan_points


@given(st.floats(0.01, 99.9), st.floats(0.1, 5), st.booleans())
def test_a_single_root_is_found_to_the_last_digits(root, steepness, falls):
    sign = -1 if falls else 1
    found = list(roots(lambda x: sign * ((x - root) * steepness + (x - root) ** 3), 0.0, 100.0))
    assert found == [pytest.approx(root, rel=1e-12)]


@given(st.floats(-5, 6.9).map(lambda power: 10**power))
def test_an_amount_of_any_size_is_found(root):
    assert all_roots(lambda x: x * x - root * root, 1e-6, 1e7) == [pytest.approx(root, rel=1e-12)]


def test_every_root_comes_from_low_to_high():
    assert list(roots(sin, 0.5, 10.0)) == [pytest.approx(3.141592653589793), pytest.approx(6.283185307179586), pytest.approx(9.42477796076938)]


def test_a_jump_over_a_pole_is_no_root():
    assert list(roots(lambda x: 1 / (x - 3.3) if x != 3.3 else None, 0.0, 10.0)) == []
    assert list(roots(lambda x: -1.0 if x < 3.3 else 1.0 / (x - 3.2), 0.0, 10.0)) == [pytest.approx(3.3)]  # a step looks like one: the caller weighs it


def test_a_root_next_to_a_part_without_values_is_found():
    assert list(roots(lambda x: None if x < 7.1 else x - 7.15, 0.0, 100.0)) == [pytest.approx(7.15)]
    assert list(roots(lambda x: None if x > 7.1 else x - 7.05, 0.0, 100.0)) == [pytest.approx(7.05)]


def test_nothing_is_found_where_nothing_is():
    assert all_roots(lambda x: 1 + x * x, 0.0, 100.0) == []
    assert all_roots(lambda x: 1 + (x - 50) ** 2, 0.0, 100.0) == []
    assert all_roots(lambda _: None, 0.0, 100.0) == []


@given(st.integers(1, 38).map(lambda point: point * 2.5 + 0.3), st.floats(1e-5, 2))
def test_a_pair_of_roots_between_two_points_of_the_scan_is_found(root, apart):
    found = all_roots(lambda x: (x - root) * (x - root - apart), 0.0, 100.0)
    assert found == [pytest.approx(root, abs=1e-9), pytest.approx(root + apart, abs=1e-9)]


def test_a_root_at_either_end_counts():
    assert all_roots(lambda x: x, 0.0, 100.0) == [0.0]
    assert list(roots(lambda x: x - 100.0, 0.0, 100.0)) == [100.0]


def test_a_hole_between_two_points_ends_the_search_there():
    assert brent(lambda x: None if 0.2 < x < 0.8 else x - 0.5, 0.0, -0.5, 1.0, 0.5) is None


def test_brent_needs_far_fewer_looks_than_halving():
    looks = []

    def curve(x: float) -> float:
        looks.append(x)
        return cos(x) - x

    assert brent(curve, 0.0, 1.0, 1.0, cos(1.0) - 1.0) == pytest.approx(0.7390851332151607, rel=1e-15)
    assert len(looks) < 15


@pytest.mark.parametrize("bracket", [(0.0, 100.0), (1e-6, 1e7), (0.0, 1e7), (-1e7, 1e7), (-20.0, 40.0), (0.5, 2.0), (1.0, 100.0)])
@pytest.mark.parametrize("density", [COARSE, FINE])
def test_a_scan_rises_from_end_to_end(bracket, density):
    points = scan_points(*bracket, density)
    assert points == sorted(set(points))
    assert (points[0], points[-1]) == bracket
