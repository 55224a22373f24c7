"""What is chatted around the figures: hours and years spelt out, judgements on a figure told, what is owned told by its strength alone."""

from __future__ import annotations

import pytest

from tests.session.talking import talk, value

LET_DOWN = "I want to let down some 96 % alcohol so I have 2 litres at 45 %"


@pytest.mark.parametrize("before", ["Before the grandchildren come at four ", "They're here by six, so ", "Back in seventy-nine I did it otherwise. "])
def test_an_hour_or_a_year_spelt_out_is_no_strength(before):
    _, reply = talk(before + LET_DOWN)
    assert value(reply, "stock") == pytest.approx(2000 * 45 / 96)


@pytest.mark.parametrize("said", ["The wife says 45 is too thin for the resins. And at 50 %?", "she reckons 45 is weak, 50 then"])
def test_a_figure_told_before_is_judged_and_not_claimed(said):
    _, reply = talk(LET_DOWN, said)
    assert value(reply, "stock") == pytest.approx(2000 * 50 / 96)


@pytest.mark.parametrize(
    "said",
    [
        "All I've got is 96 %, the rest went into the cordials. So how much of that and how much water do I mix?",
        "ive only 96. how much of that and how much water",
        "I've only got 96 %, how much spirit and how much water",
    ],
)
def test_all_there_is_is_the_spirit(said):
    session, reply = talk("400 g of fresh hawthorn leaf, 70 % water, 1:2 and to finish at 55 % in the jar", said)
    assert session.batch.facts["water_content"].value == 70
    assert value(reply, "stock") == pytest.approx(611.3, abs=1)
    assert value(reply, "water") == pytest.approx(208.4, abs=1)


def test_the_most_it_can_finish_at_with_what_is_there():
    _, reply = talk("skullcap fresh 250g 80% water 1:2 ive only 96. whats the most it can finish at")
    assert value(reply, "finished_strength") == pytest.approx(70.34, abs=0.05)


@pytest.mark.parametrize(
    "said",
    ["tipped 700ml of 40% in w 300 of 96%. what strength now", "poured 700 ml of 40 into 300 of 96, how strong", "added 700 ml of 40 % to 300 ml of 96 %"],
)
def test_two_poured_together_are_a_mixture(said):
    session, reply = talk(said)
    assert value(reply, "blend_strength") == pytest.approx(57.37, abs=0.05)
    assert "990 mL" in session.say("and how many ml").text


def test_one_of_two_was_another():
    _, reply = talk("60ml at 45% and 40ml at 25%, strength of the blend", "if the 25 was 70%?")
    assert value(reply, "blend_strength") == pytest.approx(55.1, abs=0.05)


@pytest.mark.parametrize(
    ("said", "verdict"), [("is it so that 120 proof is twenty four per cent?", "No: 120 proof is 60 %"), ("is 80 proof 40 percent?", "Yes: 80 proof is 40 %")]
)
def test_a_proof_is_checked(said, verdict):
    _, reply = talk(said)
    assert reply.text.startswith(verdict)


def test_tins_of_so_much_are_the_size_of_a_tin():
    _, reply = talk("24 tins of 30 mL of the plantain salve, 1 to 5 wax to oil. How much beeswax and how much oil do I weigh?")
    weights = {v.about: v.value for v in reply.values if v.quantity == "weight"}
    assert weights == pytest.approx({"wax": 110.66, "oil": 553.3}, rel=1e-3)


def test_a_stronger_and_a_weaker_acidity():
    _, reply = talk("300 g fresh nettle tops 82 % water, 1.2 litres of 6 % cider vinegar", "How much of the 6 % must I pour on the 300 g so it stays at 5 %?")
    assert value(reply, "menstruum") == pytest.approx(1230)


def test_honey_rather_than_sugar():
    _, reply = talk("600 mL infusion, I'd rather use honey than sugar. How many grams of honey bring it to 60 Brix?")
    assert value(reply, "honey") == pytest.approx(1633, rel=2e-3)


def test_the_tea_of_a_cup_is_told_apart_from_the_bag():
    session, reply = talk("250g tea, 4 g a cup 3 cups a day. lasts?", "5g?")
    assert value(reply, "days") == 16
    assert value(session.say("2 cups"), "days") == 25


def test_what_comes_once_a_month_is_no_dose():
    _, reply = talk("fourteen people, each 4 mL twice a day, and the post goes once a month. How much tincture for 30 days in all?")
    assert value(reply, "supply_for_all") == pytest.approx(3360)


@pytest.mark.parametrize(("said", "jars"), [("5.3L to go in 750ml jars how many jars do i need", 8), ("5.3 L to go into 1 l jars, how many jars", 6)])
def test_what_is_to_go_into_jars(said, jars):
    _, reply = talk(said)
    assert value(reply, "jars") == jars


def test_what_it_says_on_it_is_the_stock_and_not_the_pour():
    _, reply = talk("600 g dried passionflower 1:5", "I want that menstruum at 50 %", "Hold on, it says 95 %.")
    assert value(reply, "stock") == pytest.approx(3000 * 50 / 95)


def test_somebody_coming_once_a_month_takes_no_dose_then():
    session, reply = talk("5 mL three times a day from a 100 mL bottle", "she comes once a month. How much would I have to make up for a month?")
    assert session.batch.facts["times_a_day"].value == 3
    assert value(reply, "supply") == 450


def test_one_of_my_mothers_is_no_figure():
    _, reply = talk("One of my mothers won't have spirit, so a glycerite of dried chamomile, 200 g, 1:5 at 60 % glycerine.")
    assert not reply.questions
    assert value(reply, "glycerine_volume") == pytest.approx(600)


@pytest.mark.parametrize(("said", "head"), [("is it 224", "Yes: pour 224 mL"), ("so is it 300", "No: pour 224 mL, not 300 mL")])
def test_a_question_without_its_mark_changes_nothing(said, head):
    session, reply = talk("112 g fresh nettle, 1:2 at 60", said)
    assert reply.text.startswith(head)
    assert session.batch.facts["herb"].value == 112
