"""Small wrongs put into a module: one changed place each, as a person's slip would be.

    compare     < for <=, == for !=, in for not in …          arithmetic  + for −, × for ÷, ** for ×
    logic       and for or, a condition turned round           number      n + 1, or a hundredth more for a fraction
    equation    in the text of a relation: an operator, a number, or a name left out of a sum or product
    result      what is returned becomes None

Left out is only what cannot be told from the house as it is, whatever is asked of it (_without_effect).
"""

import ast
import random
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

HOUSE = Path(__file__).parents[2] / "assistant"
ROOMS = ("matter", "relations", "solving")
# Commands for contributors and what they write: a wrong there is seen when they are run, not in what a person is told.
LEFT_OUT = {"solving/rearrange.py", "solving/rearranged.py"}

_COMPARE = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq, ast.In: ast.NotIn, ast.NotIn: ast.In,
    ast.Is: ast.IsNot, ast.IsNot: ast.Is,
}  # fmt: skip
_ARITHMETIC = {ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.Pow: ast.Mult, ast.FloorDiv: ast.Mult, ast.Mod: ast.Mult}
_EQUATION = re.compile(r"[\w\[\]]+ = .+")
_IN_EQUATION = re.compile(r"(?<= )[-+*/](?= )|\b\d+(?:\.\d+)?\b")
_OTHER_SIGN = {"+": "-", "-": "+", "*": "/", "/": "*"}


@dataclass(frozen=True)
class Mutant:
    """A module with one place changed."""

    module: str  # matter/ethanol.py
    line: int
    what: str
    place: int  # of the node among those that may be changed
    change: Callable[[ast.AST], object]

    @property
    def tree(self) -> ast.Module:
        """The module with the change in it."""
        tree = _read(self.module)
        self.change(_places(tree)[self.place])
        return ast.fix_missing_locations(tree)

    @property
    def name(self) -> str:
        return f"{self.module}:{self.line} {self.what}"


def modules() -> list[str]:
    found = [path.relative_to(HOUSE).as_posix() for room in ROOMS for path in sorted((HOUSE / room).rglob("*.py"))]
    return [name for name in found if name not in LEFT_OUT]


def mutants_of(module: str) -> Iterator[Mutant]:
    """Every mutant of a module."""
    tree = _read(module)
    without_effect = set(_without_effect(tree))
    docstrings = {id(body[0]) for node in ast.walk(tree) if (body := getattr(node, "body", None)) and isinstance(body, list) and isinstance(body[0], ast.Expr)}
    for place, node in enumerate(_places(tree)):
        if id(node) not in docstrings | without_effect:
            for what, change in _changes(node):
                yield Mutant(module, getattr(node, "lineno", 0), what, place, change)


def _without_effect(tree: ast.Module) -> Iterator[int]:
    """The nodes whose one change no answer can depend on, by their ids.

    - `return False` as it stands, of a function that says `-> bool`, to None: both are no to whoever asks, and nowhere in the rooms is such an
      answer held against False, counted or put in order. What may be True is not left out, nor is False → True.
    - how many answers a cache keeps: another is worked out again and is the same, for what is cached has no effects.
    - slots=True of a class: how its fields are stored.
    """
    for node in ast.walk(tree):
        match node:
            case ast.FunctionDef(returns=ast.Name("bool")):
                yield from (id(inner) for inner in ast.walk(node) if isinstance(inner, ast.Return) and _is_false(inner.value))
            case ast.Call(func=ast.Name("lru_cache"), keywords=[ast.keyword("maxsize", size)]):
                yield id(size)
            case ast.Call(func=ast.Name("dataclass"), keywords=keywords):
                yield from (id(keyword.value) for keyword in keywords if keyword.arg == "slots")


def _is_false(node: ast.expr | None) -> bool:
    return isinstance(node, ast.Constant) and node.value is False


def _read(module: str) -> ast.Module:
    return ast.parse((HOUSE / module).read_text(encoding="utf-8"))


def _places(tree: ast.Module) -> list[ast.AST]:
    return [node for node in ast.walk(tree) if not _is_text_for_people(node)]


def _is_text_for_people(node: ast.AST) -> bool:
    return isinstance(node, ast.Constant) and isinstance(node.value, str) and not _EQUATION.fullmatch(node.value)


def _changes(node: ast.AST) -> Iterator[tuple[str, Callable[[ast.AST], object]]]:
    """What may be changed about a node: in words, and how it is done to its twin."""
    match node:
        case ast.Compare(ops=ops):
            for place, sign in enumerate(ops):
                other = _COMPARE[type(sign)]
                yield f"{type(sign).__name__} → {other.__name__}", lambda twin, place=place, other=other: twin.ops.__setitem__(place, other())
        case ast.BinOp(op=sign) if type(sign) in _ARITHMETIC:
            other = _ARITHMETIC[type(sign)]
            yield f"{type(sign).__name__} → {other.__name__}", lambda twin, other=other: setattr(twin, "op", other())
        case ast.BoolOp(op=sign):
            other = ast.Or if isinstance(sign, ast.And) else ast.And
            yield f"{type(sign).__name__} → {other.__name__}", lambda twin, other=other: setattr(twin, "op", other())
        case ast.If() | ast.IfExp() | ast.While():
            yield "condition turned round", lambda twin: setattr(twin, "test", ast.UnaryOp(ast.Not(), twin.test))
        case ast.Constant(value=bool() as value):
            yield f"{value} → {not value}", lambda twin, value=value: setattr(twin, "value", not value)
        case ast.Constant(value=int() as value):
            yield f"{value} → {value + 1}", lambda twin, value=value: setattr(twin, "value", value + 1)
        case ast.Constant(value=float() as value):
            other = value * 1.01 if value else 1.0
            yield f"{value} → {other:.6g}", lambda twin, other=other: setattr(twin, "value", other)
        case ast.Constant(value=str() as text):
            for hit in _IN_EQUATION.finditer(text):
                other = _OTHER_SIGN.get(hit.group()) or str(float(hit.group()) + 1)
                changed = text[: hit.start()] + other + text[hit.end() :]
                yield f"“{text}” → “{changed}”", lambda twin, changed=changed: setattr(twin, "value", changed)
        case ast.Return(value=value) if value is not None and not (isinstance(value, ast.Constant) and value.value is None):
            yield "returns None", lambda twin: setattr(twin, "value", ast.Constant(None))


def drawn(count: int, seed: int = 1) -> list[Mutant]:
    """That many mutants of all rooms, drawn once and for all by the seed; every one there is for 0."""
    every = [mutant for module in modules() for mutant in mutants_of(module)]
    return every if not count or count >= len(every) else sorted(random.Random(seed).sample(every, count), key=lambda m: m.name)
