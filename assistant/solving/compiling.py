"""A tree becomes a plain function of the list of values, built once from closures: no text is ever run.

Values stand in slots of one list, so that a key may hold any ingredient's name. A function called outside its range raises
OutOfReach, as does a division by zero: the caller takes it as "no value here".
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from assistant.faults import FigureFault, HouseFault
from assistant.matter.function import Function
from assistant.solving.expression import INVERSE, Call, Name, Node, Number, Pair, Total

Values = list[float]
Evaluate = Callable[[Values], float]
NO_VALUE = (ArithmeticError, ValueError, FigureFault)  # what an evaluation may raise where there is no value


class OutOfReach(ValueError):
    """An argument outside the range of its function."""


class Compiler:
    """Compiles trees for one member of an indexed equation.

    slot      key's place in the list of values: slot(name, member)
    members   all ingredients
    own       the ingredient the equation is written for ("[i]" outside sums), "" where there is none
    unknown   the ingredient of the unknown ("[j]" and what others() leaves out), "" where there is none
    """

    def __init__(self, slot: Callable[[str, str], int], members: Sequence[str], functions: Mapping[str, Function], own: str = "", unknown: str = "") -> None:
        self.slot = slot
        self.members = members
        self.functions = functions
        self.own = own
        self.unknown = unknown

    def compiled(self, node: Node) -> Evaluate:
        """The function that gives the tree's value from the list of values."""
        return self._node(node, self.own)

    def _node(self, node: Node, i: str) -> Evaluate:
        match node:
            case Number():
                constant = node.value
                return lambda _: constant
            case Name():
                place = self._place(node, i)
                return lambda values: values[place]
            case Pair(sign, left, right):
                return self._pair(sign, left, right, i)
            case Call(function, arguments):
                return self._call(function, arguments, i)
            case Total(inner, others):
                return self._total(inner, others=others)

    def _place(self, name: Name, i: str) -> int:
        match name.index:
            case "i":
                return self.slot(name.name, i)
            case "j":
                return self.slot(name.name, self.unknown)
        return self.slot(name.name, "")

    def _pair(self, sign: str, left: Node, right: Node, i: str) -> Evaluate:
        # Most pairs are of two quantities, or of one and a number: these are worth a closure of their own.
        if isinstance(left, Name) and isinstance(right, Name):
            return _of_places(sign, self._place(left, i), self._place(right, i))
        if isinstance(right, Number):
            return _with_constant(sign, self._node(left, i), right.value)
        return _of_two(sign, self._node(left, i), self._node(right, i))

    def _call(self, name: str, arguments: tuple[Node, ...], i: str) -> Evaluate:
        function = self.functions.get(name.removeprefix(INVERSE))
        if function is None:
            raise HouseFault(f"no function is named {name!r}", near=tuple(self.functions))
        if len(arguments) != function.arity:
            raise HouseFault(f"{function.name} takes {function.arity} values, not {len(arguments)}")
        first, *rest = [self._node(argument, i) for argument in arguments]
        if name.startswith(INVERSE):
            if function.inverse is None:
                raise HouseFault(f"{function.name} cannot be turned round")
            inverse = function.inverse
            return lambda values: inverse(first(values), *[further(values) for further in rest])
        call, low, high = function.call, function.low, function.high
        if rest:
            return lambda values: call(first(values), *[further(values) for further in rest])

        def within(values: Values) -> float:
            x = first(values)
            if not low <= x <= high:
                raise OutOfReach(name)
            return call(x)

        return within

    def _total(self, inner: Node, *, others: bool) -> Evaluate:
        summed = [member for member in self.members if not (others and member == self.unknown)]
        if isinstance(inner, Name):
            places = [self._place(inner, member) for member in summed]
            return lambda values: sum([values[place] for place in places])
        parts = [self._node(inner, member) for member in summed]
        return lambda values: sum([part(values) for part in parts])


def _of_places(sign: str, a: int, b: int) -> Evaluate:
    match sign:
        case "+":
            return lambda values: values[a] + values[b]
        case "-":
            return lambda values: values[a] - values[b]
        case "*":
            return lambda values: values[a] * values[b]
    return lambda values: values[a] / values[b]


def _with_constant(sign: str, left: Evaluate, constant: float) -> Evaluate:
    match sign:
        case "+":
            return lambda values: left(values) + constant
        case "-":
            return lambda values: left(values) - constant
        case "*":
            return lambda values: left(values) * constant
    return lambda values: left(values) / constant


def _of_two(sign: str, left: Evaluate, right: Evaluate) -> Evaluate:
    match sign:
        case "+":
            return lambda values: left(values) + right(values)
        case "-":
            return lambda values: left(values) - right(values)
        case "*":
            return lambda values: left(values) * right(values)
    return lambda values: left(values) / right(values)
