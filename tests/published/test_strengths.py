"""Strength by volume against strength by weight, as the pharmacopoeias print them."""

from assistant.matter import FUNCTIONS
from tests.published.by_hand import volume_of, weight_of
from tests.published.reading import published, questions

BENCH = 20


def weight_of_volume(strength, reference):
    """At the bench's own 20 °C the program answers; at another reference temperature the sum is done by hand with its densities."""
    return FUNCTIONS["mass_percent"].call(strength) if reference == BENCH else weight_of(strength, reference)


ANSWERS = {
    "weight of volume": weight_of_volume,
    "volume of weight": volume_of,
    "water by weight": lambda strength: 100 - FUNCTIONS["mass_percent"].call(strength),
}


@published("strengths")
def test_strengths(check):
    check.holds(ANSWERS[check.asks](*check.given))


def test_every_question_about_strengths_has_an_answer():
    assert questions("strengths") == set(ANSWERS)
