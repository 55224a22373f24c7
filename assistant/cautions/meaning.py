"""What the words of a condition stand for: quantities of the vocabulary, tags, flags, plants, parts and units.

Every table is handed in (the vocabulary, the tags, the plants), so that an unknown word can be told with the nearest known one.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any, Protocol

from assistant.cautions.conditions import AgainstUsual, Compare, Condition, Flagged, IsPart, IsPlant, Known, OfKin, Or, PlantNamed, Tagged
from assistant.cautions.fault import nearest
from assistant.cautions.plant import PART_KINDS, PlantList
from assistant.cautions.plant_reading import FLAGS, KINDS
from assistant.dataclass import dataclass, field
from assistant.tagtable import TagTable

# Ready-made pieces of text the session may hand over; a sentence that shows one is left out where it was not handed over.
READY_WORDS = ("rescue", "rescue 25", "garden instead", "dried instead")
OF_THE_PLANT = ("plant", "latin", "note", "part", "usual strength", "usual ratio", "usual daily weight")
HELP = "gallipot --rules"  # the page of everything a rule can say
USUAL = {"usual strength": "strength", "usual ratio": "ratio", "usual daily weight": "daily"}

UNITS: dict[str, tuple[str, float]] = {  # as written in a rule → bench unit, factor
    "g": ("g", 1.0),
    "mg": ("g", 0.001),
    "kg": ("g", 1000.0),
    "mL": ("mL", 1.0),
    "ml": ("mL", 1.0),
    "L": ("mL", 1000.0),
    "%": ("percent", 1.0),
    "percent": ("percent", 1.0),
    "°Bx": ("percent", 1.0),
    "g/mL": ("g/mL", 1.0),
    "mL/g": ("mL/g", 1.0),
    "drop": ("drop", 1.0),
    "drops": ("drop", 1.0),
    "day": ("day", 1.0),
    "days": ("day", 1.0),
    "weeks": ("day", 7.0),
    "months": ("day", 30.0),
    "°C": ("degC", 1.0),
    "degrees": ("degC", 1.0),
    "": ("1", 1.0),
    "plants": ("1", 1.0),
    "jars": ("1", 1.0),
    "bottles": ("1", 1.0),
    "years": ("1", 1.0),
    "times": ("1", 1.0),
}
_UNIT_WORD = {"percent": "%", "1": "a plain number", "day": "days", "drop": "drops", "degC": "degrees"}


class QuantityLike(Protocol):
    @property
    def name(self) -> str: ...
    @property
    def unit(self) -> str: ...
    @property
    def caption(self) -> str: ...
    @property
    def spoken(self) -> tuple[str, ...]: ...
    @property
    def indexed(self) -> bool: ...


class Unmeant(Exception):
    """Words that mean nothing here, with the nearest that do."""

    def __init__(self, what: str, near: Iterable[str] = (), try_this: str = "") -> None:
        super().__init__(what)
        self.what, self.near, self.try_this = what, tuple(near), try_this


def quantity_names(vocabulary: Mapping[str, QuantityLike]) -> dict[str, tuple[str, str]]:
    """What a quantity may be called in a rule → (its key, its bench unit).

    The key with spaces comes first, then the caption, then a spoken name that belongs to one quantity alone.
    """
    names: dict[str, tuple[str, str]] = {}
    for q in vocabulary.values():
        names[q.name.replace("_", " ").lower()] = (q.name, q.unit)
    for indexed in (False, True):
        for q in vocabulary.values():
            if q.indexed == indexed:
                names.setdefault(q.caption.lower(), (q.name, q.unit))
    spoken: dict[str, set[str]] = {}
    for q in vocabulary.values():
        for word in q.spoken:
            spoken.setdefault(word.lower(), set()).add(q.name)
    for word, owners in spoken.items():
        if len(owners) == 1:
            owner = vocabulary[owners.pop()]
            names.setdefault(word, (owner.name, owner.unit))
    return names


@dataclass
class Meaning:
    """All tables a rule is read with.

    quantities  as quantity_names gives them;  sources  id → title;  themes  the known themes, empty where any will do
    """

    quantities: Mapping[str, tuple[str, str]]
    tags: TagTable
    plants: PlantList
    sources: Mapping[str, str]
    ready_words: tuple[str, ...] = READY_WORDS
    _phrases: dict[str, str] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self._phrases = {phrase.lower(): tag for phrase, tag in self.tags.by_phrase().items()}

    def plain(self, words: str) -> Condition:
        """A claim without any form of its own: the phrase of a tag."""
        tag = self._phrases.get(words.lower())
        if tag is None:
            raise Unmeant(f'"{words}" is not known as a claim', nearest(words, self._phrases), HELP)
        return Tagged(tag)

    def is_so(self, subject: str, said: str) -> Condition:
        low = subject.lower()
        tag = self._phrases.get(f"{low} is {said.lower()}")
        if tag:
            return Tagged(tag)
        if low == "the plant":
            return self._plant(said)
        if low == "another plant":
            return Flagged(self._flag(said), other=True)
        if low == "the part":
            return IsPart((self._kind(said),))
        if said in ("known", "said", "assumed") and low in self.quantities:
            return Known(self.quantities[low][0], said)
        return self.plain(f"{subject} is {said}")

    def one_of(self, subject: str, said: list[str]) -> Condition:
        low = subject.lower()
        if low == "the part":
            return IsPart(tuple(self._kind(one) for one in said))
        if low == "the plant":
            claims = [self._plant(one) for one in said]
            if all(isinstance(claim, IsPlant) for claim in claims):
                return IsPlant(tuple(dict.fromkeys(name for claim in claims for name in claim.names)))  # type: ignore[attr-defined]
            return Or(tuple(claims))
        raise Unmeant(f'"{subject}" cannot be one of several', ("the plant", "the part"))

    def compared(self, subject: str, how: str, number: float, unit: str) -> Condition:
        name, wanted = self.quantity(subject)
        if unit not in UNITS:
            raise Unmeant(f'"{unit}" is not known as a unit', nearest(unit, (u for u in UNITS if u)))
        bench, factor = UNITS[unit]
        if bench != wanted:
            raise Unmeant(f"{subject} is counted in {_UNIT_WORD.get(wanted, wanted)}, not in {_UNIT_WORD.get(bench, bench)}")
        return Compare(name, how, number * factor)

    def against(self, subject: str, how: str, what: str) -> Condition:
        name, wanted = self.quantity(subject)
        usual = what.lower().removeprefix("the plant's ").removeprefix("the plant’s ")
        if usual not in USUAL or how not in ("under", "over"):
            raise Unmeant(f'"{how} {what}" is not known as a limit', ("over the plant's usual strength", "under the plant's usual ratio", "20 %"))
        if (USUAL[usual], wanted) not in (("strength", "percent"), ("ratio", "1"), ("daily", "g")):
            raise Unmeant(f"{subject} cannot be set against {what}")
        return AgainstUsual(name, how, USUAL[usual])

    def quantity(self, words: str) -> tuple[str, str]:
        known = self.quantities.get(words.lower().removeprefix("the "))
        if known is None:
            raise Unmeant(f'"{words}" is not a quantity', nearest(words, self.quantities))
        return known

    def place(self, words: str) -> str:
        """What {words} in a text is kept as: a quantity's key, or the words themselves. Fails with Unmeant where they stand for nothing."""
        known = (*OF_THE_PLANT, *self.ready_words)
        if words in known:
            return words
        if words.lower() in self.quantities:
            return self.quantities[words.lower()][0]
        raise Unmeant(f"{{{words}}} stands for nothing", nearest(words, (*known, *self.quantities)))

    def source(self, words: str) -> None:
        if words not in self.sources:
            raise Unmeant(f'"{words}" is not known as a source', nearest(words, self.sources), 'source "its title" (memory)')

    def _plant(self, said: str) -> Condition:
        low = said.lower()
        if low in FLAGS:
            return Flagged(low)
        if low in ("named", "unknown"):
            return PlantNamed(unknown=low == "unknown")
        kin = re.fullmatch(r"(?:of|in) the (family|genus) (.+)", said)
        if kin:
            known = {getattr(plant, kin[1]) for plant in self.plants}
            if kin[2] not in known:
                raise Unmeant(f'"{kin[2]}" is the {kin[1]} of no plant in the list', nearest(kin[2], known))
            return OfKin(kin[1], (kin[2],))
        found = self.plants.called(said)
        if found is None:
            raise Unmeant(f'"{said}" is neither a plant nor a flag', nearest(low, (*FLAGS, *self.plants.names())))
        return IsPlant(tuple(plant.latin or plant.name.lower() for plant in found.plants))

    def _flag(self, said: str) -> str:
        if said not in FLAGS:
            raise Unmeant(f'"{said}" is not known as a flag', nearest(said, FLAGS))
        return said

    def _kind(self, said: str) -> str:
        kind = PART_KINDS.get(said.lower(), "")
        if not kind:
            raise Unmeant(f'"{said}" is no part of a plant', nearest(said, KINDS))
        return kind


def meaning_of(vocabulary: Mapping[str, Any], tags: TagTable, plants: PlantList, sources: Mapping[str, str]) -> Meaning:
    return Meaning(quantity_names(vocabulary), tags, plants, sources)
