"""Kitchen and shop measures."""

from assistant.matter import water
from assistant.quantities.units import units
from tests.published.reading import published, questions


def size_of(unit, country):
    return units().by_name[unit.replace(" ", "_")].size(country)


ANSWERS = {
    "size of a unit": size_of,
    "weight of a unit of water": lambda unit, country: size_of(unit, country) * water.GRAMS_PER_ML / size_of("pound", country),
}


@published("units")
def test_units(check):
    check.holds(ANSWERS[check.asks](*check.given))


def test_every_question_about_units_has_an_answer():
    assert questions("units") == set(ANSWERS)
