"""The right side of "unknown = …" for a relation: from the generated table, else worked out and remembered.

The everyday path reads rearranged.py and imports no sympy. A relation that is not in the table (a toy in a test, a relation written
a minute ago) is freed step by step where the unknown stands once, and by sympy where it stands more often.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from types import MappingProxyType

from assistant.matter.function import Function
from assistant.solving.expression import Name, Node, read_equation, read_expression, to_text
from assistant.solving.isolating import isolated, mentions
from assistant.solving.rearranged import REARRANGED

_FURTHER: dict[str, Mapping[str, str]] = {}
_NO_FORMS: Mapping[str, str] = MappingProxyType({})


def unknowns_of(text: str) -> tuple[Name, ...]:
    """Every way an unknown can stand in an equation: each name, and for what is summed over, one ingredient of the sum ("[j]")."""
    equation = read_equation(text)
    found: dict[Name, None] = {}
    for name in equation.names:
        if not name.index:
            found[name] = None
            continue
        if equation.is_indexed and mentions(equation, Name(name.name, "i")):
            found[Name(name.name, "i")] = None
        if name in equation.in_sums:
            found[Name(name.name, "j")] = None
    return tuple(found)


def also_known(forms: Mapping[str, Mapping[str, str]]) -> None:
    """Take a table of the same shape as REARRANGED into use beside it: of equations that are no relations of the house."""
    _FURTHER.update(forms)


def right_side(text: str, unknown: Name, functions: Mapping[str, Function]) -> Node | None:
    """The tree of "unknown = …", or None where there is no closed form and a root has to be searched for."""
    form = (REARRANGED.get(text) or _FURTHER.get(text, _NO_FORMS)).get(to_text(unknown))
    if form is not None:
        return read_expression(form) if form else None
    return worked_out(text, unknown, tuple(functions.values()))


@lru_cache(maxsize=4096)
def worked_out(text: str, unknown: Name, functions: tuple[Function, ...]) -> Node | None:
    """The same without the table; what writes the table starts from here."""
    table = {function.name: function for function in functions}
    equation = read_equation(text)
    form = isolated(equation, unknown, table)
    if form is None and mentions(equation, unknown) > 1:
        from assistant.solving.algebra import solved_for

        form = solved_for(equation, unknown, table)
    return form
