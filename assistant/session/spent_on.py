"""What was spent on each, in bare numbers: "the herb was 6 and spirit 14 and bottles 0.80" are the materials together; "700 ml vodka 18" a price."""

from __future__ import annotations

import re

from assistant.dataclass import replace
from assistant.listening.statements import Asked, Loose, Said
from assistant.patterns import looked_for
from assistant.session.work import Work, said_as

WORD = r"(?:herbs?|plants?|leaf|leaves|roots?|flowers?|bark|berries|seeds?|spirits?|vodka|brandy|gin|rum|alcohol|oil|beeswax|wax|honey|sugar|vinegar)"
LINKS = r"(?:(?:was|were|is|are|cost|costs|came|comes|to|at|me|for|about|the|all|of|:|=)\W*)*"
BEFORE = looked_for(rf"\b(?P<what>{WORD})\W+{LINKS}$", re.IGNORECASE)
PAID = looked_for(r"^(?:[£$€]\s*)?\d+(?:[.,]\d+)?(?:\s*(?:[£$€]|euros?|quid|pounds?|dollars?|bucks?))?$", re.IGNORECASE)
UNIT_BEHIND = looked_for(r"^\s*(?:%|percent|proof|ml|mls|g\b|kg|a |an |per |/|each|of\b)", re.IGNORECASE)
PRICED = frozenset({"herb_price", "spirit_price", "materials"})
BARE = frozenset({"#", "n", "money"})
BOUGHT_BY = (
    ("1/mL", "spirit_price", frozenset({"strength", "stock_strength", "stock", "stock_used", "spirit_in_hand", "menstruum"})),
    ("1/g", "herb_price", frozenset({"herb"})),
)
LEAST = 2  # a single one is a price or a strength in its own right


ONE_OF_THEM = looked_for(r"\b(?:does|do|did|is|'s|what's|each|would|will)\s+(?:the\s+)?$", re.IGNORECASE)


ONE_FILLED = looked_for(r"\s+(?:paper |foil )?(?:packet|bag|pouch|sachet|pack|bottle|tin|jar|pot|of (?:them|those|these))\b", re.IGNORECASE)


def _one_of_them(loose: list[Loose], work: Work) -> None:
    """ "What does one cost", "the cost of one packet": one of those filled, and no count. Changes the list."""
    heard = work.reading.heard
    for figure in [f for f in loose if heard[f.start : f.end].strip().lower() in ("one", "1")]:
        if (heard[figure.start : figure.end] != "1" and ONE_OF_THEM.search(heard[: figure.start])) or ONE_FILLED.match(heard, figure.end):
            loose.remove(figure)
            work.refer(figure)


WHAT_IS_LEFT = looked_for(
    r"\b(?:what['’]?s|what|how much['’]?s|how much)\W+(?:is |do i |are )?(?:left|made?|make|earn|clear|keep|profit)\b|[,;]\s*(?:left|profit)\s*\?",
    re.IGNORECASE,
)
AT_A_PRICE = looked_for(
    r"^\W*(?:(?:and|or|so|then|what|how|about|if|i|we|only|just|sell|sold|selling|charge|charging|ask|asking|it|them|each|for|at|say|make)\W+)*"
    r"[£$€]?\d+(?:\.\d+)?\W*(?:(?:each|apiece|then|instead|a|bag|packet|pouch|bottle|tin)\W*)*$",
    re.IGNORECASE,
)


def sold_at(said: list[Said], loose: list[Loose], work: Work) -> None:
    """ "Sell at 6, what is left?" is what stays of the price; "and at 5" another price, where one was told. Changes both lists and the reading's asked."""
    reading, facts = work.reading, work.batch.facts
    figures: list[Said | Loose] = [*said, *loose]
    if "market" in work.frames:
        return
    if "selling_price" in facts and len(figures) == 1 and AT_A_PRICE.match(reading.heard) and not figures[0].said_unit:
        figure = figures[0]
        if isinstance(figure, Loose) or figure.quantity in BY_THE or figure.quantity in ("bottle_cost", "empty_bottle", "menstruum"):
            said.clear()
            loose.clear()
            said.append(Said("selling_price", figure.value, figure.start, figure.end))
    priced = [s for s in said if s.quantity == "selling_price"]
    if priced and WHAT_IS_LEFT.search(reading.heard):
        reading.asked[:] = [Asked("left_each", 0, len(reading.heard))]


def _each_of_them(said: list[Said], work: Work) -> None:
    """ "8 jars at 0.60": what is filled is counted, whatever it is. Changes the list."""
    counted = {s.quantity for s in said} | work.facts.keys()
    for s in [s for s in said if s.quantity == "jars" and not counted & {"bottles", "tins", "jar_size", "herb", "menstruum"}]:
        said[said.index(s)] = replace(s, quantity="bottles", weak=False)


