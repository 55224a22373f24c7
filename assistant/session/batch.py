"""One batch: what was said of it, immutable. Each sentence that changes a fact makes the next one."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property
from types import MappingProxyType

from assistant.dataclass import dataclass, field, replace
from assistant.quantities.vocabulary import VOCABULARY, about, base

# Quantities that grow with the batch: "double it" doubles these.
EXTENSIVE_UNITS = frozenset({"g", "mL", "drop"})
NEVER_SCALED = frozenset(
    """bottle_size jar_size tin_size tin_weight dose dose_drops daily spoon per_cup herb_per_dose herb_per_day adult_dose child_weight child_dose per_plant tare
    once_volume once_weight once_makes once_weighs spirit_in_hand have have_weight alcohol_per_dose alcohol_per_day dropper_size eo_drops drops_per_tin in_each
    planned_herb""".split()
)
STATES = frozenset({"fresh", "dried"})  # a plant is one of them
ALSO_SCALED = frozenset({"bottles", "tins", "times", "count_wanted", "cups", "plants_taken", "jars"})


@dataclass(frozen=True, slots=True)
class Fact:
    """One figure of a batch, in the bench unit of its quantity.

    turn   the sentence it was said in
    words  the words around it, by which a correction may point at it
    """

    value: float
    origin: str = "said"
    turn: int = 0
    said_unit: str = ""
    plus_minus: float | None = None
    low: float | None = None
    high: float | None = None
    digits: float = 0.0  # slack of the digits as said
    words: frozenset[str] = frozenset()
    tool: str = ""  # what it was read on, where that was said


@dataclass(frozen=True)
class Batch:
    """A batch at one moment.

    name     the plant or recipe it is called by; "" until one was named
    alias    what the person chose to call it ("red")
    frames   what kind of work it is: dilution, mix, oil, salve, syrup, vinegar, glycerite, tea, formula, dose, cost …
    tags     what was established: fresh, dried, neat, and the hazards the rules listen for
    facts    key → Fact, in the order they were said
    members  ingredients of a recipe or a mix, in order
    wanted   what was last asked of it
    spoken   cautions already given, by key
    muted    notes to be quiet about for this batch
    """

    name: str = ""
    plants: tuple[str, ...] = ()
    frames: frozenset[str] = frozenset()
    tags: frozenset[str] = frozenset()
    denied: frozenset[str] = frozenset()
    facts: Mapping[str, Fact] = field(default_factory=dict)
    members: tuple[str, ...] = ()
    wanted: tuple[str, ...] = ()
    spoken: frozenset[str] = frozenset()
    changed: tuple[str, ...] = ()
    alias: str = ""
    muted: frozenset[str] = frozenset()

    def having(self, **changes: object) -> Batch:
        """A copy with some fields changed; the facts are sealed."""
        if "facts" in changes:
            changes["facts"] = MappingProxyType(dict(changes["facts"]))  # type: ignore[call-overload]
        return replace(self, **changes)  # type: ignore[arg-type]

    def with_facts(self, new: Mapping[str, Fact]) -> Batch:
        facts = {k: f for k, f in self.facts.items() if k not in new}
        facts.update(new)
        return self.having(facts=facts, changed=tuple(new))

    def without(self, *keys: str) -> Batch:
        return self.having(facts={k: f for k, f in self.facts.items() if k not in keys})

    def value(self, key: str) -> float | None:
        fact = self.facts.get(key)
        return None if fact is None else fact.value

    def scaled(self, factor: float, turn: int) -> Batch:
        """The same batch, larger or smaller: amounts are multiplied, ratios, strengths and doses stay."""
        facts: dict[str, Fact] = {}
        for key, fact in self.facts.items():
            name = base(key)
            grows = (VOCABULARY[name].unit in EXTENSIVE_UNITS and name not in NEVER_SCALED) or name in ALSO_SCALED
            facts[key] = replace(fact, value=fact.value * factor, turn=turn, digits=fact.digits * factor) if grows else fact
        return self.having(facts=facts, changed=tuple(facts))

    @cached_property
    def title(self) -> str:
        """The short name a person would give it: "nettle tincture"."""
        if self.alias:
            return self.alias
        kind = next((f for f in ("salve", "syrup", "vinegar", "glycerite", "tea", "formula", "oil") if f in self.frames), "")
        if not kind and "mix" in self.frames:
            kind = "mix"
        if not kind and ("dilution" in self.frames) and not self.name:
            kind = "dilution"
        if not kind and ("menstruum" in self.facts or "ratio" in self.facts or "herb" in self.facts):
            kind = "tincture"
        if self.name and kind and kind not in self.name:
            return f"{self.name} {kind}"
        return self.name or kind

    @property
    def members_about(self) -> frozenset[str]:
        return frozenset(about(k) for k in self.facts if about(k))
