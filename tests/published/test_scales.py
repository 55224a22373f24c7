"""Verified scales: how far they may be out."""

import pytest

from assistant.matter.scales import LOADS, permitted
from tests.published.reading import published, questions


def limits(accuracy):
    """The loads up to which each error holds, felt for from the outside: the last whole load with it, in steps."""
    step, found = 0.1, []
    for error in (0.5, 1.0, 1.5):
        low, high = 0, 10_000_000
        while high - low > 1:
            middle = (low + high) // 2
            out = permitted(middle * step, step, accuracy)
            low, high = (middle, high) if out is not None and out <= error * step + 1e-12 else (low, middle)
        found.append(low)
    return found


ANSWERS = {"limits": limits, "permitted": lambda accuracy, step, load: permitted(load, step, accuracy)}


@published("scales")
def test_scales(check):
    check.holds(ANSWERS[check.asks](*check.given))


def test_every_question_about_scales_has_an_answer():
    assert questions("scales") == set(ANSWERS)


@pytest.mark.parametrize("accuracy", sorted(LOADS))
def test_the_error_grows_with_the_load_and_with_the_step(accuracy):
    loads = [10 * 1.7**n for n in range(12)]
    errors = [permitted(load, 1.0, accuracy) for load in loads]
    known = [error for error in errors if error is not None]
    assert known
    assert known == sorted(known)
    assert permitted(100, 2, accuracy) >= permitted(100, 1, accuracy) if permitted(100, 1, accuracy) is not None else True


@pytest.mark.parametrize(("load", "step", "accuracy"), [(100, 1, "V"), (100, 0, "III"), (-1, 1, "III"), (20_000, 1, "III")])
def test_nothing_is_permitted_where_the_table_ends(load, step, accuracy):
    assert permitted(load, step, accuracy) is None


@pytest.mark.parametrize(
    ("accuracy", "ends"),
    [("I", (50_000, 200_000)), ("II", (5_000, 20_000, 100_000)), ("III", (500, 2_000, 10_000)), ("IIII", (50, 200, 1_000))],
)
def test_each_error_holds_to_the_very_end_of_its_loads_and_no_further(accuracy, ends):
    """OIML R 76-1, table 6; half an interval more is more."""
    for end, here, beyond in zip(ends, (0.5, 1.0, 1.5), (1.0, 1.5, None), strict=False):
        assert permitted(end * 2, 2, accuracy) == here * 2
        assert permitted((end + 0.4) * 2, 2, accuracy) == (None if beyond is None else beyond * 2)
