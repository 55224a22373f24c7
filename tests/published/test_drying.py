"""Fresh to dried, against published examples and the food tables."""

from tests.published.bench import found
from tests.published.reading import published, questions


def water_on_the_dry_weight(water):
    dry = found("dry_matter", "fresh", {"herb": 100, "water_content": water})
    return 100 * found("plant_water", "fresh", {"herb": 100, "water_content": water}) / dry


ANSWERS = {
    "dried weight": lambda weight, water, left: found("dried", "fresh", {"herb": weight, "water_content": water, "dried_water": left}),
    "water on the dry weight": water_on_the_dry_weight,
}


@published("drying")
def test_drying(check):
    check.holds(ANSWERS[check.asks](*check.given))


def test_every_question_about_drying_has_an_answer():
    assert questions("drying") == set(ANSWERS)
