"""A sentence as it is laid over a batch: what every step of that looks at, and the words that say only "so much", "so strong"."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from assistant.dataclass import dataclass, replace
from assistant.listening.statements import Loose, Reading, Reference, Said
from assistant.quantities.vocabulary import base, key_for
from assistant.session.batch import Batch, Fact

LIQUID = frozenset({"formula", "mix"})
WEIGHED = frozenset({"salve", "tea"})
RECIPES = LIQUID | WEIGHED | {"written"}
CHILD_RULES = frozenset({"child_rule", "young", "fried"})
# Figures that only say "so much liquid", "so much stuff", "so strong": which one depends on the work.
SOME_LIQUID = frozenset(
    """menstruum pressed in_jar spirit_in_hand stock racked blend planned_menstruum contents menstruum_served supply rest liquid decoction
    to_bottle eo_base water batch_volume""".split()
)
SOME_WEIGHT = frozenset(
    """herb picked gross to_gather planned_herb batch dried menstruum_weight dry_matter weight child_weight wilted herb_served liquid all_herb
    herb_per_dose""".split()
)
SOME_STRENGTH = frozenset("strength stock_strength finished_strength water_content fill yield_share margin dried_water wilted_water eo_share brix".split())
AMOUNTS = ("part", "share", "volume", "weight", "once_volume", "once_weight")


@dataclass(frozen=True, slots=True)
class Work:
    """The sentence, the batch it is laid over, and what both are together so far: frames, facts, members; `wants` are open questions."""

    reading: Reading
    batch: Batch
    frames: set[str]
    facts: Mapping[str, Fact]
    members: Sequence[str]
    wants: Sequence[str]

    def has(self, *quantities: str) -> bool:
        """Whether any ingredient has one of these said."""
        return any(base(k) in quantities for k in self.facts)

    @property
    def determined(self) -> bool:
        """Whether the recipe says how much of each there is to the others."""
        return any(all(key_for(q, m) in self.facts for m in self.members) for q in AMOUNTS)

    def refer(self, figure: Said | Loose) -> None:
        """A figure that points at what was said already: used, and changes nothing."""
        self.reading.references.append(Reference("reference", figure.start, figure.end, figure.value))


TEASPOON = ("tsp", "teaspoon", "spoon")
US_TEASPOON, TEASPOON_IN_DOSE = 4.92892159375, 5.0  # mL
IN_DOSES = frozenset({"dose", "adult_dose", "daily"})  # where it is counted so from the beginning


def renamed(s: Said, quantity: str, member: str = "", value: float | None = None) -> Said:
    """A figure under the name it has here; a teaspoon that turns out to be a dose is 5 mL."""
    size = s.value if value is None else value
    if quantity == "dose" and s.quantity not in IN_DOSES and s.said_unit.startswith(TEASPOON):
        size *= TEASPOON_IN_DOSE / US_TEASPOON
    return replace(s, quantity=quantity, member=member, weak=False, value=size)


def said_as(figure: Loose, quantity: str, member: str = "", value: float | None = None) -> Said:
    """A figure that no phrase claimed, as this quantity."""
    return Said(
        quantity, figure.value if value is None else value, figure.start, figure.end, member, figure.said_unit, figure.low, figure.high, words=figure.words
    )  # fmt: skip
