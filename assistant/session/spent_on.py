"""What was spent on each, in bare numbers: "the herb was 6 and spirit 14 and bottles 0.80". Together they are the materials."""

from __future__ import annotations

import re

from assistant.listening.statements import Loose, Said
from assistant.patterns import looked_for
from assistant.session.work import Work, said_as

WORD = r"(?:herbs?|plants?|leaf|leaves|roots?|flowers?|bark|berries|seeds?|spirits?|vodka|brandy|gin|rum|alcohol|oil|beeswax|wax|honey|sugar|vinegar)"
LINKS = r"(?:(?:was|were|is|are|cost|costs|came|comes|to|at|me|for|about|the|all|of|:|=)\W*)*"
BEFORE = looked_for(rf"\b(?P<what>{WORD})\W+{LINKS}$", re.IGNORECASE)
PAID = looked_for(r"^(?:[£$€]\s*)?\d+(?:[.,]\d+)?$")
UNIT_BEHIND = looked_for(r"^\s*(?:%|percent|proof|ml|mls|g\b|kg|a |an |per |/|each|of\b)", re.IGNORECASE)
PRICED = frozenset({"herb_price", "spirit_price", "materials"})
BARE = frozenset({"#", "n", "money"})
BOUGHT_BY = (
    ("1/mL", "spirit_price", frozenset({"strength", "stock_strength", "stock", "stock_used", "spirit_in_hand"})),
    ("1/g", "herb_price", frozenset({"herb"})),
)
LEAST = 2  # a single one is a price or a strength in its own right


def spent_on(said: list[Said], loose: list[Loose], work: Work) -> None:
    """Two bare numbers and more behind what was bought, where a cost is asked for, are what was paid. Changes both lists in place."""
    if "cost" not in work.frames or work.members or any(s.quantity in PRICED for s in said):
        return
    heard = work.reading.heard
    figures: list[Said | Loose] = sorted([*said, *loose], key=lambda f: f.start)
    paid = [f for f in figures if _is_paid(f, heard)]
    kinds = {BEFORE.search(heard[: f.start])["what"].lower() for f in paid}  # type: ignore[index]
    if len(paid) < LEAST or len(kinds) != len(paid):
        return
    said[:] = [s for s in said if s not in paid]
    loose[:] = [f for f in loose if f not in paid]
    for figure in paid[1:]:
        work.refer(figure)
    said.append(Said("materials", sum(f.value for f in paid), paid[0].start, paid[0].end))


def priced_by_measure(said: list[Said], loose: list[Loose], work: Work) -> None:
    """ "1.5 litres of 60 made from 96, that's 11 a litre": a price by the litre or the kilo that no word claimed is of what is bought so.

    Left out, it would be a cost without that price. Changes both lists in place.
    """
    if "cost" not in work.frames or work.members:
        return
    known = {s.quantity for s in said} | work.facts.keys()
    for unit, quantity, bought in BOUGHT_BY:
        prices = [f for f in loose if f.kind == "per" and f.unit == unit]
        if len(prices) == 1 and known & bought and not any(s.quantity == quantity for s in said):
            loose.remove(prices[0])
            said.append(said_as(prices[0], quantity))


def _is_paid(figure: Said | Loose, heard: str) -> bool:
    if isinstance(figure, Loose) and figure.kind not in BARE:
        return False
    text = heard[figure.start : figure.end].strip()
    return PAID.match(text) is not None and BEFORE.search(heard[: figure.start]) is not None and not UNIT_BEHIND.match(heard[figure.end :])
