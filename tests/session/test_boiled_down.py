"""Plants boiled down in water, and the syrup of what is left: sugar or honey told by figures or in words."""

from __future__ import annotations

import pytest

from tests.session.talking import talk, value

WATER = 0.9982


@pytest.mark.parametrize(
    ("said", "begun", "left"),
    [
        ("decoction 40 g astragalus in 1.5 l, boil to half", 1500, 750),
        ("boiled 90 g licorice in 2 litres til 750 ml was left", 2000, 750),
        ("simmer 50g elder flowers with 1.2 litres until a third is left, strain", 1200, 400),
        ("80 g rosehips boiled in a litre, 650 left after straining", 1000, 650),
        ("boil 100 g cherry bark in 3 l for an hour, left with 1.4 l", 3000, 1400),
        ("1 kg rosehips in 2 litres simmered, strained off 1.3 litres", 2000, 1300),
        ("50 g burdock in 2 litres down to 1.3", 2000, 1300),
        ("simmered 3 pints to 1.5", 1419.53, 709.76),
        ("horsetail 20 g, 1 l, boil 30 min to 3/4", 1000, 750),
        ("thyme syrup. 30 g thyme to 500 ml water, simmered to 300", 500, 300),
        ("reduce 2 l of thyme decoction to 800 ml", 2000, 800),
    ],
)
def test_what_the_pot_began_with_and_what_is_left(said, begun, left):
    session, _ = talk(said)
    figures = session.last.solution.figures
    assert figures["boiled_from"].value == pytest.approx(begun, rel=0.001)
    assert figures["boiled_to"].value == pytest.approx(left, rel=0.001)
    assert not session.batch.facts.keys() & {"menstruum", "ratio", "pressed"}


@pytest.mark.parametrize(
    "said",
    ["cooked 1.2 kg elderberries down to 900 ml, syrup 65 brix", "1.2kilo elderberrys cooked down got 900 ml juce, want sirup 65 brix"],
)
def test_a_syrup_of_what_was_cooked_down_asks_no_ratio(said):
    _, reply = talk(said)
    assert reply.status == "answered"
    assert value(reply, "sugar") == pytest.approx(900 * WATER * 65 / 35, rel=0.001)


def test_what_was_strained_off_goes_into_the_syrup():
    _, reply = talk("decoction of 50 g dandelion root in 1 litre down to 600. strained i got 540", "honey 1:1 by weight")
    assert value(reply, "honey") == pytest.approx(540 * WATER, rel=0.001)
    _, reply = talk("decoction of 50 g dandelion root in 1 litre down to 600", "strained i got 540", "sugar same weight")
    assert value(reply, "sugar") == pytest.approx(540 * WATER, rel=0.001)


@pytest.mark.parametrize(
    ("said", "sweet", "times"),
    [
        ("now honey 1:1, how much honey", "honey", 1),
        ("same again in honey", "honey", 1),
        ("equal parts sugar", "sugar", 1),
        ("honey weight for weight", "honey", 1),
        ("half as much honey", "honey", 0.5),
        ("then sugar 2:1", "sugar", 2),
        ("twice the weight of sugar", "sugar", 2),
        ("sugar to match", "sugar", 1),
        ("a pound of sugar to the pint", "sugar", 453.592 / 473.176 / WATER),
        ("a kilo of sugar per litre", "sugar", 1 / WATER),
        ("honey, 800 g to the litre", "honey", 0.8 / WATER),
        ("1:1 honey by volume", "honey", 1.42 / WATER),
    ],
)
def test_so_much_sweet_to_what_is_left(said, sweet, times):
    _, reply = talk("40 g astragalus in 1.5 l water, simmer down to half", said)
    assert reply.status == "answered"
    assert value(reply, sweet) == pytest.approx(750 * WATER * times, rel=0.002)


def test_another_word_for_how_much_of_it():
    _, reply = talk("boil 100 g burdock in 3 l, left with 1.4 l, half as much honey", "no, the same weight")
    assert value(reply, "honey") == pytest.approx(1400 * WATER, rel=0.001)


def test_a_decoction_equal_honey_and_spirit():
    session, reply = talk("cherry bark syrup, 120 ml decoction, honey equal parts, 30 ml brandy")
    assert value(reply, "honey") == pytest.approx(120 * WATER, rel=0.001)
    assert session.batch.facts["keeping_spirit"].value == 30
    whole = value(session.say("total volume"), "fortified")
    reply = session.say("alcohol percent, brandy 40")
    assert reply.values[0].quantity == "syrup_alcohol"
    assert reply.values[0].value == pytest.approx(30 * 40 / whole, rel=0.001)


@pytest.mark.parametrize(
    "said",
    ["need 1:4 at 50 on 220g dried elecampane, 96 in the cupboard is down to 400 ml", "my 95's down to 260 ml, want 1:2 at 65 on fresh tulsi"],
)
def test_spirit_running_low_is_no_pot(said):
    session, _ = talk(said)
    assert not (session.batch.facts.keys() & {"boiled_to", "boiled_from"})


def test_boiled_down_further_than_was_thought():
    _, reply = talk("600 ml of elderberry decoction, sugar to bring it up to 65 brix?", "only reduced it to 540 in the end")
    assert value(reply, "sugar") == pytest.approx(540 * WATER * 65 / 35, rel=0.001)
