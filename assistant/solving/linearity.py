"""Whether a first-order ± can be trusted: a figure is worked out again at both ends of each source, and the bend between them is weighed.

With normal draws of a source of ± u, Taylor's series to the third order gives the spread of y = f(x) as |f'| u (1 + a² + 3 b), where
a = (f(x+u) + f(x−u) − 2 f(x)) / (2 |f'| u) is the bend and b = (f(x+u) − f(x−u)) / (2 f' u) − 1 the flattening; sources are weighed by their share.

source    JCGM 100:2008, 5.1.2 note (the next terms of the series); the form in a and b is worked out here
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from assistant.matter.function import Function
from assistant.relations.relation import Relation
from assistant.solving.ledger import Brackets
from assistant.solving.solution import Known
from assistant.solving.solver import figures_of

LIMIT = 0.05  # of the ±: beyond it the ± is called rough


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
    """By which share a first-order ± misses the spread that draws would show; 0 for what is linear, 1 where an end of a source has no figure at all.

    key, value   the figure and what it is, in its unit
    moved        its change for one unit of each source (Solution.moved_by)
    known        what the batch was worked out from; the ± of each source stands in it
    """
    parts = {source: change * (known[source].plus_minus or 0.0) for source, change in moved.items() if source in known}
    whole = sum(part * part for part in parts.values())
    if not whole:
        return 0.0
    off = 0.0
    for source, part in parts.items():
        share = part * part / whole
        if share < 0.01:
            continue
        ends = [_at(key, known, source, side, relations, members, functions, brackets) for side in (1.0, -1.0)]
        if ends[0] is None or ends[1] is None:
            return 1.0
        bend = (ends[0] + ends[1] - 2 * value) / (2 * abs(part))
        flattening = (ends[0] - ends[1]) / (2 * part) - 1
        off += share * (bend * bend + 3 * flattening)
    return abs(off)


def _at(
    key: str,
    known: Mapping[str, Known],
    source: str,
    side: float,
    relations: Sequence[Relation],
    members: Sequence[str],
    functions: Mapping[str, Function],
    brackets: Brackets,
) -> float | None:
    """The figure with one source at an end of its ±; None where it has none there."""
    there = known[source]
    moved = {**known, source: replace(there, value=there.value + side * (there.plus_minus or 0.0))}
    figures = figures_of(moved, relations, members, functions, brackets)
    found = None if figures is None else figures.get(key)
    if found is None:
        return None
    low, high = brackets(key)
    return found if low <= found <= high else None
