"""Whole numbers within a ±: seven bottles may be six or eight where what is bottled is not sure. A ± has no meaning for a count that jumps."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import product

from assistant.solving.compiling import NO_VALUE
from assistant.solving.ledger import Ledger

Span = tuple[float, float]
MOST_SOURCES = 6  # 64 corners: more unsure quantities than that stand in no one count


def neighbours(ledger: Ledger, spreads: Mapping[int, float]) -> dict[int, Span]:
    """Of each count found through floor or ceil the least and the most it may be; only of those that are not sure.

    spreads   ± of found values by slot, in the unit of each
    """
    spans: dict[int, Span] = {}
    for slot in ledger.order:
        way = ledger.way[slot]
        if way is None or len(way.slots) > 1:
            continue
        instance = ledger.network.instances[way.leading[0]]
        if not instance.has_steps or instance.stands_in_steps(slot):
            continue
        evaluate = instance.towards(slot).evaluate
        if evaluate is None:
            continue
        unsure = [(s, spreads[s]) for s in instance.slots if s != slot and s in spreads][:MOST_SOURCES]
        values = ledger.values.copy()
        found = [ledger.values[slot]]
        for corner in product((-1.0, 1.0), repeat=len(unsure)):
            for (source, spread), side in zip(unsure, corner, strict=True):
                values[source] = ledger.values[source] + side * spread
            try:
                found.append(evaluate(values))
            except NO_VALUE:
                continue
        if min(found) < max(found):
            spans[slot] = min(found), max(found)
    return spans
