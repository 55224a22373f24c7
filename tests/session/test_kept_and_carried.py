"""A figure told again after an undo, a dose carried from a fresh tincture to a dried one, the strained oil of a salve."""

from __future__ import annotations

import pytest

from tests.session.talking import talk, value

CATNIP = "500 g fresh catnip, 80% water, 1:2 in 95"
PLAN = "dandelion root dried 250 g 1:5 at 50%"


@pytest.mark.parametrize("said", ["undo, was 250 after all", "no it was 250 after all", "undo that, 250 it is"])
def test_what_stands_again_is_told_again(said):
    session, reply = talk(PLAN, "make that 300g", said)
    facts = session.batch.facts
    assert (facts["herb"].value, facts["ratio"].value) == (250, 5)
    assert value(reply, "menstruum") == 1250


def test_no_ratio_is_as_great_as_a_weight():
    session, _ = talk(PLAN, "400")
    assert (session.batch.facts["herb"].value, session.batch.facts["ratio"].value) == (400, 5)


@pytest.mark.parametrize(
    "said",
    [
        "5 ml of that is how much of a dried 1:5",
        "how much of a dried 1:5 matches 5 ml of that",
        "i take 5 ml of that. same dose of a dried 1:5 = how many ml",
        "5 ml of it, what's that in dried 1:5",
    ],
)
def test_a_dose_of_the_one_in_hand_in_a_dried_one(said):
    """0.0813 g of dried herb in each mL of the fresh, 0.2 g in the dried: 5 mL are 2.03 mL."""
    _, reply = talk(CATNIP, said)
    assert value(reply, "dose") == pytest.approx(5 * 0.08133 / 0.2, rel=2e-3)


def test_a_dose_of_the_dried_in_the_one_in_hand():
    _, reply = talk(CATNIP, "how many ml of it to match 2 ml of a dried 1:5")
    assert value(reply, "other_dose") == pytest.approx(2 * 0.2 / 0.08133, rel=2e-3)


@pytest.mark.parametrize("asked", ["dried equiv g per ml?", "g dry per ml", "how many g of dried herb is in each ml", "how much dried leaf per ml"])
def test_dried_herb_in_each_ml(asked):
    session, reply = talk(f"{CATNIP}. {asked}")
    assert session.batch.facts["ratio"].value == 2
    assert value(reply, "dried_equivalent") == pytest.approx(0.0813, rel=2e-3)


@pytest.mark.parametrize("said", ["got 600 mL back after straining. salve 1 to 5 wax to oil, how much beeswax", "strained 600 ml, salve at 1 wax to 5 oil"])
def test_the_strained_oil_is_the_salves(said):
    session, reply = talk("150 g dried calendula 1:5 in oil", said)
    weight = next(v.value for v in reply.values if v.quantity.endswith("weight") and "wax" in (v.about or v.text))
    assert weight == pytest.approx(600 * 0.915 / 5)
    assert value(session.say("30 mL tins, how many full"), "tins") == 23


@pytest.mark.parametrize("asked", ["what % in the jar", "what does it reach", "what will it get up to"])
def test_how_strong_it_gets_in_other_words(asked):
    _, reply = talk(f"150 g fresh plantain leaf 80% water, 1:3 at 70, {asked}")
    assert reply.text.startswith("Finishes at 55.8 %")
