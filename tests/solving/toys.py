"""Small relations of no trade, whose answers can be worked out in the head, and one call to solve them."""

from collections.abc import Mapping, Sequence
from math import floor, inf, sqrt

from assistant.matter.function import Function
from assistant.relations.relation import Relation
from assistant.solving import Known, Solution, solve


def _function(name, call, inverse=None, low=-inf, high=inf, in_steps=False):
    return Function(name, ("1",), "1", low, high, call, inverse, None, "a toy", "common practice", in_steps)


TABLE = {
    "square": _function("square", lambda x: x * x, sqrt, 0.0, 1e4),
    "bump": _function("bump", lambda x: x * (10 - x), None, 0.0, 10.0),  # two places give the same height
    "climb": _function("climb", lambda x: x + x**3 / 100, None, 0.0, 100.0),  # rises all the way, with no way back written down
    "leap": _function("leap", lambda x: x if x < 5 else x + 3, None, 0.0, 1e4),  # between 5 and 8 there is nothing it reaches
    "floor": _function("floor", lambda x: float(floor(x + 1e-9)), lambda n: n, in_steps=True),
}


def toys(*equations: str) -> tuple[Relation, ...]:
    """Relations named by their equations."""
    return tuple(Relation(equation, equation, f"Because {equation}.", "a toy", "common practice") for equation in equations)


def wide(key: str) -> tuple[float, float]:
    """Percents by their name, anything else from next to nothing up."""
    return (0.0, 100.0) if key.startswith("percent") else (1e-6, 1e7)


def solved(
    equations: Sequence[str],
    said: Mapping[str, float],
    *,
    assumed: Mapping[str, float] | None = None,
    members: Sequence[str] = (),
    brackets=wide,
    slack: float = 0.0,
    **more,
) -> Solution:
    """The solution of toy relations."""
    known = {key: Known(value, "said", slack) for key, value in said.items()}
    known |= {key: Known(value, "assumed") for key, value in (assumed or {}).items()}
    return solve(known, toys(*equations), members, TABLE, brackets, **more)


def values(solution: Solution) -> dict[str, float]:
    """Every figure as key: value, rounded where doubles end."""
    return {key: float(f"{figure.value:.9g}") for key, figure in solution.figures.items()}
