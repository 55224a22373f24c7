"""Names and figures that look like a recipe and are none: one plant and what is poured on it."""

from __future__ import annotations

from assistant.listening.lines import Line

POURED_ON = frozenset("spirit spirits alcohol ethanol vodka brandy rum gin menstruum everclear liquid".split())


def is_a_pour(lines: list[Line], tokens: list[str]) -> bool:
    """ "50 g dried balm 1:6 with 60 % glycerin, rest water": beside a ratio it is what is poured, not a recipe by percents."""
    pours = ("glycerin", "glycerine", "glycerol", "water")
    of_water = "water" in tokens and any(line.kind == "rest" and line.name in pours for line in lines)
    others = [line for line in lines if line.name not in pours]
    return "<:>" in tokens and of_water and len(others) <= 1 and all(line.kind in ("<g>", "<oz>") for line in others)


def is_a_jar(lines: list[Line], tokens: list[str]) -> bool:
    """ "Dried nettle 1:5, how much nettle and spirit", "1:3 fresh mint 80 % water at 70": a plant and what is poured on it, no recipe."""
    if len(lines) != 2:
        return False
    plant, other = lines if lines[1].name == "water" or lines[1].name in POURED_ON else reversed(lines)
    if other.name in POURED_ON and plant.name not in POURED_ON and not plant.poured:
        return plant.kind == other.kind == "side" and plant.value == 1
    its_water = other.name == "water" and plant.kind == "<%>" and tokens[other.first - 1 : other.first] == ["<%>"]
    return its_water and "<:>" in tokens
