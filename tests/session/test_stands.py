"""Plants in a stand, counted in any direction and many wordings; what regrows, which lists, and what would do instead."""

from __future__ import annotations

import pytest

from assistant import Session


def values(*sentences):
    session = Session()
    reply = [session.say(sentence) for sentence in sentences][-1]
    return {value.quantity: value.value for value in reply.values}, reply


@pytest.mark.parametrize(
    ("sentence", "wanted"),
    [
        ("20 plants, 6 g of root each, I need 90 g", {"plants_taken": 15, "stand_share": 75, "plants_left": 5}),
        ("each root gives 6 g, there are 60 goldenseal, I need 90 g of root: how many plants and what share?", {"plants_taken": 15, "stand_share": 25}),
        ("30 bloodroot, 2 g each root, can I get 50 g", {"plants_taken": 25, "stand_share": 100 * 25 / 30}),
        ("how many black cohosh plants does 450 g of root cost at 30 g a root?", {"plants_taken": 15}),
        ("I need 300 g of nettle leaf, no margin, and get about 15 g a plant. how many plants?", {"plants_taken": 20}),
        ("I need 300 g of nettle leaf and get about 15 g a plant. how many plants?", {"plants_taken": 23}),
        ("30 arnica plants and I dug up 20", {"stand_share": 100 * 20 / 30, "plants_left": 10}),
        ("I've taken 12 of the 15 echinacea", {"stand_share": 80, "plants_left": 3}),
        ("I lifted 4 out of 80, what percentage is that?", {"stand_share": 5}),
        ("took ten from a stand of sixty", {"stand_share": 100 / 6}),
        ("what share of the stand is 9 of 45?", {"stand_share": 20}),
        ("i dug 15 of those 20 goldenseal. how many are left?", {"plants_left": 5}),
        ("dig 8, leave 72", {"stand_share": 10, "stand_plants": 80}),
        ("how many of the 120 plants may I take at 5 %?", {"plants_allowed": 6}),
        ("a patch of 200 nettles at 15 g each, one in ten: how much leaf can I take?", {"allowed_weight": 300, "plants_allowed": 20}),
        ("i only want to take a fifth of the 35 plants", {"plants_allowed": 7}),
        ("60 plants. at most one in 20. 30 g of root each", {"plants_taken": 3, "allowed_weight": 90}),
        ("stand of 45 crowns, 5 % is how many?", {"plants_taken": 2}),
        ("15 plants needed at one in twenty, how big must the stand be?", {"stand_plants": 300}),
        ("how many plants must stand there if I take 15 and want to leave 19 in 20?", {"stand_plants": 300}),
        ("for 90 g of goldenseal root at 6 g a root and one plant in twenty, how many must stand there?", {"stand_plants": 300, "plants_taken": 15}),
        ("from 60 plants I got 480 g, how much a plant?", {"per_plant": 8}),
        ("20 plants of lemon balm gave 1.2 kg", {"per_plant": 60}),
        ("how many plants for 90 g if each gives 6 g, no margin", {"plants_taken": 15}),
        ("how many roots do I dig for 200 g at 25 g a root", {"plants_taken": 8}),
        ("the colony has 40, half of it", {"plants_taken": 20, "plants_left": 20}),
        ("colony of 12, one in four", {"plants_taken": 3}),
        ("the patch holds 300 plants; ten percent", {"plants_taken": 30}),
        ("one plant in ten from 80", {"plants_taken": 8}),
        ("80 plants, every tenth one", {"plants_taken": 8}),
        ("every third plant of 60", {"plants_taken": 20}),
        ("two fifths of a stand of 50", {"plants_taken": 20}),
        ("a clump of 30 bulbs, 5 g each, take a fifth", {"plants_taken": 6}),
        ("how many goldenseal plants does 200 g of root cost, 8 g each, 150 in the stand", {"plants_taken": 25, "stand_share": 100 * 25 / 150}),
        ("60 echinacea plants, 30 g of root each, at most one in 20. what can I make of it at 1:5?", {"menstruum": 450}),
    ],
)
def test_a_stand_is_counted_in_any_direction(sentence, wanted):
    got, reply = values(sentence)
    assert reply.status == "answered", reply.text
    for quantity, value in wanted.items():
        assert got[quantity] == pytest.approx(value, rel=1e-6), (quantity, reply.text)


