"""Density of spirit and water against the printed tables, older handbooks and pharmacopoeias."""

from assistant.matter.ethanol import density, density_of, mass_fraction_of, strength_of_density
from tests.published.by_hand import in_air, spirit
from tests.published.reading import published, questions


def gravity_in_air(strength, celsius):
    return in_air(spirit(strength, 15.56, celsius)) / in_air(density(0, celsius))


def gravity_in_vacuum(strength, reference, celsius, water_at):
    return spirit(strength, reference, celsius) / density(0, water_at)


def weight_of_density(rho):
    return 100 * mass_fraction_of(strength_of_density(rho / 1000))


ANSWERS = {
    "density by weight": lambda by_weight, celsius: density(by_weight / 100, celsius),
    "density by volume": lambda strength: 1000 * density_of(strength),
    "weight of density": weight_of_density,
    "gravity in air": gravity_in_air,
    "gravity in vacuum": gravity_in_vacuum,
    "apparent density of a range": lambda low, high: [in_air(1000 * density_of(strength)) for strength in (high, low)],
    "relative density of a range": lambda low, high: [1000 * density_of(strength) / density(0) for strength in (high, low)],
}


@published("density")
def test_density(check):
    check.holds(ANSWERS[check.asks](*check.given))


def test_every_question_about_density_has_an_answer():
    assert questions("density") == set(ANSWERS)
