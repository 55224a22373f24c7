"""The cases of tests/stillroom/cases: sentences and the figures that must come back, each written as the sum it is.

    case NAME
    > a sentence                  said to one conversation after the other
    = quantity whose sum          a figure among the values or steps of the reply; "-" for one of the whole batch
    ? status                      the reply has this status
    ! word                        a caution has this word

Sums are + - * / ( ) over numbers, and mix(mL, %, mL, %, …), the strength of liquids poured together, by mass.
"""

from __future__ import annotations

import ast
import operator
from dataclasses import dataclass, field
from pathlib import Path

from assistant.matter import ethanol

FOLDER = Path(__file__).parent / "cases"
SIGNS = {ast.Add: operator.add, ast.Sub: operator.sub, ast.Mult: operator.mul, ast.Div: operator.truediv}


@dataclass
class Turn:
    """One sentence with what must come of it: (quantity, whose, figure), statuses, words of cautions."""

    say: str
    figures: list[tuple[str, str, float]] = field(default_factory=list)
    statuses: list[str] = field(default_factory=list)
    words: list[str] = field(default_factory=list)


@dataclass
class Case:
    name: str
    turns: list[Turn]


def reckoned(text: str) -> float:
    """The value of a sum.

    >>> reckoned("100 * 3 / 6")
    50.0
    """
    return _value(ast.parse(text, mode="eval").body)


def _value(node: ast.expr) -> float:
    match node:
        case ast.Constant(value=int() | float() as number):
            return float(number)
        case ast.BinOp(left, sign, right):
            return SIGNS[type(sign)](_value(left), _value(right))
        case ast.Call(func=ast.Name(id="mix"), args=parts):
            numbers = [_value(p) for p in parts]
            return ethanol.mix(numbers[0::2], numbers[1::2])[1]
    raise ValueError(ast.dump(node))


def cases() -> list[Case]:
    """Every case of the folder."""
    found: list[Case] = []
    for file in sorted(FOLDER.glob("*.txt")):
        for line in file.read_text(encoding="utf-8").splitlines():
            mark, _, rest = line.partition(" ")
            if mark == "case":
                found.append(Case(f"{file.stem}: {rest}", []))
            elif mark == ">":
                found[-1].turns.append(Turn(rest))
            elif mark == "=":
                head, _, sum_ = rest.partition(" - ") if " - " in rest and rest.split(" - ")[0].count(" ") == 0 else ("", "", "")
                if head:
                    quantity, whose = head, ""
                else:
                    quantity, whose, sum_ = _parts(rest)
                found[-1].turns[-1].figures.append((quantity, whose, reckoned(sum_)))
            elif mark == "?":
                found[-1].turns[-1].statuses.append(rest)
            elif mark == "!":
                found[-1].turns[-1].words.append(rest)
            elif line and not line.startswith("#"):
                raise ValueError(f"{file.name}: {line!r}")
    return found


def _parts(rest: str) -> tuple[str, str, str]:
    """ "weight beeswax 75 - 60": the name ends where the sum begins."""
    words = rest.split(" ")
    at = next(i for i, w in enumerate(words) if i and (w[0].isdigit() or w[0] == "(" or w.startswith("mix(")))
    return words[0], " ".join(words[1:at]), " ".join(words[at:])
