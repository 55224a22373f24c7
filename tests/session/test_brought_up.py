"""Too weak and brought up; water put to a mixture; weights laid together; the plant behind a dose; what a fresh plant dries to."""

from __future__ import annotations

import pytest

from tests.session.talking import talk, value


@pytest.mark.parametrize(
    "said",
    [
        "tincture came out at 41, wanted 45, 820 ml, add how much 95",
        "820 ml came out at 41, want 45, how much 95 to add",
        "my yarrow's come out 41 %, 820 ml of it. how much 95 to bring it to 45",
        "want 45, have 820 ml of 41, how much 95 do I add",
        "how much 95 do i add to 820 ml of 41 to get it up to 45",
    ],
)
def test_the_weak_one_is_there_and_the_strong_one_is_added(said):
    """By mass: 63.2 mL; by volumes alone it would be 820 × 4 / 50 = 65.6."""
    _, reply = talk(said)
    assert {v.about: v.value for v in reply.values if v.quantity == "volume"}["95 %"] == pytest.approx(63.2, abs=0.1)
    assert reply.text.startswith("95 % 63.2 mL")


def test_two_spirits_for_a_whole_are_both_looked_for():
    _, reply = talk("mix my 95 and the 40 brandy to get 750 mL of 60. how much of each")
    assert reply.text.startswith("95 % 267 mL, 40 % 491 mL")


@pytest.mark.parametrize("said", ["and if i top it to a litre with water", "topped up to 1 L with water, how strong", "made up to a litre with water"])
def test_a_mixture_topped_up_with_water(said):
    _, reply = talk("mixing 200 of 40 with 300 of 95 what do i get", said)
    assert value(reply, "blend_strength") == pytest.approx(36.5, abs=0.01)


def test_water_added_to_a_mixture():
    _, reply = talk("mixing 200 of 40 with 300 of 95 what do i get", "add 300 water")
    assert value(reply, "blend_strength") == pytest.approx(46.7, abs=0.1)


@pytest.mark.parametrize(
    ("said", "herb"),
    [
        ("picked 400 g nettle this morning and 260 g tonight, all of it 1:2", 660),
        ("two jars, 400 g and 260 g of plantain, both 1:2 at 75, how much spirit in all", 660),
        ("got 300 g and 450 g of fresh elder, 1:2 at 60", 750),
        ("picked 300 g, then another 200 g, fresh elder 80% water, 1:2", 500),
    ],
)
def test_weights_of_one_plant_in_a_row(said, herb):
    _, reply = talk(said)
    assert value(reply, "menstruum") == pytest.approx(2 * herb)


@pytest.mark.parametrize("said", ["300 g fresh elder and 100 g dried elder 1:5", "340 g gross and 90 g the tray", "2.6 kg fresh gave 500 g dried, water?"])
def test_weights_of_two_kinds_stay_apart(said):
    session, _ = talk(said)
    assert session.batch.facts.get("herb") is None or session.batch.facts["herb"].value in (300, 2600)


@pytest.mark.parametrize(
    ("said", "grams"),
    [
        ("60 drops of a 1:3 how much herb is that", 1),
        ("60 drops of 1:3 tincture, how many grams of plant", 1),
        ("5 ml of 1:5 how much herb", 1),
        ("a teaspoon of 1:4, how much plant is that", 1.25),
        ("how much root is in 2 ml of a 1:5", 0.4),
    ],
)
def test_the_plant_behind_so_much_of_a_tincture(said, grams):
    _, reply = talk(said)
    got = [v.value for v in reply.values if v.quantity in ("herb_per_dose", "herb")]
    assert got[0] == pytest.approx(grams)


@pytest.mark.parametrize(
    ("said", "dried"),
    [
        ("cut 5 kg nettles, stems are about a third, leaf is 83% water. how much dry leaf", 629.6),
        ("gathered 5 kg nettles, a third stalk, 83 % water, how much dried leaf", 629.6),
        ("two baskets, 1.2 kg and 800 g nettle, 82 % water, dried?", 400),
        ("1.5 kg then 700 g more elder, what does it dry to at 85 % water", 366.7),
    ],
)
def test_what_the_fresh_plant_dries_to(said, dried):
    _, reply = talk(said)
    assert value(reply, "dried") == pytest.approx(dried, abs=0.1)


def test_little_water_is_the_dried_plants():
    session, reply = talk("2 kg fresh elder 80% water, dry weight", "at 8 % moisture")
    assert session.batch.facts["water_content"].value == 80
    assert value(reply, "dried") == pytest.approx(2000 * 0.2 / 0.92)


@pytest.mark.parametrize("asked", ["shrinks to what", "what does it shrink to"])
def test_what_the_jar_shrinks_to(asked):
    _, reply = talk("340 g fresh yarrow, 74 % water, 1:3 at 65", asked)
    assert "1262 mL" in reply.text.split("\n")[0]


@pytest.mark.parametrize(
    ("said", "herb"),
    [
        ("picked 3 bags of elderflower 240 g each, 82 water, what do they dry to", 720),
        ("2 baskets of nettle 800 g each, 82 % water, dry weight", 1600),
        ("3 sacks of elder at 1.2 kg each 82 % water what does it dry to", 3600),
        ("got two trugs of elder, 600 g each, 1:2 at 70", 1200),
    ],
)
def test_so_many_bags_of_so_much_each(said, herb):
    session, _ = talk(said)
    assert session.batch.facts["herb"].value == pytest.approx(herb)
    assert not session.batch.facts.keys() & {"bags", "tin_weight", "per_plant"}


def test_packets_of_a_tea_stay_packets():
    session, _ = talk("12 packets of 100 g tea, 5 lemon balm 3 lime 1 yarrow")
    assert session.batch.facts["bags"].value == 12


@pytest.mark.parametrize(("share", "herb"), [("half of that", 360), ("a third of it", 240)])
def test_a_share_of_the_plant_goes_into_the_jar(share, herb):
    session, _ = talk("picked 720 g fresh elder, 82 % water", f"{share} in a jar 1:3 with 70")
    assert session.batch.facts["herb"].value == pytest.approx(herb)


def test_what_is_spoken_for_is_no_strength():
    session, reply = talk("720 g fresh elder, 82 % water, 1:3 at 70 from 96", "100 ml bottles, 3 spoken for already")
    assert (session.batch.facts["stock_strength"].value, session.batch.facts["strength"].value) == (96, 70)
    assert any("3" in q.text for q in reply.questions)
