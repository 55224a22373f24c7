"""Lessons in conversation."""

import pytest

from assistant import Session
from assistant.reply import breaches


def told(*sentences):
    session = Session()
    for sentence in sentences:
        reply = session.say(sentence)
        assert not list(breaches(reply)), sentence
    return reply


def value(reply, quantity, batch=None):
    return next(v.value for v in reply.values if v.quantity == quantity and v.value is not None and (batch is None or v.batch == batch))


NETTLE = "200 g fresh nettle, 75% water, 1:2, finish at 50%, from 95%"


def test_a_wrong_figure_is_named_by_its_move_with_the_right_one_first():
    reply = told(NETTLE, "is the water 113.6 ml?")
    right, move = reply.text.splitlines()[:2]
    assert right == "No: 124 mL of water, not 114 mL."
    assert move.startswith("That is what comes out if the water is found by subtracting volumes")
    assert any(v.verdict is False for v in reply.values)


def test_a_claim_never_goes_into_the_batch():
    reply = told("67 g dried marshmallow, 1:3", "I got 134 ml. Correct?", "how much menstruum?")
    assert value(reply, "menstruum") == 201


def test_a_right_figure_rounded_by_hand_is_right():
    reply = told("60 g dried yarrow 1:5 at 40%", "how much 95% and water is that?", "I got 126 ml of the spirit, right?")
    assert reply.text.startswith("Yes: ")


def test_where_nothing_fits_the_steps_are_asked_for_and_the_first_wrong_one_found():
    reply = told(NETTLE, "I got 777 ml of water, right?")
    assert "What was your first step" in reply.text
    reply = told(NETTLE, "I got 777 ml of water, right?", "first I took 400 times 0.5, that's 200")
    assert reply.text.startswith("The first step that goes wrong is the plant water: 150 g; it does not stand among yours.")


def test_slower_tells_rule_equation_numbers_and_sense():
    reply = told("112 g fresh nettle, 1:2", "slower")
    for line in ("menstruum = plant weight × ratio", "112 g × 2 = 224 mL", "Does it make sense? 224 mL is twice 112 g."):
        assert line in reply.text


@pytest.mark.parametrize("question", ["why times two?", "why twice?", "why multiply by 2"])
def test_why_this_number(question):
    assert told("112 g fresh nettle, 1:2", question).text.startswith("That is the ratio. A ratio of 1 to R means")


def test_the_rule_turned_round():
    assert "Divide both sides by stock strength." in told("make 500 ml of 60% from 95%", "show me the algebra").text


@pytest.mark.parametrize(
    ("asked", "seen"),
    [("draw the alligation square", "60 parts of 95 %"), ("describe the drawing", "Across the corners"), ("draw the jar", "liquid: 500 mL")],
)
def test_drawings(asked, seen):
    assert seen in told("make 500 ml of 60% from 95%", asked).text


def test_a_formula_is_drawn_as_a_bar():
    assert "### hawthorn" in told("3 parts hawthorn, 2 parts linden, 1 part rose, 300 ml bottle", "draw it").text


@pytest.mark.parametrize(("asked", "line"), [("what does 1:5 mean?", "500 mL of menstruum"), ("what is the marc?", "keeps 100 mL")])
def test_the_glossary_changes_nothing(asked, line):
    session = Session()
    session.say("112 g fresh nettle, 1:2")
    assert line in session.say(asked).text
    assert value(session.say("how much menstruum?"), "menstruum") == 224


def test_practice_from_problem_to_record():
    session = Session()
    session.say("67 g dried marshmallow, 1:3")
    problem = session.say("give me one like that")
    assert problem.status == "asking"
    herb, ratio = value(problem, "herb"), value(problem, "ratio")
    wrong = session.say(f"{herb * (ratio + 1):g} ml")
    assert wrong.text.startswith("No, ")
    assert "counted as a part of the whole" in wrong.text
    assert f"{herb * ratio:g} mL" not in wrong.text
    assert session.say("hint").text.startswith("A ratio of 1 to R")
    assert session.say("another hint please").text == "menstruum = plant weight × ratio"
    right = session.say(f"{herb * ratio:g}")
    assert right.text.startswith("Right: menstruum")
    record = session.say("what did I miss")
    assert record.text.startswith("1 right, 1 missed:")
    assert "ratio part counted in the total" in record.text


def test_an_answer_in_the_wrong_unit_is_asked_again():
    session = Session()
    session.say("67 g dried marshmallow, 1:3")
    session.say("give me one like that")
    assert "wanted in mL" in session.say("300 g").text


