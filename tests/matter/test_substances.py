"""Sugar, glycerine, oils and waxes: tables that rise, invert exactly and refuse what they do not hold."""

import math
from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.faults import FigureFault
from assistant.matter import glycerine, oils, sugar, water
from assistant.matter.ethanol import density_of
from assistant.matter.table import Table

TABLES = [
    pytest.param(sugar.syrup_density, sugar.brix_of_density, sugar.syrup_density_slope, sugar.LAST_BRIX, id="syrup"),
    pytest.param(glycerine.glycerine_density, glycerine.glycerine_by_weight, glycerine.glycerine_density_slope, 100.0, id="glycerine"),
]


def test_the_tables_sum_to_what_they_summed_to_when_they_were_copied():
    assert (len(sugar.DENSITIES), math.fsum(sugar.DENSITIES)) == (43, pytest.approx(51510.9))
    assert (len(glycerine.GRAVITIES), math.fsum(glycerine.GRAVITIES)) == (11, pytest.approx(12.42892))


def test_the_curve_of_sugar_bends_evenly_so_that_a_slipped_digit_shows():
    bends = [after - 2 * here + before for before, here, after in zip(sugar.DENSITIES, sugar.DENSITIES[1:], sugar.DENSITIES[2:], strict=False)]
    assert min(bends) > -0.05
    assert max(bends) < 0.31


@pytest.mark.parametrize(("value", "entry", "slope", "last"), TABLES)
class TestEachTable:
    def test_it_begins_at_water_and_rises_everywhere(self, value, entry, slope, last):
        assert value(0) == pytest.approx(water.GRAMS_PER_ML, abs=1e-6)
        assert all(value(last * i / 500) < value(last * (i + 1) / 500) for i in range(500))

    def test_the_way_back_is_exact(self, value, entry, slope, last):
        for i in range(501):
            assert entry(value(last * i / 500)) == pytest.approx(last * i / 500, abs=1e-9)

    def test_the_slope_is_the_slope(self, value, entry, slope, last):
        for i in range(1, 40):
            here = last * (i + 0.37) / 41
            assert slope(here) == pytest.approx((value(here + 1e-5) - value(here - 1e-5)) / 2e-5, rel=1e-4)

    @pytest.mark.parametrize("step", [-1.0, 1.0])
    def test_outside_is_refused(self, value, entry, slope, last, step):
        outside = -1.0 if step < 0 else last + 1
        with pytest.raises(FigureFault) as caught:
            value(outside)
        assert (caught.value.low, caught.value.high, caught.value.got) == (0, last, outside)
        with pytest.raises(FigureFault):
            entry(0.9 if step < 0 else 1.6)


@given(st.lists(st.floats(0.01, 5), min_size=1, max_size=20), st.floats(0, 1))
def test_a_table_of_any_rising_values_reads_both_ways(steps, share):
    values = [1.0]
    for step in steps:
        values.append(values[-1] + step)
    table = Table("entry", "g", "value", "mL", 10.0, 5.0, values)
    place = 10 + share * 5 * len(steps)
    assert values[0] <= table.value(place) <= values[-1]
    assert table.entry(table.value(place)) == pytest.approx(place, abs=1e-6)


def test_water_is_one_figure_in_the_whole_house():
    assert density_of(0) == pytest.approx(water.GRAMS_PER_ML, abs=2e-6)


def test_no_two_fats_share_a_name_and_every_one_can_be_found():
    names = Counter(name for fat in oils.FATS for name in (fat.name, *fat.spoken))
    assert max(names.values()) == 1
    assert all(oils.fat(name) is not None for name in names)
    assert oils.fat("Olive Oil") is oils.fat("olive")
    assert oils.fat("gravel") is None


@pytest.mark.parametrize("fat", oils.FATS, ids=lambda fat: fat.name)
def test_every_fat_says_where_it_is_from_and_how_far_it_ranges(fat):
    assert fat.low < fat.high
    assert fat.source
    assert fat.evidence in {"read", "memory", "computed", "common practice"}
