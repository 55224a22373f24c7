"""A unit told once behind the last of a row is of all of it: "elder 100, lime 60, marshmallow 40 mL", "50 elder, 30 thyme, 20 mL rose"."""

from __future__ import annotations

from collections.abc import Sequence

from assistant.dataclass import replace
from assistant.listening.common import COMMON
from assistant.listening.pieces import Piece

NUMBERS = frozenset({"<#>", "<n>"})
UNITS = frozenset({"<mL>", "<g>"})
BEHIND_A_NAME = frozenset("tincture tinctures extract root leaf flower flowers bark berry berries herb tops".split())
BETWEEN = frozenset({",", "and", ";", "&", "+"})
FARTHEST = 20.0  # times: parts and a total of millilitres lie farther apart
LEAST = 5.0  # smaller numbers before their plants count parts


def with_unit_of_the_row(pieces: Sequence[Piece]) -> list[Piece]:
    """The pieces with the bare numbers of such a row in the unit of its last one; the same pieces where there is no such row."""
    result = list(pieces)
    for at, piece in enumerate(pieces):
        if piece.code not in UNITS or piece.item is None or not piece.item.said or not piece.item.value:
            continue
        for row in (_names_first(pieces, at), _numbers_first(pieces, at)):
            values = [_number(pieces[i]) for i in row]
            if not row or min(values) <= 0 or max(*values, piece.item.said) > FARTHEST * min(*values, piece.item.said):
                continue
            for i, value in zip(row, values, strict=True):
                number = pieces[i].item
                assert number is not None
                size = piece.item.value / piece.item.said
                item = replace(number, kind="amount", unit=piece.item.unit, said_unit=piece.item.said_unit, value=value * size, said=value)
                result[i] = replace(pieces[i], code=piece.code, item=item)
            break
    return result


def _number(piece: Piece) -> float:
    return piece.item.value or 0.0 if piece.item is not None else 0.0


def _names_first(pieces: Sequence[Piece], at: int) -> list[int]:
    """Places of the bare numbers of "elder 100, lime 60, marshmallow 40 mL", at the last of which the unit stands."""
    at = _behind_name(pieces, at)
    row: list[int] = []
    while at > 0:
        before = at - 1
        while before > 0 and pieces[before].code in BETWEEN:
            before -= 1
        name = _behind_name(pieces, before) if pieces[before].code in NUMBERS else -1
        if name < 0:
            break
        row.append(before)
        at = name
    led = pieces[at - 1].code if at > 0 else ""
    named = any(pieces[_behind_name(pieces, i)].code == "@" for i in row)
    return row if named and not led.startswith("<") else []


def _behind_name(pieces: Sequence[Piece], figure: int) -> int:
    """Where the plant stands right before a figure, -1 where none does."""
    i = figure - 1
    while i > 0 and pieces[i].code in BEHIND_A_NAME:
        i -= 1
    return i if i >= 0 and (pieces[i].code == "@" or _is_strange(pieces[i].code)) else -1


def _is_strange(code: str) -> bool:
    """Whether a word is none of everyday speech and none of the trade: "lime" in a row of plants."""
    from assistant.listening.phrases import phrase_book

    return code.isalpha() and len(code) > 2 and code not in COMMON and code not in phrase_book().words


def _numbers_first(pieces: Sequence[Piece], at: int) -> list[int]:
    """Places of the bare numbers of "50 elder, 30 thyme, 20 mL rose"."""
    if at + 1 >= len(pieces) or pieces[at + 1].code != "@":
        return []
    row: list[int] = []
    while at > 0:
        before = at - 1
        while before > 0 and pieces[before].code in BETWEEN:
            before -= 1
        name = _behind_name(pieces, before + 1)
        if name <= 0 or pieces[name - 1].code not in NUMBERS or _number(pieces[name - 1]) < LEAST:
            break
        at = name - 1
        row.append(at)
    return row


__all__ = ["with_unit_of_the_row"]
