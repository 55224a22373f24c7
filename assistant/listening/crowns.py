"""Crowns in rotation told in any order: how many stand, which share or how many are lifted a year, how long they grow, how many fail.

"40 crowns, lift a quarter a year, three years to grow, how many to plant". A share that is lifted of those that stand is so many crowns.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from assistant.listening.pieces import Piece
from assistant.listening.statements import Reading, Reference, Said
from assistant.listening.token_row import clause_of
from assistant.patterns import looked_for

LIFT = frozenset("lift lifts lifted lifting dig digs dug digging take takes taking harvest harvested pull".split())
PLANT = frozenset("plant replant replace put new".split())
FAIL = frozenset("lose loses losing lost fail fails die dies rot rots rotted failing dead".split())
CROWNS = frozenset("crown crowns".split())
BEDS = frozenset("bed beds row rows".split())
OTHER = frozenset("<mL> <drop> <money> <day> <oz> <part> <mL/g>".split())
SHARE = looked_for(r"\b(?:(a|one|two|three)\s+)?(half|third|quarter|fifth|sixth|tenth)s?\b", re.IGNORECASE)
PARTS = {"half": 2, "third": 3, "quarter": 4, "fifth": 5, "sixth": 6, "tenth": 10}
TIMES = {"two": 2, "three": 3}


def read_crowns(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading, context: frozenset[str]) -> bool:
    """Give every figure of such a sentence its place; True where each had one. Elsewhere nothing is changed."""
    bag = set(tokens)
    if not bag & CROWNS or not bag & (LIFT | PLANT) or bag & OTHER or context & {"stand"}:
        return False
    if not (bag & {"<year>", "<x>"} or bag & BEDS or {"to", "plant"} <= bag or bag & {"replant", "autumn"}):
        return False
    found: dict[str, tuple[float, int]] = {}
    aside: list[int] = []
    for i, piece in enumerate(pieces):
        if not piece.is_island or i in taken or tokens[i] in ("<time>", "<label>", "<ref>"):
            continue
        if _is_each_year(piece, tokens[i]):
            aside.append(i)
            continue
        name, value = _what(pieces, tokens, i)
        if not name or name in found:
            return False
        found[name] = (value, i)
    if "stand_plants" in found:
        if "plants_taken" in found:
            return False  # what stands and what is lifted both told: they say how long each grows
        stand, at = found.pop("stand_plants")
        if "lifted" in found:
            share, where = found.pop("lifted")
            found["plants_taken"] = (share * stand, where)
            aside.append(at)
        else:
            found["crowns_standing"] = (stand, at)
    if "lifted" in found or not found.keys() & {"plants_taken", "crowns_standing", "to_gather"}:
        return False
    for name, (value, i) in found.items():
        reading.said.append(Said(name, value, pieces[i].start, pieces[i].end))
        taken.add(i)
    for i in aside:
        taken.add(i)
        reading.references.append(Reference("reference", pieces[i].start, pieces[i].end))
    reading.frames.add("crowns")
    reading.frames -= {"stand", "dose"}
    return True


def _is_each_year(piece: Piece, code: str) -> bool:
    """ "Each year", "a year": no figure of its own."""
    return code in ("<x>", "<aday>") and SHARE.search(piece.text) is None


def _what(pieces: list[Piece], tokens: Sequence[str], at: int) -> tuple[str, float]:
    """Which figure of the rotation this is and its value; "" where nothing tells."""
    piece, code = pieces[at], tokens[at]
    item = piece.item
    if item is None or item.value is None:
        return "", 0.0
    before, behind = clause_of(tokens[max(0, at - 6) : at][::-1]), clause_of(tokens[at + 1 : at + 7])
    near, next_ = set(before), set(behind)
    share = _share(piece, code)
    if share is not None:
        return ("crown_loss", 100 * share) if (near | next_) & FAIL else ("lifted", share) if (near | next_) & LIFT else ("", 0.0)
    if code == "<year>":
        return "crown_years", item.said if item.said is not None else item.value
    if code == "<g>":
        each = near & (CROWNS | {"gives", "yields", "each"}) or next_ & (CROWNS | {"each"})
        return ("per_plant" if each else "to_gather"), item.value
    if code not in ("<#>", "<n>"):
        return "", 0.0
    if (near | set(behind[:4])) & BEDS and not set(behind[:1]) & CROWNS:
        return "bed_holds", item.value
    if near & LIFT or set(behind[:3]) & {"lifted", "dug"}:
        return "plants_taken", item.value
    return ("stand_plants", item.value) if set(behind[:1]) & (CROWNS | {"standing"}) else ("", 0.0)


def _share(piece: Piece, code: str) -> float | None:
    """A figure that is a part of the whole: "a quarter", "a third each year", "20 %", "one in ten"."""
    item = piece.item
    if item is None or item.value is None:
        return None
    if code in ("<share>", "<%>"):
        return item.value / (100 if code == "<%>" else 1)
    if code == "<:>" and isinstance(item.alt, tuple) and len(item.alt) == 2 and re.search(r"\bin\b", piece.text):
        return float(item.alt[0]) / float(item.alt[1])
    told = SHARE.search(piece.text)
    if code in ("<year>", "<x>", "<aday>") and told is not None:
        return TIMES.get((told.group(1) or "").lower(), 1) / PARTS[told.group(2).lower()]
    return None


__all__ = ["read_crowns"]
