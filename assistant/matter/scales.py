"""Scales: how far a verified one may be out, and how far one may be out that only has its steps.

source    OIML R 76-1, table 6: maximum permissible errors on initial verification, in verification intervals e; in service twice as much.
          evidence: read (a copy of the table on a document-sharing page); class I: memory. Half a step without a class: common practice, no source
"""

from __future__ import annotations

#: class → loads in intervals e up to which a scale may be out by 0.5 e, 1.0 e and 1.5 e
LOADS = {"I": (50_000.0, 200_000.0, float("inf")), "II": (5_000.0, 20_000.0, 100_000.0), "III": (500.0, 2_000.0, 10_000.0), "IIII": (50.0, 200.0, 1_000.0)}
ERRORS = (0.5, 1.0, 1.5)
IN_SERVICE = 2.0
SOURCE = "OIML R 76"


def permitted(load: float, step: float, accuracy: str) -> float | None:
    """How far a verified scale may be out [± g].

    load       what lies on it [g], 0 or more
    step       its verification interval e [g], above 0
    accuracy   I, II, III or IIII
    gives      None above the last load of the class, and for a class there is none of

    >>> permitted(750, 1, "III")
    1.0
    """
    limits = LOADS.get(accuracy)
    if limits is None or step <= 0 or load < 0:
        return None
    return next((error * step for limit, error in zip(limits, ERRORS, strict=True) if load <= limit * step), None)


def half_a_step(step: float) -> float:
    """What cannot be read off any better, where nothing else is known of a scale or a glass [the unit of the step]."""
    return step / 2
