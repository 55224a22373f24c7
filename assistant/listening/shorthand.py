"""Short ways of writing, put into plain words before the phrases are looked for: "wot strength 2 pour" → what strength to pour.

The places in the sentence stay as they were; only the tokens change. A figure that turns out to be a word ("2" for "to", "one" for a
thing) is set aside as a reference, so that it is accounted for.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from assistant.dataclass import replace
from assistant.listening.pieces import Piece
from assistant.listening.trade_writing import written_out
from assistant.places import grammar_file

# After these "2" is an amount; before a verb of these or another figure it is "to".
_DOING = frozenset(
    "pour dig add make get pick use gather cut buy fetch measure cover fill reach do take put go bring dilute water mix press steep bottle dry be have".split()
)
_WHAT = frozenset("what how which what's".split())
_PURE = frozenset("pure absolute straight actual neat".split())
_NO_NUMBER_AHEAD = frozenset("make into in of with for times about only just another these those those the and or , . ; : ( x at to from".split())


@lru_cache(maxsize=1)
def shorthand() -> dict[str, tuple[str, ...]]:
    """Short form → the words meant, from grammar/shorthand.txt."""
    pairs: dict[str, tuple[str, ...]] = {}
    for line in grammar_file("shorthand.txt").read_text(encoding="utf-8").splitlines():
        short, equals, full = line.partition(" = ")
        if equals and not line.startswith("#"):
            pairs[short.strip()] = tuple(full.split())
    return pairs


def in_full(pieces: Sequence[Piece]) -> tuple[list[Piece], list[Piece]]:
    """The pieces in plain words, and those figures that were words after all.

    A short form of several words becomes several tokens over the same place.
    """
    short = shorthand()
    pieces = written_out(pieces)
    full: list[Piece] = []
    words_after_all: list[Piece] = []
    for i, piece in enumerate(pieces):
        before = full[-1].code if full else ""
        after = pieces[i + 1].code if i + 1 < len(pieces) else ""
        if piece.code == "<#>" and piece.text == "2" and _is_to(before, after, full, piece):
            words_after_all.append(piece)
            if before == "in" and full and full[-1].end == piece.start:
                full[-1] = replace(full[-1], code="into")
            else:
                full.append(replace(piece, code="to", item=None))
            continue
        priced = before in ("of", "for", "per") and len(full) > 1 and full[-2].code in ("cost", "price")  # "cost of one?"
        if piece.code == "<#>" and piece.text.lower() == "one" and ((priced and after in _ENDS) or _is_thing(before, after)):
            words_after_all.append(piece)
            full.append(replace(piece, code="one", item=None))
            continue
        if piece.code in ("alcohol", "ethanol") and before in _PURE:
            full[-1] = replace(full[-1], code="purealcohol", end=piece.end, text=full[-1].text + " " + piece.text)
            continue
        if piece.is_island and piece.item is not None and piece.item.kind == "per" and piece.item.value is None:
            full.append(replace(piece, code={"g/mL": "g/ml", "mL/g": "ml/g", "drop/mL": "drops/ml"}.get(piece.item.unit, "each"), item=None))
            continue
        if piece.code == "y" and (not full or before in (".", "?", ",", "so", "but", "and")):
            full.append(replace(piece, code="why"))
            continue
        words = short.get(piece.code)
        if words is not None and not piece.is_island:
            full.extend(replace(piece, code=word) for word in words)
            continue
        full.append(piece)
    return full, words_after_all


_ENDS = ("?", ".", ",", ";", "!", "", "then", "now", "please")
_COSTING = frozenset("cost costs costing come comes work works".split())
_VESSEL = frozenset("bottle jar tin pot phial vial tube".split())
_ASKED_OF = frozenset("what what's whats which how_much does do did will would should must is".split())


def _is_to(before: str, after: str, full: Sequence[Piece], piece: Piece) -> bool:
    """Whether a "2" stands for "to": glued to "in", before what is done, or between a word of bringing and another figure."""
    if before == "in" and full and full[-1].end == piece.start:
        return True
    if not before or not before.isalpha():
        return False
    if after in _DOING or after in _WHAT:
        return before not in _NO_NUMBER_AHEAD
    return after in ("<#>", "<%>", "<mL>", "<g>") and before in ("down", "up", "back", "it", "diluted", "dries", "dried", "cut", "went", "watered", "brought")


def _is_thing(before: str, after: str) -> bool:
    """Whether "one" is a thing and no number: "a funny one", "the dry one", "one of them"."""
    if after in ("?", ".", ",", ":", ";", "!", "", "is", "was", "that", "please", "then", "instead", "too", "again", "and"):
        return before.isalpha() and before not in ("in", "of", "for", "with", "make", "by", "plus", "times", "and", "to")
    if after == "sells":
        return True
    if after == "dose" and before in ("in", "per", "of", "for"):
        return True  # "alcohol in one dose"
    if before in _ASKED_OF and (after in _COSTING or after in _VESSEL):
        return True  # "what's one cost me", "what does one come to", "does one bottle stand me in"
    return after == "of" and before in ("this", "that", "which", "any", "only")
