"""Oils, waxes and butters."""

from assistant.matter import oils
from tests.published.reading import published, questions


def gravity(name, water):
    fat = oils.fat(name)
    assert fat is not None
    return fat.density / water


ANSWERS = {"gravity": gravity}


@published("oils")
def test_oils(check):
    check.holds(ANSWERS[check.asks](*check.given))


def test_every_question_about_oils_has_an_answer():
    assert questions("oils") == set(ANSWERS)
