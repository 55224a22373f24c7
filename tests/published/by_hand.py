"""Sums done by hand, as the sources did them: strengths at other reference temperatures, weighing in air, water by mass balance.

Only the density by weight is taken from the program; every root is found by halving, not by the program's own way back.
"""

from assistant.matter.ethanol import density

FIFTEEN = 15.0
SIXTY_F = (60 - 32) / 1.8

POUND = 0.45359237  # kg
GALLON = 3.785411784e-3  # m³, US

#: Air on the day of weighing and the weights in the other pan [kg/m³], as the gauging manual and the pharmacopoeias take them.
AIR = 1.2
WEIGHTS = 8000.0


def fahrenheit(degrees: float) -> float:
    return (degrees - 32) / 1.8


def volume_of(by_weight: float, celsius: float) -> float:
    """% vol at a reference temperature, from % by weight."""
    p = by_weight / 100
    return 100 * p * density(p, celsius) / density(1, celsius)


def weight_of(strength: float, celsius: float) -> float:
    """% by weight, from % vol at a reference temperature."""
    low, high = 0.0, 100.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if volume_of(middle, celsius) < strength else (low, middle)
    return low


def spirit(strength: float, reference: float, celsius: float) -> float:
    """Density [kg/m³] at `celsius` of a spirit whose % vol is counted at `reference`."""
    return density(weight_of(strength, reference) / 100, celsius)


def in_air(rho: float) -> float:
    """What a litre seems to weigh on a balance with brass weights [g], from its density [kg/m³]."""
    return (rho - AIR) / (1 - AIR / WEIGHTS)


def water_to_add(had: float, wanted: float, celsius: float) -> float:
    """Volumes of water for 100 volumes of spirit, strengths counted and everything measured at `celsius`."""
    made = 100 * had / wanted
    return (made * spirit(wanted, celsius, celsius) - 100 * spirit(had, celsius, celsius)) / density(0, celsius)


def water_in(strength: float, celsius: float) -> float:
    """Volumes of water in 100 volumes of spirit, which with `strength` volumes of alcohol shrank to the hundred."""
    return (100 * spirit(strength, celsius, celsius) - strength * density(1, celsius)) / density(0, celsius)
