"""Whole bottles and jars: dust of floating point is neither a bottle won nor a bottle lost."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.faults import FigureFault
from assistant.matter.whole import filled, needed


@pytest.mark.parametrize(
    ("count", "full", "jars"),
    [
        (0, 0, 0),
        (12, 12, 12),
        (12.0000001, 12, 12),
        (11.9999999, 12, 12),
        (0.1 * 3 / 0.1, 3, 3),  # 3.0000000000000004
        (0.7 / 0.1, 7, 7),  # 6.999999999999999
        (8.88, 8, 9),
        (11.999, 11, 12),
        (12.001, 12, 13),
        (0.2, 0, 1),
    ],
)
def test_filled_and_needed(count, full, jars):
    assert filled(count) == full
    assert needed(count) == jars


@given(st.integers(0, 10**6), st.floats(-9e-7, 9e-7))
def test_a_whole_number_with_dust_on_it_is_that_number(whole, dust):
    assert filled(whole + dust) == whole == needed(whole + dust)


@given(st.integers(1, 500), st.floats(0.1, 5000))
def test_n_bottles_are_filled_by_n_times_their_size(bottles, size):
    assert filled(bottles * size / size) == bottles == filled(sum([size] * bottles) / size)


@given(st.floats(0, 1e6))
def test_filled_and_needed_stand_one_apart_unless_the_count_is_whole(count):
    assert needed(count) - filled(count) == (0 if abs(count - round(count)) <= 1e-6 + 1e-9 * count else 1)


@pytest.mark.parametrize("count", [math.nan, math.inf, -math.inf])
@pytest.mark.parametrize("counting", [filled, needed])
def test_what_is_no_number_is_refused(counting, count):
    with pytest.raises(FigureFault, match="number"):
        counting(count)
