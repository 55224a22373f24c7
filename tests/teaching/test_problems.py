"""Problems have readable figures and one answer, and come back rightly when they are spoken to a fresh conversation."""

import random

import pytest

from assistant import Session
from assistant.quantities.vocabulary import about, base
from assistant.relations import RELATIONS, Relation
from assistant.teaching import problems as making
from assistant.teaching.practice import ALSO_CALLED, LEVELS, _texts, hint, in_words, level_of, room_of, set_one, set_problems, topic
from assistant.teaching.problems import MOST_DIGITS, as_said, directions, problem, says_nothing
from assistant.teaching.sheets import answer_of, worksheet

PRACTISED = [r for r in RELATIONS if not says_nothing(r)]


def hears(text, key):
    reply = Session().say(text)
    called = {base(key), ALSO_CALLED.get(base(key), "")}
    return next(
        (v.value for v in reply.values if v.quantity in called and v.about == about(key) and v.value is not None and v.origin == "found"), None
    )


@pytest.mark.parametrize("relation", PRACTISED, ids=lambda r: r.name)
def test_every_relation_can_be_practised_and_is_heard_back(relation):
    """A relation is practicable the day it is added: at least one direction makes a problem that a fresh conversation answers with the key."""
    found = [made for asked in directions(relation) for draw in range(2) if (made := set_one(relation, asked, draw, hears)) is not None]
    assert found
    for made in found:
        assert hears(made.text, made.asked) == pytest.approx(made.answer, rel=1e-6)
        for key, value in made.given:
            assert len(f"{value:.10g}".replace(".", "").strip("0")) <= MOST_DIGITS
            assert as_said(key, value) == pytest.approx(value)


def test_what_is_set_comes_back_through_a_fresh_conversation():
    set_ = [made for draw in range(1, 8) for level in LEVELS for made in set_problems(10, draw, hears, level=level)]
    assert len(set_) >= 200
    for made in set_:
        reply = Session().say(made.text)
        assert reply.status == "answered", made.text
        assert hears(made.text, made.asked) == pytest.approx(made.answer, rel=1e-6), made.text


def test_a_problem_has_exactly_one_answer():
    dice = random.Random(3)
    for _ in range(80):
        relation = dice.choice(PRACTISED)
        asked = dice.choice(directions(relation))
        made = problem(relation, asked, dice.randrange(1000))
        if made is None:
            continue
        solution = made.case.solved((asked,))
        assert solution.figures[asked].origin == "found"
        assert (solution.conflicts, solution.unreached, solution.impossible) == ((), (), ())
        assert made.asked not in dict(made.given)


def test_a_relation_written_a_minute_ago_is_practicable(monkeypatch):
    new = Relation("leaf a basket", "gathered_weight = plants_taken * per_plant * drying_ratio", "A toy.", "none", "common practice")
    made = problem(new, "per_plant", 1, (new,))
    assert made is not None
    assert made.text.startswith("Given: ")
    assert made.text.endswith("Find: grams a plant.")
    assert making.directions(new) == ("gathered_weight", "plants_taken", "per_plant", "drying_ratio")


def test_the_same_draw_gives_the_same_problems():
    one, other, third = set_problems(5, 4, hears, "drying"), set_problems(5, 4, hears, "drying"), set_problems(5, 5, hears, "drying")
    assert [p.text for p in one] == [p.text for p in other]
    assert [p.text for p in one] != [p.text for p in third]
    assert all(room_of(next(r for r in RELATIONS if r.name == p.relation)) == "drying" for p in one)


@pytest.mark.parametrize(
    ("words", "room"), [("ten on dilution please", "dilution"), ("quiz me on doses", "dosing"), ("salves", "recipes"), ("anything", "")]
)
def test_a_topic_is_a_room(words, room):
    assert topic(words.split()) == room


def test_levels_differ():
    by_name = {r.name: r for r in RELATIONS}
    assert level_of(by_name["ratio"], "menstruum") == "easy"
    assert level_of(by_name["ratio"], "herb") == "middling"
    assert level_of(by_name["water to add"], "water") == "hard"


def test_every_text_of_the_file_makes_a_problem():
    by_name = {r.name: r for r in RELATIONS}
    for name, asked in _texts():
        made = in_words(by_name[name], asked, 3)
        assert made is not None, (name, asked)
        assert "{" not in made.text
        back = hears(made.text, asked)
        assert back is not None, made.text
        assert back == pytest.approx(made.answer, rel=1e-6), made.text


def test_hints_in_three_grades():
    relation = next(r for r in RELATIONS if r.name == "ratio")
    made = in_words(relation, "menstruum", 1)
    rule, turned, numbers = (hint(made, grade) for grade in (1, 2, 3))
    assert rule == "A ratio of 1 to R means R mL of menstruum for each gram of plant."
    assert turned == "menstruum = plant weight × ratio"
    assert numbers.endswith(" = ?")
    assert answer_of(made).split()[1] not in numbers


def test_a_sheet_as_text_markdown_and_page():
    made = set_problems(3, 2, hears, "drying")
    text, markdown, page = (worksheet(made, 2, form) for form in ("text", "markdown", "html"))
    for sheet in (text, markdown, page):
        assert all(answer_of(p) in sheet for p in made)
    assert markdown.startswith("# Worksheet 2\n")
    assert page.startswith("<!doctype html>")
    assert "src=" not in page
    assert "href=" not in page
    assert page.count("<li>") == 6
    assert answer_of(made[0]) not in worksheet(made, 2, "text", key=False)
