"""Orders told by the bottle: "promised 12 bottles of 50 of nettle and 8 of elder", "six 100s of mullein, ten 50s", "24 nettle and 18 elder in 50 ml".

An item is so many bottles of a size of a plant. A size said once serves the items that have none; an item without a plant is of the one before.
"""

from __future__ import annotations

from collections.abc import Sequence

from assistant.dataclass import dataclass
from assistant.listening.pieces import Piece
from assistant.listening.statements import Ingredient, Reading, Reference

THERE = frozenset("have got there's theres there left pressed made only ready shelf mine holds has".split())
PROMISED = frozenset("promised promise owe owed owes ordered order orders".split())
BETWEEN = frozenset("bottles bottle phials vials of the x at in for".split())
OTHER = frozenset("<g> <oz> <:> <%> <share> <x> <aday> <day> <drop> <money> <per> <cup>".split())
COUNTS = frozenset({"<#>", "<n>", "<times>"})
LEAST_SIZE, MOST_SIZE = 10.0, 2000.0  # mL: a bare number between them may be a bottle's size
MOST_BOTTLES = 1000.0


@dataclass(slots=True)
class Item:
    """So many bottles: where the count, the size and the plant stand; -1 where that was not said."""

    count: int
    size: int = -1
    name: int = -1


def read_orders(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading) -> bool:
    """Make each plant's orders a row of the whole; True where every count had its size and plant. Elsewhere nothing is changed."""
    bag = set(tokens)
    cues = [i for i, t in enumerate(tokens) if t in PROMISED and not set(tokens[max(0, i - 3) : i]) & {"in", "that", "this"}]
    if not cues or bag & OTHER or "@" not in bag or "basket" in bag:
        return False
    last = next((i for i, t in enumerate(tokens) if i > cues[0] and t in THERE and t != "there"), len(tokens))
    if last < len(tokens) and set(tokens[last:]) & {"<mL>", "<#>", "@"}:
        return False  # what stands there is told too: read as promised against what there is
    items = _items(pieces, tokens, taken)
    if not items or not any(item.count >= 0 for item in items):
        return False
    _complete(items, pieces, tokens)
    used = {at for item in items for at in (item.count, item.size) if at >= 0}
    loose = [i for i, t in enumerate(tokens) if t in COUNTS | {"<mL>"} and i not in used and i not in taken]
    if loose or any(item.size < 0 or item.name < 0 for item in items):
        return False
    rows: dict[str, list[tuple[str, float, int, int]]] = {}
    totals: dict[str, float] = {}
    for item in items:
        name = pieces[item.name].name
        totals[name] = totals.get(name, 0.0) + _value(pieces[item.count]) * _value(pieces[item.size])
        start = min(pieces[at].start for at in (item.count, item.name))
        rows[name] = [("promised", totals[name], rows[name][0][2] if name in rows else start, pieces[item.count].end)]
    for name, figures in rows.items():
        reading.ingredients.append(Ingredient(name, tuple(figures), figures[0][2], figures[0][3]))
    for at in used:
        taken.add(at)
        reading.references.append(Reference("reference", pieces[at].start, pieces[at].end))
    reading.frames.add("orders")
    return True


def _items(pieces: list[Piece], tokens: Sequence[str], taken: set[int]) -> list[Item]:
    """The counts of bottles, each with the size and the plant said beside it."""
    items: list[Item] = []
    at = 0
    while at < len(tokens):
        if tokens[at] not in COUNTS or at in taken or not 1 <= _value(pieces[at]) <= MOST_BOTTLES or _value(pieces[at]) % 1:
            at += 1
            continue
        item = Item(at)
        look = _skip(tokens, at + 1)
        if look < len(tokens) and _is_size(pieces, tokens, look, at):
            item.size, look = look, _skip(tokens, look + 1)
        if look < len(tokens) and tokens[look] == "@":
            item.name, look = look, look + 1
            after = _skip(tokens, look)
            if item.size < 0 and after > look and after < len(tokens) and tokens[after] == "<mL>" and _stands_alone(tokens, after):
                item.size, look = after, after + 1
        elif at and tokens[at - 1] == "@":
            item.name = at - 1
        items.append(item)
        at = max(look, at + 1)
    return items


def _stands_alone(tokens: Sequence[str], at: int) -> bool:
    """Whether a size belongs to the item before it, not to the next plant."""
    return tokens[at + 1 : at + 2] != ["@"]


def _skip(tokens: Sequence[str], at: int) -> int:
    while at < len(tokens) and tokens[at] in BETWEEN:
        at += 1
    return at


def _is_size(pieces: list[Piece], tokens: Sequence[str], at: int, count: int) -> bool:
    if tokens[at] == "<mL>":
        return True
    return tokens[at] in ("<n>", "<#>") and LEAST_SIZE <= _value(pieces[at]) <= MOST_SIZE and (tokens[at] == "<n>" or at - count > 1)


def _complete(items: list[Item], pieces: list[Piece], tokens: Sequence[str]) -> None:
    """A size said once serves all that have none; an item without a plant is of the last one named. Changes the items in place."""
    used = {item.size for item in items}
    sizes = sorted({_value(pieces[i]) for i in used if i >= 0})
    common = [i for i in used if i >= 0] if len(sizes) == 1 and -1 in used else [i for i, t in enumerate(tokens) if t == "<mL>" and i not in used]
    names = [item.name for item in items if item.name >= 0]
    told = [i for i, t in enumerate(tokens) if t == "@"]
    size = -1
    for n, item in enumerate(items):
        if item.size < 0:
            item.size = size if size >= 0 else common[0] if common and (len(common) == 1 or len(sizes) == 1) else size
        size = item.size
        if item.name < 0:
            earlier = [other.name for other in items[:n] if other.name >= 0]
            item.name = earlier[-1] if earlier else told[0] if len(told) == 1 or not names else -1


def _value(piece: Piece) -> float:
    item = piece.item
    return 0.0 if item is None or item.value is None else float(item.said if piece.code == "<times>" and item.said is not None else item.value)


__all__ = ["read_orders"]
