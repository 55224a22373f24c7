"""Alligation: what the handbooks get by simple parts, and what the same mix is when the shrinkage is counted."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from assistant import Session
from assistant.reply import breaches
from assistant.teaching.crosswise import linked_parts
from tests.published.bench import found, mixed, two_lots
from tests.published.reading import published, questions

ANSWERS = {
    "strength of a mix by simple parts": lambda parts, strengths: mixed(parts, strengths, shrinks=False)[1],
    "parts of two lots": lambda strong, weak, wanted: two_lots(strong, weak, strong - weak, wanted, shrinks=False),
    "volumes of two lots": lambda strong, weak, made, wanted: two_lots(strong, weak, made, wanted, shrinks=False),
    "water by simple parts": lambda volume, had, wanted: two_lots(had, 0, volume * had / wanted, wanted, shrinks=False)[1],
    "water to add": lambda volume, had, wanted: found("water", "spirit", {"stock": volume, "stock_strength": had, "strength": wanted}),
}


@published("alligation")
def test_alligation(check):
    check.holds(ANSWERS[check.asks](*check.given))


def test_every_question_about_alligation_has_an_answer():
    assert questions("alligation") == set(ANSWERS)


def test_simple_parts_are_the_approximation_they_are_called():
    # 50 parts of 95 % and 45 of water are meant to give 50 %: by weight they give more, because the mix is smaller than its parts.
    assert mixed([50, 45], [95, 0], shrinks=False)[1] == 50
    assert round(mixed([50, 45], [95, 0], shrinks=True)[1], 1) == 51.5


@pytest.mark.parametrize(
    ("strengths", "wanted", "parts"),
    [
        # The handbook's own split of the three lots is 1, 1, 10; linked pair by pair it is 5, 5 and 50, the same to the drop.
        ((50, 20, 5), 10, {50: 5, 20: 5, 5: 50}),
        # Worked by hand: 10 with 5 is 3 to 2, 10 with 6 is 2 to 2.
        ((5, 6, 10), 8, {10: 5, 6: 2, 5: 2}),
    ],
)
def test_three_lots_linked_pair_by_pair(strengths, wanted, parts):
    assert {s: sum(p) for s, p in linked_parts(strengths, wanted).items()} == parts


@given(st.lists(st.integers(0, 100), min_size=2, max_size=7, unique=True), st.floats(0.5, 99.5))
def test_linked_parts_make_what_is_wanted(strengths, wanted):
    assume(min(strengths) < wanted < max(strengths))
    parts = {s: sum(p) for s, p in linked_parts(strengths, wanted).items()}
    assert set(parts) == {s for s in strengths if s != wanted}
    assert sum(s * p for s, p in parts.items()) / sum(parts.values()) == pytest.approx(wanted)


def test_nothing_is_linked_where_the_wanted_lies_outside():
    with pytest.raises(ValueError, match="between"):
        linked_parts((95, 70), 60)


@pytest.mark.parametrize(
    ("said", "parts"),
    [
        ("how do I get 60 from 95, 70 and 40 by alligation", {"95 %": 20, "70 %": 20, "40 %": 45}),
        ("alligation with 95, 50 and 30 to make 60", {"95 %": 40, "50 %": 35, "30 %": 35}),
        ("in what parts do I mix 95 %, 70 % and 40 % spirit to get 60 %", {"95 %": 20, "70 %": 20, "40 %": 45}),
        ("draw the alligation square for 95, 70 and 40 to make 60", {"95 %": 20, "70 %": 20, "40 %": 45}),
        ("three spirits of 95, 60 and 40 percent, how many parts of each for 50 percent", {"95 %": 10, "60 %": 10, "40 %": 55}),
        ("alligation for 95, 75, 40 and 20 to get 50", {"95 %": 30, "75 %": 10, "40 %": 25, "20 %": 45}),
    ],
)
def test_three_lots_in_conversation(said, parts):
    reply = Session().say(said)
    assert {v.about: v.value for v in reply.values if v.quantity == "part"} == parts
    assert not list(breaches(reply))


def test_what_no_mix_makes_is_refused_with_the_reason():
    reply = Session().say("alligation with 95, 80 and 70 to make 60")
    assert reply.status == "refused"
    assert "between 70 and 95" in reply.text
