"""Spirit and tincture brought down: all of what is there, or so much to come of it."""

from __future__ import annotations

import pytest

from tests.session.talking import talk, value


@pytest.mark.parametrize(
    "said",
    [
        "1 L brandy to bring down to 30, how much water",
        "1 L of the brandy, cut it to 30",
        "got 1 L brandy i want to take down to 30",
        "1 L spirit, let it down to 30",
        "1 L brandy to be let down to 30",
    ],
)
def test_all_of_the_spirit_is_brought_down_once_its_strength_is_known(said):
    session, asking = talk(said)
    assert asking.status == "asking"
    assert value(session.say("its 40"), "water") == pytest.approx(335.5, rel=2e-3)


def test_so_much_is_wanted_of_it():
    session, asking = talk("need 1 L brandy brought down to 30")
    assert asking.status == "asking"
    assert value(session.say("40"), "water") == pytest.approx(252, rel=5e-3)


@pytest.mark.parametrize(
    "said",
    [
        "900 ml of yarrow tincture at 62, bring it down to 45",
        "got 900 ml pressed reading 62, cut it to 45",
        "900 ml of yarrow tincture came out at 62, let it down to 45",
        "900 ml at 62, bring it to 45, what'll I have",
    ],
)
def test_all_of_a_tincture_is_brought_down(said):
    session, reply = talk(said)
    assert session.batch.facts["stock"].value == 900
    assert value(reply, "menstruum") == pytest.approx(900 * 62 / 45)


def test_a_plan_with_a_lower_strength_is_no_bringing_down():
    session, reply = talk("need 2 litres at 40, cut from 96")
    assert session.batch.facts["menstruum"].value == 2000
    assert value(reply, "stock") == pytest.approx(2000 * 40 / 96)
