"""Instruments described, in the words people use, and what is no description of one."""

import pytest

from assistant import Session

HEARD = {
    "my spring scale goes to a kilo in 10 g steps": [("spring scale", 1000.0, 10.0, "", None)],
    "I've got a kitchen scale that reads to 1 g, up to 5 kg": [("kitchen scale", 5000.0, 1.0, "", None)],
    "kitchen scale: 1 g divisions, max 5 kg": [("kitchen scale", 5000.0, 1.0, "", None)],
    "the balance weighs to 0.01 g": [("balance", None, 0.01, "", None)],
    "scale: 2 kg, 1 g": [("scale", 2000.0, 1.0, "", None)],
    "steelyard, 5 kg, 50 g marks": [("steelyard", 5000.0, 50.0, "", None)],
    "a luggage scale that jumps in 20 gram steps, goes up to 10 kilos": [("luggage scale", 10000.0, 20.0, "", None)],
    "letter scale class III, d = 1 g": [("letter scale", None, 1.0, "III", None)],
    "the kitchen scale is good to 2 g": [("kitchen scale", None, None, "", 2.0)],
    "scale's off by 3 g at most": [("scale", None, None, "", 3.0)],
    "my scale is accurate to within 2 g": [("scale", None, None, "", 2.0)],
    "my kitchen scale reads in whole grams": [("kitchen scale", None, 1.0, "", None)],
    "kitchen scale shows tenths of a gram": [("kitchen scale", None, 0.1, "", None)],
    "the scale reads to the nearest gram": [("scale", None, 1.0, "", None)],
    "the cylinder is 100 ml, class B": [("100 mL cylinder", 100.0, None, "B", None)],
    "100ml class B cylinder": [("100 mL cylinder", 100.0, None, "B", None)],
    "my cylinders are 10, 25 and 100 ml, class A": [(f"{c} mL cylinder", float(c), None, "A", None) for c in (10, 25, 100)],
    "I own a 25 ml class A cylinder and a 100 ml class B one": [("25 mL cylinder", 25.0, None, "A", None), ("100 mL cylinder", 100.0, None, "B", None)],
    "old graduate, 100 ml, no class on it": [("100 mL graduate", 100.0, None, "", None)],
    "I measure with a 500 ml jug marked every 25 ml": [("500 mL jug", 500.0, 25.0, "", None)],
    "my 250 ml jug has lines every 25": [("250 mL jug", 250.0, 25.0, "", None)],
    "the jug has marks every 50 ml": [("jug", None, 50.0, "", None)],
    "hydrometer reads to half a percent": [("hydrometer", None, 0.5, "", None)],
    "my alcoholmeter is marked in whole percents": [("alcoholmeter", None, 1.0, "", None)],
    "kitchen scale to 3 kg, 1 g steps and a spring scale to 1 kg in 10 g steps": [
        ("kitchen scale", 3000.0, 1.0, "", None),
        ("spring scale", 1000.0, 10.0, "", None),
    ],
}


@pytest.mark.parametrize("sentence", HEARD)
def test_an_instrument_is_heard(sentence):
    reading = Session().read(sentence)
    assert [(t.name, t.capacity, t.step, t.accuracy, t.plus_minus) for t in reading.tools] == HEARD[sentence]
    assert not reading.said, "a figure of the instrument was taken for one of a batch"
    assert not reading.loose


@pytest.mark.parametrize(
    ("sentence", "per_ml", "strength"),
    [
        ("my dropper makes 34 drops a ml of 50 %", 34.0, 50.0),
        ("my dropper gives 34 drops per mL of 50 % tincture", 34.0, 50.0),
        ("i counted 38 drops to the ml with the 60% stuff", 38.0, 60.0),
        ("counted my dropper: 32 drops to the mL", 32.0, None),
    ],
)
def test_a_counted_dropper_is_heard_and_what_it_was_counted_with(sentence, per_ml, strength):
    reading = Session().read(sentence)
    assert [(t.per_ml, t.strength) for t in reading.tools] == [(per_ml, strength)]
    assert not any(s.quantity == "strength" for s in reading.said)


@pytest.mark.parametrize(
    "sentence",
    [
        "scale it up to 500 g", "can you scale it to 300 ml", "the scale says 112 g with the bag", "pour it into a 100 ml cylinder",
        "100 g dried nettle in a 500 ml jug, 1:5", "scale up to 500 g", "bottling 430 ml in 30 ml droppers. bottles?",
        "1:2 at 60 %, round it to what a 50 ml cylinder reads",
    ],
)  # fmt: skip
def test_what_only_names_an_instrument_describes_none(sentence):
    assert not Session().read(sentence).tools


@pytest.mark.parametrize(
    ("sentence", "tool"),
    [
        ("112 g fresh nettle on the spring scale, 1:2 at 60 %", "spring scale"),
        ("the spring scale says 112 g of fresh nettle, 1:2 at 60 %", "spring scale"),
        ("112 g fresh nettle, weighed with the kitchen scale, 1:2 at 60 %", "kitchen scale"),
        ("112 g fresh nettle, 1:2 at 60 %", ""),
    ],
)
def test_a_weight_keeps_the_scale_it_was_read_on(sentence, tool):
    assert [s.tool for s in Session().read(sentence).said if s.quantity == "herb"] == [tool]


@pytest.mark.parametrize(
    ("sentence", "field", "home"),
    [
        ("112 g on the spring scale, 104 g at home", 112.0, 104.0),
        ("the spring scale said 112 g, the kitchen scale 104", 112.0, 104.0),
        ("weighed 112 in the field but only 104 back home", 112.0, 104.0),
        ("at home it weighed 104 g, in the field 112 g", 112.0, 104.0),
        ("kitchen scale reads 104 g but the spring scale said 112 g", 112.0, 104.0),
    ],
)
def test_two_weights_of_one_plant(sentence, field, home):
    assert [(w.place, w.grams) for w in Session().read(sentence).weighings] == [("field", field), ("home", home)]


