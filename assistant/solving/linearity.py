"""Whether a first-order ± can be trusted: a figure is worked out again at both ends of its sources, and the bend between them is weighed.

With normal draws of a source of ± u, Taylor's series to the third order gives the spread of y = f(x) as |f'| u (1 + a² + 3 b), where
a = (f(x+u) + f(x−u) − 2 f(x)) / (2 |f'| u) is the bend and b = (f(x+u) − f(x−u)) / (2 f' u) − 1 the flattening. Each source is moved by itself, and
all of them together along the steepest way, so that what bends only together (a product, a difference below a line) is seen too.

source    JCGM 100:2008, 5.1.2 note (the next terms of the series); the form in a and b is worked out here
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from math import sqrt

from assistant.dataclass import replace
from assistant.matter.function import Function
from assistant.relations.relation import Relation
from assistant.solving.ledger import Brackets
from assistant.solving.solution import Known
from assistant.solving.solver import figures_of

LIMIT = 0.05  # of the ±: beyond it the ± is called rough
SMALL = 0.01  # of the square: a source that small bends nothing
FURTHER = 2.0  # times the ±: a figure that does not exist there has no honest ±

At = Callable[[Mapping[str, float]], float | None]


def misfit(
    key: str,
    value: float,
    moved: Mapping[str, float],
    known: Mapping[str, Known],
    relations: Sequence[Relation],
    members: Sequence[str],
    functions: Mapping[str, Function],
    brackets: Brackets,
) -> float:
    """By which share a first-order ± misses the spread that draws would show; 0 for what is linear, 1 where there is no figure at an end.

    key, value   the figure and what it is, in its unit
    moved        its change for one unit of each source (Solution.moved_by)
    known        what the batch was worked out from; the ± of each source stands in it
    """
    limits = {source: known[source].plus_minus or 0.0 for source in moved if source in known}
    parts = {source: moved[source] * limit for source, limit in limits.items()}
    total = sqrt(sum(part * part for part in parts.values()))
    if not total:
        return 0.0

    def at(shift: Mapping[str, float]) -> float | None:
        """The figure with its sources shifted, in shares of their ±; None where it has none there.

        Where more was said than is needed, shifting one figure contradicts another: that tells nothing of the bend, and the first order is taken.
        """
        there = {s: replace(known[s], value=known[s].value + share * limits[s]) for s, share in shift.items()}
        figures = figures_of({**known, **there}, relations, members, functions, brackets)
        if figures is None:
            return value + sum(parts[s] * share for s, share in shift.items())
        found = figures.get(key)
        low, high = brackets(key)
        return found if found is not None and low <= found <= high else None

    steepest = {source: part / total for source, part in parts.items() if part}
    if any(at({s: side * share for s, share in steepest.items()}) is None for side in (FURTHER, -FURTHER)):
        return 1.0
    alone = 0.0
    for source, part in parts.items():
        weight = (part / total) ** 2
        if weight >= SMALL:
            alone += weight * _bent(at, {source: 1.0}, value, part)
    return max(alone, _bent(at, steepest, value, total))


def _bent(at: At, shift: Mapping[str, float], value: float, part: float) -> float:
    """|a² + 3 b| of one way, which moves the figure by `part`, first order."""
    above, below = at(shift), at({source: -share for source, share in shift.items()})
    if above is None or below is None:
        return 1.0
    bend = (above + below - 2 * value) / (2 * part)
    flattening = (above - below) / (2 * part) - 1
    return abs(bend * bend + 3 * flattening)
