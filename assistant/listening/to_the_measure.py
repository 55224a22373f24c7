"""Wax told for each measure of oil: "2 cups of oil, an ounce of beeswax a cup". So many measures, so many times the wax."""

from __future__ import annotations

from collections.abc import Sequence

from assistant.dataclass import replace
from assistant.listening.items import Item
from assistant.listening.pieces import Piece

WAXES = frozenset("wax beeswax candelilla carnauba".split())
LEADS = frozenset("of to per for in each every the a one".split())
WORDS = frozenset("cup pint quart litre liter".split())
MEASURES = frozenset({"<mL>", "<cup>"})
WEIGHTS = frozenset({"<g>", "<oz>"})


def with_wax_to_the_measure(pieces: Sequence[Piece]) -> list[Piece]:
    """The pieces with the wax of one measure made that of all the oil, and the one measure a mere reference.

    Only where another volume is told: "1 oz of wax to 1 cup of oil" by itself is the recipe as it stands.
    """
    codes = [p.code for p in pieces]
    for at, code in enumerate(codes):
        if code not in WAXES:
            continue
        weight = next((i for i in range(at - 1, max(-1, at - 3), -1) if codes[i] in WEIGHTS), None)
        measure = next((i for i in range(at + 1, min(len(codes), at + 4)) if codes[i] in MEASURES or codes[i] in WORDS), None)
        if weight is None or measure is None or not set(codes[at + 1 : measure]) <= LEADS | {"("}:
            continue
        others = [p for i, p in enumerate(pieces) if i != measure and codes[i] in MEASURES and not _is_a_vessel(codes, i)]
        wax, oil = pieces[weight].item, others[0].item if len(others) == 1 else None
        factor = _measures(pieces[measure], oil)
        if wax is None or not wax.value or not factor:
            continue
        alt = wax.alt * factor if isinstance(wax.alt, (int, float)) else wax.alt
        result = list(pieces)
        result[weight] = replace(pieces[weight], item=replace(wax, value=wax.value * factor, alt=alt))
        if codes[measure] in MEASURES:
            result[measure] = replace(pieces[measure], code="<ref>")
        return result
    return list(pieces)


def _measures(one: Piece, oil: Item | None) -> float:
    """How many of one measure the oil is: of "a cup", or of "the cup" where the oil is told in cups; 0 where that is not known."""
    if oil is None or not oil.value:
        return 0.0
    if one.item is None or not one.is_island:
        return float(oil.said or 0.0) if oil.said_unit.startswith(one.code) else 0.0
    return oil.value / one.item.value if one.item.value and one.item.said in (None, 1) else 0.0


def _is_a_vessel(codes: Sequence[str], at: int) -> bool:
    return bool(set(codes[at + 1 : at + 3]) & {"tin", "tins", "jar", "jars", "pot", "pots", "tube", "tubes"})
