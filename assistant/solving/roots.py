"""Where a function of one unknown is nothing: a bracketed search, the same on every machine.

The bracket is scanned for a change of sign, evenly for percents and by powers of ten for amounts, and each change is closed in on
by Brent's method (R. P. Brent, Algorithms for Minimization without Derivatives, 1973, ch. 4; memory). A function may have no value
(None) in part of the bracket; the edge of that part is looked at too, since the root often lies just beside it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from math import copysign

Curve = Callable[[float], float | None]

COARSE = (9, 1)  # points of an even scan, points a decade
FINE = (41, 4)
NEAR_ZERO = 1e-9  # an amount bracket that begins at 0 is scanned by powers of ten from here up
EVEN_UP_TO = 150.0  # percents and the like are scanned evenly; what can be larger is scanned by powers of ten
TIGHT = 8e-16


def scan_points(low: float, high: float, density: tuple[int, int] = FINE) -> list[float]:
    """Where to look first inside a bracket, in rising order."""
    even, decade = density
    if high <= EVEN_UP_TO:
        return [low + (high - low) * n / (even - 1) for n in range(even)]
    if low > 0:
        return _by_decades(low, high, decade)
    below = [-x for x in reversed(_by_decades(NEAR_ZERO, -low, decade))] if low else []
    return [*below, 0.0, *_by_decades(NEAR_ZERO, high, decade)]


def _by_decades(low: float, high: float, a_decade: int) -> list[float]:
    points, x, factor = [], low, 10 ** (1 / a_decade)
    while x < high * 0.999:
        points.append(x)
        x *= factor
    return [*points, high]


def roots(curve: Curve, low: float, high: float, density: tuple[int, int] = FINE) -> Iterator[float]:
    """Every root that the scan brackets, from low to high; jumps over a pole are left out.

    >>> [round(x, 9) for x in roots(lambda x: x * x - 2, 0.0, 10.0)]
    [1.414213562]
    """
    return roots_among(curve, ((x, curve(x)) for x in scan_points(low, high, density)))


def all_roots(curve: Curve, low: float, high: float) -> list[float]:
    """The roots that a coarse scan brackets, else a fine one, else those that hide in a dip between its points."""
    found = list(roots(curve, low, high, COARSE))
    if not found:
        scan = [(x, curve(x)) for x in scan_points(low, high, FINE)]
        found = list(roots_among(curve, scan)) or list(roots_in_dips(curve, scan))
    return found


def roots_in_dips(curve: Curve, scan: Sequence[tuple[float, float | None]]) -> Iterator[float]:
    """Pairs of roots that lie between two neighbouring points: where the curve comes nearest to nothing it is looked at closely."""
    for (a, at_a), (_, at_b), (c, at_c) in zip(scan, scan[1:], scan[2:], strict=False):
        if at_a is None or at_b is None or at_c is None or not abs(at_a) > abs(at_b) <= abs(at_c) or (at_a > 0) != (at_c > 0):
            continue
        bottom = _bottom(curve, a, c)
        if bottom is not None:
            yield from roots_among(curve, ((a, at_a), bottom, (c, at_c)))


def _bottom(curve: Curve, a: float, c: float) -> tuple[float, float] | None:
    """The place between a and c where the curve has gone through nothing, by narrowing in on where it is nearest to it."""
    for _ in range(60):
        left, right = a + (c - a) / 3, c - (c - a) / 3
        at_left, at_right, at_a = curve(left), curve(right), curve(a)
        if at_left is None or at_right is None or at_a is None:
            return None
        for x, here in ((left, at_left), (right, at_right)):
            if here == 0 or (here > 0) != (at_a > 0):
                return x, here
        if abs(at_left) < abs(at_right):
            c = right
        else:
            a = left
    return None


def roots_among(curve: Curve, points: Iterable[tuple[float, float | None]]) -> Iterator[float]:
    """Every root bracketed by two neighbouring points of a scan that was made already."""
    before: tuple[float, float | None] | None = None
    for x, here in points:
        if here == 0:
            yield x
        elif before is not None:
            yield from _between(curve, *before, x, here)
        before = (x, here)


def _between(curve: Curve, a: float, at_a: float | None, b: float, at_b: float | None) -> Iterator[float]:
    if at_a == 0 or (at_a is None and at_b is None):
        return
    if at_a is None or at_b is None:
        edge, at_edge = _edge(curve, a, b, left_has_none=at_a is None)
        if at_edge is None:
            return
        if at_a is None:
            a, at_a = edge, at_edge
        else:
            b, at_b = edge, at_edge
        if at_edge == 0:
            yield edge
            return
    assert at_a is not None
    assert at_b is not None
    if (at_a < 0) != (at_b < 0):
        root = brent(curve, a, at_a, b, at_b)
        if root is not None:
            yield root


def _edge(curve: Curve, a: float, b: float, *, left_has_none: bool) -> tuple[float, float | None]:
    """The last point that has a value, next to a part that has none."""
    none, has = (a, b) if left_has_none else (b, a)
    at_has = curve(has)
    for _ in range(60):
        middle = (none + has) / 2
        if middle in (none, has):
            break
        value = curve(middle)
        if value is None:
            none = middle
        else:
            has, at_has = middle, value
    return has, at_has


def brent(curve: Curve, a: float, at_a: float, b: float, at_b: float) -> float | None:
    """The root between a and b, where the curve has opposite signs; None where it turns out to be a pole or a hole.

    Never worse than halving; ends when the bracket is as tight as the numbers allow.
    """
    highest = max(abs(at_a), abs(at_b))
    c, at_c = a, at_a
    step = last = b - a
    for _ in range(200):
        if abs(at_c) < abs(at_b):
            a, b, c = b, c, b
            at_a, at_b, at_c = at_b, at_c, at_b
        tolerance = TIGHT * abs(b)
        half = (c - b) / 2
        if abs(half) <= tolerance or at_b == 0:
            return b if abs(at_b) <= highest else None
        if abs(last) >= tolerance and abs(at_a) > abs(at_b):
            p, q = _interpolated(a, at_a, b, at_b, c, at_c, half)
            if 2 * p < min(3 * half * q, abs(last * q)):
                last, step = step, p / q
            else:
                last = step = half
        else:
            last = step = half
        a, at_a = b, at_b
        b += step if abs(step) > tolerance else copysign(tolerance, half)
        value = curve(b)
        if value is None:
            return None
        at_b = value
        if (at_b > 0) == (at_c > 0):
            c, at_c = a, at_a
            step = last = b - a
    return b


def _interpolated(a: float, at_a: float, b: float, at_b: float, c: float, at_c: float, half: float) -> tuple[float, float]:
    """Brent's step as a fraction p / q with p ≥ 0: a secant, or an inverse parabola through three points."""
    s = at_b / at_a
    if a == c:
        p, q = 2 * half * s, 1 - s
    else:
        r, t = at_a / at_c, at_b / at_c
        p = s * (2 * half * r * (r - t) - (b - a) * (t - 1))
        q = (r - 1) * (t - 1) * (s - 1)
    return (p, -q) if p > 0 else (-p, q)
