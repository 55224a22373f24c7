"""Alligation of any number of strengths, as the old books teach it: each one above the wanted strength is linked with one below.

By simple parts, without the shrinking. With three or more there are many right answers; this one links the strongest with the weakest
first, and the shorter side again and again until every one has a partner.
"""

from __future__ import annotations

from collections.abc import Sequence

Link = tuple[float, float]  # a strength above the wanted one and a strength below it


def links(strengths: Sequence[float], wanted: float) -> tuple[Link, ...]:
    """Which are linked with which [percent].

    fails   ValueError, where there is none above or none below the wanted strength
    >>> links((95, 70, 40), 60)
    ((95, 40), (70, 40))
    """
    above, below = sorted((s for s in strengths if s > wanted), reverse=True), sorted(s for s in strengths if s < wanted)
    if not above or not below:
        raise ValueError(f"{wanted:g} does not lie between the strengths")
    count = max(len(above), len(below))
    return tuple((above[n % len(above)], below[n % len(below)]) for n in range(count))


def linked_parts(strengths: Sequence[float], wanted: float) -> dict[float, list[float]]:
    """Strength → the parts each of its links gives it: how far the partner lies from what is wanted [parts].

    fails   as `links`
    source  the alligation alternate of the pharmacists' handbooks
    >>> linked_parts((95, 70, 40), 60)
    {95: [20], 70: [20], 40: [35, 10]}
    """
    found: dict[float, list[float]] = {strength: [] for strength in sorted(strengths, reverse=True) if strength != wanted}
    for above, below in links(strengths, wanted):
        found[above].append(wanted - below)
        found[below].append(above - wanted)
    return found
