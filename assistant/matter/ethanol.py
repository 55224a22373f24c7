"""Spirit and water: density, strength by volume and by weight, and what mixing makes of them, contraction counted.

source    OIML R 22 (1975), general formula (formula.py)
range     0 to 100 % vol; where a temperature is given, -20 to 40 °C, and what is partly frozen is refused (freezing.py)

Strength is alcohol by volume at 20 °C, in percent; strength by weight is the mass fraction in percent.
"""

from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

from assistant.faults import FigureFault
from assistant.matter.formula import ALCOHOL, REFERENCE, A, coefficients_at, fraction_at, value, value_and_slope
from assistant.matter.freezing import liquid, warmth
from assistant.matter.limits import within

#: Grams in a millilitre of pure alcohol, as the conventions of the bench round it; the formula's own figure is 0.7892391.
GRAMS_PER_ML_OF_ALCOHOL = 0.78924

# Mass fraction ÷ volume fraction, as a rough cubic of the volume fraction: within 0.006 over the whole range, near enough to start Newton on.
_START = (0.79188, 0.08337, 0.00061, 0.11886)


class Mixture(NamedTuple):
    """What came of mixing: millilitres at 20 °C, strength [% vol], grams."""

    volume: float
    strength: float
    grams: float


def density(mass_fraction: float, celsius: float = REFERENCE) -> float:
    """Density of alcohol and water.

    mass_fraction  grams of alcohol in a gram, 0 to 1
    celsius        -20 to 40 °C, not below where the mixture freezes
    gives          density [kg/m³]
    fails          FigureFault outside these ranges
    source         OIML R 22 (1975), general formula
    >>> round(density(0.45, 10), 2)
    932.27
    """
    p = within(mass_fraction, 0.0, 1.0, "mass fraction", "")
    t = warmth(celsius)
    liquid(p, t)
    return value(coefficients_at(t), p)


@lru_cache(maxsize=2048)
def density_of(strength: float) -> float:
    """Density at 20 °C of a spirit of this strength.

    strength  0 to 100 % vol
    gives     density [g/mL], falling from 0.9982 to 0.7892
    fails     FigureFault outside 0 to 100
    >>> round(density_of(60), 6)
    0.909115
    """
    return value(A, mass_fraction_of(strength)) / 1000


def strength_of_density(grams_per_ml: float) -> float:
    """Strength [% vol] of the spirit that has this density [g/mL] at 20 °C.

    fails   FigureFault outside 0.7892391 to 0.9982012 g/mL
    >>> round(strength_of_density(0.9091146), 3)
    60.0
    """
    rho = within(grams_per_ml, ALCOHOL / 1000, A[0] / 1000, "density of a spirit", "g/mL") * 1000
    return strength_of(fraction_at(A, rho))


def density_slope(strength: float) -> float:
    """How fast the density falls with strength at 20 °C [g/mL for each % vol]; negative everywhere."""
    p = mass_fraction_of(strength)
    rho, slope = value_and_slope(A, p)
    return slope / (100 * (rho + p * slope) / ALCOHOL) / 1000


@lru_cache(maxsize=2048)
def mass_fraction_of(strength: float) -> float:
    """Grams of alcohol in a gram of a spirit.

    strength  0 to 100 % vol at 20 °C
    gives     mass fraction, 0 to 1, exact to 1e-12 against strength_of
    fails     FigureFault outside 0 to 100
    >>> round(100 * mass_fraction_of(60), 2)
    52.09
    """
    q = within(strength, 0.0, 100.0, "strength", "%") / 100
    if q == 0.0 or q == 1.0:
        return q
    a, b, c, d = _START
    p = q * (a + q * (b + q * (c + q * d)))
    target = q * ALCOHOL
    for _ in range(6):
        rho, slope = value_and_slope(A, p)
        step = (p * rho - target) / (rho + p * slope)
        p -= step
        if abs(step) < 1e-11:  # the step is squared in the next error: this one is already below rounding
            break
    return min(max(p, 0.0), 1.0)


def strength_of(mass_fraction: float) -> float:
    """Strength [% vol at 20 °C] of a mixture with this mass fraction of alcohol, 0 to 1.

    fails   FigureFault outside 0 to 1
    >>> round(strength_of(0.5), 2)
    57.89
    """
    p = within(mass_fraction, 0.0, 1.0, "mass fraction", "")
    return 100 * p * value(A, p) / ALCOHOL


def weight_slope(strength: float) -> float:
    """How fast strength by weight rises with strength by volume at 20 °C [% by weight for each % vol]."""
    p = mass_fraction_of(strength)
    rho, slope = value_and_slope(A, p)
    return ALCOHOL / (rho + p * slope)


def mass_of_alcohol(millilitres: float) -> float:
    """Grams in a volume of pure alcohol at 20 °C, at the 0.78924 g/mL of the conventions."""
    return millilitres * GRAMS_PER_ML_OF_ALCOHOL


def mix(volumes: Sequence[float], strengths: Sequence[float], grams_of_water: float = 0.0) -> Mixture:
    """Pour spirits together, with plain water by weight if there is any; contraction counted, nothing lost.

    volumes, strengths  [mL at 20 °C, % vol], one of each for every liquid
    grams_of_water      [g], 0 or more
    gives               Mixture(volume [mL], strength [% vol], grams)
    fails               FigureFault for a negative amount, nothing at all, or a strength outside 0 to 100;
                        ValueError where the two rows differ in length
    >>> mixture = mix([1000], [95], 1000 * 0.99820)
    >>> round(mixture.volume), round(mixture.strength, 1)
    (1941, 48.9)
    """
    grams = within(grams_of_water, 0.0, float("inf"), "water", "g")
    alcohol = 0.0
    for volume, strength in zip(volumes, strengths, strict=True):
        poured = within(volume, 0.0, float("inf"), "volume", "mL")
        grams += poured * density_of(strength)
        alcohol += poured * strength / 100 * ALCOHOL / 1000
    if grams == 0.0:
        raise FigureFault("there is nothing to mix", where="volume", try_this="an amount above 0", got=0.0, unit="mL")
    p = min(alcohol / grams, 1.0)
    return Mixture(1000 * grams / value(A, p), strength_of(p), grams)
