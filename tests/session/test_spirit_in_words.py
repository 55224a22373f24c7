"""Spirit and jar in other words: cut by parts, made to a bare number, weighed, bought by the bottle; what a sentence's own words make of a figure."""

from __future__ import annotations

import pytest

from tests.session.talking import talk, value


@pytest.mark.parametrize(
    ("said", "strength"),
    [
        ("dilute 95 1:1 with water what %", 48.9),
        ("96 cut 2:3 with water", 39.5),
        ("cut 95 2:1 with water, strength?", 65.1),
        ("95 % 3 to 2 water, what's that make", 58.7),
    ],
)
def test_spirit_cut_by_parts(said, strength):
    _, reply = talk(said)
    assert value(reply, "blend_strength") == pytest.approx(strength, abs=0.05)


@pytest.mark.parametrize("said", ["make 750 of 25% from 96", "need 750 of 25 % out of the 96", "750 of 25 % wanted, made from 96"])
def test_a_bare_number_before_a_strength_is_how_much(said):
    session, reply = talk(said)
    if "menstruum" in session.batch.facts:
        assert value(reply, "stock") == pytest.approx(750 * 25 / 96)
    else:
        assert any("750" in q.text for q in reply.questions)


def test_what_so_much_spirit_makes():
    _, reply = talk("what do i get from 3 l of 96 cut to 45")
    assert value(reply, "menstruum") == pytest.approx(6400)


def test_what_a_spirit_weighs_and_its_percent_by_weight():
    _, reply = talk("how much does 1 litre of 95 weigh")
    assert value(reply, "menstruum_weight") == pytest.approx(811.4, abs=1)
    _, reply = talk("whats 70% abv in weight percent")
    assert value(reply, "strength_by_weight") == pytest.approx(62.4, abs=0.1)


@pytest.mark.parametrize(
    "said",
    [
        "elderflower 600 g, want it in 70 cl brandy bottles at 1:2, how many bottles of brandy",
        "600 g haws 1:2, brandy comes in 70 cl bottles, how many bottles of brandy",
    ],
)
def test_spirit_by_the_bottle_as_it_is_bought(said):
    _, reply = talk(said)
    assert value(reply, "stock_bottles") == 2


def test_a_jar_beside_the_water_of_the_plant_is_no_drying():
    _, reply = talk("1.3 kilo of mullein flower, 80% water. dry them or fresh tinct 1:2 at 95, what does each give me")
    assert value(reply, "dried") == pytest.approx(1300 * 0.2 / 0.9)
    assert value(reply, "menstruum") == pytest.approx(2600)


@pytest.mark.parametrize("said", ["dry matter of 400 g at 82 % water", "what's the dry matter in 400 g at 82% water"])
def test_the_dry_matter_of_a_fresh_weight(said):
    _, reply = talk(said)
    assert value(reply, "dry_matter") == pytest.approx(72)


@pytest.mark.parametrize(
    "said", ["want 600 ml at 45 in the jar from 300 g lemon balm 78% water with my 96", "300 g lemon balm 78% water 1:2, 45 in the jar, have 96"]
)
def test_a_strength_in_the_jar_is_the_finish(said):
    session, reply = talk(said)
    assert session.batch.facts["finished_strength"].value == 45
    assert value(reply, "strength") == pytest.approx(62, abs=0.5)
