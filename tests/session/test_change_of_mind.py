"""A change of mind behind a plan: another spirit, a figure taken back, less than was wanted. Figures by hand."""

from __future__ import annotations

from datetime import date

import pytest

from tests.session.talking import talk, value

YARROW = "85 g dried yarrow 1:5 at 50 % from 96 %"


@pytest.mark.parametrize(
    "said",
    [
        "what if i use 40% vodka",
        "use brandy at 40 instead",
        "ive only vodka, 40",
        "suppose it's 40 % brandy",
        "and with vodka of 40",
        "what if I poured 40 % vodka",
        "no, 40% rum",
    ],
)
def test_a_spirit_too_weak_to_be_let_down_is_poured_as_it_is(said):
    session, reply = talk(YARROW, said)
    assert (session.batch.facts["strength"].value, session.batch.facts["stock_strength"].value) == (40, 40)
    assert value(reply, "menstruum") == pytest.approx(425)
    assert value(reply, "stock") == pytest.approx(425)


@pytest.mark.parametrize("said", ["and with 60 % vodka", "what if it's 60 % spirit", "brandy of 60 instead"])
def test_a_stronger_spirit_is_let_down_as_before(said):
    session, reply = talk(YARROW, said)
    assert session.batch.facts["strength"].value == 50
    assert value(reply, "stock") == pytest.approx(425 * 50 / 60)


@pytest.mark.parametrize("said", ["and back to the 96", "no back to 96", "go back to the 96", "the 96 again", "put the 96 back", "nah, stick with the 96"])
def test_what_was_let_go_is_taken_again_with_what_went_with_it(said):
    session, reply = talk(YARROW, "what if i use 40% vodka", said)
    assert session.batch.facts["herb"].value == 85
    assert value(reply, "stock") == pytest.approx(425 * 50 / 96)


@pytest.mark.parametrize(
    ("changed", "said", "key", "figure"),
    [
        ("make it 60", "no back to 50", "strength", 50),
        ("and 120 g", "the 85 again", "herb", 85),
        ("what if 1:4", "put the 1:5 back", "ratio", 5),
        ("only have 90", "oh no go back to 96", "stock_strength", 96),
        ("at 45", "nah stick with the 50", "strength", 50),
    ],
)
def test_one_figure_goes_back_alone(changed, said, key, figure):
    session, _ = talk(YARROW, changed, said)
    assert session.batch.facts[key].value == figure
    assert {k: f.value for k, f in session.batch.facts.items()} == {"herb": 85, "ratio": 5, "strength": 50, "stock_strength": 96}


@pytest.mark.parametrize(
    "said",
    [
        "got only 1.1 litre, how much nettle will that do",
        "i've only 1100 ml, how much nettle does that cover",
        "only 1.1 l left how many grams of nettle is that good for",
        "just 1.1 litres here. how much herb then",
    ],
)
@pytest.mark.parametrize("plan", ["640 g fresh nettle 1:2, at 60 %, how much to pour", "640 g nettle 1:2"])
def test_what_there_is_to_pour_serves_so_much_plant(plan, said):
    _, reply = talk(plan, said)
    assert "550 g" in reply.text.split("\n")[0]


@pytest.mark.parametrize(
    ("said", "pint"), [("sorry imperial pints", 568.261), ("imperial pint, sorry", 568.261), ("no, uk pints", 568.261), ("it's british pints", 568.261)]
)
def test_a_measure_is_of_the_other_country_after_all(said, pint):
    _, reply = talk("2 pints at 40 from 96 %, how much spirit", said)
    assert value(reply, "stock") == pytest.approx(2 * pint * 40 / 96, rel=1e-3)
    _, reply = talk("2 pints at 40 from 96 %, how much spirit", said, "no US pints after all")
    assert value(reply, "stock") == pytest.approx(2 * 473.176 * 40 / 96, rel=1e-3)


