"""What is to come out of the press told as the end of it, and a jar that is no recipe."""

from __future__ import annotations

import pytest

from tests.session.talking import talk, value


@pytest.mark.parametrize(
    ("said", "herb"),
    [
        ("need to end up with 600 ml of thyme tincture, dried, 1:4", 600),
        ("need 350 ml of motherwort tincture pressed out, dried 1:5, how much herb", 175),
        ("need 350 ml tincture to bottle, dried motherwort 1:5, how much herb", 175),
        ("end up with 1 l of dried nettle tincture at 1:5, how much nettle and spirit", 500),
        ("aiming for 350 ml when it's pressed, dried sage 1:5, how much sage", 175),
    ],
)
def test_the_plant_for_what_is_pressed(said, herb):
    """Squeezed by hand the marc keeps 3 mL a gram: 1:5 gives 2 mL a gram, 1:4 gives 1."""
    session, reply = talk(said)
    assert value(reply, "herb") == pytest.approx(herb)
    assert not session.batch.members


def test_so_much_of_a_strength_is_no_press():
    session, _ = talk("i want to end up with 500 ml of 60% from 95")
    assert session.batch.facts["menstruum"].value == 500


def test_what_is_still_wanting_is_asked_for_and_water_is_no_answer_to_it():
    session, reply = talk("i want a litre of finished echinacea tincture, fresh, 1:2, how much root do i dig")
    assert [q.wants for q in reply.questions] == [("strength",)]
    reply = session.say("its about 70% water")
    assert session.batch.facts["water_content"].value == 70
    assert "strength" not in session.batch.facts
    assert reply.status == "asking"
    assert value(session.say("poured at 70"), "to_gather") == pytest.approx(565, rel=2e-3)


@pytest.mark.parametrize("said", ["1:3 fresh elder 80% water at 70, 300 g", "300 g fresh elder 80% water 1:3 at 70", "fresh elder 80% water, 300 g, 1:3 at 70"])
def test_a_plants_water_is_no_share_of_a_recipe(said):
    session, _ = talk(said)
    told = {k: f.value for k, f in session.batch.facts.items()}
    assert told == {"ratio": 3, "water_content": 80, "strength": 70, "herb": 300}
