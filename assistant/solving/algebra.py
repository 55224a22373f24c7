"""sympy, at arm's length: its only importer, inside functions, on relations of the house and never on what a person said.

Every constant goes in as an exact fraction or as a symbol of its own, never as a float; functions and sums go in as symbols. So a
rearrangement is a matter of linear algebra, and anything else (several branches, powers) is left to the bracketed search.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from assistant.matter.function import Function
from assistant.solving.expression import INVERSE, Call, Equation, Name, Node, Number, Pair, read_expression
from assistant.solving.isolating import opened, times_mentioned


class _Symbols:
    """Each piece that algebra need not look into stands as one symbol, and is found again by it."""

    def __init__(self) -> None:
        import sympy

        self.sympy = sympy
        self.piece: dict[Any, Node] = {}
        self._of: dict[Node, Any] = {}

    def of(self, node: Node) -> Any:
        """The tree in sympy's terms."""
        match node:
            case Number(text) if text.isdigit():
                return self.sympy.Integer(text)
            case Pair(sign, left, right):
                a, b = self.of(left), self.of(right)
                return {"+": lambda: a + b, "-": lambda: a - b, "*": lambda: a * b, "/": lambda: a / b}[sign]()
        if node not in self._of:
            symbol = self.sympy.Symbol(f"x{len(self._of)}")
            self._of[node], self.piece[symbol] = symbol, node
        return self._of[node]

    def back(self, expression: Any) -> Node | None:
        """A sympy result as a tree; None where it holds a power or a function that relations do not write."""
        above, below = self.sympy.fraction(expression)
        if below != 1:
            top, bottom = self.back(above), self.back(below)
            return Pair("/", top, bottom) if top and bottom else None
        if expression in self.piece:
            return self.piece[expression]
        if expression.is_Rational:
            return read_expression(str(expression))
        if expression.is_Add:
            return self._joined("+", sorted(expression.args, key=lambda term: (term.could_extract_minus_sign(), str(term))))
        if expression.is_Mul:
            return self._joined("*", sorted(expression.args, key=lambda factor: (factor.is_number, factor.is_Add, str(factor))))
        if expression.is_Pow and expression.exp in (2, 3):
            return self._joined("*", [expression.base] * int(expression.exp))
        return None

    def _joined(self, sign: str, parts: list[Any]) -> Node | None:
        tree: Node | None = None
        for part in parts:
            minus = sign == "+" and part.could_extract_minus_sign() and tree is not None
            piece = self.back(-part if minus else part)
            if piece is None:
                return None
            tree = piece if tree is None else Pair("-" if minus else sign, tree, piece)
        return tree


def solved_for(equation: Equation, unknown: Name, functions: Mapping[str, Function]) -> Node | None:
    """The right side of "unknown = …", found by sympy; None where it is not one single quotient of sums and products.

    A function that holds the unknown is solved for first and then turned round, where the table can turn it round.
    """
    left, right = opened(equation.left, unknown), opened(equation.right, unknown)
    holding = {call for side in (left, right) for call in _calls_holding(side, unknown)}
    target: Node = unknown
    if holding:
        if len(holding) > 1 or _mentioned_elsewhere(left, right, unknown, next(iter(holding))):
            return None
        target = next(iter(holding))
    symbols = _Symbols()
    x = symbols.of(target)
    above, _ = symbols.sympy.fraction(symbols.sympy.together(symbols.of(left) - symbols.of(right)))
    polynomial = symbols.sympy.Poly(above, x)
    if polynomial.degree() != 1:
        return None
    slope, constant = polynomial.all_coeffs()
    form = symbols.back(_tidy(symbols.sympy, -constant / slope))
    if form is None or not holding:
        return form
    assert isinstance(target, Call)
    function = functions.get(target.function)
    if function is None or function.inverse is None or target.arguments[0] != unknown:
        return None
    return Call(INVERSE + target.function, (form, *target.arguments[1:]))


