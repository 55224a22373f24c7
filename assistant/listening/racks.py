"""The size of a drying rack: "racks of 60 by 90 cm", "0.5 m2 trays", "a square metre each"."""

from __future__ import annotations

import itertools
import re

from assistant.listening.pieces import Piece
from assistant.listening.statements import Reading, Reference, Said
from assistant.patterns import looked_for

RACKS = frozenset("rack racks tray trays screen screens".split())
BY = looked_for(r"\s*(?:by|x|×)\s*", re.IGNORECASE)
LENGTHS = {"cm": 0.01, "m": 1.0, "mm": 0.001, "centimetres": 0.01, "metres": 1.0, "inches": 0.0254, "in": 0.0254, "inch": 0.0254, "ft": 0.3048, "feet": 0.3048}
SQUARE = looked_for(r"\s*(?:m2|m²|sq\.?\s*m(?:et(?:re|er)s?)?|square\s+met(?:re|er)s?)(?![a-z])", re.IGNORECASE)
LENGTH = looked_for(rf"\s*({'|'.join(sorted(LENGTHS, key=len, reverse=True))})(?![a-z])", re.IGNORECASE)


def read_racks(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading, context: frozenset[str]) -> None:
    """Give the measures of a rack to its area in square metres. Does nothing where no rack is spoken of."""
    if "racks" not in reading.frames | context or not set(tokens) & RACKS:
        return
    numbers = [i for i, t in enumerate(tokens) if t in ("<#>", "<n>", "<times>") and i not in taken and _number(pieces[i]) is not None]
    for i in numbers:
        behind = reading.heard[pieces[i].end :]
        square = SQUARE.match(behind)
        if square is not None:
            _say(reading, _number(pieces[i]) or 0.0, pieces[i], pieces[i].end + square.end())
            _use(pieces, taken, pieces[i].start, pieces[i].end + square.end(), reading)
            return
    for one, other in itertools.pairwise(numbers):
        between = reading.heard[pieces[one].end : pieces[other].start]
        first_unit = LENGTH.match(between)
        unit = LENGTH.match(reading.heard[pieces[other].end :])
        said_by = tokens[one] == "<times>" and not between.strip()  # the figure bears its "x": "60 x 80 cm"
        if unit is None or not (said_by or BY.fullmatch(between[first_unit.end() :] if first_unit is not None else between)):
            continue
        size = LENGTHS[unit.group(1).lower()]
        own = LENGTHS[first_unit.group(1).lower()] if first_unit is not None else size
        _say(reading, (_number(pieces[one]) or 0.0) * own * (_number(pieces[other]) or 0.0) * size, pieces[one], pieces[other].end + unit.end())
        _use(pieces, taken, pieces[one].start, pieces[other].end + unit.end(), reading)
        return


def _number(piece: Piece) -> float | None:
    return piece.item.value if piece.item is not None else None


def _say(reading: Reading, area: float, first: Piece, end: int) -> None:
    reading.said.append(Said("rack_area", area, first.start, end))


def _use(pieces: list[Piece], taken: set[int], start: int, end: int, reading: Reading) -> None:
    for i, piece in enumerate(pieces):
        if start <= piece.start < end:
            taken.add(i)
            if piece.is_island:
                reading.references.append(Reference("reference", piece.start, piece.end))


__all__ = ["read_racks"]
