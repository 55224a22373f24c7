"""The unit file: read by the small reader and by pint, to the same factors; the figures people know."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pint import DimensionalityError, UndefinedUnitError

from assistant.quantities.registry import convert, registry
from assistant.quantities.units import BENCH_UNITS, MEASURES, read_units, units

BASES = {"mass": "gram", "volume": "millilitre", "drops": "drop", "droppers": "dropperful", "time": "day"}


@pytest.mark.parametrize("name", sorted(units().factors))
def test_pint_reads_the_same_factor(name: str) -> None:
    unit = name.rpartition("_")[0] if name.rpartition("_")[2] in MEASURES else name
    base = BASES[units().by_name[unit].dimension]
    assert convert(1, name, base) == pytest.approx(units().factors[name], rel=1e-12)


def test_pint_knows_nothing_that_the_file_does_not() -> None:
    for stranger in ("tesla", "megalitre", "pinch", "ML", "T", "kilometre", "milligallon_us"):
        assert stranger not in registry()
        with pytest.raises(UndefinedUnitError):
            convert(1, stranger, "gram")


def test_weight_is_no_volume() -> None:
    with pytest.raises(DimensionalityError):
        convert(1, "gram", "millilitre")


# NIST Handbook 44, appendix C (US customary, avoirdupois); Weights and Measures Act 1985, schedule 1 (imperial): to the printed digits
@pytest.mark.parametrize(
    ("name", "size", "digits"),
    [
        ("pound", 453.592, 3), ("ounce", 28.3495, 4), ("stone", 6350.29, 2), ("fluid_ounce_us", 29.5735, 4), ("cup_us", 236.588, 3),
        ("pint_us", 473.176, 3), ("quart_us", 946.353, 3), ("gallon_us", 3785.41, 2), ("tablespoon_us", 14.7868, 4), ("teaspoon_us", 4.92892, 5),
        ("fluid_ounce_imperial", 28.413, 3), ("gill_imperial", 142.07, 2), ("pint_imperial", 568.261, 3), ("gallon_imperial", 4546.09, 2),
        ("cup_metric", 250, 0), ("tablespoon_metric", 15, 0), ("tablespoon_australian", 20, 0), ("month", 30, 0), ("fortnight", 14, 0),
    ],
)  # fmt: skip
def test_sizes_to_the_printed_digit(name: str, size: float, digits: int) -> None:
    assert round(units().factors[name], digits) == size


def test_a_measure_without_a_size_of_its_own_borrows_one() -> None:
    names = units().by_name
    assert names["pint"].size("metric") == names["pint"].size("us")
    assert names["cup"].size("australian") == names["cup"].size("metric")
    assert names["gram"].size("imperial") == 1


@given(unit=st.sampled_from(sorted(units().by_name)), measure=st.sampled_from(MEASURES))
def test_every_unit_has_a_size_and_a_bench_unit_everywhere(unit: str, measure: str) -> None:
    its = units().by_name[unit]
    assert its.size(measure) > 0
    assert its.bench in BENCH_UNITS.values()


def test_every_unit_can_be_said() -> None:
    assert {unit.name for unit in units().spellings.values()} == set(units().by_name)


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("gram = [mass]\npound = 453.6 * grams\n", "line 2: cannot read 'pound = 453.6 \\* grams'"),
        ("gram = [mass]\n\nodd = 7\n", "line 3: cannot read 'odd = 7'"),
        ("gram [mass]\n", "line 1"),
        ("#: g\ngram = [mass]\n#: g\ngrain = 0.0648 * gram\n", "'g' is given to gram and to grain"),
    ],
)
def test_mistake_in_the_unit_file_is_named(text: str, problem: str) -> None:
    with pytest.raises(ValueError, match=problem):
        read_units(text)
