"""Infused oil strained off its plant, and the salve that is made of it."""

from __future__ import annotations

import pytest

from tests.session.talking import talk, value

OIL, WAX = 0.915, 0.96  # g/mL


def about(reply, name, quantity="weight"):
    return next(v.value for v in reply.values if v.quantity == quantity and name in v.about)


@pytest.mark.parametrize(
    ("turns", "oil", "parts"),
    [
        (("half a kilo rosemary in 2 l of olive oil", "strained 1.75 L", "60 ml pots with 1 part wax to 6 oil"), 1750, 6),
        (("150 g comfrey leaf in 750 ml olive oil", "strained off 600", "salve 3 parts wax 12 parts oil"), 600, 4),
        (("40g st johns wort dried in 400 ml olive oil. got 330 ml. make it a balm 1 part wax 5 oil, 15 ml tins",), 330, 5),
        (("2 litres of plantain oil strained from 2.5. how much wax for 1:5",), 2000, 5),
        (("got 700 ml strained oil from 800. 1:6 beeswax, pots of 50",), 700, 6),
        (("200 g dried calendula 1:5 in olive oil, i lose 15 percent", "balm with 1 part beeswax and 4 parts oil"), 850, 4),
        (("calendula oil 120 g in 900 ml sunflower", "720 ml came back", "how much wax for a salve, 1:5"), 720, 5),
        (("100 g dried plantain in 600 ml oil, got 500 back after straining, salve 1:5 wax",), 500, 5),
    ],
)
def test_the_strained_oil_melts(turns, oil, parts):
    _, reply = talk(*turns)
    assert reply.status == "answered"
    assert about(reply, "oil") == pytest.approx(oil * OIL, rel=0.001)
    assert about(reply, "wax") == pytest.approx(oil * OIL / parts, rel=0.001)


def test_pots_of_the_strained_oil():
    _, reply = talk("half a kilo rosemary in 2 l of olive oil", "strained 1.75 L", "60 ml pots with 1 part wax to 6 oil")
    assert value(reply, "tins") == (1750 + 1750 * OIL / 6 / WAX) // 60


@pytest.mark.parametrize(
    ("said", "herb", "poured"),
    [
        ("calendula oil 120 g in 900 ml sunflower", 120, 900),
        ("mullein oil 50g dried flowers 1:8", 50, 400),
        ("st johns wort oil, 2 oz to a pint", 56.7, 473.2),
    ],
)
def test_grams_behind_the_oil_are_the_plants(said, herb, poured):
    session, reply = talk(said)
    assert reply.status == "answered"
    figures = session.last.solution.figures
    assert figures["herb"].value == pytest.approx(herb, rel=0.001)
    assert figures["menstruum"].value == pytest.approx(poured, rel=0.001)


@pytest.mark.parametrize("said", ["usually lose a fifth", "i lose about 20 %"])
def test_what_the_plant_keeps_of_the_oil(said):
    _, reply = talk("rosemary oil 1:8, 100 g", said, "how many 30 ml bottles")
    assert value(reply, "bottles") == 640 // 30


def test_essential_oil_goes_into_the_salve_of_another_plant():
    turns = ("150 g comfrey leaf in 750 ml olive oil", "strained off 600", "salve 3 parts wax 12 parts oil")
    melt = 600 + 600 * OIL / 4 / WAX
    for said in ("and 1 percent lavender eo", "and 5 percent lavender eo? no 1 percent"):
        _, reply = talk(*turns, said)
        assert value(reply, "eo") == pytest.approx(melt / 100, rel=0.001)