@pytest.mark.parametrize(
    "sentence",
    ["112 g fresh nettle, 104 g trimmed", "600 g picked, dried to 120 g at home", "112 g nettle 1:2 with 224 ml", "112 g in the jar and 104 g on the table"],
)
def test_other_pairs_of_weights_are_none(sentence):
    assert not Session().read(sentence).weighings


@pytest.mark.parametrize(
    ("sentence", "wanted", "choices"),
    [
        ("which cylinder for 12.5 ml, I have 10, 25, 50 and 100", 12.5, (10.0, 25.0, 50.0, 100.0)),
        ("for 12.5 mL from 10, 25, 50, 100 mL cylinders, which one?", 12.5, (10.0, 25.0, 50.0, 100.0)),
        ("best glass for 12.5 ml out of 10, 25, 50 and 100?", 12.5, (10.0, 25.0, 50.0, 100.0)),
        ("which of my cylinders for 37 ml", 37.0, ()),
        ("I have 10, 25, 50 and 100 ml cylinders, which one for 12.5 ml?", 12.5, (10.0, 25.0, 50.0, 100.0)),
        ("which cylinder should I use to measure 80 ml?", 80.0, ()),
        ("what cylinder do I take for 66.7 ml", 66.7, ()),
    ],
)
def test_which_glass_is_asked(sentence, wanted, choices):
    asked = Session().read(sentence).glass
    assert asked is not None
    assert (asked.millilitres, asked.choices) == (wanted, choices)


@pytest.mark.parametrize(
    ("sentence", "target", "plus_minus", "unit"),
    [
        ("I need the finish within 1 %", "finished_strength", 1.0, "percent"),
        ("can I get the finish to +/- 1 %?", "finished_strength", 1.0, "percent"),
        ("I want to know the finish to within half a percent", "finished_strength", 0.5, "percent"),
        ("the pour must be within 5 ml", "menstruum", 5.0, "mL"),
        ("how do I get the finished strength good to 1 %", "finished_strength", 1.0, "percent"),
        ("I need what is pressed out within 10 ml", "pressed", 10.0, "mL"),
    ],
)
def test_a_wished_error_is_heard(sentence, target, plus_minus, unit):
    wish = Session().read(sentence).within
    assert wish is not None
    assert (wish.target, wish.plus_minus, wish.unit) == (target, plus_minus, unit)


EXACT = (
    "how exact is that|how sure is that|how accurate is that figure|how precise is it|how much could it be out|how far off could that be|is that exact"
    "|how well do I know that|how much can I trust that|what's the error on that|what is that figure worth|plus or minus what|give or take how much|error bars"
)
MATTERS = (
    "what matters most here|what should I measure better|which measurement matters most|what counts most|where does the error come from"
    "|what's the weakest link|what would help most|what makes the biggest difference|how do I get it more exact|which figure matters most"
    "|what should I weigh more carefully|where's the biggest source of error"
)


@pytest.mark.parametrize("sentence", EXACT.split("|"))
def test_how_exact_is_asked_in_many_words(sentence):
    assert Session().read(sentence).has("exactness")


@pytest.mark.parametrize("sentence", MATTERS.split("|"))
def test_what_matters_is_asked_in_many_words(sentence):
    assert Session().read(sentence).has("matters")


@pytest.mark.parametrize("sentence", ["where is that from?", "how far off was I?", "is it safe", "what margin?"])
def test_other_questions_are_none(sentence):
    reading = Session().read(sentence)
    assert not reading.has("matters")
    assert not reading.has("exactness") or reading.has("gap") or reading.has("caution_why")


@pytest.mark.parametrize(
    ("sentence", "plus_minus", "unit"),
    [
        ("and if the weight was only ±1 g", 1.0, "g"),
        ("give or take 5 g on the weight", 5.0, "g"),
        ("the water is plus or minus 3 %", 3.0, "percent"),
        ("give or take 2", 2.0, ""),
    ],
)
def test_a_give_or_take_by_itself_is_of_a_figure_said_before(sentence, plus_minus, unit):
    alone = Session().read(sentence).slack_alone
    assert alone is not None
    assert (alone.plus_minus, alone.unit) == (plus_minus, unit)


def test_a_scale_of_which_nothing_is_told_is_heard_too():
    assert [t.name for t in Session().read("I have a kitchen scale").tools] == ["kitchen scale"]
    assert not Session().read("I have a kitchen scale and 112 g nettle").tools
    assert not Session().read("what does my kitchen scale say?").tools


def test_one_weight_with_its_place_may_be_the_second_of_two():
    again = Session().read("it weighs 104 at home now").weighed_again
    assert again is not None
    assert (again.grams, again.place) == (104.0, "home")
    assert Session().read("it weighs 104 g").weighed_again is None


@pytest.mark.parametrize(
    "sentence",
    [
        "kitchen scale and spring scale disagree: 104 g and 112 g",
        "112 on the spring scale but the kitchen scale says 104, which do i believe?",
    ],
)
def test_two_weights_in_other_orders(sentence):
    assert [(w.place, w.grams) for w in Session().read(sentence).weighings] == [("field", 112.0), ("home", 104.0)]


def test_a_count_of_cylinders_is_no_capacity():
    assert [t.capacity for t in Session().read("I've got three cylinders, 25, 100 and 250 ml").tools] == [25.0, 100.0, 250.0]
    assert [t.capacity for t in Session().read("graduated cylinder class A 250").tools] == [250.0]
