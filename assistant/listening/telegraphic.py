"""Questions thrown out in a word or two, knife in hand: "Herb in?", "Spirit, water.", "Picking now?", "Total after?".

Only a short clause without a figure that no phrase has read is looked at, and only at the end of what was said or before a question mark.
"""

from __future__ import annotations

from collections.abc import Iterator

from assistant.listening.pieces import Piece
from assistant.listening.statements import Asked, Reading

LONGEST = 7  # words of such a clause
# Word → the quantity meant by it when it is all that is said; those that say more stand first.
MEANT = (
    (frozenset({"short", "shortfall", "missing", "lacking"}), "spirit_short"),
    (frozenset({"spare", "surplus"}), "spare"),
    (frozenset({"ends", "end", "finishes", "finish", "lands", "settles", "finished", "final"}), "finished_strength"),
    (frozenset({"ratio"}), "ratio"),
    (frozenset({"pick", "picking", "gather", "gathering", "dig", "digging", "harvest", "forage"}), "to_gather"),
    (frozenset({"pressed", "press", "pressing", "squeezed", "wrung", "runs"}), "pressed"),
    (frozenset({"yield"}), "yield_share"),
    (frozenset({"dried", "dry", "dries"}), "dried"),
    (frozenset({"bottles"}), "bottles"),
    (frozenset({"jars"}), "jars"),
    (frozenset({"tins"}), "tins"),
    (frozenset({"days"}), "days"),
    (frozenset({"brix"}), "brix"),
    (frozenset({"drops"}), "dose_drops"),
    (frozenset({"strength", "abv", "percent", "strong"}), "strength"),
    (frozenset({"spirit", "stock", "vodka"}), "stock"),
    (frozenset({"water"}), "water"),
    (frozenset({"pour", "menstruum", "liquid", "menst", "oil", "vinegar"}), "menstruum"),
    (frozenset({"herb", "plant", "root", "leaf", "flowers", "weight", "grams", "wt"}), "herb"),
    (frozenset({"total", "altogether", "volume", "made"}), "in_jar"),
    (frozenset({"left", "over", "rest", "leftover"}), "rest"),
    (frozenset({"scale", "scales"}), "gross"),
    (frozenset({"cost", "costs"}), "bottle_cost"),
    (frozenset({"dose"}), "dose"),
)
ENDS = frozenset(".?!;")


def read_telegraphic(pieces: list[Piece], reading: Reading, known: dict[str, str], claimed: set[int]) -> None:
    """Put what such clauses ask into `reading.asked`. `known` are the quantities with their units; `claimed` the places already read."""
    asked = {a.quantity for a in reading.asked}
    for first, last, questioning in _clauses(pieces):
        words = [p.code for p in pieces[first:last]]
        if not words or len(words) > LONGEST or any(p.is_island for p in pieces[first:last]) or claimed & set(range(first, last)):
            continue
        if not questioning and len(words) > 3:
            continue
        spread = set(words)
        for meant, quantity in MEANT:
            if meant & spread and quantity in known and quantity not in asked:
                reading.asked.append(Asked(quantity, pieces[first].start, pieces[last - 1].end))
                asked.add(quantity)
                if not _is_a_list(words):
                    break


def _is_a_list(words: list[str]) -> bool:
    """ "Spirit, water." asks for both."""
    return "," in words or "and" in words


def _clauses(pieces: list[Piece]) -> Iterator[tuple[int, int, bool]]:
    """(first, behind the last, whether it ends in a question mark) of the clauses that may be such a question: those with one, and the last."""
    first = 0
    for i, piece in enumerate(pieces):
        if piece.code in ENDS:
            if piece.code == "?" or i == len(pieces) - 1:
                yield first, i, piece.code == "?"
            first = i + 1
    if first < len(pieces):
        yield first, len(pieces), False
