"""So many bags of so much: "12 packets of 100 g tea", "8 x 50 g bags", "40 g sachets, 9 of them". Both figures are the bags', and the tea in them no plant."""

from __future__ import annotations

from collections.abc import Sequence

from assistant.listening.pieces import Piece, take_piece
from assistant.listening.statements import Reading

BAGS = frozenset("bag bags packet packets pouch pouches sachet sachets pack packs boxes".split())
COUNTS = frozenset({"<#>", "<n>", "<times>"})
BETWEEN = frozenset("of at @ x × with holding each , ( paper little small big nice foil kraft a".split())
WEIGHTS = frozenset({"<g>", "<oz>"})
EACH = frozenset("each apiece per a".split())
LEADS = frozenset(", ; . x × want need make do for and".split())
ENDS = frozenset(", ; . ? of".split())
FEWEST = 2
LONGEST = 6  # tokens from the count to the last word of the bags


def read_bags(pieces: Sequence[Piece], tokens: Sequence[str], taken: set[int], reading: Reading) -> None:
    """The count and the weight of one, where they stand together. Changes the reading and `taken`."""
    for weight, token in enumerate(tokens):
        if token not in WEIGHTS or weight in taken:
            continue
        near = [i for i in range(max(0, weight - LONGEST), min(len(tokens), weight + 3)) if tokens[i] in BAGS]
        count = next((c for bags in near if (c := _count(pieces, tokens, weight, bags)) is not None and c not in taken), None)
        if count is None:
            continue
        take_piece(pieces, taken, reading, "bags", count)
        take_piece(pieces, taken, reading, "tin_weight", weight)
        reading.frames.add("bagged")
        return


def _count(pieces: Sequence[Piece], tokens: Sequence[str], weight: int, bags: int) -> int | None:
    """The place of how many there are of them: before both, else behind both."""
    first, last = min(weight, bags), max(weight, bags)
    for at in range(first - 1, max(-1, last - LONGEST), -1):
        if tokens[at] in COUNTS and _is_whole(pieces[at]):
            told = [t for i, t in enumerate(tokens[at + 1 : last], at + 1) if i not in (weight, bags)]
            aside = "," in told and weight > bags and tokens[weight + 1 : weight + 2] and tokens[weight + 1] not in EACH  # "3 packets, 60 g nettle"
            return at if set(told) <= BETWEEN and not aside else None
        if tokens[at] not in BETWEEN:
            break
    if last - first > 2 or not set(tokens[first + 1 : last]) <= BETWEEN:
        return None
    at = last + 1
    while at < len(tokens) and at < last + 4 and tokens[at] in LEADS:
        at += 1
    led = at > last + 1 and at < len(tokens) and tokens[at] in COUNTS and _is_whole(pieces[at])
    return at if led and (at + 1 == len(tokens) or tokens[at + 1] in ENDS | BAGS) else None


def _is_whole(piece: Piece) -> bool:
    value = piece.item.value if piece.item is not None else None
    return value is not None and value >= FEWEST and value == round(value)


__all__ = ["read_bags"]
