"""Whether the spirit there does; what fills so many bottles; what a pressing says of the marc, a finish of the plant."""

from __future__ import annotations

import pytest

from tests.session.talking import talk, value


@pytest.mark.parametrize(
    ("said", "head"),
    [
        ("A batch needs 1.2 litres of 60 percent menstruum. The shelf holds 700 mL of 95. Is that enough?", "The shelf does not reach: it takes 758 mL"),
        ("i've got 900 ml of 95 and need 1.2 l of 60, enough?", "Yes, it reaches: 758 mL of your 900 mL"),
        ("have 500 ml of 96 and want 1 l of 40. enough?", "Yes, it reaches: 417 mL of your 500 mL"),
        ("need 1.2 L of 60, have 700 ml of 95, enough?", "The shelf does not reach: it takes 758 mL"),
    ],
)
def test_the_spirit_there_is_held_against_what_is_wanted(said, head):
    session, reply = talk(said)
    assert reply.text.startswith(head)
    assert not session.batch.members


@pytest.mark.parametrize(
    ("said", "volume"), [("I want to bottle 37 bottles of 30 ml, how much tincture", 1110), ("how much tincture for 12 bottles of 50", 600)]
)
def test_what_fills_so_many_bottles(said, volume):
    session, reply = talk(said)
    assert value(reply, "pressed") == pytest.approx(volume)
    assert value(session.say("at 1:5 dried, hand pressed, how much herb is that"), "herb") == pytest.approx(volume / 2)


@pytest.mark.parametrize(
    "said",
    [
        "we ended with 410 ml out of 600 poured on dried root 120 g, what's the marc holding per gram",
        "left with 410 of 600 that i poured, 120 g dried root, held per gram?",
        "came away with 410 ml from 600, 120 g dried root. per gram held?",
    ],
)
def test_what_is_left_of_what_was_poured(said):
    _, reply = talk(said)
    assert value(reply, "held_per_gram") == pytest.approx(190 / 120)


@pytest.mark.parametrize(
    "said", ["finished at 52 in the jar, poured 70, 1:2, what was the plant's water?", "jar reads 52, i poured at 70, 1:2. how wet was the plant"]
)
def test_a_finish_tells_how_wet_the_plant_was(said):
    """By mass: 200 mL at 70 % carry 140 mL of alcohol, which is 52 % of 269 mL."""
    session, reply = talk(said)
    assert value(reply, "water_content") == pytest.approx(72.2, abs=0.1)
    assert "menstruum" not in session.batch.facts


def test_what_i_have_to_charge_is_no_pressing():
    _, reply = talk("100 mL bottle, materials 9, bottle 1.20", "what do I have to charge for 65 % margin")
    assert reply.text.startswith("Sell at")


@pytest.mark.parametrize(
    "said",
    ["5 ml 2xd 100 ml bottle, how long", "5ml 2 x d from 100, how long", "5 ml 2xdaily from a 100, how long", "5 ml 2xday, 100 ml bottle, how many days"],
)
def test_how_often_in_a_letter(said):
    _, reply = talk(said)
    assert value(reply, "days") == 10