def gathered(equation: Equation, unknown: Name) -> tuple[Node, Node] | None:
    """What stands with the unknown and what stands without it, once fractions are multiplied out: unknown × first = second.

    None where the unknown does not come out as one factor, or stands inside a function.
    """
    left, right = opened(equation.left, unknown), opened(equation.right, unknown)
    if any(_calls_holding(side, unknown) for side in (left, right)):
        return None
    symbols = _Symbols()
    x = symbols.of(unknown)
    above, _ = symbols.sympy.fraction(symbols.sympy.together(symbols.of(left) - symbols.of(right)))
    polynomial = symbols.sympy.Poly(above, x)
    if polynomial.degree() != 1:
        return None
    slope, constant = polynomial.all_coeffs()
    if slope.could_extract_minus_sign():
        slope, constant = -slope, -constant
    with_it, without = symbols.back(symbols.sympy.expand(slope)), symbols.back(symbols.sympy.expand(-constant))
    return None if with_it is None or without is None else (with_it, without)


def _tidy(sympy: Any, expression: Any) -> Any:
    """The quotient with common factors cancelled, and with the minus signs where they hurt least."""
    above, below = sympy.fraction(sympy.factor(sympy.cancel(expression)))
    if below.could_extract_minus_sign():
        above, below = -above, -below
    return above / below


def _calls_holding(node: Node, unknown: Name) -> list[Call]:
    match node:
        case Pair(_, left, right):
            return _calls_holding(left, unknown) + _calls_holding(right, unknown)
        case Call() if times_mentioned(node, unknown):
            return [node]
    return []


def _mentioned_elsewhere(left: Node, right: Node, unknown: Name, call: Call) -> bool:
    inside = times_mentioned(call, unknown)
    standing = sum(1 for side in (left, right) for _ in _calls_holding(side, unknown))
    return times_mentioned(left, unknown) + times_mentioned(right, unknown) != inside * standing


def agrees(equation: Equation, unknown: Name, form: Node) -> bool:
    """Whether "unknown = form" follows from the equation, proved by sympy: with the form put in, the two sides are identical.

    Where the unknown stands inside a function, the form holds that function turned round: what it is turned round from must solve the
    equation for the function, and what comes out must solve the inside of the function for the unknown.
    """
    return _agrees(opened(equation.left, unknown), opened(equation.right, unknown), unknown, form)


def _agrees(left: Node, right: Node, unknown: Name, form: Node) -> bool:
    holding = {call for side in (left, right) for call in _calls_holding(side, unknown)}
    if not holding:
        return _identical(left, right, unknown, form)
    if len(holding) > 1:
        return False
    (call,) = holding
    turned = {inverse for inverse in _inverses(form) if inverse.function == INVERSE + call.function and inverse.arguments[1:] == call.arguments[1:]}
    if len(turned) != 1 or _mentioned_elsewhere(left, right, unknown, call):
        return False
    (inverse,) = turned
    return _identical(left, right, call, inverse.arguments[0]) and _agrees(call.arguments[0], inverse, unknown, form)


def _identical(left: Node, right: Node, target: Node, put: Node) -> bool:
    """Whether the two sides are the same for all values once `put` stands in the place of `target`."""
    symbols = _Symbols()
    difference = symbols.of(left) - symbols.of(right)
    return bool(symbols.sympy.simplify(difference.subs(symbols.of(target), symbols.of(put))) == 0)


def same(one: Node, other: Node) -> bool:
    """Whether two right sides are the same for all values."""
    if isinstance(one, Call) and isinstance(other, Call) and one.function == other.function:
        return all(same(a, b) for a, b in zip(one.arguments, other.arguments, strict=True))
    symbols = _Symbols()
    return bool(symbols.sympy.simplify(symbols.of(one) - symbols.of(other)) == 0)


def _inverses(node: Node) -> list[Call]:
    match node:
        case Pair(_, left, right):
            return _inverses(left) + _inverses(right)
        case Call(function, arguments):
            inside = [inverse for argument in arguments for inverse in _inverses(argument)]
            return [node, *inside] if function.startswith(INVERSE) else inside
    return []
