"""The glass hydrometer: what its stem shows away from 20 °C, and what strength that means.

source    OIML R 22 (1975): the stem sinks until it displaces its own weight, so density × volume of the glass is what was graduated at 20 °C
range     readings of 0 to 100 % vol, -20 to 40 °C, in a liquid of alcohol and water alone: sugar or extract makes the stem float too high
"""

from assistant.faults import FigureFault
from assistant.matter.ethanol import density_of, density_slope, mass_fraction_of, strength_of, strength_of_density, weight_slope
from assistant.matter.formula import ALCOHOL, REFERENCE, A, coefficients_at, fraction_at, value, value_and_slope
from assistant.matter.freezing import liquid, warmth

SOURCE = "OIML R 22 (1975), glass hydrometer graduated at 20 °C"

#: Cubic expansion of the glass of a hydrometer [1/°C]: soda-lime glass, as OIML R 22 takes it for its tables of readings. Evidence: memory.
GLASS_EXPANSION = 25e-6


def true_strength(strength_read: float, celsius: float) -> float:
    """Strength at 20 °C of a spirit in which a glass hydrometer, graduated at 20 °C, shows this strength at another temperature.

    strength_read  what the stem shows, 0 to 100 % vol
    celsius        of the spirit and the hydrometer, -20 to 40 °C
    gives          strength [% vol at 20 °C]
    fails          FigureFault where no mixture of alcohol and water floats the stem there at that temperature
    source         OIML R 22 (1975): the stem sinks until it displaces its own weight, so density × volume of the glass is what was graduated
    >>> round(true_strength(60, 25), 1)
    58.2
    """
    t = warmth(celsius)
    shown = 1000 * density_of(strength_read) / _glass(t)
    rho = coefficients_at(t)
    strongest, weakest = value(rho, 1.0), rho[0]
    if not strongest - 1e-6 <= shown <= weakest + 1e-6:
        limit = strength_read_for(100.0 if shown < strongest else 0.0, t)
        end = "strongest" if shown < strongest else "weakest"
        raise FigureFault(
            f"at {t:g} °C nothing made of alcohol and water reads {strength_read:g} %; the {end} reads {limit:.1f} %",
            where="hydrometer reading",
            try_this="read the stem and the thermometer again, in a liquid without sugar or extract in it",
            got=strength_read,
            low=limit if shown > weakest else 0.0,
            high=limit if shown < strongest else 100.0,
            unit="%",
        )
    p = fraction_at(rho, min(max(shown, strongest), weakest))
    liquid(p, t)
    return strength_of(p)


def strength_read_for(strength: float, celsius: float) -> float:
    """What the stem of a glass hydrometer shows [% vol] in a spirit of this strength at this temperature: true_strength turned round.

    It goes on below 0 and above 100 in a straight line, for a stem that floats higher than water at 20 °C or sinks deeper than alcohol does.
    """
    t = warmth(celsius)
    p = mass_fraction_of(strength)
    liquid(p, t)
    shown = value(coefficients_at(t), p) * _glass(t) / 1000
    lightest, heaviest = ALCOHOL / 1000, A[0] / 1000
    if shown > heaviest:
        return (shown - heaviest) / density_slope(0.0)
    if shown < lightest:
        return 100 + (shown - lightest) / density_slope(100.0)
    return strength_of_density(shown)


def true_strength_slope(strength_read: float, celsius: float) -> float:
    """How fast the true strength rises with the reading, at a fixed temperature [% vol for each % vol read]."""
    t = warmth(celsius)
    true = true_strength(strength_read, t)
    p = mass_fraction_of(true)
    here = value_and_slope(coefficients_at(t), p)[1] * weight_slope(true) / 100
    return density_slope(strength_read) * 1000 / _glass(t) / here


def _glass(celsius: float) -> float:
    """Volume of the glass against its volume at 20 °C."""
    return 1 + GLASS_EXPANSION * (celsius - REFERENCE)
