"""A slip of a single digit in a table is seen: neighbours of a physical table follow each other smoothly, tolerances keep their rule."""

from __future__ import annotations

from itertools import pairwise

import pytest

from assistant.matter.cylinders import CYLINDERS, ISO_4788, cylinder_for, cylinder_of
from assistant.matter.scales import permitted
from assistant.matter.sugar import DENSITIES

BEND = 0.6  # kg/m³: how far a step may differ from the one before; the table is rounded to a tenth


def test_each_sugar_density_lies_between_its_neighbours_steps():
    steps = [after - before for before, after in pairwise(DENSITIES)]
    assert all(step > 0 for step in steps)
    assert max(abs(after - before) for before, after in pairwise(steps)) < BEND


@pytest.mark.parametrize("cylinder", CYLINDERS, ids=lambda c: f"{c.capacity:g}")
def test_class_b_may_be_out_twice_as_far_as_class_a(cylinder):
    """ASTM E1272: class B is held to twice the tolerance of class A; from memory."""
    assert cylinder.class_b == pytest.approx(2 * cylinder.class_a, rel=1e-9)
    if cylinder.capacity in ISO_4788:
        a, b = ISO_4788[cylinder.capacity]
        assert b == pytest.approx(2 * a, rel=1e-9)


@pytest.mark.parametrize("cylinder", CYLINDERS, ids=lambda c: f"{c.capacity:g}")
def test_the_marks_come_out_even(cylinder):
    marks = cylinder.capacity / cylinder.division
    assert marks == pytest.approx(round(marks), abs=1e-9)
    assert 25 <= marks <= 125


def test_a_cylinder_filled_to_its_top_is_large_enough():
    for cylinder in CYLINDERS:
        assert cylinder_for(cylinder.capacity) is cylinder
        assert cylinder_of(cylinder.capacity) is cylinder
    assert cylinder_for(CYLINDERS[-1].capacity * 2) is CYLINDERS[-1]
    assert cylinder_of(333.0) is None


def test_a_scale_may_be_out_by_half_a_step_however_light_the_load():
    """OIML R 76-1, table 6: from nothing up to 500 e of class III half an interval; read in a copy."""
    for load in (0.0, 0.4, 1.0, 50.0):
        assert permitted(load, 0.1, "III") == 0.05
    assert permitted(0.5, 0.001, "II") == 0.0005


def test_the_room_hands_out_its_table_and_its_kind_and_nothing_else():
    import assistant.matter as matter
    from assistant.matter.function import Function
    from assistant.matter.functions import FUNCTIONS

    assert matter.FUNCTIONS is FUNCTIONS
    assert matter.Function is Function
    with pytest.raises(AttributeError, match="no 'moonlight'"):
        _ = matter.moonlight
