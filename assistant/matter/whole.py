"""Whole bottles, jars and days: counting that forgives the dust of floating point, so that 11.9999999 bottles are 12."""

import math

from assistant.faults import FigureFault

#: Share of one bottle that no bench can see; on large counts a share of the count, because dust grows with it.
_UNSEEN = 1e-6
_DUST = 1e-9


def filled(count: float) -> float:
    """How many are full: the whole number at or below, dust forgiven.

    >>> filled(8.88), filled(11.9999999), filled(12.0000001)
    (8.0, 12.0, 12.0)
    """
    return float(math.floor(_finite(count) + _slack(count)))


def needed(count: float) -> float:
    """How many hold it all: the whole number at or above, dust forgiven.

    >>> needed(8.12), needed(11.9999999), needed(12.0000001)
    (9.0, 12.0, 12.0)
    """
    return float(math.ceil(_finite(count) - _slack(count)))


def _slack(count: float) -> float:
    return _UNSEEN + _DUST * abs(count)


def _finite(count: float) -> float:
    if not math.isfinite(count):
        raise FigureFault("a count has to be a number", where="count", try_this="a size above 0", got=count)
    return count
