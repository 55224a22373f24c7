"""What the dispensary writes short: "2 pts" of a blend for parts, "x3.5" for so many times, "6 x 100 mL" for so many bottles, "3 g/cup".

The pieces keep their places in the sentence; only what they stand for changes.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from assistant.dataclass import replace
from assistant.listening.islands import Item
from assistant.listening.pieces import Piece
from assistant.patterns import looked_for

TIMES = looked_for(r"^[x×](\d+(?:\.\d+)?)$", re.IGNORECASE)
COUNTED = looked_for(r"^\d+\s*[x×]$", re.IGNORECASE)
PART = looked_for(r"^(?:(\d+(?:\.\d+)?)|(?:a )?half(?: a)?|1/2|½)\s*pts?\.?$", re.IGNORECASE)
HALF = 0.5
VESSELS = frozenset("cup mug bottle tin jar pot dose".split())
FILLED = VESSELS | frozenset("bottles tins jars pots tubs tubes vials phials flasks dropper little small".split())
BARE = frozenset({"<#>", "<n>"})
MOST_PARTS = 20.0  # nobody writes a recipe of more parts of one thing


def written_out(pieces: Sequence[Piece]) -> list[Piece]:
    """The pieces with the dispensary's short forms as what they mean."""
    full: list[Piece] = []
    parts = _parts(pieces)
    for i, piece in enumerate(pieces):
        after = pieces[i + 1].code if i + 1 < len(pieces) else ""
        times = TIMES.match(piece.text) if piece.code == "<label>" else None
        counted = piece.code == "<times>" and after == "<mL>" and COUNTED.match(piece.text)
        if i in parts:
            full.append(_number(piece, parts[i], "<part>", "parts", ""))
        elif times is not None:
            full.append(_number(piece, float(times.group(1)), "<times>", "number", "times"))
        elif counted and piece.item is not None and piece.item.value is not None:
            full.append(_number(piece, piece.item.value, "<#>", "number", ""))
        elif piece.code == "/" and after in VESSELS:
            full.append(replace(piece, code="per"))
        else:
            full.append(piece)
        bottled = i > 0 and piece.code == "<mL>" and pieces[i - 1].code == "<times>" and COUNTED.match(pieces[i - 1].text)
        if bottled and after not in FILLED:
            full.append(replace(piece, code="bottles", item=None))  # "6 x 100 mL": six bottles of 100 mL
    return full


def _parts(pieces: Sequence[Piece]) -> dict[int, float]:
    """Pints that are parts: each beside a plant, and more of them or bare numbers beside further plants, as nobody pours pints of several together."""
    found = {}
    for i, piece in enumerate(pieces):
        hit = PART.match(piece.text) if piece.code == "<mL>" else None
        many = 0.0 if hit is None else float(hit.group(1)) if hit.group(1) else HALF
        beside = {p.code for p in pieces[max(0, i - 1) : i + 2]}
        if 0 < many <= MOST_PARTS and "@" in beside:
            found[i] = many
    return found if len(found) > 1 or (found and _goes_on_bare(pieces, next(iter(found)))) else {}


def _goes_on_bare(pieces: Sequence[Piece], pint: int) -> bool:
    """ "3 pts skullcap tinct, 2 passionflower, 1 lemon balm", "skullcap 3 pts, passionflower 2": a small bare number beside another plant."""
    codes = [p.code for p in pieces]
    numbers_first = codes[pint + 1 : pint + 2] == ["@"]
    for i, piece in enumerate(pieces):
        few = piece.code in BARE and piece.item is not None and piece.item.value is not None and piece.item.value <= MOST_PARTS
        if few and i > pint + 1 and (codes[i + 1 : i + 2] if numbers_first else codes[i - 1 : i]) == ["@"]:
            return True
    return False


def _number(piece: Piece, value: float, code: str, kind: str, said_unit: str) -> Piece:
    item = piece.item or Item(kind, piece.text, piece.start, piece.end)
    return replace(piece, code=code, item=replace(item, kind=kind, value=value, unit="1", said_unit=said_unit, alt=None, said=value))
