"""Every term has its line and a figure that is worked out when it is read."""

import pytest

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