def test_a_sheet_its_key_and_its_page():
    session = Session()
    sheet = session.say("ten on dilution, easy")
    assert sheet.text.startswith("Worksheet 1\n")
    assert "10. " in sheet.text
    page = session.say("as html")
    assert page.text.startswith("<!doctype html>")
    key = session.say("the answers")
    assert key.text.startswith("Answers to worksheet 1\n1. ")
    again = Session()
    assert again.say("ten on dilution, easy").text == sheet.text


def test_a_new_job_in_the_middle_of_practice_is_a_new_job():
    session = Session()
    session.say("give me a problem on drying, easy")
    reply = session.say("112 g fresh nettle, 1:2 at 60%")
    assert value(reply, "menstruum") == 224


def test_the_forgotten_plant_water():
    reply = told("I forgot the plant water and poured 60 on 80 % nettle, 1:2: what have I got?")
    assert reply.text.startswith("For each 100 g of plant: what you have is 43.2 %, not 60 %; it keeps.\nNext time pour at 82.6 %")
    assert value(reply, "finished_strength") == pytest.approx(43.2, abs=0.05)
    assert value(reply, "strength", "next time") == pytest.approx(82.6, abs=0.05)


def test_more_spirit_into_a_jar_that_stands():
    session = Session()
    session.say("110 g fresh balm at 80 % water, 1:2 at 60 %")
    reply = session.say("herb poking out, added 120 of 95")
    assert value(reply, "ratio") == pytest.approx(3.08, abs=0.01)
    assert value(reply, "finished_strength") == pytest.approx(58.3, abs=0.1)
    assert value(session.say("undo"), "menstruum") == pytest.approx(220)


def test_a_plain_list_is_read_as_it_stands():
    reply = told("Given (fresh): water content 70 %; dry matter 60 g. Find: plant weight.")
    assert value(reply, "herb") == pytest.approx(200)
    assert not Session().say("Given (fresh): water content 70 %; dry matter 60 mL. Find: plant weight.").text.startswith("200 g")


@pytest.mark.parametrize(
    ("job", "claim", "verdict"),
    [
        ("112 g fresh nettle 1:2", "I got 7.6 fl oz, is that right?", "Yes"),
        ("112 g fresh nettle 1:2", "I got 7.6 oz, is that right?", "Yes"),
        ("112 g fresh nettle 1:2", "I got 7.1 fl oz, is that right?", "No"),
        ("make 500 ml of 60 % from 95 %", "I got 10.7 oz, is that right?", "Yes"),
        ("make 500 ml of 60 % from 95 %", "I got 11.2 oz, is that right?", "No"),
        ("224 ml for a 1:2, how much herb", "I got 3.95 oz, right?", "Yes"),
    ],
)
def test_an_answer_in_ounces_is_read_to_its_own_digits(job, claim, verdict):
    assert told(job, claim).text.startswith(verdict)


def test_an_answer_in_ounces_and_the_key_in_ounces():
    session = Session()
    session.say("67 g dried marshmallow, 1:3")
    problem = session.say("give me one like that")
    answer = value(problem, "herb") * value(problem, "ratio")
    assert "90 g (3.17 oz)" in session.say("in ounces").text
    right = session.say(f"{answer / 29.5735:.3g} fl oz")
    assert right.text.startswith("Right: "), right.text
    assert f"({answer / 29.5735:.2f}".rstrip("0") in session.say("in ounces").text
    session.say("give me one like that")
    assert "fl oz)." in session.say("the answer in ounces please").text


@pytest.mark.parametrize("words", ["I don't know", "no idea", "pass", "skip it", "dunno", "I can't do it", "answer please"])
def test_giving_up_shows_the_working_and_goes_on(words):
    session = Session()
    sheet = session.say("three on dilution, easy")
    gone_on = session.say(words)
    assert "1. " in gone_on.text
    assert gone_on.text.splitlines()[-1] in sheet.text
    assert gone_on.text.splitlines()[-1] != sheet.text.splitlines()[2].removeprefix("1. ")


@pytest.mark.parametrize("words", ["quiz me on that", "test me on this", "drill me on it"])
def test_practice_on_that_is_of_what_was_just_worked_out(words):
    session = Session()
    session.say("200 g dried at 1:5, how much")
    session.say(words)
    assert session.lesson.problem.relation == "ratio"


@pytest.mark.parametrize("words", ["why don't i just subtract the water", "why does spirit shrink", "why can't i add up the volumes"])
def test_why_volumes_do_not_add_up_is_told_where_nothing_is_in_hand(words):
    assert Session().say(words).text.startswith("Contraction: ")


def test_a_ratio_is_explained_to_a_learner():
    assert "2 mL of menstruum" in Session().say("explain 1:2 to the apprentice").text
