"""What a lesson is about: figures, the equations that hold between them, and what follows."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from assistant.dataclass import dataclass, replace
from assistant.matter import FUNCTIONS
from assistant.quantities.vocabulary import bracket
from assistant.relations import Relation
from assistant.solving import Known, Solution, figures_of, solve
from assistant.solving.working import Show, plain


@dataclass(frozen=True, slots=True)
class Case:
    """A batch as the teacher sees it: what is known, which relations hold, which ingredients there are.

    known      key → value with its origin, in bench units; assumed values behind those that were said
    relations  those that apply, in order of preference
    members    the ingredients of what is indexed
    """

    known: Mapping[str, Known]
    relations: tuple[Relation, ...]
    members: tuple[str, ...] = ()

    def solved(self, wanted: Iterable[str] = (), show: Show = plain) -> Solution:
        """Everything that follows."""
        return solve(self.known, self.relations, self.members, FUNCTIONS, bracket, wanted, show)

    def figures(self) -> dict[str, float] | None:
        """The figures that follow, without their working; None where they contradict each other."""
        return figures_of(self.known, self.relations, self.members, FUNCTIONS, bracket)

    def giving(self, values: Mapping[str, float]) -> Case:
        """The same with some figures changed or added, as if they had been said."""
        known = {key: replace(fact, value=values[key], tolerance=0.0) if key in values else fact for key, fact in self.known.items()}
        known = {key: Known(value) for key, value in values.items() if key not in known} | known
        return replace(self, known=known)

    def without(self, *keys: str) -> Case:
        """The same with some figures not known."""
        return replace(self, known={key: fact for key, fact in self.known.items() if key not in keys})

    def holding(self, equations: Mapping[str, str]) -> Case:
        """The same with other equations in the place of some relations, by their name; an empty text leaves the relation out."""
        changed = (replace(r, equation=equations.get(r.name, r.equation)) for r in self.relations if equations.get(r.name, r.equation))
        return replace(self, relations=tuple(changed))
