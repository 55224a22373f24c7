"""An unknown that stands once in an equation is freed step by step, as a person does it on paper: what is done to it is undone on the other side.

What stands more than once, or inside a function that cannot be turned round, is not done here (algebra.py, roots.py).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from assistant.matter.function import Function
from assistant.solving.expression import INVERSE, Call, Equation, Name, Node, Number, Pair, Total, all_names

UNKNOWN = "j"  # the index of the unknown's own ingredient when it stands inside a sum


def opened(node: Node, unknown: Name) -> Node:
    """The tree with the unknown's own ingredient taken out of each sum it stands in: sum(x[i]) → x[j] + others(x[i]).

    unknown   a quantity as it is written in the equation; with index "j" the member of a sum
    """

    def own(inner: Node) -> Node:
        return _replaced(inner, lambda n: Name(n.name, UNKNOWN) if isinstance(n, Name) and n.index == "i" else n)

    def open_sum(n: Node) -> Node:
        if isinstance(n, Total) and not n.others and any(x.name == unknown.name and x.index for x in all_names(n.inner)):
            return Pair("+", own(n.inner), Total(n.inner, others=True))
        return n

    if not unknown.index:
        return node
    tree = _replaced(node, open_sum)
    if unknown.index == "i":  # the equation's own ingredient: outside and inside the sum it is the same one
        tree = _replaced(tree, lambda n: Name(n.name, "i") if isinstance(n, Name) and n.index == UNKNOWN else n)
    return tree


def _replaced(node: Node, change: Callable[[Node], Node]) -> Node:
    """The tree with `change` applied to each node from the leaves up; the inside of others() is left as it is."""
    match node:
        case Pair(sign, left, right):
            node = Pair(sign, _replaced(left, change), _replaced(right, change))
        case Call(function, arguments):
            node = Call(function, tuple(_replaced(argument, change) for argument in arguments))
    return change(node)


def times_mentioned(node: Node, unknown: Name) -> int:
    """How often the unknown stands in an opened tree."""
    match node:
        case Name():
            return int(node == unknown)
        case Pair(_, left, right):
            return times_mentioned(left, unknown) + times_mentioned(right, unknown)
        case Call(_, arguments):
            return sum(times_mentioned(argument, unknown) for argument in arguments)
    return 0  # a sum of the others never holds the unknown, and numbers do not


def mentions(equation: Equation, unknown: Name) -> int:
    """How often the unknown stands in an equation, its own ingredient taken out of the sums."""
    return sum(times_mentioned(opened(side, unknown), unknown) for side in (equation.left, equation.right))


def isolated(equation: Equation, unknown: Name, functions: Mapping[str, Function]) -> Node | None:
    """The right side of "unknown = …", or None where it stands more than once or cannot be freed without searching."""
    left, right = opened(equation.left, unknown), opened(equation.right, unknown)
    if mentions(equation, unknown) != 1:
        return None
    holding, other = (left, right) if times_mentioned(left, unknown) else (right, left)
    while holding != unknown:
        step = _undone(holding, other, unknown, functions)
        if step is None:
            return None
        holding, other = step
    return other


def _undone(holding: Node, other: Node, unknown: Name, functions: Mapping[str, Function]) -> tuple[Node, Node] | None:
    """One step: the part that holds the unknown, and the other side with the outermost operation undone."""
    match holding:
        case Pair(sign, left, right):
            in_left = bool(times_mentioned(left, unknown))
            match sign, in_left:
                case "+", _:
                    return (left, Pair("-", other, right)) if in_left else (right, Pair("-", other, left))
                case "-", True:
                    return left, _plus(other, right)
                case "-", False:
                    return right, Pair("-", left, other)
                case "*", _:
                    return (left, _over(other, right)) if in_left else (right, _over(other, left))
                case "/", True:
                    return left, _times(other, right)
                case _:
                    return right, _over(left, other)
        case Call(function, (argument,)) if function in functions and functions[function].inverse is not None:
            return argument, Call(INVERSE + function, (other,))
        case Call(function, (argument, *rest)) if function in functions and functions[function].inverse is not None:
            if times_mentioned(argument, unknown):
                return argument, Call(INVERSE + function, (other, *rest))
    return None


def _plus(left: Node, right: Node) -> Node:
    return right if left == Number("0") else Pair("+", left, right)


def _times(left: Node, right: Node) -> Node:
    return right if left == Number("1") else Pair("*", left, right)


def _over(left: Node, right: Node) -> Node:
    """left / right; a divided percent is turned round: x / (y / 100) is told as x / y * 100."""
    match right:
        case Number("1"):
            return left
        case Pair("/", above, Number() as below):
            return Pair("*", Pair("/", left, above), below)
    return Pair("/", left, right)
