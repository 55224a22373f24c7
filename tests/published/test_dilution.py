"""Letting spirit down: the printed tables and pharmacopoeial recipes, through the program's own relations and solver."""

import pytest

from tests.published.bench import found, found_all
from tests.published.by_hand import water_to_add
from tests.published.reading import published, questions


def spirit_to_measure(had, made, wanted):
    return found("stock", "spirit", {"stock_strength": had, "menstruum": made, "strength": wanted})


ANSWERS = {
    "water for 100 volumes": water_to_add,
    "water to add": lambda spirit, had, wanted: found("water", "spirit", {"stock": spirit, "stock_strength": had, "strength": wanted}),
    "spirit to measure": spirit_to_measure,
    "spirit and water to measure": lambda had, made, wanted: found_all(
        ("stock", "water"), "spirit", {"stock_strength": had, "menstruum": made, "strength": wanted}
    ),
}


@published("dilution")
def test_dilution(check):
    check.holds(ANSWERS[check.asks](*check.given))


def test_every_question_about_dilution_has_an_answer():
    assert questions("dilution") == set(ANSWERS)


@pytest.mark.parametrize(("wanted", "printed"), [(90, 934), (80, 831), (70, 727), (60, 623), (50, 519)])
def test_the_trap_of_96_per_cent(wanted, printed):
    # The recipe's "96 per cent" averages 96.3 % vol; whoever takes it at its name measures two to four millilitres too much.
    assert spirit_to_measure(96.0, 1000, wanted) - printed > 1.5