@pytest.mark.parametrize(
    ("said", "left"),
    [
        ("i lost 1400 ml pressing, what is left", 1100),
        ("lost 1400 ml when i pressed it, what have i got", 1100),
        ("1400 ml got lost squeezing it", 1100),
        ("the cloth kept 1400 ml, what did i get out", 1100),
        ("1.4 l stayed in the marc, how much have i got", 1100),
        ("1400 ml soaked up by the muslin", 1100),
    ],
)
def test_what_was_lost_in_pressing_was_not_poured(said, left):
    session, reply = talk("500 g dried yarrow 1:5 at 50", said)
    assert value(reply, "pressed") == pytest.approx(left)
    assert session.batch.facts["herb"].value == 500
    _, reply = talk("500 g dried yarrow 1:5 at 50", said, "and another 60 ml filtering")
    assert value(reply, "racked") == pytest.approx(left - 60)


@pytest.mark.parametrize("said", ["spilt 50 ml", "knocked over the jug, 50 ml on the floor", "50 ml went down the sink, what have i got", "i spilled 50 ml"])
def test_what_was_spilt_is_lost_of_what_was_pressed(said):
    _, reply = talk("500 g dried yarrow 1:5 at 50, pressed by hand", said)
    assert value(reply, "racked") == pytest.approx(950)


@pytest.mark.parametrize(
    ("said", "day"),
    [
        (("started on the 3rd of march, steep 4 weeks, when do i press",), (3, 31)),
        (("started on the 3rd of march, steep 4 weeks, when do i press", "make it six weeks"), (4, 14)),
        (("started on the 3rd of march, steep 4 weeks, when do i press", "and if i start on the 10th instead"), (4, 7)),
        (("started it march 3, steep 6 weeks", "no, the 12th"), (4, 23)),
        (("started on the 3rd of march, when to press", "5 weeks"), (4, 7)),
        (("400 g fresh nettle 1:2 at 60 %", "started on the 3rd of march, 6 weeks"), (4, 14)),
        (("put up on 1 june, 30 days in the jar, press when?", "what if put up on the 4th"), (7, 4)),
        (("jarred it 3 march, six weeks. when do i strain",), (4, 14)),
    ],
)
def test_a_jar_begun_on_a_day_is_pressed_so_long_after(said, day):
    _, reply = talk(*said)
    found = next(date.fromisoformat(v.date) for v in reply.values if v.quantity == "press_by" and v.date)
    assert (found.month, found.day) == day
    assert "What is" not in reply.text


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("and in pints", "1.92 pints"),
        ("in pints?", "1.92 pints"),
        ("how many pints is that", "1.92 pints"),
        ("what's that in cups", "3.83 cups"),
        ("so how many cups", "3.83 cups"),
        ("in litres please", "0.91 L"),
        ("how many quarts would that be", "0.96 quarts"),
    ],
)
def test_a_measure_asked_for_is_no_vessel(said, told):
    session, reply = talk("8 oz dried elderberry 1:4, how much vodka", said)
    assert f"907 mL ({told})" in reply.text
    assert session.batch.facts.keys() == {"herb", "ratio"}


def test_how_many_of_a_measure_is_told_in_it():
    assert "907 mL (3.83 cups)" in talk("8 oz dried elderberry 1:4, how many cups of vodka")[1].text
    assert "2268 mL (2.4 quarts)" in talk("1 lb dried root 1:5 how many quarts of menstruum")[1].text


def test_a_vessel_stays_one():
    assert value(talk("2 litres of tincture into pint jars", "and in quarts")[1], "jars") == 3


@pytest.mark.parametrize(
    ("said", "made", "spirit"),
    [
        ("tincture is at 48, 380 ml, need it 30, how much water", 608, 380),
        ("my tincture came out at 52, 600 ml of it, want it at 40, how much water", 780, 600),
        ("got brandy at 45, 500 ml. get it down to 30", 750, 500),
        ("its at 60, 200 ml, want it 40, how much water", 300, 200),
    ],
)
def test_all_of_what_there_is_is_brought_down(said, made, spirit):
    _, reply = talk(said)
    assert value(reply, "menstruum") == pytest.approx(made)
    assert value(reply, "stock") == pytest.approx(spirit)


