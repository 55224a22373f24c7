"""A reader of working that is none of the house's own: both sides of a line as numbers, by its text alone."""

import math
import re

from assistant.matter import FUNCTIONS

NUMBER = r"\d+(?:\.\d+)?"


def value(text):
    text = re.sub(r"[a-z][a-z ]* at [^()]*?\((−?[\d.e-]+)\)", r"\1", text)
    text = re.sub(rf"({NUMBER}) %", r"(\1/100)", text)
    text = re.sub(rf"({NUMBER}) (?:g/mL|mL/g|mL|g|drops?|days?|°C|°Bx)(?![a-z])", r"\1", text)
    text = text.replace("×", "*").replace("÷", "/").replace("−", "-")
    rounded = re.fullmatch(r"(.*), rounded (down|up)", text)
    if rounded:
        return math.floor(value(rounded[1]) + 1e-9) if rounded[2] == "down" else math.ceil(value(rounded[1]) - 1e-9)
    turned = re.fullmatch(r"the value whose ([a-z ]+?) (?:at (.+) )?is (.+)", text)
    if turned:
        function = FUNCTIONS[turned[1].replace(" ", "_")]
        rest = [value(part) for part in turned[2].split(", ")] if turned[2] else []
        found = function.inverse(value(turned[3]) * (100 if function.unit == "percent" else 1), *rest)
        return found / 100 if function.takes[0] == "percent" else found
    return eval(text, {"__builtins__": {}})


def sides(line):
    """Left and right of a line of working."""
    if ", found so that " in line:
        line = line.partition(", found so that ")[2]
    left, _, right = line.removesuffix(" (in percent)").rpartition(" = ")
    return value(left), value(right)
