"""The wrong numbers of one jar, said as an apprentice says them: each is named by the move that gives it.

200 g of fresh plant at 75 % water, 1:2, to finish at 50 % from 95 %, pressed at 2 mL a gram. The numbers were worked out by hand with the
densities of OIML R 22 at 20 °C.
"""

import pytest

from assistant import Session

JAR = "200 g fresh nettle, 75% water, 1:2, finish at 50%, from 95%, potato ricer at 2 mL/g"
POURED = "200 g fresh nettle, 75% water, 1:2 at 68%, from 95%"
NEVER = "No wrong move I know"


@pytest.mark.parametrize(
    ("said", "named"),
    [
        ("it ends at 36.5 %, is that right?", "the water in the plant is forgotten"),
        ("I make it 50 % to pour, right?", "the water in the plant is forgotten"),
        ("it ends at 70.8 %, right?", "poured straight from the bottle"),
        ("I got 68.75 % to pour, is that right?", "volumes are simply added"),
        ("the jar holds 550 mL, right?", "volumes are simply added"),
        ("I got 450 mL pressed, right?", "volumes are simply added"),
        ("is the water 113.6 ml?", "subtracting volumes"),
        ("it ends at 24.3 %, right?", "of that proof"),
        ("it ends at 48.3 %, right?", "10 points wetter"),
        ("I poured 449 mL, is that right?", "weighed in grams"),
        ("it ends at 51.5 %, right?", "weighed in grams"),
        ("I got 1000 mL of menstruum, right?", "treated as dried"),
        ("I got 100 mL of menstruum, right?", "upside down"),
        ("it ends at 27.5 %, right?", "upside down"),
        ("I got 85.6 % to pour, right?", "water content is taken of the menstruum"),
        ("it ends at 63.4 %, right?", "water content is taken of the menstruum"),
    ],
)
def test_a_wrong_number_is_named_by_its_move(said, named):
    session = Session()
    session.say(JAR)
    reply = session.say(said)
    assert any(v.verdict is False for v in reply.values), reply.text
    assert named in reply.text
    assert NEVER not in reply.text


@pytest.mark.parametrize(
    ("jar", "said", "named"),
    [
        (f"240 g on the scale, the bag is 40 g, fresh nettle {JAR[18:]}", "I got 480 mL of menstruum, right?", "tare is not taken off"),
        ("I need 200 g of leaf, 20 % goes off as stalks, margin 15 %. how much to gather?", "I got 276 g, right?", "trimming loss is added on"),
        (POURED, "it ends at 70.8 %, right?", "poured straight from the bottle"),
        (POURED, "it ends at 48.3 %, right?", "10 points wetter"),
        (POURED, "it ends at 27.5 %, right?", "upside down"),
    ],
)
def test_and_of_the_jars_beside_it(jar, said, named):
    session = Session()
    session.say(jar)
    reply = session.say(said)
    assert named in reply.text


def test_the_right_figures_of_the_jar_are_right():
    for said in (
        "is the water 124 ml?",
        "the jar holds 544 mL, right?",
        "I got 444 mL pressed, right?",
        "I got 68 % to pour, right?",
        "I got 286 ml of spirit, right?",
    ):
        session = Session()
        session.say(JAR)
        assert session.say(said).text.startswith("Yes"), said


def test_a_step_told_after_a_named_slip_is_looked_at_and_changes_nothing():
    session = Session()
    session.say("112 g fresh nettle 1:2")
    session.say("I got 56 ml, is that right?")
    looked = session.say("first I divided 112 by 2")
    assert "menstruum: 224 mL, not 56 mL" in looked.text
    assert "upside down" in looked.text
    assert "224 mL" in session.say("how much menstruum").text
