"""Percents, dilutions and specific gravity as the handbooks work them."""

from tests.published.bench import found
from tests.published.reading import published, questions


def weight_of_volume(volume, gravity):
    return found("weight[it]", "recipe melts", {"volume[it]": volume, "density_of[it]": gravity}, ("it",))


def base_for_the_rest(batch, first, second, oil, gravity):
    known = {"batch": batch, "weight[first]": first, "weight[second]": second, "volume[oil]": oil, "density_of[oil]": gravity}
    return found("weight[base]", "recipe melts", known, ("first", "second", "oil", "base"))


ANSWERS = {
    "strength made up to": lambda volume, had, made: found("strength", "spirit", {"stock": volume, "stock_strength": had, "menstruum": made}),
    "spirit to measure": lambda had, made, wanted: found("stock", "spirit", {"stock_strength": had, "menstruum": made, "strength": wanted}),
    "volume of a weight": lambda grams, gravity: found("volume[it]", "recipe melts", {"weight[it]": grams, "density_of[it]": gravity}, ("it",)),
    "weight of a volume": weight_of_volume,
    "base for the rest": base_for_the_rest,
    "share of what was expected": lambda expected, had: found("yield_share", "", {"in_jar": expected, "pressed": had}),
}


@published("arithmetic")
def test_arithmetic(check):
    check.holds(ANSWERS[check.asks](*check.given))


def test_every_question_of_arithmetic_has_an_answer():
    assert questions("arithmetic") == set(ANSWERS)
