"""Going on about a jar in hand: what is more of it, what counts something else, and what the first line then says."""

from __future__ import annotations

import pytest

from assistant import Session
from tests.session.talking import talk, value

FRESH = "340 g fresh lemon balm, 1:3 at 55"
UNTOLD = "340 g nettle, 1:3 at 55"


@pytest.mark.parametrize(
    ("said", "herb"),
    [
        ("20 g more", 360),
        ("there's 20 g more of it", 360),
        ("20 more", 360),
        ("another 20", 360),
        ("a handful more, 20 g", 360),
        ("what if there's 20 g more", 360),
    ],
)
def test_more_of_the_plant_is_laid_on_top(said, herb):
    session, reply = talk(FRESH, said)
    assert session.batch.facts["herb"].value == herb
    assert value(reply, "menstruum") == pytest.approx(3 * herb)


@pytest.mark.parametrize("said", ["I need 20 g more", "how much spirit for 20 g more", "once more, 20 g"])
def test_what_is_wanted_or_asked_alone_is_not_laid_on_top(said):
    session, _ = talk(FRESH, said)
    assert session.batch.facts["herb"].value != 360


@pytest.mark.parametrize("said", ["ok bottle it in 100s, 2 gone to my sister", "2 gone to maud", "7 apples", "at 55, 3 sisters"])
def test_a_count_of_something_else_is_no_ratio(said):
    session, reply = talk(FRESH, said)
    assert session.batch.facts["ratio"].value == 3
    assert any(q.text.startswith("What is “") for q in reply.questions)


@pytest.mark.parametrize(("said", "ratio"), [("what about 2?", 2), ("1:2 then", 2), ("make it 4 instead", 4)])
def test_a_ratio_is_still_put_right_by_a_number_alone(said, ratio):
    session, _ = talk("340 g fresh lemon balm, 1:3", said)
    assert session.batch.facts["ratio"].value == ratio


def test_a_share_of_something_answers_no_question_for_a_strength():
    session = Session()
    session.say(UNTOLD)
    session.say("what strength is the spirit I start from")
    reply = session.say("half of the marc went on the floor")
    assert not {"finished_strength", "stock_strength"} & session.batch.facts.keys()
    assert "0.5 %" not in reply.text


@pytest.mark.parametrize("said", ["how strong is it", "how strong is the jar", "how strong will it be", "how strong did it get", "how strong is that tincture"])
def test_how_strong_it_is(said):
    _, reply = talk(FRESH, said)
    assert reply.text.startswith("Finishes at 43.5 %")


def test_how_strong_a_decoction_is_goes_by_its_plant():
    _, reply = talk("60 g burdock root simmering in 1.6 L of water, taking it down to 700 ml", "so how strong is that")
    assert value(reply, "herb_per_ml") == pytest.approx(60 / 700)


@pytest.mark.parametrize("asked", ["how strong is it", "what does it end up at"])
@pytest.mark.parametrize(("state", "finish"), [("fresh", 43.70), ("dried", 55), ("it is dried", 55), ("dry", 55), ("80 %", 43.70)])
def test_a_plant_of_no_told_state_is_asked_for_it(asked, state, finish):
    session = Session()
    session.say(UNTOLD)
    reply = session.say(asked)
    assert reply.status == "asking"
    assert [q.text for q in reply.questions] == ["Is the plant fresh or dried?"]
    assert session.say(state).text.startswith("Finishes at")
    assert session.last.value("finished_strength") == pytest.approx(finish, abs=0.05)


@pytest.mark.parametrize(("asked", "first"), [("what will I press out", "About 1081 mL pressed out."), ("bottle it in 100s", "10 bottles, 81 mL over.")])
def test_what_is_pressed_of_a_plant_of_no_told_state(asked, first):
    _, reply = talk(UNTOLD, asked, "fresh")
    assert reply.text.startswith(first)


def test_a_press_that_leaves_nothing_is_named():
    _, reply = talk("340 g dried nettle, 1:3 at 55", "what will I press out")
    assert reply.status == "refused"
    assert "the marc holds 3 mL per g" in reply.text


def test_dried_alone_still_asks_what_a_fresh_plant_dries_to():
    _, reply = talk("340 g fresh nettle, 80 % water", "dried?")
    assert value(reply, "dried") == pytest.approx(340 * 0.2 / 0.9)


@pytest.mark.parametrize("said", ["picked 340 g nettle, 1:3 at 55", "I gathered 340 g of nettle, 1:3 at 55"])
def test_what_was_picked_is_fresh(said):
    session, reply = talk(said)
    assert "fresh" in session.batch.tags
    assert "taken at 80 % water" in reply.text


@pytest.mark.parametrize(
    "said", ["picked up 340 g dried nettle, 1:3 at 55", "picked 340 g nettle and it is dried now, 1:3 at 55", "picked up 340 g nettle, 1:3 at 55"]
)
def test_what_was_picked_and_dried_or_bought_is_not_called_fresh(said):
    session, _ = talk(said)
    assert "fresh" not in session.batch.tags


@pytest.mark.parametrize(
    "said", ["what does it end up at once the balm's wept its water", "how strong once the balm has given up its water", "so how strong is the balm"]
)
def test_the_balm_is_the_plant_where_lemon_balm_is_in_hand(said):
    session, _ = talk(FRESH, said)
    assert "salve" not in session.batch.frames


def test_a_balm_is_still_a_salve():
    session, _ = talk(FRESH, "make a balm with 200 ml of oil")
    assert "salve" in session.batch.frames
    session, _ = talk("200 ml of oil, 50 g of wax", "the balm is too hard")
    assert "salve" in session.batch.frames


@pytest.mark.parametrize("said", ["bottle it in 100s", "it goes in 100 ml bottles", "100 ml bottles", "I'll put it in 100 ml bottles"])
def test_bottles_told_of_are_counted_in_the_first_line(said):
    _, reply = talk("340 g fresh nettle, 1:3 at 55", said)
    assert reply.text.startswith("10 bottles, 81 mL over.")


@pytest.mark.parametrize(
    ("said", "first"),
    [("I pressed 1000", "77.8 % comes back"), ("it's 70 % water", "Finishes at 44.8 %"), ("from 95", "Pour 1020 mL at 55 % on 340 g: 591 mL of 95 %")],
)
def test_what_is_new_leads_where_nothing_was_asked(said, first):
    _, reply = talk("340 g fresh nettle, 1:3 at 55", said)
    assert reply.text.startswith(first)


def test_nothing_told_before_is_lost_where_something_new_leads():
    session = Session()
    session.say("250 g fresh lemon balm, 80% water, 1:2, has to finish at 50% in the jar. stock is 95. how much spirit and water")
    session.say("what strength am i pouring then")
    reply = session.say("1:3 instead")
    assert {"finished_strength", "menstruum"} <= {v.quantity for v in reply.values}


def test_a_plan_by_its_name_hides_no_number():
    session = Session()
    session.say(FRESH)
    session.say("call it red")
    reply = session.say("red at 60 and 7 apples")
    assert session.batch.facts["strength"].value == 60
    assert session.batch.facts["ratio"].value == 3
    assert "What is “7” for?" in reply.text


@pytest.mark.parametrize("name", ["maud", "Maud", "squishy"])
def test_a_word_near_an_everyday_word_is_left_as_it_is(name):
    _, reply = talk(f"340 g fresh nettle, 1:3 at 55 for {name}")
    assert "Read as" not in reply.text
