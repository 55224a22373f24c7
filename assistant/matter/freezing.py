"""Which temperatures a spirit can be asked about, and where it begins to freeze.

The density formula still gives a number for a mixture that is partly ice, and that number means nothing: it is refused.

source    freezing points of ethanol and water by weight, Melinder's properties of secondary working fluids as the library CoolProp 8.0 carries them
          (INCOMP::MEA); evidence: computed with that library, rounded to 0.1 °C
range     mass fraction 0 to 0.30, that is down to -20 °C; stronger spirit is liquid over the whole range of the density formula
"""

from assistant.faults import FigureFault
from assistant.matter.formula import COLDEST, WARMEST
from assistant.matter.limits import within

#: Mass fraction of alcohol every 0.05 from 0 → freezing point [°C].
_EVERY = 0.05
POINTS = (0.0, -2.0, -4.4, -7.4, -11.1, -15.4, -20.1)


def freezes_at(mass_fraction: float) -> float:
    """Temperature [°C] at which the first ice forms; straight lines between the points, so within 0.2 °C.

    Above a mass fraction of 0.30 it gives the last point, which is colder than any temperature the density formula covers.
    >>> round(freezes_at(0.075), 1)
    -3.2
    """
    steps = mass_fraction / _EVERY
    i = min(int(steps), len(POINTS) - 1)
    if i == len(POINTS) - 1:
        return POINTS[-1]
    return POINTS[i] + (steps - i) * (POINTS[i + 1] - POINTS[i])


def warmth(celsius: float) -> float:
    """The temperature [°C], where the formula covers it. Fails with FigureFault outside -20 to 40 °C."""
    return within(celsius, COLDEST, WARMEST, "temperature", "°C", "let it stand until it is between -20 and 40 °C")


def liquid(p: float, celsius: float) -> None:
    """Fails with FigureFault where a mixture of this mass fraction is partly ice."""
    point = freezes_at(p)
    if celsius < point:
        raise FigureFault(
            f"a mixture with {100 * p:.3g} % alcohol by weight begins to freeze at {point:.1f} °C, so at {celsius:g} °C it is partly ice",
            where="temperature",
            try_this="let it thaw and come to 20 °C, stir, then read it",
            got=celsius,
            low=point,
            high=WARMEST,
            unit="°C",
        )
