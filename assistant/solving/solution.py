"""What a solve gives back: every figure with its origin, the steps that led to it, and what cannot be."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Literal

from assistant.dataclass import dataclass, field

Origin = Literal["said", "measured", "assumed", "found"]


@dataclass(frozen=True, slots=True)
class Known:
    """A value handed in.

    value       in the key's bench unit
    tolerance   how far its digits let it be off, in the same unit ("112" is 112 ± 0.5); 0 for what is exact, as a ratio
    plus_minus  the ± that was said with it, in the same unit; None where none was
    """

    value: float
    origin: Origin = "said"
    tolerance: float = 0.0
    plus_minus: float | None = None


@dataclass(frozen=True, slots=True)
class Step:
    """One line of working.

    relation  name of the relation used; says and source are the relation's own
    inputs    the other keys of the equation, in its order
    together  the keys of the group it was found with, itself included; empty where it was found alone
    """

    relation: str
    says: str
    source: str
    key: str
    inputs: tuple[str, ...]
    value: float
    together: tuple[str, ...]
    _written: Callable[[], str] = field(repr=False, compare=False)

    @property
    def working(self) -> str:
        """The arithmetic as text, as "112 g × 2 = 224 mL"; written when asked for."""
        return self._written()


@dataclass(frozen=True, slots=True)
class Figure:
    """A value with where it is from. `step` is the last line of its working, None for what was given.

    plus_minus  a limit of error in the value's own unit; None where none of what it rests on has one
    low, high   of a whole number (bottles, days): the least and the most it may be within the ± of what it is counted from; None where it is sure
    """

    key: str
    value: float
    origin: Origin
    step: Step | None = None
    plus_minus: float | None = None
    low: float | None = None
    high: float | None = None


@dataclass(frozen=True, slots=True)
class Conflict:
    """The smallest set of said keys that cannot all hold.

    implied    for each of them (key, what the others imply for it, what was said); None where no value of it would do
    relations  names of the relations that link them
    """

    said: tuple[str, ...]
    implied: tuple[tuple[str, float | None, float], ...]
    relations: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Impossible:
    """A found value outside what can be: a weight below nothing, a strength above 100 %."""

    key: str
    value: float
    low: float
    high: float
    relation: str


@dataclass(frozen=True, slots=True)
class Unreached:
    """Keys that hang together and for which no value inside their brackets makes everything hold, as a finish above what the stock can reach.

    several   where it is not none but more than one: key → value, for each; which one is meant has to be said
    """

    keys: tuple[str, ...]
    relation: str
    several: tuple[Mapping[str, float], ...] = ()


@dataclass(frozen=True, slots=True)
class Solution:
    """Everything that follows from what was known.

    figures     all keys known in the end
    conflicts   what was said and cannot all hold; with any, nothing was assumed
    dropped     assumed keys that contradict what was said, and were left out
    impossible  first causes only: values outside their brackets that rest on none other such
    unreached   groups without one possible value: with none, or with more than one
    unsettled   wanted keys that are still unknown
    """

    figures: dict[str, Figure]
    conflicts: tuple[Conflict, ...]
    dropped: tuple[str, ...]
    impossible: tuple[Impossible, ...]
    unreached: tuple[Unreached, ...]
    unsettled: tuple[str, ...]
    _derive: Callable[[tuple[str, ...]], tuple[tuple[str, ...], tuple[str, ...]]] = field(repr=False, compare=False)
    _moved: Callable[[str], Mapping[str, float]] = field(repr=False, compare=False, default=lambda _: {})

    def moved_by(self, key: str) -> Mapping[str, float]:
        """How far a figure moves for one unit more of each given key it rests on, in its own unit; first order. Empty where it is not known."""
        return self._moved(key) if key in self.figures else {}

    def value(self, key: str) -> float | None:
        """The value of a key, None where it is not known."""
        figure = self.figures.get(key)
        return None if figure is None else figure.value

    def derivation(self, *keys: str) -> tuple[Step, ...]:
        """The steps these answers need and no others, each once, in the order a person would do them; empty for what was given or is not known."""
        steps = (self.figures[k].step for k in self._derived(keys)[0])
        return tuple(step for step in steps if step is not None)

    def rests_on(self, *keys: str) -> tuple[str, ...]:
        """The keys of the given figures the answers rest on, in the order they are first used."""
        return self._derived(keys)[1]

    def _derived(self, keys: tuple[str, ...]) -> tuple[tuple[str, ...], tuple[str, ...]]:
        return self._derive(tuple(key for key in keys if key in self.figures))

    def leaves(self, key: str) -> tuple[Figure, ...]:
        """The given figures the answer rests on, in the order they are first used."""
        return tuple(self.figures[k] for k in self.rests_on(key))