@pytest.mark.parametrize(
    "said",
    [
        "what will the jar end at with 70 %",
        "where does it finish if i pour 70",
        "how strong will it get with 70 %",
        "what strength does it end up using 70",
        "what does it come to with 70%",
    ],
)
def test_what_a_jar_ends_at_with_a_pour_is_asked_and_not_told(said):
    session, reply = talk("300 g fresh nettle at 80 % water 1:2", said)
    assert session.batch.facts["strength"].value == 70
    assert value(reply, "finished_strength") == pytest.approx(50.6, abs=0.1)


BOTTLED = "i want 12 bottles of 50 ml, dried echinacea 1:5, pressed by hand, how much root"


@pytest.mark.parametrize(
    ("said", "herb"),
    [
        (("make that 30 ml bottles",), 180),
        (("and 20 of them",), 500),
        (("make that 30 ml bottles", "and 20 of them"), 300),
        (("make that 30 ml bottles", "no 15"), 225),
        (("only 6 bottles",), 150),
        (("no, 100 ml bottles",), 600),
    ],
)
def test_other_bottles_take_as_much_plant_as_they_hold(said, herb):
    _, reply = talk(BOTTLED, *said)
    assert value(reply, "herb") == pytest.approx(herb)  # pressed by hand 2 mL of 5 come back


NETTLE_THEN_THYME = ("240 g fresh nettle 1:2 at 60 from 95", "the same for the thyme, 180 g")


@pytest.mark.parametrize("said", ["which of the two takes more spirit", "of the two which needs more water", "which of those two is stronger"])
def test_the_two_are_plans_and_no_strength(said):
    session, reply = talk(*NETTLE_THEN_THYME, said)
    assert "2 %" not in reply.text.replace("43.2 %", "")
    assert all(plan.facts["stock_strength"].value == 95 for plan in session.batches.all())


@pytest.mark.parametrize(
    ("said", "quantity", "total"),
    [
        ("how much spirit for both", "stock", (480 + 360) * 60 / 95),
        ("menstruum altogether?", "menstruum", 840),
        ("what's the spirit in total", "stock", (480 + 360) * 60 / 95),
        ("how much menstruum for the two", "menstruum", 840),
        ("how much spirit for both together, from 96", "stock", 840 * 60 / 96),
    ],
)
def test_what_two_plans_take_together(said, quantity, total):
    _, reply = talk(*NETTLE_THEN_THYME, said)
    assert value(reply, quantity) == pytest.approx(total)


@pytest.mark.parametrize("said", ["do the mugwort too, 90 g", "also mugwort, 90 g", "90 g mugwort as well"])
def test_another_plant_is_done_the_same(said):
    _, reply = talk("150 g dried hops 1:5 at 60 %", said)
    assert value(reply, "menstruum") == pytest.approx(450)


def test_less_than_planned_is_told_as_less():
    assert talk("planned 500 g 1:5, got 430 g of dried yarrow", "how much less spirit")[1].text.startswith("350 mL less than planned.")


@pytest.mark.parametrize(
    ("said", "herb"),
    [
        ("i've a 2 l demijohn, dried root 1:5, how much root fits", 2000 / 5.7),
        ("how much dried yarrow fits a 2 L jar at 1:5", 2000 / 5.7),
        ("i have a 2 l jar, how much dried yarrow at 1:5 can i get in it", 2000 / 5.7),
        ("a 5 litre demijohn and fresh nettle 1:2, how many grams can i get in", 5000 / 3),
        ("3 l carboy, dried sage 1:4, how much sage can it take", 3000 / 4.7),
    ],
)
def test_so_much_plant_fits_a_vessel_with_its_room(said, herb):
    assert value(talk(said)[1], "herb") == pytest.approx(herb)


