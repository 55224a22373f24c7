"""What a named function is: the shape that relations and the solver rely on. What each one means is told in functions.py."""

from collections.abc import Callable

from assistant.dataclass import dataclass


@dataclass(frozen=True, slots=True)
class Function:
    """A function that no formula of the relations can write out, with what a solver needs in order to turn it round.

    name        as written in an equation: "density" in "grams = volume * density(strength)"
    takes       unit of each argument, in order; its length is the arity
    unit        unit of the result
    low, high   bracket of the first argument; where there are further arguments they may narrow it
    call        call(x, *rest) -> result
    inverse     inverse(result, *rest) -> x; None where a root has to be searched for
    derivative  derivative(x, *rest) -> d result / d x; None where the function goes in steps
    in_steps    the result jumps between whole numbers: a ± is told by both neighbours, and the inverse gives the least x that is enough
    source      where the figures are from
    evidence    read | memory | computed | common practice

    Outside its range `call` and `inverse` raise FigureFault, which names the value and the limits.
    """

    name: str
    takes: tuple[str, ...]
    unit: str
    low: float
    high: float
    call: Callable[..., float]
    inverse: Callable[..., float] | None
    derivative: Callable[..., float] | None
    source: str
    evidence: str
    in_steps: bool = False

    @property
    def arity(self) -> int:
        return len(self.takes)
