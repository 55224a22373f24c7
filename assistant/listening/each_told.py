"""Groups that share a figure: "2 parts each nettle and raspberry, 1 part each mint and rose", "nettle and oat 2 parts each": told out for each."""

from __future__ import annotations

from collections.abc import Sequence

from assistant.dataclass import replace
from assistant.listening.common import COMMON
from assistant.listening.ingredients import DESCRIBES, FORMS, NEVER
from assistant.listening.pieces import Piece

SHARED = frozenset({"<part>", "<mL>", "<g>"})
BARE = frozenset({"<#>", "<n>"})
JOINS = frozenset({",", "and", "&", "+", "n"})
FEWEST = 2


def with_each_told_out(pieces: Sequence[Piece]) -> list[Piece]:
    """The pieces with "2 parts each A and B" as "2 parts A, 2 parts B", where the sentence has other figures of the kind beside; else as they are."""
    at_each = [i for i, p in enumerate(pieces) if p.code == "each" and i > 0 and pieces[i - 1].code in SHARED | BARE]
    kinds = {pieces[i - 1].code for i in at_each}
    figures = [p for p in pieces if p.code in SHARED & kinds or (p.code in BARE and "<part>" in kinds)]
    if not at_each or len(figures) < FEWEST or not kinds & SHARED:
        return list(pieces)
    result = list(pieces)
    for each in reversed(at_each):
        figure = pieces[each - 1]
        start = each + 2 if [p.code for p in pieces[each + 1 : each + 2]] == ["of"] else each + 1
        behind = _group(pieces, start)
        before = _group_before(pieces, each - 1) if len(behind) < FEWEST else []
        if len(behind) >= FEWEST:
            told = [piece for name in behind for piece in (_as_parts(figure, kinds), *name)]
            result[each - 1 : _place(pieces, behind[-1][-1]) + 1] = told
        elif len(before) >= FEWEST:
            told = [piece for name in before for piece in (*name, _as_parts(figure, kinds))]
            result[_place(pieces, before[0][0]) : each + 1] = told
    return result


def _as_parts(figure: Piece, kinds: set[str]) -> Piece:
    return replace(figure, code="<part>") if figure.code in BARE and "<part>" in kinds else figure


def _place(pieces: Sequence[Piece], piece: Piece) -> int:
    return next(i for i, p in enumerate(pieces) if p is piece)


def _is_name(piece: Piece) -> bool:
    from assistant.listening.phrases import phrase_book

    code = piece.code
    return code == "@" or (code.isalpha() and len(code) > 2 and code not in COMMON | NEVER and code not in phrase_book().words)


def _group(pieces: Sequence[Piece], at: int) -> list[list[Piece]]:
    """The names from a place on, joined by "and" and commas, each with the words that belong to it."""
    group: list[list[Piece]] = []
    while at < len(pieces) and _is_name(pieces[at]):
        end = at + 1
        while end < len(pieces) and pieces[end].code in DESCRIBES | FORMS:
            end += 1
        group.append(list(pieces[at:end]))
        at = end
        while at < len(pieces) and pieces[at].code in JOINS:
            at += 1
    return group


def _group_before(pieces: Sequence[Piece], figure: int) -> list[list[Piece]]:
    """The names up to a figure: those right before it, back to the last figure."""
    at = figure
    while at > 0 and (pieces[at - 1].code in JOINS | DESCRIBES | FORMS or _is_name(pieces[at - 1])):
        at -= 1
    while at < figure and pieces[at].code in JOINS | DESCRIBES | FORMS:
        at += 1
    group = _group(pieces[:figure], at)
    return group if group and _place(pieces, group[-1][-1]) == figure - 1 else []


__all__ = ["with_each_told_out"]
