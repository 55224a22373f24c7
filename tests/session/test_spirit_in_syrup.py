"""Spirit in a syrup whose volume follows from its sugar; and how long a syrup lasts."""

from __future__ import annotations

import pytest

from tests.session.talking import talk, value

JUICE = "900 ml elderberry juice, make a syrup, 65 brix"
THIN = "600 ml decoction, syrup at 55 brix"


@pytest.mark.parametrize(
    "said", ["forgot, 100 ml brandy goes in as well, 38%", "100 ml of 38 % brandy in it", "with 100 ml brandy at 38%", "100 ml vodka, it's 38 %"]
)
def test_spirit_told_is_spirit_and_no_sweetness(said):
    session, reply = talk(JUICE, said)
    assert session.batch.facts["brix"].value == 65
    assert "bottle_size" not in session.batch.facts
    syrup = (900 + 900 * 65 / 35 * 1.0) / 1.3165  # by weight, over the density at 65 °Bx
    assert value(reply, "fortified") == pytest.approx(syrup + 100, rel=0.005)
    assert value(reply, "syrup_alcohol") == pytest.approx(38 / (syrup + 100) * 100, rel=0.005)


def test_bottles_hold_the_syrup_and_its_spirit():
    _, reply = talk(JUICE, "100 ml brandy in it, 38 %", "so in 250s")
    assert value(reply, "bottles") == 8
    _, reply = talk(JUICE, "so in 250s")
    assert value(reply, "bottles") == 7


def test_spirit_without_its_strength_is_asked_about():
    session, reply = talk(JUICE, "with 150 ml of vodka in it")
    assert reply.status == "asking"
    assert "strength" in reply.questions[0].text
    assert value(session.say("40"), "syrup_alcohol") == pytest.approx(2.86, abs=0.01)


@pytest.mark.parametrize("said", ["how much brandy at 40 to keep it", "how much 40% brandy will keep it", "how much of the brandy at 40 do I need to keep it"])
def test_how_much_spirit_keeps_it(said):
    _, reply = talk(THIN, said)
    assert value(reply, "keeping_spirit") == pytest.approx(161, abs=1)


@pytest.mark.parametrize("said", ["and with vodka its 45 %", "if I use the 45% vodka instead"])
def test_another_spirit_keeps_it(said):
    session, reply = talk(THIN, "how much brandy at 40 to keep it", said)
    assert session.batch.facts["keeping_strength"].value == 45
    assert value(reply, "keeping_spirit") == pytest.approx(131, abs=1)


def test_a_thick_syrup_needs_no_spirit_to_keep():
    _, reply = talk("syrup from 500 ml decoction at 65 brix", "how much vodka at 40 to keep it")
    assert reply.text.startswith("No spirit is needed to keep it: at 65 °Bx")


@pytest.mark.parametrize(
    "said", ["250 ml of elderberry syrup, 10 ml 3x a day, how long", "250 ml thyme syrup, 10 ml three times a day, how many days does it last"]
)
def test_a_syrup_lasts_by_its_volume(said):
    _, reply = talk(said)
    assert value(reply, "days") == 8


def test_how_long_is_asked_again_with_the_spirit_in():
    session, reply = talk(JUICE, "10 ml 3 times a day, how long does it last")
    assert value(reply, "days") == 64
    session.say("100 ml brandy in it, 38 %")
    assert session.say("how long does it last then").text.startswith("Lasts 68 days")
    assert session.say("in 250s, how many bottles").text.startswith("8 bottles")
