"""Glycerine and water."""

from assistant.matter import glycerine, water
from tests.published.reading import published, questions

ANSWERS = {
    "gravity of glycerine": lambda by_weight: glycerine.glycerine_density(by_weight) / water.GRAMS_PER_ML,
    "gravity of pure glycerine": lambda: glycerine.GRAMS_PER_ML / water.GRAMS_PER_ML,
}


@published("glycerine")
def test_glycerine(check):
    check.holds(ANSWERS[check.asks](*check.given))


def test_every_question_about_glycerine_has_an_answer():
    assert questions("glycerine") == set(ANSWERS)
