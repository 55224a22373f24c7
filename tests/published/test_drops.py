"""Drops in a millilitre."""

from assistant.matter.droppers import counted_error, drops_of_water
from tests.published.bench import found
from tests.published.reading import published, questions

#: What the conventions count until a person has counted their own dropper.
DROPS_PER_ML = 20

ANSWERS = {
    "counted dropper may be out": counted_error,
    "drops in a mL of water": lambda: DROPS_PER_ML,
    "drops counted": lambda drops, volume: found("drops_per_ml", "", {"dose_drops": drops, "dose": volume}),
}


@published("drops")
def test_drops(check):
    check.holds(ANSWERS[check.asks](*check.given))


def test_every_question_about_drops_has_an_answer():
    assert questions("drops") == set(ANSWERS)


def test_the_official_dropper_is_the_one_of_the_table():
    fewest, most = drops_of_water()
    assert (round(fewest, 1), round(most, 1)) == (18.1, 22.2)
    assert fewest < DROPS_PER_ML < most
