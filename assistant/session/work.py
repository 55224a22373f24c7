"""A sentence as it is laid over a batch: what every step of that looks at, and the words that say only "so much", "so strong"."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from assistant.dataclass import dataclass, replace
from assistant.listening.statements import Loose, Reading, Reference, Said, forget
from assistant.quantities.units import MEDICINE_TEASPOON, units
from assistant.quantities.vocabulary import base, key_for
from assistant.session.batch import Batch, Fact

LIQUID = frozenset({"formula", "mix"})
WEIGHED = frozenset({"salve", "tea"})
RECIPES = LIQUID | WEIGHED | {"written"}
CHILD_RULES = frozenset({"child_rule", "young", "fried"})
CHILD_GRAMS = (2000.0, 150_000.0)
DAYS_A_MONTH = 30.0  # as a course of months is reckoned
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
IN_DOSES = frozenset({"dose", "adult_dose", "daily"})  # where it is counted so from the beginning


def _size(figure: Said | Loose, quantity: str, value: float | None) -> float:
    """The value of a figure under another name; a teaspoon that turns out to be a dose is 5 mL."""
    size = figure.value if value is None else value
    counted_so = isinstance(figure, Said) and figure.quantity in IN_DOSES
    if quantity != "dose" or counted_so or not figure.said_unit.lower().startswith(TEASPOON):
        return size
    return size * MEDICINE_TEASPOON / units().by_name["teaspoon"].size()


def renamed(s: Said, quantity: str, member: str = "", value: float | None = None) -> Said:
    """A figure under the name it has here."""
    return replace(s, quantity=quantity, member=member, weak=False, value=_size(s, quantity, value))


def said_as(figure: Loose, quantity: str, member: str = "", value: float | None = None) -> Said:
    """A figure that no phrase claimed, as this quantity."""
    size = _size(figure, quantity, value)
    return Said(quantity, size, figure.start, figure.end, member, figure.said_unit, figure.low, figure.high, words=figure.words)


def take_as(reading: Reading, figure: Said | Loose, quantity: str, value: float | None = None) -> Said:
    """Let a figure of the sentence be this quantity, whether a phrase had claimed it or not. Changes the reading."""
    if isinstance(figure, Said):
        taken = renamed(figure, quantity, value=value)
        reading.said[next(i for i, s in enumerate(reading.said) if s is figure)] = taken
        return taken
    forget(figure, reading.said, reading.loose)
    reading.said.append(said_as(figure, quantity, value=value))
    return reading.said[-1]
