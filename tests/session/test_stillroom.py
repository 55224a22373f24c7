"""Short ways of speaking in the stillroom: a plant's water, more sugar, spirit into a syrup, a vinegar after all, tea by the pot."""

from __future__ import annotations

import pytest

from tests.session.talking import talk, value


@pytest.mark.parametrize(
    ("turns", "quantity", "figure"),
    [
        (("glycerite of fresh lemon balm 200 g at 80% water, 500 ml glycerine",), "finished_glycerine", 500 / 660 * 100),
        (("lemon balm vinegar 200 g at 80% water, 500 ml vinegar 5%",), "finished_acidity", 2500 / 660),
        (("rosehip decoction 1.1 l, 650 g sugar, brix", "how much more to get to 65"), "sugar_more", 1098.02 * 65 / 35 - 650),
        (("500 ml rosehip decoction. sugar to get it to 65",), "sugar", 499.1 * 65 / 35),
        (("raspberry vinegar 6% acid 500 ml, 300 g berries 85% water", "will it stay above 4"), "finished_acidity", 3000 / 755),
        (("nettle infusion 30 g in a quart, drink 3 cups a day", "how long does a 1 lb bag last"), "days", 20),
        (
            ("oxymel 300 g thyme, 500 ml vinegar 500 ml honey", "no i mean vinegar 5% on 400 g fresh thyme 75% water, what acidity after"),
            "finished_acidity",
            2500 / 800,
        ),
        (("syrup of 400 ml thyme decoction, sugar to 65 brix", "with vodka to 20 %, 40 % vodka"), "keeping_spirit", 1140.8 / 1.3165),
    ],
)
def test_figures_in_their_places(turns, quantity, figure):
    _, reply = talk(*turns)
    assert value(reply, quantity) == pytest.approx(figure, rel=0.005)


def test_bottles_of_a_syrup_with_spirit_are_no_spirit():
    session, _ = talk("syrup of 400 ml thyme decoction, sugar to 65 brix", "with vodka to 20 %, 40 % vodka", "how many 100 ml bottles")
    assert session.batch.facts.get("keeping_spirit") is None
    assert session.batch.facts["bottle_size"].value == 100
