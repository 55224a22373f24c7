"""What goes round the liquid, each with its price: "glass n cap 1.10, label 20p" is 1.30 a bottle."""

from __future__ import annotations

from assistant.listening.pieces import Piece
from assistant.listening.statements import Reading, Reference, Said

PACKING = frozenset("glass cap caps lid lids label labels dropper pipette box boxes carton bottle jar tin pump seal sticker bag".split())
JOINS = frozenset("n and & + / plus with a the an".split())
LEADS = frozenset("is are at : cost costs for about - = , each @".split())
MOST = 100.0  # money: no wrapping of one bottle costs that


def read_packaging(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading) -> None:
    """The prices of the wrapping of one bottle, added up into `empty_bottle`, where two or more are told apart; figures used are taken."""
    if "cost" not in reading.frames:
        return
    prices: list[int] = []
    i = 0
    while i < len(tokens):
        at = i
        while at < len(tokens) and (tokens[at] in PACKING or (at > i and tokens[at] in JOINS)):
            at += 1
        if at == i or tokens[at - 1] in JOINS:
            i += 1
            continue
        led = at
        while led < len(tokens) and led < at + 2 and tokens[led] in LEADS:
            led += 1
        item = pieces[led].item if led < len(tokens) else None
        if led < len(tokens) and tokens[led] in ("<#>", "<money>") and led not in taken and item is not None and item.value is not None and item.value < MOST:
            prices.append(led)
        i = max(at, i + 1)
    if len(prices) < 2:
        return
    first = pieces[prices[0]]
    total = sum(p.value for i in prices if (p := pieces[i].item) is not None and p.value is not None)
    reading.said.append(Said("empty_bottle", total, first.start, first.end))
    taken.update(prices)
    reading.references += [Reference("empty_bottle", pieces[i].start, pieces[i].end, None) for i in prices[1:]]
