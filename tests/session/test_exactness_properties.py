"""± through the whole program: more sources never make a figure surer, units do not matter, a ± of nothing changes nothing."""

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from assistant import Session

SENTENCE = "{herb} g{off} fresh nettle at {water} % water{wet}, 1:{ratio} at {strength} %"
grams = st.integers(30, 900)
percents = st.integers(62, 88)


def figures(sentence):
    return {(v.quantity, v.about): v for v in Session().say(sentence).values}


def said(herb, water, ratio, strength, off=0.0, wet=0.0):
    return SENTENCE.format(
        herb=herb, water=water, ratio=ratio, strength=strength, off=f" ± {off:g} g" if off else "", wet=f" give or take {wet:g}" if wet else ""
    )


def test_the_worked_example():
    reply = json.loads(Session().say("112 g plus or minus 5 g fresh nettle at 80 % water, 1:2 at 60 %").model_dump_json())
    menstruum = next(v for v in reply["values"] if v["quantity"] == "menstruum")
    assert (menstruum["value"], menstruum["unit"], menstruum["plus_minus"]) == (224.0, "mL", pytest.approx(10.0, abs=1e-6))
    herb = next(v for v in reply["values"] if v["quantity"] == "herb")
    assert herb["plus_minus"] == 5.0


@settings(max_examples=25, deadline=None)
@given(herb=grams, water=percents, ratio=st.integers(1, 5), strength=st.integers(40, 90), off=st.integers(1, 25), wet=st.integers(1, 8))
def test_one_more_source_never_makes_a_figure_surer(herb, water, ratio, strength, off, wet):
    one = figures(said(herb, water, ratio, strength, off))
    both = figures(said(herb, water, ratio, strength, off, wet))
    assert {"menstruum", "finished_strength", "in_jar"} <= {q for q, _ in both}
    for key, value in both.items():
        if key in one:
            assert (value.plus_minus or 0.0) >= (one[key].plus_minus or 0.0) * (1 - 1e-9), key


@settings(max_examples=25, deadline=None)
@given(herb=grams, water=percents, off=st.integers(1, 25))
def test_units_do_not_matter(herb, water, off):
    in_grams = figures(f"{herb} g ± {off} g fresh nettle at {water} % water, 1:2 at 60 %")
    in_kilos = figures(f"{herb / 1000:g} kg ± {off} g fresh nettle at {water} % water, 1:2 at 60 %")
    both_kilos = figures(f"{herb / 1000:g} kg ± {off / 1000:g} kg fresh nettle at {water} % water, 1:2 at 60 %")
    for key, value in in_grams.items():
        for other in (in_kilos, both_kilos):
            assert other[key].value == pytest.approx(value.value)
            assert other[key].plus_minus == (None if value.plus_minus is None else pytest.approx(value.plus_minus))


@settings(max_examples=25, deadline=None)
@given(herb=grams, water=percents, ratio=st.integers(1, 5), strength=st.integers(40, 90))
def test_a_plus_minus_of_nothing_changes_no_figure(herb, water, ratio, strength):
    plain = figures(said(herb, water, ratio, strength))
    sentence = SENTENCE.format(herb=herb, water=water, ratio=ratio, strength=strength, off=" ± 0 g", wet=" give or take 0")
    nothing = figures(sentence)
    assert {k: v.value for k, v in plain.items()} == {k: v.value for k, v in nothing.items()}
    assert all(not v.plus_minus for v in nothing.values())


@settings(max_examples=20, deadline=None)
@given(herb=grams, off=st.integers(1, 20))
def test_a_plus_minus_moves_no_figure(herb, off):
    plain, unsure = figures(f"{herb} g dried yarrow, 1:5 at 50 %"), figures(f"{herb} g give or take {off} dried yarrow, 1:5 at 50 %")
    assert {k: v.value for k, v in plain.items()} == {k: v.value for k, v in unsure.items()}
    assert unsure["menstruum", ""].plus_minus == pytest.approx(5 * off)


@pytest.mark.parametrize(
    "sentence",
    [
        "112 g give or take 5 fresh nettle at 80 % water, 1:2 at 60 %",
        "112 ± 5 g fresh nettle at 80 % water, 1:2 at 60 %",
        "112 g of fresh nettle, give or take 5 g, at 80 % water, 1:2 at 60 %",
        "fresh nettle at 80 % water, 112 g, 5 g either way, 1:2 at 60 %",
        "112 g to within 5 g of fresh nettle at 80 % water, 1:2 at 60 %",
        "112 g +/- 5 fresh nettle at 80 % water, 1:2 at 60 %",
    ],
)
def test_a_give_or_take_is_heard_wherever_it_stands(sentence):
    reply = Session().say(sentence)
    menstruum = next(v for v in reply.values if v.quantity == "menstruum")
    assert (menstruum.value, menstruum.plus_minus) == (pytest.approx(224), pytest.approx(10))


@pytest.mark.parametrize(("words", "half"), [("75 to 85 %", 5.0), ("between 75 and 85 %", 5.0), ("80 % give or take 5", 5.0), ("80 % ± 2", 2.0)])
def test_a_range_of_plant_water_is_a_plus_minus(words, half):
    reply = Session().say(f"100 g fresh nettle at {words} water, 1:2 at 60 %")
    water = next(v for v in reply.values if v.quantity == "water_content")
    assert water.plus_minus == pytest.approx(half)
    assert next(v for v in reply.values if v.quantity == "finished_strength").plus_minus > 0


def test_figures_that_agree_within_their_plus_minus_do_not_clash():
    """115 g would make 230 mL: within 112 ± 5 g that is no contradiction; beyond it, it is."""
    assert Session().say("112 g fresh nettle at 80 % water, 1:2 with 230 mL").status == "conflict"
    assert Session().say("112 g ± 5 fresh nettle at 80 % water, 1:2 with 230 mL").is_good
    assert Session().say("112 g ± 5 fresh nettle at 80 % water, 1:2 with 300 mL").status == "conflict"
