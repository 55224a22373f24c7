"""Sugar and water: densities, the official syrups, honey."""

from assistant.matter import sugar, water
from tests.published.bench import found, found_all
from tests.published.by_hand import GALLON, POUND, in_air
from tests.published.reading import published, questions

NO_HONEY = {"honey": 0, "honey_sugar": sugar.HONEY_SUGAR}


def made_up(grams, volume):
    """°Bx, weight and water of sugar made up with water to a volume: all three hang together through the density."""
    return found_all(("brix", "syrup_weight", "liquid"), "syrup", {"sugar": grams, "syrup": volume} | NO_HONEY)


def strength_of(grams, liquid):
    return found("brix", "syrup", {"sugar": grams, "liquid": liquid} | NO_HONEY)


ANSWERS = {
    "density of syrup": lambda brix: 1000 * sugar.syrup_density(brix),
    "pounds a gallon in air": lambda brix: in_air(1000 * sugar.syrup_density(brix)) * GALLON / POUND,
    "sugar in a litre": lambda brix: found("sugar", "syrup", {"brix": brix, "syrup": 1000} | NO_HONEY),
    "strength of sugar made up": lambda grams, volume: made_up(grams, volume)[0],
    "weight and water of sugar made up": lambda grams, volume: made_up(grams, volume)[1:],
    "sugar and water for a syrup": lambda volume, brix: found_all(("sugar", "liquid"), "syrup", {"syrup": volume, "brix": brix} | NO_HONEY),
    "gravity of sugar made up": lambda grams, volume: made_up(grams, volume)[1] / volume / water.GRAMS_PER_ML,
    "strength of sugar and water": strength_of,
    "gravity of sugar and water": lambda grams, liquid: sugar.syrup_density(strength_of(grams, liquid)) / water.GRAMS_PER_ML,
    "most sugar that water holds": lambda: sugar.SATURATED,
    "gravity of honey": lambda: sugar.HONEY_DENSITY / water.GRAMS_PER_ML,
    "sugar in honey": lambda: sugar.HONEY_SUGAR,
    "water in honey": lambda: 100 - sugar.HONEY_SUGAR,
}


@published("syrup")
def test_syrup(check):
    check.holds(ANSWERS[check.asks](*check.given))


def test_every_question_about_syrup_has_an_answer():
    assert questions("syrup") == set(ANSWERS)
