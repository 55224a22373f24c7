"""Drying racks: their size ("racks of 60 by 90 cm", "0.5 m2 trays"), what goes on each ("each tray takes 350 g", "12 racks, 400 g each"), and how many."""

from __future__ import annotations

import itertools
import re

from assistant.listening.pieces import Piece, take_piece
from assistant.listening.statements import Asked, Reading, Reference, Said
from assistant.patterns import looked_for

RACKS = frozenset("rack racks tray trays screen screens".split())
SEVERAL = frozenset("racks trays screens".split())
BY = looked_for(r"\s*(?:by|x|×)\s*", re.IGNORECASE)
LENGTHS = {"cm": 0.01, "m": 1.0, "mm": 0.001, "centimetres": 0.01, "metres": 1.0, "inches": 0.0254, "in": 0.0254, "inch": 0.0254, "ft": 0.3048, "feet": 0.3048}
SQUARE = looked_for(r"\s*(?:m2|m²|sq\.?\s*m(?:et(?:re|er)s?)?|square\s+met(?:re|er)s?)(?![a-z])", re.IGNORECASE)
LENGTH = looked_for(rf"\s*({'|'.join(sorted(LENGTHS, key=len, reverse=True))})(?![a-z])", re.IGNORECASE)


def read_racks(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading, context: frozenset[str]) -> None:
    """Give the measures of a rack to its area in square metres. Does nothing where no rack is spoken of."""
    if not set(tokens) & RACKS:
        return
    _loads(pieces, tokens, taken, reading, context)
    if "racks" not in reading.frames | context:
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


ONE = frozenset("each every a an one per the my".split())
DEFINITE = frozenset("the my".split())  # "3 kg on the racks" is all there is
TAKES = frozenset("takes take holds hold fits fit carries carry gets get has have bears bear".split())
MAY = frozenset("will can could would should only just about around roughly up to".split())
EACH = frozenset("each apiece".split())
WEIGHTS = frozenset({"<g>", "<oz>"})
LINKS = frozenset({",", "of", "at", "with", "that", "which", ":", "-", "and", "they", "i", "put", "for", "lay", "spread", "load", "loaded"})
ON = frozenset("on to in onto for".split())


def _loads(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading, context: frozenset[str]) -> None:
    """What goes on each rack, how many there are, and what a sentence that tells both is about."""
    load = next((i for i, t in enumerate(tokens) if t in WEIGHTS and i not in taken and _on_one(tokens, i)), None)
    count = next((i for i, t in enumerate(tokens) if t == "<#>" and i not in taken and _counted(tokens, i)), None)
    weights = [i for i, t in enumerate(tokens) if t in WEIGHTS and i not in taken and i != load]
    whole = next((i for i in weights if set(tokens[max(0, i - 2) : i]) & TAKES and SEVERAL & set(tokens[max(0, i - 4) : i])), None)
    if load is None and count is None and whole is not None:
        reading.frames.add("racks")
        take_piece(pieces, taken, reading, "racks_hold", whole)  # "the racks hold 6 kg"
        return
    if load is None and (count is None or not (weights or "racks" in context)):
        return
    if count is None and not weights and "<%>" in tokens:
        return  # "1.1 kg on a rack, 70 % water": a plant that dries there
    if load is None and set(tokens) & {"tare", "empty", "weighs", "scale"}:
        return  # a tray on the scale
    reading.frames.add("racks")
    for at, quantity in ((load, "rack_load"), (count, "racks_had")):
        if at is not None:
            take_piece(pieces, taken, reading, quantity, at)


def racks_asked(reading: Reading) -> None:
    """What a sentence about racks asks by its figures: whether it fits, how much on each, how much at once. Changes the reading."""
    said = {s.quantity for s in reading.said}
    if "racks" not in reading.frames or not said & {"rack_load", "racks_had", "racks_hold"} or said & {"dried", "water_content", "drying_ratio", "drying_loss"}:
        return
    if {a.quantity for a in reading.asked} & {"racks", "racks_hold", "rack_load", "rack_over", "rack_room"}:
        if "racks_had" in said and "herb" in said and "rack_load" not in said and {a.quantity for a in reading.asked} == {"rack_load"}:
            reading.asked = [Asked("rack_each", 0, 0)] + ([] if not said & {"spread", "rack_area"} else reading.asked)
        return
    if "racks_hold" in said:
        told = {s.quantity: s.value for s in reading.said}
        fits = "herb" in told and told["herb"] <= told["racks_hold"]
        reading.asked = reading.asked or ([Asked("rack_room" if fits else "rack_over", 0, 0)] if "herb" in told else [])
    elif "herb" in said:
        placed = "racks_had" in said
        even = placed and not said & {"rack_load", "spread", "rack_area"}
        reading.asked = [Asked(q, 0, 0) for q in (("rack_each",) if even else ("racks", "racks_hold") if placed else ("racks",))]
    elif said >= {"rack_load", "racks_had"}:
        reading.asked = [Asked("racks_hold", 0, 0)]


def _on_one(tokens: list[str], at: int) -> bool:
    """Whether a weight is what one rack takes."""
    behind = tokens[at + 1 : at + 7]
    for n, word in enumerate(behind):
        if word in RACKS:
            return bool(set(behind[:n]) & (ONE - DEFINITE)) or (n > 0 and behind[n - 1] in EACH)
        if word in (".", ";", "?", ",") or word.startswith("<"):
            break
    before = tokens[max(0, at - 8) : at]
    look = len(before) - 1
    while look >= 0 and (before[look] in MAY or before[look] in LINKS or before[look] in EACH or before[look] in ON or before[look] in TAKES):
        look -= 1
    if look < 0 or before[look] not in RACKS:
        return bool(EACH & set(before[look + 1 :]) and TAKES & set(before[look + 1 :]) and RACKS & set(tokens[:at]))  # "10 racks if each holds 500 g"
    between = before[look + 1 :]
    one = look > 0 and before[look - 1] in ONE and not (before[look] in SEVERAL and before[look - 1] in DEFINITE)
    stop = next((n for n, word in enumerate(behind) if word in (",", ".", ";", "?") or word.startswith("<")), len(behind))
    each = bool(EACH & set(between)) or bool(EACH & set(behind[:stop]))
    several = before[look] in SEVERAL and (between == ["of"] or (look > 0 and before[look - 1] == "<#>"))
    if set(between) & TAKES:
        return one or each or several
    return each or (several and between in ([], ["of"], ["at"], ["with"]))


def _counted(tokens: list[str], at: int) -> bool:
    behind = tokens[at + 1 : at + 3]
    if behind == ["of", "them"] and set(tokens[:at]) & SEVERAL:
        return True
    return bool(behind) and (behind[0] in RACKS or (behind[0] in ("drying", "wire", "mesh", "big", "small") and behind[1:] != [] and behind[1] in RACKS))


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


__all__ = ["racks_asked", "read_racks"]