def test_what_goes_in_dried_is_dug_fresh():
    got, _ = values("stand of 400 arnica, 2 g of flower each, i need 60 g dried at 1:10")
    water = got["water_content"]
    fresh = 60 * 0.9 / (1 - water / 100)
    assert got["plants_taken"] == -(-fresh // 2)
    assert got["menstruum"] == pytest.approx(600)


def test_a_stand_goes_on_over_several_sentences():
    session = Session()
    session.say("300 g fresh nettle leaf at 1:2, no margin")
    assert {v.quantity: v.value for v in session.say("how many plants is that at 15 g a plant").values}["plants_taken"] == 20
    assert {v.quantity: v.value for v in session.say("there are 100 of them").values}["stand_share"] == 20
    assert {v.quantity: v.value for v in session.say("what if I only take 8?").values}["stand_share"] == 8


def test_a_share_that_was_not_said_is_asked_for():
    session = Session()
    asked = session.say("how many of the 120 plants may I take?")
    assert asked.status == "asking"
    assert "share_allowed" in asked.questions[0].wants
    assert {v.quantity: v.value for v in session.say("one in ten").values}["plants_allowed"] == 12


@pytest.mark.parametrize(
    ("sentence", "rule"),
    [
        ("20 plants, 6 g of root each, I need 90 g", "share-of-roots"),
        ("30 arnica plants and I dug up 20", "whole-plants-dug"),
        ("each plant yields 25 g of leaf, 40 plants, 500 g wanted", "share-of-the-stand"),
        ("I need 300 g of fresh yarrow and I'd strip the whole wild patch for it, 1:2 at 60 %", "whole-stand"),
    ],
)
def test_too_large_a_share_is_warned_of_and_what_would_do_instead_is_told(sentence, rule):
    _, reply = values(sentence)
    caution = next(c for c in reply.cautions if c.id == rule)
    assert caution.level == "warn"
    shown = [c for c in reply.cautions if "From a garden or a grower" in c.text]
    assert len(shown) == (1 if any(v.quantity == "herb" for v in reply.values) else 0)


@pytest.mark.parametrize(
    "asked", ["could dried stock do instead?", "can it be met from the garden?", "could I use bought root instead?", "how much dried would do instead"]
)
def test_garden_or_dried_stock_instead(asked):
    got, reply = values("20 goldenseal plants, 6 g of root each, I need 90 g", asked)
    assert got["herb"] == 90
    low, high = 30, 40  # goldenseal root at 60 to 66 % water
    assert low < got["dried"] < high
    assert "grower" in reply.text


@pytest.mark.parametrize(
    "asked", ["what regrows", "will it grow back?", "does the root come back", "how long does it take to recover?", "will goldenseal regrow?"]
)
def test_what_regrows(asked):
    _, reply = values("20 goldenseal plants, 6 g of root each, I need 90 g", asked)
    assert reply.status == "answered"
    assert "a plant gone" in reply.text
    assert not [v for v in reply.values if v.origin == "found"]


def test_what_is_not_known_of_regrowth_is_said_to_be_unknown():
    _, reply = values("will motherwort leaf grow back?")
    assert "Leaf comes again" in reply.text
    assert "not known here" in reply.text


@pytest.mark.parametrize(
    "asked", ["is goldenseal at risk?", "is goldenseal protected", "do I need cites papers for goldenseal", "am i allowed to dig goldenseal"]
)
def test_lists_are_told_and_the_law_is_left_to_the_authority(asked):
    _, reply = values(asked)
    assert "at risk" in reply.text
    assert "CITES" in reply.text
    assert "ask the authority" in reply.text


def test_a_plant_on_no_list_is_no_leave():
    _, reply = values("is motherwort protected?")
    assert "silence, not leave" in reply.text
    assert "ask the authority" in reply.text


@pytest.mark.parametrize(
    "sentence",
    [
        "cut my 95 down to 40, making a litre even",
        "have a fifth (750 ml) of 151 proof, want it 50",
        "picked 640 g of tops, lost 96 to stalks",
        "fill 24 one hundred ml bottles",
        "lift 10 mL of it to 60 %",
    ],
)
def test_other_work_is_no_stand(sentence):
    assert "stand" not in Session().read(sentence).frames


@pytest.mark.parametrize(
    "asked", ["is that too many", "is that too much?", "can I take that much", "is that fair", "will the patch bear it", "may I dig so many"]
)
def test_whether_the_stand_bears_it(asked):
    got, reply = values("20 plants, 6 g of root each, I need 90 g", asked)
    assert reply.status == "answered"
    assert got == {"stand_share": 75}
    assert "share-of-roots" in {c.id for c in reply.cautions}


def test_a_small_share_is_told_with_the_custom():
    _, reply = values("100 plants, 10 g of leaf each, I take 20 %", "is that too much")
    assert reply.status == "answered"
    assert not reply.cautions
    assert "Common practice" in reply.text


def test_the_share_of_a_stand_in_hand_is_asked_in_a_word():
    got, _ = values("20 plants, 6 g of root each, I need 90 g", "what share is that")
    assert got["stand_share"] == 75


def test_asking_whether_to_take_takes_nothing_back():
    session = Session()
    session.say("20 plants, 6 g of root each, I need 90 g")
    session.say("could I take that much")
    assert "15 plants" in session.say("how many plants").text


@pytest.mark.parametrize("said", ["quiet about giving back", "don't remind me about giving back", "no giving-back line", "enough of giving back"])
def test_the_line_about_giving_back_is_switched_off(said):
    session = Session()
    session.say(said)
    reply = session.say("how much wild nettle leaf from the woods should I pick if 300 g fresh must go in the jar?")
    assert "give-back" not in {c.id for c in reply.cautions}


@pytest.mark.parametrize("asked", ["what can I plant to give back", "how do I give back", "what should I give back there"])
def test_how_something_is_given_back(asked):
    assert "seed" in Session().say(asked).text


def test_where_the_spirit_reaches_nothing_is_told_as_less_than_nothing():
    session = Session()
    session.say("112 g fresh nettle, 80 % water, 1:2 at 60 % from 95, I have 500 ml of 95")
    for asked in ("what is left of the 95", "how much plant is left", "how much more must I fetch"):
        reply = session.say(asked)
        assert "359 mL left" in reply.text
        assert all(v.value is None or v.value >= 0 for v in reply.values), asked
