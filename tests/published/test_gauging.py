"""The worked examples of the gauging manual. Proof there is twice the % vol at 60 °F; weights are read in air."""

from assistant.matter.ethanol import density, mass_fraction_of, strength_of_density
from assistant.matter.hydrometer import GLASS_EXPANSION, true_strength
from tests.published.by_hand import GALLON, POUND, SIXTY_F, fahrenheit, spirit, volume_of, water_in, weight_of
from tests.published.reading import published, questions

#: Air and weights of the manual's own factors [kg/m³].
AIR, WEIGHTS = 1.2185, 8393.0


def pounds_a_gallon(strength):
    rho = spirit(strength, SIXTY_F, SIXTY_F)
    return (rho - AIR) / (1 - AIR / WEIGHTS) * GALLON / POUND


def gallons_a_pound(strength):
    return 1 / pounds_a_gallon(strength)


def proof_gallons_a_pound(strength):
    return gallons_a_pound(strength) * strength / 50


def of_a_lot(pounds, proof):
    return pounds * gallons_a_pound(proof / 2), pounds * proof_gallons_a_pound(proof / 2)


def water_by_weight(pounds, had, wanted):
    """The alcohol stays, so the weight grows as the strength by weight falls: no shrinkage in it."""
    return pounds * (weight_of(had / 2, SIXTY_F) / weight_of(wanted / 2, SIXTY_F) - 1)


def water_for_100_gallons(had, wanted):
    return had / wanted * water_in(wanted / 2, SIXTY_F) - water_in(had / 2, SIXTY_F)


def volume_factor(proof, degrees):
    return spirit(proof / 2, SIXTY_F, fahrenheit(degrees)) / spirit(proof / 2, SIXTY_F, SIXTY_F)


def of_a_tank(inches, an_inch, degrees, proof):
    return inches * an_inch * round(volume_factor(proof, degrees), 3) * proof / 100


def true_proof(read, degrees):
    """The manual's stem is graduated at 60 °F, the bench's at 20 °C: what the bench's would show in the same spirit, corrected by the program."""
    floats_at = spirit(read / 2, SIXTY_F, SIXTY_F) * (1 + GLASS_EXPANSION * (SIXTY_F - 20))
    shown = strength_of_density(floats_at / 1000)
    true = true_strength(shown, fahrenheit(degrees))
    return 2 * volume_of(100 * mass_fraction_of(true), SIXTY_F)


ANSWERS = {
    "gallons a pound": gallons_a_pound,
    "proof gallons a pound": proof_gallons_a_pound,
    "gallons and proof gallons of a lot": of_a_lot,
    "pounds of a measure": lambda gallons, proof: gallons * pounds_a_gallon(proof / 2),
    "water by weight": water_by_weight,
    "water for 100 gallons": water_for_100_gallons,
    "volume factor": volume_factor,
    "proof gallons of a tank": of_a_tank,
    "true proof": true_proof,
}


@published("gauging")
def test_gauging(check):
    check.holds(ANSWERS[check.asks](*check.given))


def test_every_question_about_gauging_has_an_answer():
    assert questions("gauging") == set(ANSWERS)


def test_a_litre_of_spirit_of_no_strength_is_water():
    assert spirit(0, SIXTY_F, 20) == density(0, 20)
