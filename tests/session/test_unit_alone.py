"""A unit said alone, and what leads the reply when the work goes on from a weighing."""

from __future__ import annotations

import pytest

from tests.session.talking import talk

POUR = "112 g dried thyme 1:5 at 40"


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("in fl oz", "18.94 fl oz"),
        ("fl oz?", "18.94 fl oz"),
        ("how many pints", "1.18 pints"),
        ("in pints?", "1.18 pints"),
        ("pints please", "1.18 pints"),
        ("that's how many cups", "2.37 cups"),
        ("what's that in quarts", "0.59 quarts"),
        ("and in fluid ounces then", "18.94 fl oz"),
    ],
)
def test_the_last_answer_in_a_unit(said, told):
    session, reply = talk(POUR, said)
    assert told in reply.text.split("\n")[0]
    assert {k: f.value for k, f in session.batch.facts.items() if k in ("herb", "ratio", "strength")} == {"herb": 112, "ratio": 5, "strength": 40}


def test_bottles_are_still_sized_so():
    session, _ = talk("pressed 2 L, in 500 ml bottles", "in pints")
    assert session.batch.facts["bottle_size"].value == pytest.approx(473.18, rel=1e-3)


def test_the_jar_leads_once_a_ratio_follows_a_weighing():
    session, reply = talk("tops weigh 340, tray 90", "net?", "1:2")
    assert reply.text.startswith("Pour 500 mL on 250 g")
    assert session.say("at 70, have 96").text.startswith("Pour 500 mL at 70 % on 250 g: 365 mL of 96 %")
