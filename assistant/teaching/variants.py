"""What can go wrong in any line of working, whatever it is about: divided where it multiplies, a percent as a whole number, a term left out.

Made from the equation of each step, so a relation that is added is covered the day it is added.
"""

from __future__ import annotations

from collections.abc import Iterator

from assistant.dataclass import dataclass
from assistant.matter import FUNCTIONS
from assistant.quantities.showing import caption
from assistant.quantities.vocabulary import about, base
from assistant.relations import Relation
from assistant.solving.expression import Call, Name, Node, Number, Pair, Total, read_equation, to_text
from assistant.solving.forms import right_side

HUNDRED = Number("100")
ONE = Number("1")


@dataclass(frozen=True, slots=True)
class Variant:
    """One wrong way of a step: its name, what it says behind "that is what comes out if", and the equation as it was taken."""

    name: str
    says: str
    equation: str


def variants(relation: Relation, key: str) -> Iterator[Variant]:
    """The wrong ways of a step that gives `key`; none where it was found by a search."""
    equation = read_equation(relation.equation)
    member = about(key)
    wanted = Name(base(key), "" if not member else "i")
    if member and not equation.is_indexed:
        return
    form = right_side(relation.equation, wanted, FUNCTIONS)
    if form is None or _holds_others(form):
        return
    told = to_text(wanted)
    seen = {to_text(form)}
    for name, says, node in (*_factors_turned(form), *_inside(form)):
        text = to_text(node)
        if text not in seen:
            seen.add(text)
            yield Variant(name, says, f"{told} = {text}")


def _words(node: Node) -> str:
    match node:
        case Name(name, _):
            return f"the {caption(name)}"
        case Number(text):
            return text
        case Pair(_, Number("1"), Pair("/", Name() as inner, Number("100"))):
            return f"the share the {caption(inner.name)} leaves" if node.sign == "-" else f"one and the {caption(inner.name)}"
        case Call(function, _):
            return f"the {function.replace('_', ' ')}"
    return "the sum in brackets"


def _factors(node: Node) -> list[tuple[bool, Node]]:
    match node:
        case Pair("*", left, right):
            return _factors(left) + _factors(right)
        case Pair("/", left, right):
            return _factors(left) + [(not above, factor) for above, factor in _factors(right)]
    return [(True, node)]


def _product(factors: list[tuple[bool, Node]]) -> Node:
    above = [factor for is_above, factor in factors if is_above] or [ONE]
    tree = above[0]
    for factor in above[1:]:
        tree = Pair("*", tree, factor)
    for factor in (factor for is_above, factor in factors if not is_above):
        tree = Pair("/", tree, factor)
    return tree


def _factors_turned(form: Node) -> Iterator[tuple[str, str, Node]]:
    factors = _factors(form)
    if len(factors) < 2:
        return
    hundreds = [n for n, (_, factor) in enumerate(factors) if factor == HUNDRED]
    for n in hundreds[:1]:
        yield "percent as a whole number", "the percent is taken as a whole number, the hundred left out", _product(factors[:n] + factors[n + 1 :])
    for n, (above, factor) in enumerate(factors):
        if factor in (HUNDRED, ONE):
            continue
        turned = [*factors[:n], (not above, factor), *factors[n + 1 :]]
        words = _words(factor)
        how = f"divided by {words} where it multiplies" if above else f"multiplied by {words} where it divides"
        if n or len([f for f in factors if f[1] not in (HUNDRED, ONE)]) > 1:
            yield f"{'divided' if above else 'multiplied'}: {words}", f"it is {how}", _product(turned)
            yield f"left out: {words}", f"{words} is left out", _product(factors[:n] + factors[n + 1 :])
    if any(not above for above, factor in factors if factor not in (HUNDRED, ONE)):
        upside = [(above if factor == HUNDRED else not above, factor) for above, factor in factors]
        yield "upside down", "the fraction is taken upside down", _product(upside)


def _inside(node: Node) -> Iterator[tuple[str, str, Node]]:
    """Wrong ways of one part, the rest as it is."""
    match node:
        case Pair("-", Number("1"), Pair("/", Name() as inner, Number("100")) as share):
            yield f"share and rest swapped: {inner.name}", f"the {caption(inner.name)} itself is taken where what it leaves counts", share
            yield f"added instead of taken off: {inner.name}", f"the {caption(inner.name)} is added where it is taken off", Pair("+", ONE, share)
        case Pair("+", Number("1"), Pair("/", Name() as inner, Number("100")) as share):
            yield f"the whole forgotten: {inner.name}", f"only the {caption(inner.name)} is taken, without the whole it is added to", share
            yield f"taken off instead of added: {inner.name}", f"the {caption(inner.name)} is taken off where it is added", Pair("-", ONE, share)
        case Pair("+" | "-" as sign, left, right):
            other = "-" if sign == "+" else "+"
            yield (
                f"{'subtracted' if sign == '+' else 'added'}: {_words(right)}",
                f"{_words(right)} is {'taken off' if sign == '+' else 'added'} where it is {'added' if sign == '+' else 'taken off'}",
                Pair(other, left, right),
            )
            yield f"left out: {_words(right)}", f"{_words(right)} is left out", left
            if sign == "+":
                yield f"left out: {_words(left)}", f"{_words(left)} is left out", right
            yield from ((n, s, Pair(sign, piece, right)) for n, s, piece in _inside(left))
            yield from ((n, s, Pair(sign, left, piece)) for n, s, piece in _inside(right))
        case Pair(sign, left, right):
            yield from ((n, s, Pair(sign, piece, right)) for n, s, piece in _inside(left))
            yield from ((n, s, Pair(sign, left, piece)) for n, s, piece in _inside(right))
        case Call(function, (argument, *rest)):
            if FUNCTIONS.get(function) is not None and FUNCTIONS[function].in_steps:
                yield "not made whole", "the count is left as a fraction", argument
            yield from ((n, s, Call(function, (piece, *rest))) for n, s, piece in (*_factors_turned(argument), *_inside(argument)))


def _holds_others(node: Node) -> bool:
    match node:
        case Pair(_, left, right):
            return _holds_others(left) or _holds_others(right)
        case Call(_, arguments):
            return any(map(_holds_others, arguments))
        case Total(_, others):
            return others
        case Name(_, index):
            return index == "j"
    return False
