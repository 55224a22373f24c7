"""A line of working read back as arithmetic: what stands left and right of its "=", with the numbers just as they are written.

By it the teacher works her own lines through before she writes them down, and sees where in an apprentice's line the sum itself is off.
"""

from __future__ import annotations

import ast
import math
import operator
import re
from collections.abc import Callable

from assistant.faults import BenchError
from assistant.matter import FUNCTIONS

NUMBER = r"\d+(?:\.\d+)?"
LONGEST = 2000  # characters of a line that are looked at
_UNITS = re.compile(r"(?<=\d) (?:g/mL|mL/g|mL|ml|g|drops?|days?|°C|°Bx)(?![\w/])")
_FUNCTION = re.compile(r"[a-z][a-z ]* at [^()]*?\((−?[\d.e-]+)( %)?\)")
_PERCENT = re.compile(rf"({NUMBER}) ?%")
_ROUNDED = re.compile(r"(.*), rounded (down|up)")
_TURNED = re.compile(r"the value whose ([a-z ]+?) (?:at (.+) )?is (.+)")
_OPERATIONS: dict[type[ast.operator], Callable[[float, float], float]] = {
    ast.Add: operator.add, ast.Sub: operator.sub, ast.Mult: operator.mul, ast.Div: operator.truediv,
}  # fmt: skip


def read_back(line: str) -> tuple[float, float] | None:
    """Both sides of a line as numbers, a percent as its share of one; None where it is no arithmetic.

    >>> read_back("112 g × 80 % = 89.6 g")
    (89.6, 89.6)
    """
    if len(line) > LONGEST:
        return None
    line = line.removesuffix(" (in percent)")
    _, found, sides = line.partition(", found so that ")
    left, _, right = (sides if found else line).rpartition("=")
    try:
        return round(_value(left), 12), round(_value(right), 12)
    except (ValueError, SyntaxError, ZeroDivisionError, OverflowError, RecursionError, MemoryError, BenchError):
        return None


def agrees(line: str, within: float = 1e-3) -> bool:
    """Whether a line, worked through from its own text, comes out as it says."""
    sides = read_back(line)
    return sides is not None and abs(sides[0] - sides[1]) <= within * max(abs(sides[0]), abs(sides[1]), 1e-3)


def _value(text: str) -> float:
    text = text.strip()
    rounded = _ROUNDED.fullmatch(text)
    if rounded:
        whole = _value(rounded[1])
        return float(math.floor(whole * (1 + 1e-9)) if rounded[2] == "down" else math.ceil(whole * (1 - 1e-9)))
    turned = _TURNED.fullmatch(text)
    if turned:
        return _turned_round(turned[1].replace(" ", "_"), turned[2], turned[3])
    text = _FUNCTION.sub(lambda m: m[1] + (m[2] or ""), text)
    text = _PERCENT.sub(r"(\1/100)", _UNITS.sub("", text))
    for sign, plain in (("×", "*"), ("÷", "/"), ("−", "-"), (" x ", " * ")):
        text = text.replace(sign, plain)
    return _reckoned(ast.parse(text.strip(), mode="eval").body)


def _turned_round(name: str, further: str | None, is_: str) -> float:
    function = FUNCTIONS.get(name)
    if function is None or function.inverse is None:
        raise ValueError(name)
    result = _value(is_) * (100 if function.unit == "percent" else 1)
    found = function.inverse(result, *(_value(part) for part in (further or "").split(", ") if part))
    return found / 100 if function.takes[0] == "percent" else found


def _reckoned(tree: ast.expr) -> float:
    match tree:
        case ast.Constant(value=int() | float() as number) if not isinstance(number, bool):
            return float(number)
        case ast.UnaryOp(op=ast.USub(), operand=inner):
            return -_reckoned(inner)
        case ast.BinOp(left=left, op=sign, right=right) if type(sign) in _OPERATIONS:
            return _OPERATIONS[type(sign)](_reckoned(left), _reckoned(right))
    raise ValueError("no arithmetic")
