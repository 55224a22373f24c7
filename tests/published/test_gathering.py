"""How much to pick."""

from tests.published.bench import found
from tests.published.reading import published, questions

ANSWERS = {
    "to gather": lambda needed, margin: found("to_gather", "gathering", {"herb": needed, "margin": margin, "trim_loss": 0}),
    "to gather after trimming": lambda needed, trimmed, margin: found("to_gather", "gathering", {"herb": needed, "margin": margin, "trim_loss": trimmed}),
}


@published("gathering")
def test_gathering(check):
    check.holds(ANSWERS[check.asks](*check.given))


def test_every_question_about_gathering_has_an_answer():
    assert questions("gathering") == set(ANSWERS)