SPIRIT_BETWEEN = looked_for(
    rf"^\s*(?:bottles?\s+)?(?:of\s+)?(?:the\s+|my\s+)?(?:\d+(?:[.,]\d+)?\s*%?\s+)?(?:spirits?|vodka|brandy|gin|rum|alcohol)\W+{LINKS}$", re.IGNORECASE
)
PLANT_BETWEEN = looked_for(rf"^\s*(?:of\s+)?(?:the\s+|my\s+)?(?:[a-z']+\s+){{0,3}}[a-z']+\W+{LINKS}$", re.IGNORECASE)
SPIRITS = frozenset({"menstruum", "spirit_in_hand", "stock", "stock_used", "pressed", "bottle_size"})
BY_THE = frozenset({"strength", "stock_strength"})
DEAREST_PERCENT = 35.0  # a bare number above may be how strong the spirit is


def _for_so_much(said: list[Said], loose: list[Loose], work: Work) -> None:
    """ "700 ml vodka 18 quid", "140 g root for 4.20": what so much of it was paid for, as the price of one. Changes both lists in place."""
    heard = work.reading.heard
    figures: list[Said | Loose] = [*said, *loose]
    for figure in [f for f in figures if _is_money(f, heard)]:
        before = max((s for s in said if s.end <= figure.start and s.quantity not in BY_THE and s.value > 0), key=lambda s: s.end, default=None)
        if before is None:
            continue
        between = heard[before.end : figure.start]
        if before.quantity in SPIRITS and SPIRIT_BETWEEN.match(between):
            told, amount = "spirit_price", "stock_used"
        elif before.quantity == "herb" and isinstance(figure, Loose) and PLANT_BETWEEN.match(between) and not SPIRIT_BETWEEN.match(between):
            told, amount = "herb_price", "herb"
        else:
            continue
        if any(s.quantity == told for s in said):
            continue
        if isinstance(figure, Said):
            said.remove(figure)
        else:
            loose.remove(figure)
        said[said.index(before)] = replace(before, quantity=amount, weak=False)
        said.append(Said(told, figure.value / before.value, figure.start, figure.end))


def _is_money(figure: Said | Loose, heard: str) -> bool:
    text = heard[figure.start : figure.end].strip()
    if PAID.match(text) is None or UNIT_BEHIND.match(heard[figure.end :]):
        return False
    if isinstance(figure, Said):
        return figure.quantity in BY_THE and figure.value <= DEAREST_PERCENT and not figure.said_unit
    return figure.kind in BARE


def spent_on(said: list[Said], loose: list[Loose], work: Work) -> None:
    """Two bare numbers and more behind what was bought, where a cost is asked for, are what was paid. Changes both lists in place."""
    if "cost" not in work.frames:
        return
    _one_of_them(loose, work)
    sold_at(said, loose, work)
    if work.members:
        return
    _each_of_them(said, work)
    _for_so_much(said, loose, work)
    if any(s.quantity in PRICED for s in said):
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


OF_WHAT_IS_MADE = looked_for(r"\b(?:the|that|my|your|a)\W+(?:\d+(?:[.,]\d+)? ?(?:mls?|l|lit(?:re|er)s?)\W+(?:of\W+)?(?:the\W+)?)?$", re.IGNORECASE)
IN_MONEY = looked_for(
    r"^\W*(?:%|percent|per cent)?\W*(?:one|batch|lot|mix|stuff)?\W*(?:costs?|comes?|works?|stands?|sets?|runs?|worth|then|$)", re.IGNORECASE
)


def strength_costed(said: list[Said], loose: list[Loose], work: Work) -> None:
    """ "Spirit is 24 a litre, what's the 50 cost me": of a dilution in hand the number is how strong it was made, and no other spirit to start from.

    Changes both lists in place.
    """
    facts, heard = work.facts, work.reading.heard
    if "cost" not in work.frames or not {"strength", "stock_strength"} <= facts.keys() or work.members or any(s.quantity == "strength" for s in said):
        return
    figures: list[Said | Loose] = [*(s for s in said if s.quantity == "stock_strength"), *(f for f in loose if f.kind in ("#", "%"))]
    for figure in figures:
        if figure.value > facts["stock_strength"].value or not OF_WHAT_IS_MADE.search(heard[: figure.start]) or not IN_MONEY.match(heard[figure.end :]):
            continue
        if figure.value == facts["stock_strength"].value:
            continue
        if isinstance(figure, Said):
            said[said.index(figure)] = replace(figure, quantity="strength", weak=False)
        else:
            loose.remove(figure)
            said.append(said_as(figure, "strength"))
        return


def _is_paid(figure: Said | Loose, heard: str) -> bool:
    if isinstance(figure, Loose) and figure.kind not in BARE:
        return False
    text = heard[figure.start : figure.end].strip()
    return PAID.match(text) is not None and BEFORE.search(heard[: figure.start]) is not None and not UNIT_BEHIND.match(heard[figure.end :])