@pytest.mark.parametrize(
    ("recipe", "said", "grams"),
    [
        ("tea of 3 parts peppermint, 2 parts nettle, 1 part ginger, 600 g", "two parts mint actually", {"peppermint": 240, "nettle": 240, "ginger": 120}),
        ("2 parts peppermint 1 part sage, 300 g tea", "make the mint 3 parts", {"peppermint": 225, "sage": 75}),
        ("2 parts chamomile 1 part spearmint, 300 g tea", "no, 2 parts mint", {"chamomile": 150, "spearmint": 150}),
    ],
)
def test_the_name_of_a_kind_is_the_plant_in_hand(recipe, said, grams):
    _, reply = talk(recipe, said)
    assert {v.about: v.value for v in reply.values if v.quantity == "weight"} == pytest.approx(grams)


@pytest.mark.parametrize(
    ("plan", "said", "strength"),
    [
        ("100 g dried comfrey 1:5 in oil", "no in vodka 40 %", 40),
        ("100 g dried calendula 1:5 in oil", "what about in brandy, 38 %", 38),
        ("100 g dried sage 1:5 in vinegar", "no, use vodka instead, 45%", 45),
        ("100 g dried mullein 1:5 in oil", "sorry with 60 % alcohol", 60),
        ("100 g dried mullein 1:5 in oil", "no, with 60 % alcohol from 96", 60),
    ],
)
def test_a_plant_that_stood_in_oil_stands_in_spirit(plan, said, strength):
    session, reply = talk(plan, said)
    assert reply.text.startswith(f"Pour 500 mL at {strength} % on 100 g")
    assert not session.batch.frames & {"oil", "vinegar"}


def test_what_was_pressed_is_held_against_no_pour():
    assert talk("600 g fresh nettle 1:2", "i pressed out 1.3 l, is that right")[1].status == "asking"
    assert talk("600 g fresh nettle 1:2 at 60", "i pressed out 1.3 l, is that right")[1].text.startswith("Yes: about 1306 mL pressed out.")


@pytest.mark.parametrize("said", ["wilted down to 160", "it was wilted, it weighs 160 now", "it wilted overnight, 160 g now", "its wilted, 160 g"])
def test_a_plant_that_wilted_has_two_weights(said):
    session, reply = talk("200 g fresh lemon balm, 1:2 at 60", said)
    assert reply.status == "asking"
    assert "200 g before wilting, or 160 g after" in reply.text
    assert value(session.say("after"), "menstruum") == pytest.approx(320)
    assert session.batch.facts["water_content"].value == pytest.approx((1 - 200 * 0.185 / 160) * 100)


@pytest.mark.parametrize("said", ["and how much dry would 5 kg give", "what would 5 kg dry to", "5 kg, how much dried is that"])
def test_another_lot_dries_as_the_first_did(said):
    assert value(talk("dried 2.2 kg of peppermint to 410 g, what was the water", said)[1], "dried") == pytest.approx(5000 * 410 / 2200)


@pytest.mark.parametrize(("said", "herb"), [("i lose 15 % drying it first", 255), ("loses 78 % when dried, dry it first", 66)])
def test_what_is_dried_first_goes_in_dried(said, herb):
    _, reply = talk("300 g thyme 1:5 at 45 %", said)
    assert value(reply, "menstruum") == pytest.approx(5 * herb)


@pytest.mark.parametrize(
    ("plan", "said", "told"),
    [
        ("200 g nettle 1:5, at 50 %", "are they dried?", "Nothing was said of that"),
        ("200 g dried nettle 1:5", "are they dried", "Yes: the nettle is taken as dried."),
        ("200 g dried nettle 1:5", "is it fresh or dried?", "The nettle is taken as dried."),
        ("200 g fresh nettle 1:2", "wait, is that dried", "No: the nettle is taken as fresh."),
    ],
)
def test_a_state_that_is_asked_for_is_not_told(plan, said, told):
    session, reply = talk(plan, said)
    assert reply.text.startswith(told)
    assert session.batch.tags & {"fresh", "dried"} == session.firsts[0].tags & {"fresh", "dried"}


def test_the_state_asked_back_is_answered():
    assert talk("200 g nettle 1:5, at 50 %", "are they dried?", "yes dried")[1].status == "answered"


