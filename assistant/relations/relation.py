"""What a relation is: an equation of the trade with no preferred direction, the sentence that teaches it, and where it is from."""

from __future__ import annotations

from collections.abc import Set as AbstractSet

from assistant.dataclass import dataclass


@dataclass(frozen=True, slots=True)
class Relation:
    """One equation between quantities; whatever is missing in it is what gets solved.

    name      a few words, unique in the house: "plant water mixes in"
    equation  text with one "=": names of quantities, numbers, + - * / ( ), functions of the table f(x, ...), and for recipes
              name[i] and sum(... name[i] ...). [i] outside sum() makes one equation for each ingredient.
              Values stand in bench units; a percent is the percent number.
    says      one sentence of a teacher
    source    where it is from
    evidence  read | memory | common practice
    when      tags the batch must bear; "!dried" = must not bear
    """

    name: str
    equation: str
    says: str
    source: str
    evidence: str
    when: frozenset[str] = frozenset()

    def applies(self, tags: AbstractSet[str]) -> bool:
        """Whether a batch that bears these tags is one the relation is about.

        >>> Relation("r", "a = b", "", "", "", frozenset({"fresh", "!oil"})).applies({"fresh", "tincture"})
        True
        """
        return all((tag[1:] not in tags) if tag.startswith("!") else (tag in tags) for tag in self.when)
