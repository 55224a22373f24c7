"""What somebody says they worked out, where it looks like a recipe: "350 spirit and 650 water" of a dilution is a claim about its stock and its water."""

from __future__ import annotations

from assistant.dataclass import replace
from assistant.listening.pieces import Piece
from assistant.listening.statements import Reading, Said

RECKONED = frozenset("worked got made make get reckoned reckon wrote put said say came figured answered poured measured".split())
CHECKS = frozenset("right correct ok okay true wrong check ?".split())
SPIRITS = frozenset("spirit spirits alcohol stock vodka brandy ethanol".split())
JOINS = frozenset("and , with n plus + &".split())
FIGURES = ("<#>", "<mL>")
MOST_BETWEEN = 3  # words from one figure to the next: "of the spirit and"


def read_claimed_split(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading) -> None:
    """Put a spirit and a water that somebody worked out into `reading.claims`; does nothing where no one did, or nothing is to be checked."""
    if not set(tokens) & CHECKS or not set(tokens) & RECKONED or "<:>" in tokens:
        return
    for i, token in enumerate(tokens):
        if token not in FIGURES or not set(tokens[max(0, i - 5) : i]) & RECKONED:
            continue
        second = next((k for k in range(i + 2, min(len(tokens), i + 3 + MOST_BETWEEN)) if tokens[k] in FIGURES), None)
        if second is None:
            continue
        between, behind = set(tokens[i + 1 : second]), set(tokens[second + 1 : second + 4])
        names = ("stock", "water") if between & SPIRITS and "water" in behind else ("water", "stock") if "water" in between and behind & SPIRITS else None
        if names is None or not between & JOINS:
            continue
        for at, name in zip((i, second), names, strict=True):
            item = pieces[at].item
            if item is None or item.value is None:
                return
            taken.add(at)
            reading.claims.append(Said(name, item.value, pieces[at].start, pieces[at].end, said_unit=item.said_unit))
        return


def with_bare_shares(pieces: list[Piece]) -> list[Piece]:
    """ "Quarter goes as bad leaf", "I lose third to stalks": a fraction without its article is a share, where it is lost."""
    result = list(pieces)
    for i, piece in enumerate(pieces[:-1]):
        size = BARE.get(piece.code)
        if size is None or piece.item is None:
            continue
        ahead, led = pieces[i + 1].code, pieces[i - 1].code if i else ""
        if led in ("a", "one", "the", "and") or (i and pieces[i - 1].is_island):
            continue
        if ahead in LOST or led in LOSING:
            result[i] = replace(piece, code="<share>", item=replace(piece.item, kind="number", word="", value=size, said=size, said_unit="share"))
    return result


BARE = {"quarter": 0.25, "third": 1 / 3, "half": 0.5, "fifth": 0.2}
LOST = frozenset("goes go gets went lost wasted".split())
LOSING = frozenset("lose losing lost loses".split())
