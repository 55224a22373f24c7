"""What the rules are handed: the figures of a batch, what was said of it, and the plants in it.

Three answers are possible to any condition: NO, UNKNOWN, YES, in that order, so that "and" is the least of its parts and "or" the greatest.
What was merely not said is UNKNOWN, never NO.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING, NamedTuple, Protocol

if TYPE_CHECKING:
    from assistant.cautions.plant import Plant

NO, UNKNOWN, YES = 0, 1, 2


class FigureLike(Protocol):
    """A figure as the solver gives it: value in its bench unit, where it comes from, and its ± (or None)."""

    @property
    def value(self) -> float: ...
    @property
    def origin(self) -> str: ...
    @property
    def plus_minus(self) -> float | None: ...


class Facts(NamedTuple):
    """One batch at one moment.

    figures  key → figure; a key is a quantity's name, or name[ingredient]
    tags     what was established by what was said; denied: what was said not to hold
    plants   the plants in it, each as find() gave it
    part     the part said (root, leaf, flower, herb, berry, bark, seed, …); "" when none was
    words    ready-made pieces a rule's text may show, for example rescue: "74 mL of 95 %"
    show     (key, value) → text as the bench shows it; None shows plain rounded figures
    of_each  the keys of figures that ingredients have, by the quantity; None looks for them each time
    """

    figures: Mapping[str, FigureLike] = MappingProxyType({})
    tags: frozenset[str] = frozenset()
    denied: frozenset[str] = frozenset()
    plants: tuple[Plant, ...] = ()
    part: str = ""
    words: Mapping[str, str] = MappingProxyType({})
    show: Callable[[str, float], str] | None = None
    of_each: Mapping[str, list[str]] | None = None
