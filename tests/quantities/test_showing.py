"""Figures as they are shown: rounded to the bench, and never less than nothing by mere dust."""

import pytest

from assistant.quantities.showing import number, shown


@pytest.mark.parametrize(
    ("value", "unit", "text"),
    [(224.4, "mL", "224"), (12.34, "g", "12.3"), (1.234, "mL", "1.23"), (0.0666, "g", "0.067"), (43.21, "percent", "43.2"), (3.0, "1", "3")],
)
def test_a_figure_is_rounded_to_what_the_bench_reads(value, unit, text):
    assert number(value, unit) == text


@pytest.mark.parametrize("unit", ["mL", "g", "percent", "1", "day", "drop", "g/mL"])
@pytest.mark.parametrize("value", [-0.0, -1e-12])
def test_dust_below_nothing_is_shown_as_nothing(value, unit):
    assert not number(value, unit).startswith("-0")


def test_water_that_is_none():
    assert shown("water", -1e-9) == "0 mL"
