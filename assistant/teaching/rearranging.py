"""An equation turned towards what is wanted, one algebraic move a line, each line proved the same as the one before.

What stands once is freed as on paper: what is done to it is undone on both sides. What stands more than once is multiplied out,
gathered on one side and taken out as a factor. The proof of the last line is sympy's, at arm's length; it is loaded only here.
"""

from __future__ import annotations

from assistant.dataclass import dataclass
from assistant.matter import FUNCTIONS
from assistant.quantities.showing import caption
from assistant.quantities.vocabulary import about, base
from assistant.relations import Relation
from assistant.solving.expression import Call, Equation, Name, Node, Number, Pair, Total, read_equation
from assistant.solving.forms import right_side
from assistant.solving.isolating import opened, times_mentioned

SIGNS = {"+": " + ", "-": " − ", "*": " × ", "/": " ÷ "}
RANK = {"+": 1, "-": 1, "*": 2, "/": 2}


@dataclass(frozen=True, slots=True)
class Move:
    """One move: what is done to both sides, and the equation behind it."""

    done: str
    equation: str


def moves(relation: Relation, key: str) -> tuple[Move, ...]:
    """From the rule to "wanted = …", a move a line; empty where no closed form exists and a person has to try."""
    equation = read_equation(relation.equation)
    unknown = _unknown(equation, key)
    form = right_side(relation.equation, unknown, FUNCTIONS)
    if form is None or not _proved(equation, unknown, form):
        return ()
    left, right = opened(equation.left, unknown), opened(equation.right, unknown)
    told = [Move("The rule.", f"{in_words(left)} = {in_words(right)}")]
    if times_mentioned(left, unknown) + times_mentioned(right, unknown) != 1:
        return (*told, *_gathered(equation, unknown, form))
    holding, other = (left, right) if times_mentioned(left, unknown) else (right, left)
    while holding != unknown:
        step = _undone(holding, other, unknown)
        if step is None:
            return ()
        done, holding, other = step
        told.append(Move(done, f"{in_words(holding)} = {in_words(other)}"))
    if len(told) == 1:
        told.append(Move("It stands alone already.", f"{in_words(unknown)} = {in_words(other)}"))
    return tuple(told)


def _gathered(equation: Equation, unknown: Name, form: Node) -> tuple[Move, ...]:
    """The moves where the unknown stands more than once."""
    from assistant.solving.algebra import gathered

    name = in_words(unknown)
    parts = gathered(equation, unknown)
    if parts is None:
        return (Move(f"Free the {name}.", f"{name} = {in_words(form)}"),)
    with_it, without = (in_words(part, bracketed=True) for part in parts)
    return (
        Move(f"Multiply out, and bring what holds the {name} to one side.", f"{name} × {with_it} = {without}"),
        Move(f"Divide both sides by {with_it}.", f"{name} = {without} ÷ {with_it}"),
    )


def _unknown(equation: Equation, key: str) -> Name:
    if not about(key):
        return Name(base(key))
    return Name(base(key), "i" if equation.is_indexed else "j")


def _proved(equation: Equation, unknown: Name, form: Node) -> bool:
    from assistant.solving.algebra import agrees

    return agrees(equation, unknown, form)


def _undone(holding: Node, other: Node, unknown: Name) -> tuple[str, Node, Node] | None:
    match holding:
        case Pair(sign, left, right):
            in_left = bool(times_mentioned(left, unknown))
            inside, outside = (left, right) if in_left else (right, left)
            words = in_words(outside, bracketed=True)
            match sign, in_left:
                case "+", _:
                    return f"Take {words} off both sides.", inside, Pair("-", other, outside)
                case "*", _:
                    return f"Divide both sides by {words}.", inside, Pair("/", other, outside)
                case "-", True:
                    return f"Add {words} to both sides.", inside, Pair("+", other, outside)
                case "-", False:
                    return f"Take both sides off {words}.", inside, Pair("-", outside, other)
                case "/", True:
                    return f"Multiply both sides by {words}.", inside, Pair("*", other, outside)
            return f"Divide {words} by both sides.", inside, Pair("/", outside, other)
        case Call(function, (argument, *rest)) if times_mentioned(argument, unknown) and FUNCTIONS[function].inverse is not None:
            if FUNCTIONS[function].in_steps:
                return "The least that makes so many whole ones.", argument, other
            return f"Look up in the table what has that {function.replace('_', ' ')}.", argument, Call(f"inverse_{function}", (other, *rest))
    return None


def in_words(node: Node, *, bracketed: bool = False) -> str:
    """A tree with the captions of the quantities: "menstruum × strength poured ÷ 100"."""
    text = _text(node)
    return f"({text})" if bracketed and isinstance(node, Pair) else text


def _text(node: Node) -> str:
    match node:
        case Number(text):
            return text
        case Name(name, index):
            return f"{'its own ' if index == 'j' else ''}{caption(name)}"
        case Total(inner, others):
            return f"the sum of {'all other' if others else 'all'} ({_text(inner)})"
        case Call(function, arguments):
            inside = ", ".join(_text(argument) for argument in arguments)
            name = function.removeprefix("inverse_").replace("_", " ")
            if name in ("floor", "ceil"):
                return f"({inside}, rounded {'down' if name == 'floor' else 'up'})"
            return f"(what has the {name} {inside})" if function.startswith("inverse_") else f"{name} at ({inside})"
        case Pair(sign, left, right):
            first, second = _text(left), _text(right)
            if isinstance(left, Pair) and RANK[left.sign] < RANK[sign]:
                first = f"({first})"
            if isinstance(right, Pair) and (RANK[right.sign] < RANK[sign] or (RANK[right.sign] == RANK[sign] and sign in "-/")):
                second = f"({second})"
            return first + SIGNS[sign] + second
    raise TypeError(node)
