"""An equation as a small tree: read from text once, printed back, asked what it mentions.

The text is a relation's own; even so only the few shapes below are let through, so that no text can ever run.

    menstruum * strength = in_jar * finished_strength       names, numbers, + - * / ( ), one "="
    density(strength)   inverse_density(x)                  functions of the table, and turned round
    weight[i]                                               of the ingredient the equation is written for
    sum(weight[i] * density_of[i])                          over all ingredients
    others(weight[i])   volume[j]                           only in rearrangements: over all but the unknown's own ingredient; that ingredient's
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from functools import lru_cache

from assistant.dataclass import dataclass
from assistant.faults import HouseFault

LONGEST = 400  # characters; the longest relation of the trade is a third of that
INVERSE = "inverse_"


@dataclass(frozen=True, slots=True)
class Number:
    """A constant; `text` is kept so that it prints as it was written."""

    text: str

    @property
    def value(self) -> float:
        return float(self.text)


@dataclass(frozen=True, slots=True)
class Name:
    """A quantity; index "" for the whole batch, "i" for each ingredient, "j" for the ingredient of the unknown."""

    name: str
    index: str = ""


@dataclass(frozen=True, slots=True)
class Pair:
    """Two sides joined by + - * or /."""

    sign: str
    left: Node
    right: Node


@dataclass(frozen=True, slots=True)
class Call:
    """A function of the table; a name that begins with "inverse_" is that function turned round."""

    function: str
    arguments: tuple[Node, ...]


@dataclass(frozen=True, slots=True)
class Total:
    """A sum over the ingredients; `others` leaves out the ingredient of the unknown."""

    inner: Node
    others: bool = False


Node = Number | Name | Pair | Call | Total


@dataclass(frozen=True, slots=True)
class Equation:
    """Both sides, and every quantity that stands in them, in order of first mention."""

    left: Node
    right: Node
    names: tuple[Name, ...]
    in_sums: frozenset[Name]

    @property
    def is_indexed(self) -> bool:
        """Whether there is one such equation for each ingredient."""
        return any(name.index for side in (self.left, self.right) for name in names_outside_sums(side))


@lru_cache(maxsize=1024)
def read_equation(text: str) -> Equation:
    """The tree of an equation. Fails with HouseFault, naming the text, on anything but the shapes above."""
    left, sign, right = text.partition("=")
    if not sign or "=" in right:
        raise HouseFault("an equation has exactly one '='", where=text)
    sides = read_expression(left.strip()), read_expression(right.strip())
    names = dict.fromkeys(name for side in sides for name in all_names(side))
    return Equation(*sides, tuple(names), frozenset(name for side in sides for name in names_in_sums(side)))


@lru_cache(maxsize=4096)
def read_expression(text: str) -> Node:
    """The tree of one side."""
    if len(text) > LONGEST:
        raise HouseFault(f"an expression of more than {LONGEST} characters", where=text[:60] + "…")
    try:
        tree = ast.parse(text, mode="eval").body
    except (SyntaxError, ValueError, RecursionError) as fault:
        raise HouseFault("this is no expression", where=text) from fault
    return _translate(tree, text, summed=False)


_SIGNS: dict[type[ast.operator], str] = {ast.Add: "+", ast.Sub: "-", ast.Mult: "*", ast.Div: "/"}


def _translate(tree: ast.expr, text: str, *, summed: bool) -> Node:
    match tree:
        case ast.Constant(value=int() | float() as value) if not isinstance(value, bool):
            return Number(ast.get_source_segment(text, tree) or repr(value))
        case ast.Name(id=name):
            return Name(name)
        case ast.Subscript(value=ast.Name(id=name), slice=ast.Name(id="i" | "j" as index)):
            return Name(name, index)
        case ast.BinOp(left=left, op=sign, right=right) if type(sign) in _SIGNS:
            return Pair(_SIGNS[type(sign)], _translate(left, text, summed=summed), _translate(right, text, summed=summed))
        case ast.UnaryOp(op=ast.USub(), operand=operand):
            return Pair("-", Number("0"), _translate(operand, text, summed=summed))
        case ast.Call(func=ast.Name(id="sum" | "others" as how), args=[inner], keywords=[]) if not summed:
            return Total(_translate(inner, text, summed=True), how == "others")
        case ast.Call(func=ast.Name(id=name), args=[_, *_] as arguments, keywords=[]) if name not in ("sum", "others"):
            return Call(name, tuple(_translate(argument, text, summed=summed) for argument in arguments))
    raise HouseFault(f"{ast.unparse(tree)!r} cannot stand in an equation", where=text)


def all_names(node: Node) -> Iterator[Name]:
    """Every quantity of a tree, from left to right, repeated as often as it stands there."""
    match node:
        case Name():
            yield node
        case Pair(_, left, right):
            yield from all_names(left)
            yield from all_names(right)
        case Call(_, arguments):
            for argument in arguments:
                yield from all_names(argument)
        case Total(inner):
            yield from all_names(inner)


def names_in_sums(node: Node) -> Iterator[Name]:
    """The indexed quantities that are summed over."""
    match node:
        case Pair(_, left, right):
            yield from names_in_sums(left)
            yield from names_in_sums(right)
        case Call(_, arguments):
            for argument in arguments:
                yield from names_in_sums(argument)
        case Total(inner):
            yield from (name for name in all_names(inner) if name.index)


def names_outside_sums(node: Node) -> Iterator[Name]:
    """The quantities that are not summed over."""
    match node:
        case Name():
            yield node
        case Pair(_, left, right):
            yield from names_outside_sums(left)
            yield from names_outside_sums(right)
        case Call(_, arguments):
            for argument in arguments:
                yield from names_outside_sums(argument)


def functions_of(node: Node) -> frozenset[str]:
    """Names of the functions a tree calls, without "inverse_"."""
    match node:
        case Pair(_, left, right):
            return functions_of(left) | functions_of(right)
        case Call(function, arguments):
            return frozenset({function.removeprefix(INVERSE)}).union(*map(functions_of, arguments))
        case Total(inner):
            return functions_of(inner)
    return frozenset()


def holds_a_difference(node: Node) -> bool:
    """Whether something is taken off something in a tree."""
    match node:
        case Pair(sign, left, right):
            return sign == "-" or holds_a_difference(left) or holds_a_difference(right)
        case Call(_, arguments):
            return any(map(holds_a_difference, arguments))
        case Total(inner):
            return holds_a_difference(inner)
    return False


_RANK = {"+": 1, "-": 1, "*": 2, "/": 2}


def to_text(node: Node) -> str:
    """The tree as text that reads back to the same tree.

    >>> to_text(read_expression("(a + b) * c / (d - 1.50)"))
    '(a + b) * c / (d - 1.50)'
    """
    match node:
        case Number(text):
            return text
        case Name(name, index):
            return f"{name}[{index}]" if index else name
        case Call(function, arguments):
            return f"{function}({', '.join(map(to_text, arguments))})"
        case Total(inner, others):
            return f"{'others' if others else 'sum'}({to_text(inner)})"
        case Pair(sign, left, right):
            first, second = to_text(left), to_text(right)
            if isinstance(left, Pair) and _RANK[left.sign] < _RANK[sign]:
                first = f"({first})"
            # Equal rank on the right keeps its brackets: a - (b + c), and a * (b / c) so that the tree comes back as it was.
            if isinstance(right, Pair) and _RANK[right.sign] <= _RANK[sign]:
                second = f"({second})"
            return f"{first} {sign} {second}"
