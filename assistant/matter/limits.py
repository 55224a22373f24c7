"""One way to refuse a figure that lies outside a table: FigureFault with the value, both limits and their unit."""

from math import isfinite

from assistant.faults import FigureFault

#: Roots and round trips overshoot an end of a range by this share of it; such dust is brought back to the end, not refused.
_DUST = 1e-9


def within(value: float, low: float, high: float, what: str, unit: str, try_this: str = "") -> float:
    """The value, brought onto the limit where it passes it by no more than rounding dust.

    fails   FigureFault where it lies further out or is not a number
    """
    if low <= value <= high:
        return value
    slack = _DUST * (high - low if isfinite(high) else 1.0)
    if low - slack <= value < low:
        return low
    if high < value <= high + slack:
        return high
    span = f"{low:g} to {high:g}{' ' + unit if unit else ''}"
    raise FigureFault(
        f"{value:g}{' ' + unit if unit else ''} lies outside {span}",
        where=what,
        try_this=try_this or f"a {what} from {span}",
        got=value,
        low=low,
        high=high,
        unit=unit,
    )