def test_without_what_ran_short_the_whole_is_made_again():
    _, reply = talk("tea of 3 parts peppermint, 2 parts nettle, 1 part ginger, 600 g in all", "i have only 50 g ginger", "skip the ginger")
    assert {v.about: v.value for v in reply.values if v.quantity == "weight"} == pytest.approx({"peppermint": 360, "nettle": 240})


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("521 ml spirit and 511 ml water, is that right", ("Yes: 521 mL of the stock.", "Yes: 511 mL of water.")),
        ("i make that 480 ml vodka and 520 ml water, correct?", ("No: 521 mL of the stock, not 480 mL.", "No: 511 mL of water, not 520 mL.")),
        ("260 ml spirit and 190 water is what i make it, right?", ("No: 521 mL of the stock, not 260 mL.", "No: 511 mL of water, not 190 mL.")),
        ("i get 521 spirit and 479 water, is that right?", ("Yes: 521 mL of the stock.", "No: 511 mL of water, not 479 mL.")),
    ],
)
def test_spirit_and_water_claimed_together_are_both_looked_at(said, told):
    session, reply = talk("200 g yarrow dried 1:5 at 50, from 96", said)
    assert all(line in reply.text for line in told)
    assert session.batch.facts.keys() == {"herb", "ratio", "strength", "stock_strength"}


@pytest.mark.parametrize(("said", "each"), [("split it over 4 jars", 325), ("share that between 4 jars", 325), ("over 5 jars", 260)])
def test_a_plan_over_so_many_jars(said, each):
    assert value(talk("650 g fresh nettle 1:2", said)[1], "in_each") == pytest.approx(each)
    assert value(talk("650 g fresh nettle 1:2", said, "make it 2")[1], "in_each") == pytest.approx(650)


@pytest.mark.parametrize("said", ["the other one is 600 g burdock root at 70", "and 600 g burdock root at 70 %", "then 600 g burdock, 70"])
def test_a_percent_behind_a_water_content_is_water(said):
    session, _ = talk("1 kg fresh dandelion root, 75 % water", "what's that dry", said)
    assert value(session.say("and that dry?"), "dried") == pytest.approx(200)
    assert "strength" not in session.batch.facts


def test_which_is_stronger_of_two_ratios_goes_by_the_herb():
    _, reply = talk("compare 200 g dried sage at 1:4 with 1:5", "which is stronger")
    assert [v.value for v in reply.values if v.quantity == "herb_per_ml"][:2] == [0.25, 0.2]


def test_several_vessels_of_one_size():
    assert value(talk("two demijohns of 5 l, fresh nettle 1:2, how many kilos fit")[1], "herb") == pytest.approx(10000 / 3)


@pytest.mark.parametrize(
    ("said", "racked"),
    [(("lost 2 % filtering", "15 ml stuck in the filter"), 385), (("15 ml stuck in the filter", "no, i lose 2 % filtering"), 392)],
)
def test_one_loss_in_filtering_takes_the_place_of_the_other(said, racked):
    _, reply = talk("200 g dried root 1:4 at 50, pressed in a ricer", *said)
    assert value(reply, "racked") == pytest.approx(racked)


@pytest.mark.parametrize(
    "said",
    [
        "400 g fresh nettle 1:2 at 60 from 95, enough with 300 ml?",
        "400 g fresh nettle 1:2 at 60 from 95, will 300 ml do it?",
        "fresh nettle 400 g 1:2 at 60 from 95. does 300 ml reach",
    ],
)
def test_what_is_asked_to_be_enough_is_what_there_is(said):
    session, reply = talk(said)
    assert session.batch.facts["spirit_in_hand"].value == 300
    assert value(reply, "herb_served") == pytest.approx(300 * 95 / 60 / 2)


def test_altogether_once_more():
    _, reply = talk(*NETTLE_THEN_THYME, "how much menstruum for both", "make the thyme 200", "and altogether now")
    assert value(reply, "menstruum") == pytest.approx(880)
