"""Clark's, Young's and Fried's proportions: historical arithmetic, for licensed practice only."""

from tests.published.bench import found
from tests.published.reading import published, questions

POUND = 453.59237

ANSWERS = {
    "Clark": lambda dose, pounds: found("child_dose", "child_rule", {"adult_dose": dose, "child_weight": pounds * POUND}),
    "Young": lambda dose, years: found("child_dose", "young", {"adult_dose": dose, "child_years": years}),
    "Fried": lambda dose, months: found("child_dose", "fried", {"adult_dose": dose, "child_months": months}),
}


@published("children")
def test_children(check):
    check.holds(ANSWERS[check.asks](*check.given))


def test_every_question_about_children_has_an_answer():
    assert questions("children") == set(ANSWERS)
