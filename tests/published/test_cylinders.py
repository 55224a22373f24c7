"""Measuring cylinders: how far they may be out, and that nothing is read from one more finely than it can be poured."""

import pytest

from assistant.matter.cylinders import CYLINDERS, cylinder_for, standard_of, tolerance
from tests.published.reading import published, questions


def by(standard):
    def tolerances(capacity):
        assert cylinder_for(capacity).capacity == capacity
        assert standard_of(capacity, standard) == standard
        return tolerance(capacity, "A", standard), tolerance(capacity, "B", standard)

    return tolerances


ANSWERS = {"tolerance": by("ASTM E1272"), "tolerance by ISO": by("ISO 4788")}


@published("cylinders")
def test_cylinders(check):
    check.holds(ANSWERS[check.asks](*check.given))


def test_every_question_about_cylinders_has_an_answer():
    assert questions("cylinders") == set(ANSWERS)


def test_no_tolerance_is_made_up_for_a_size_or_class_that_no_table_has():
    assert tolerance(30, "A") is None
    assert tolerance(100, "C") is None


@pytest.mark.parametrize("cylinder", CYLINDERS, ids=lambda cylinder: f"{cylinder.capacity:g} mL")
def test_a_mark_is_never_finer_than_the_everyday_cylinder_is_true(cylinder):
    assert cylinder.division >= cylinder.class_b
    assert cylinder.capacity / cylinder.division == pytest.approx(round(cylinder.capacity / cylinder.division))


@pytest.mark.parametrize("volume", [0.3, 4.9, 33.3, 66.7, 124, 286.4, 999, 2500])
def test_the_nearest_mark_is_at_most_half_a_division_away(volume):
    cylinder = cylinder_for(volume)
    assert abs(cylinder.reads(volume) - volume) <= cylinder.division / 2 + 1e-9
