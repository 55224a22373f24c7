"""What a label says of something bought, and a glycerite's menstruum told by its two halves."""

from __future__ import annotations

import pytest

from tests.session.talking import talk, value

NEAT = "fresh elderflower 300 g, 80% water, 1:3 straight glycerine"
DRIED = "200 g dried elderflower"


@pytest.mark.parametrize("said", ["oh label says 86.5. now?", "the jug says it's 86.5 percent", "it's 86.5 on the tub", "86.5 by the label"])
def test_a_label_tells_and_claims_nothing(said):
    _, reply = talk(NEAT, said)
    assert value(reply, "finished_glycerine") == pytest.approx(0.865 * 900 / (900 + 240) * 100, rel=1e-3)


def test_a_label_on_glycerine_that_is_let_down():
    _, reply = talk(f"{DRIED} 1:5 glycerite at 60", "its 86.5 on the tub")
    assert value(reply, "glycerine_volume") == pytest.approx(600 / 0.865, rel=1e-3)


@pytest.mark.parametrize(
    ("first", "said", "quantity", "told"),
    [
        ("vinegar of 100 g dried thyme 1:10", "label says 6", "acidity", 6),
        ("112 g dried lemon balm 1:5 at 40", "the bottle says 37.5", "strength", 37.5),
        ("120 g dried lemon balm 1:5 at 45", "label says 90", "stock_strength", 90),
    ],
)
def test_a_label_by_the_work_in_hand(first, said, quantity, told):
    session, _ = talk(first, said)
    assert session.batch.facts[quantity].value == told


def test_what_is_asked_of_a_label_is_still_checked():
    _, reply = talk("112 g dried lemon balm 1:5 at 40", "label says 500, right?")
    assert reply.text.startswith("No: pour 560 mL")


@pytest.mark.parametrize(
    "halves",
    [
        "1:5 glycerite, 60 glycerine 40 water",
        "1:5 glycerite, 60% glycerine 40% water, how much of each",
        "1:5 glycerite, 40 % water and 60 % glycerine",
        "1:5 at 60/40 glycerine and water",
        "1:5 glycerite, 3 parts glycerine to 2 water",
        "1:5 glycerine and water 60:40",
        "1:5 glycerite, glyc 60 water 40",
    ],
)
def test_the_halves_of_a_glycerites_menstruum(halves):
    session, reply = talk(f"{DRIED} {halves}")
    assert value(reply, "glycerine_volume") == pytest.approx(600)
    assert value(reply, "water") == pytest.approx(400)
    assert value(reply, "finished_glycerine") == pytest.approx(60)
    assert "water_content" not in session.batch.facts


def test_a_ratio_before_glycerine_and_water_is_no_half():
    session, reply = talk("100 g dried thyme 1:6 glycerine and water")
    assert session.batch.facts["ratio"].value == 6
    assert reply.status == "asking"


def test_glycerine_written_short_and_in_grams():
    _, reply = talk(f"{DRIED} 1:5 glycerite, 60 glyc 40 water", "glyc in grams, im weighing it")
    assert value(reply, "glycerine_weight") == pytest.approx(756.6, rel=2e-3)


@pytest.mark.parametrize(("said", "percent"), [("uk proof 70", 40.005), ("imperial proof 100", 57.15), ("british proof 100", 57.15)])
def test_proof_with_its_country_in_front(said, percent):
    session, _ = talk(f"112 g dried lemon balm 1:5 at {said}")
    assert session.batch.facts["strength"].value == pytest.approx(percent)
