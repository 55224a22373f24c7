"""A hydrometer's reading with its warmth; the alcohol in so much; spirit told by its bottle."""

from __future__ import annotations

import pytest

from tests.session.talking import talk, value


@pytest.mark.parametrize(
    "said",
    [
        "at 15 C, hydrometer reads 58, whats it at 20",
        "hydrometer 58 at 15 degrees, true strength?",
        "reads 58 on the hydrometer, its 15 degrees, really?",
        "15 degrees celsius, the spindle says 58, what's the true strength",
    ],
)
def test_reading_and_warmth_in_any_order(said):
    session, reply = talk(said)
    assert session.batch.facts["hydrometer"].value == 58
    assert session.batch.facts["celsius"].value == 15
    assert value(reply, "strength") == pytest.approx(59.8, abs=0.1)
    assert reply.text.startswith("True strength 59.8 % at 20 °C")


@pytest.mark.parametrize("said", ["800 ml of 60, what's the alcohol, ml", "how much alcohol is in 800 ml of 60", "how much pure alcohol in 800 ml of 60"])
def test_the_alcohol_in_so_much(said):
    _, reply = talk(said)
    assert value(reply, "alcohol") == pytest.approx(480)


@pytest.mark.parametrize(
    ("said", "herb"),
    [
        ("gin at 37.5, 700 ml bottle, 1:4 on fresh sloes, how many sloes", 175),
        ("700 ml bottle of gin at 37.5, 1:4 on fresh sloes, how many grams of sloes", 175),
        ("brandy 38%, 500 ml bottle, fresh cherries 1:2, how much fruit", 250),
    ],
)
def test_a_bottle_of_spirit_serves_so_much_plant(said, herb):
    _, reply = talk(said)
    assert value(reply, "herb_served") == pytest.approx(herb)
