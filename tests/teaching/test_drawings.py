"""Drawings fit 60 columns and say in words what they show."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.faults import HouseFault
from assistant.teaching import drawings


def test_the_alligation_square():
    drawing = drawings.alligation(95, 40, 60)
    assert drawing.lines[0].split() == ["95", "%", "20", "parts", "of", "95", "%"]
    assert drawing.lines[4].split() == ["40", "%", "35", "parts", "of", "40", "%"]
    assert "20 parts of the 95 percent" in drawing.spoken


@pytest.mark.parametrize("wanted", [40, 95, 20, 99])
def test_a_square_needs_what_lies_between(wanted):
    with pytest.raises(HouseFault) as fault:
        drawings.alligation(95, 40, wanted)
    assert "between" in fault.value.what


def test_a_jar_with_its_layers():
    drawing = drawings.jar(544, 150, 750)
    layers = [line for line in drawing.lines if ":" in line]
    assert [line.rpartition("|")[2].strip().split(":")[0] for line in layers] == ["headspace", "plant", "liquid"]
    assert "liquid 544 millilitres" in drawing.spoken
    assert drawings.jar(900, 0, 750).spoken == "It does not fit: 150 millilitres too much."


def test_the_strengths_from_bottle_to_jar():
    drawing = drawings.strengths(95, 68, 50)
    marks = [line.count("#") for line in drawing.lines[1:]]
    assert marks == sorted(marks, reverse=True)
    assert drawing.spoken == "From the bottle to the jar: stock 95 percent, poured 68 percent, finished 50 percent."


def test_a_formula_as_a_bar_of_parts():
    drawing = drawings.parts({"hawthorn": 3, "linden": 2, "rose": 1})
    assert [drawing.lines[0].count(mark) for mark in "#=+"] == [25, 17, 8]
    assert "linden 2, 33.3 percent" in drawing.spoken


@given(st.dictionaries(st.text("abcdefgh ", min_size=1, max_size=40), st.floats(0.001, 1e6), min_size=1, max_size=40))
def test_any_formula_fits_and_fills_the_bar(shares):
    drawing = drawings.parts(shares, "mL")
    assert len(drawing.lines[0]) == drawings.BAR + 2
    assert all(len(line) <= drawings.WIDTH for line in drawing.lines)


@given(st.floats(1, 1e6), st.floats(0, 1e6), st.one_of(st.none(), st.floats(1, 1e6)))
def test_any_jar_fits_the_columns(liquid, herb, size):
    assert all(len(line) <= drawings.WIDTH for line in drawings.jar(liquid, herb, size).lines)
