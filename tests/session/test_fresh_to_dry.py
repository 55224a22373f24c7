"""So many to one of a plant that dries, with a dry weight wanted."""

from __future__ import annotations

import pytest

from tests.session.talking import talk, value


@pytest.mark.parametrize(
    ("said", "gathered"),
    [
        ("plantain leaf 6 to 1, 500 g dry. pick?", 3450),
        ("nettles 5:1, need 300 g dried, how much to pick", 1725),
        ("elderflower goes 6 to 1, what do i pick for 250 dry", 1725),
        ("plantain leaf 6 to 1, pick for 500 g dried", 3450),
        ("250 g dried yarrow wanted, 4 to 1 fresh to dry, gather?", 1150),
        ("burdock root 4 to 1, want 600 g dry, dig how much", 2400),
    ],
)
def test_the_fresh_plant_for_a_dry_weight(said, gathered):
    session, reply = talk(said)
    assert value(reply, "to_gather") == pytest.approx(gathered)
    assert "ratio" not in session.batch.facts


def test_another_plant_and_another_ratio_follow():
    _, reply = talk("burdock root dries 4 to 1. want 600g dry, dig how much", "plantain leaf 6 to 1, 500 g dry. pick?")
    assert value(reply, "to_gather") == pytest.approx(3450)
    _, reply = talk("plantain leaf 6 to 1, 500 g dry. pick?", "and at 5 to 1?")
    assert value(reply, "to_gather") == pytest.approx(2875)


def test_how_much_of_the_fresh_is_left():
    _, reply = talk("2 kg nettles at 5 to 1, how much dry")
    assert value(reply, "dried") == pytest.approx(400)


@pytest.mark.parametrize("said", ["100 g dried thyme 1:5 at 40", "200 g fresh nettle 2:1 at 40"])
def test_a_ratio_of_a_jar_stays_one(said):
    session, _ = talk(said)
    assert "drying_ratio" not in session.batch.facts
