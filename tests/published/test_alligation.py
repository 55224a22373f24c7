"""Alligation: what the handbooks get by simple parts, and what the same mix is when the shrinkage is counted."""

from tests.published.bench import found, mixed, two_lots
from tests.published.reading import published, questions

ANSWERS = {
    "strength of a mix by simple parts": lambda parts, strengths: mixed(parts, strengths, shrinks=False)[1],
    "parts of two lots": lambda strong, weak, wanted: two_lots(strong, weak, strong - weak, wanted, shrinks=False),
    "volumes of two lots": lambda strong, weak, made, wanted: two_lots(strong, weak, made, wanted, shrinks=False),
    "water by simple parts": lambda volume, had, wanted: two_lots(had, 0, volume * had / wanted, wanted, shrinks=False)[1],
    "water to add": lambda volume, had, wanted: found("water", "spirit", {"stock": volume, "stock_strength": had, "strength": wanted}),
}


@published("alligation")
def test_alligation(check):
    check.holds(ANSWERS[check.asks](*check.given))


def test_every_question_about_alligation_has_an_answer():
    assert questions("alligation") == set(ANSWERS)


def test_simple_parts_are_the_approximation_they_are_called():
    # 50 parts of 95 % and 45 of water are meant to give 50 %: by weight they give more, because the mix is smaller than its parts.
    assert mixed([50, 45], [95, 0], shrinks=False)[1] == 50
    assert round(mixed([50, 45], [95, 0], shrinks=True)[1], 1) == 51.5
