"""What is known of a plant, asked in many words; and what is unknown is said to be."""

import pytest

from assistant import Session
from assistant.reply import breaches


def spans(reply):
    return {(v.quantity, v.batch.partition(",")[0]): (v.low, v.high) for v in reply.values}


@pytest.mark.parametrize(
    ("asked", "quantity", "part", "span"),
    [
        ("what strength do people use for myrrh", "strength", "gum resin", (85, 90)),
        ("which menstruum suits frankincense", "strength", "resin", (80, 95)),
        ("what is the usual strength for propolis", "strength", "resin", (70, 95)),
        ("how strong should the spirit be for valerian root", "strength", "root", (60, 80)),
        ("how much water is in fresh comfrey leaf", "water_content", "leaf", (80, 88)),
        ("what's the water content of nettle root", "water_content", "root", (60, 70)),
        ("what ratio do people use for fresh nettle", "ratio", "leaf", (5, 5)),
        ("what do you know about yarrow", "water_content", "flowering herb", (65, 78)),
    ],
)
def test_the_usual_figures_of_a_plant(asked, quantity, part, span):
    reply = Session().say(asked)
    assert reply.status == "answered"
    assert spans(reply)[quantity, part] == span
    assert not list(breaches(reply))


def test_what_to_mind_is_told_with_its_source():
    text = Session().say("what do you know of foxglove").text
    assert "deadly" in text
    assert "toxicology" in text


def test_a_shared_name_is_asked_about():
    reply = Session().say("what do you know of snakeroot")
    assert reply.status == "asking"
    assert "white snakeroot" in reply.questions[0].choices


def test_what_is_not_known_is_said():
    assert "Nothing is known here of damiana" in Session().say("what do you know of damiana").text


@pytest.mark.parametrize("asked", ["how much water is in the nettle", "what is the finished strength of the nettle", "what ratio is the nettle"])
def test_of_a_batch_in_hand_its_own_figures_are_told(asked):
    session = Session()
    session.say("112 g fresh nettle, 80 % water, 1:2 at 60 %")
    assert "Urtica" not in session.say(asked).text
