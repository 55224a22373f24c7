"""Every term has its line and a figure that is worked out when it is read."""

import pytest

from assistant import Session
from assistant.teaching.glossary import explain, named_in, terms


@pytest.mark.parametrize("name", sorted(terms()))
def test_a_term_is_explained_with_a_figure(name):
    told = explain(name)
    assert told.definition.endswith(".")
    assert any(origin == "found" for _, _, origin in told.figures)
    assert "{" not in told.example
    solution = told.case.solved()
    assert not solution.conflicts
    assert not solution.impossible


def test_a_ratio_is_explained_with_its_own_figure():
    assert explain("1:5", 3.0).example == "100 g of plant at 1:3 takes 300 mL of menstruum."
    assert "R" not in explain("1:5", 3.0).definition.split()


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("what does 1:3 mean?", ("1:5", 3.0)),
        ("what does one to five mean", ("1:5", 5.0)),
        ("what is the marc", ("marc", 5.0)),
        ("what's Clark's rule", ("clark's rule", 5.0)),
        ("what is plant water?", ("fresh plant water", 5.0)),
        ("what is the time", None),
    ],
)
def test_the_term_a_text_speaks_of(text, found):
    assert named_in(text) == found


@pytest.mark.parametrize(
    ("asked", "term"),
    [
        ("what is an oxymel", "Oxymel"),
        ("what's a drug extract ratio?", "Drug extract ratio"),
        ("what does w/v mean", "Weight to volume"),
        ("define double maceration", "Double maceration"),
        ("what is a yield", "Yield"),
        ("and what is a dropperful", "Dropperful"),
    ],
)
def test_a_word_is_explained_in_conversation(asked, term):
    session = Session()
    session.say("112 g fresh nettle, 1:2 at 60 %")
    assert session.say(asked).text.startswith(f"{term}: ")


@pytest.mark.parametrize("asked", ["what is the ratio", "what is the finished strength", "what's the strength?"])
def test_a_figure_of_the_batch_is_no_word_to_explain(asked):
    session = Session()
    session.say("112 g fresh nettle, 1:2 at 60 %")
    assert "For example" not in session.say(asked).text
