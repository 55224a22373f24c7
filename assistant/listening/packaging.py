"""What goes round the liquid, each with its price: "glass n cap 1.10, label 20p" is 1.30 a bottle."""

from __future__ import annotations

from assistant.listening.pieces import Piece
from assistant.listening.statements import Reading, Reference, Said

PACKING = frozenset("glass cap caps lid lids label labels dropper pipette box boxes carton bottle jar tin pump seal sticker bag".split())
JOINS = frozenset("n and & + / plus with a the an".split())
LEADS = frozenset("is are at : cost costs for about - = , each @".split())
FOR = frozenset("the a an for my per each of".split())
OPENS = frozenset(", ; : and + plus & .".split())
MOST = 100.0  # money: no wrapping of one bottle costs that


def read_packaging(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading) -> None:
    """The prices of the wrapping of one bottle, added up into `empty_bottle`, where two or more are told apart; figures used are taken."""
    if "cost" not in reading.frames:
        return
    leading = _prices_first(tokens, taken)
    prices = list(leading)
    i = 0
    while i < len(tokens):
        at = i
        while at < len(tokens) and (tokens[at] in PACKING or (at > i and tokens[at] in JOINS)):
            at += 1
        if at == i or tokens[at - 1] in JOINS:
            i += 1
            continue
        if any(before in leading for before in range(max(0, i - 3), i)) or (i and tokens[i - 1] == "<mL>"):
            i = at  # priced already: "1.10 the bottle"; or its size: "100 mL bottle: 9 for the tincture"
            continue
        led = at
        while led < len(tokens) and led < at + 2 and tokens[led] in LEADS:
            led += 1
        item = pieces[led].item if led < len(tokens) else None
        free = led < len(tokens) and tokens[led] in ("<#>", "<money>") and led not in taken and led not in prices
        if free and item is not None and item.value is not None and item.value < MOST:
            prices.append(led)
        i = max(at, i + 1)
    if len(prices) < 2:
        return
    prices.sort()
    first = pieces[prices[0]]
    total = sum(p.value for i in prices if (p := pieces[i].item) is not None and p.value is not None)
    reading.said.append(Said("empty_bottle", total, first.start, first.end))
    taken.update(prices)
    reading.references += [Reference("empty_bottle", pieces[i].start, pieces[i].end, None) for i in prices[1:]]


def _prices_first(tokens: list[str], taken: set[int]) -> list[int]:
    """ "1.10 the bottle, 15p label": prices that stand before what they are for, each at the beginning of its clause."""
    found = []
    for i, token in enumerate(tokens):
        if token not in ("<#>", "<money>") or i in taken or (i and tokens[i - 1] not in OPENS):
            continue
        at = i + 1
        while at < len(tokens) and at < i + 3 and tokens[at] in FOR:
            at += 1
        behind = at + 1
        while behind < len(tokens) and tokens[behind] in PACKING | JOINS:
            behind += 1
        if at < len(tokens) and tokens[at] in PACKING and (behind >= len(tokens) or tokens[behind] not in ("<#>", "<money>") or tokens[behind - 1] in OPENS):
            found.append(i)
    return found
