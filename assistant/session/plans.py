"""The plans of a conversation in the order they were begun, and where those of a plant, or of a name the person gave, stand.

A conversation may come to thousands of plans: which of them are meant is looked up, never looked for in each of them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import compress, count
from operator import is_not
from typing import overload

from assistant.cautions.plants import PlantList, plants
from assistant.session.batch import Batch
from assistant.session.naming import alike, meant

Clue = str | tuple[str, str]  # a word of a name, or the Latin and the common name of the plant that it means


class Plans(Sequence[Batch]):
    """The plans in a row. A plan that goes on takes the place of what it was."""

    def __init__(self) -> None:
        self._row: list[Batch] = []
        self._aliased: dict[str, set[int]] = {}  # alias → places
        self._named: dict[str, set[int]] = {}  # name of a plan or of a plant in it → places
        self._clues: dict[Clue, set[str]] = {}  # clue → names that bear it
        self._known: PlantList | None = None  # the list that the clues are from; none before a plan is first sought

    def __len__(self) -> int:
        return len(self._row)

    def __iter__(self) -> Iterator[Batch]:
        return iter(self._row)

    @overload
    def __getitem__(self, place: int) -> Batch: ...
    @overload
    def __getitem__(self, place: slice) -> list[Batch]: ...
    def __getitem__(self, place: int | slice) -> Batch | list[Batch]:
        return self._row[place]

    @property
    def aliases(self) -> Iterable[tuple[str, set[int]]]:
        """Every name the person gave, with the places of the plans that bear it."""
        return self._aliased.items()

    def all(self) -> tuple[Batch, ...]:
        """The plans as they are now."""
        return tuple(self._row)

    def add(self, batch: Batch) -> None:
        """A new plan, behind the others."""
        self._row.append(batch)
        self._enter(batch, len(self._row) - 1)

    def put(self, batch: Batch, place: int) -> None:
        """The next moment of a plan."""
        before, self._row[place] = self._row[place], batch
        if _names(before) != _names(batch) or before.alias != batch.alias:
            self._leave(before, place)
            self._enter(batch, place)

    def become(self, batches: Sequence[Batch]) -> None:
        """Go to another row of plans, of which most are those there are."""
        for place in range(len(batches), len(self._row)):
            self._leave(self._row[place], place)
        del self._row[len(batches) :]
        for place in list(compress(count(), map(is_not, self._row, batches))):
            self.put(batches[place], place)
        for batch in batches[len(self._row) :]:
            self.add(batch)

    def of_plant(self, name: str) -> list[int]:
        """The places of the plans that are of that plant, by their own name or one of their plants, in order."""
        known = plants()
        if self._known is not known:  # a folder of one's own may mean other plants by the same names
            self._known = known
            self._clues.clear()
            for own in self._named:
                self._note(own, known)
        sought = meant(name.lower(), known)
        candidates = {own for clue in _clues_of(name, known) for own in self._clues.get(clue, ())}
        return sorted({place for own in candidates if alike(sought, meant(own.lower(), known)) for place in self._named[own]})

    def _enter(self, batch: Batch, place: int) -> None:
        for name in _names(batch):
            places = self._named.get(name)
            if places is None:
                places = self._named[name] = set()
                if self._known is not None:
                    self._note(name, self._known)
            places.add(place)
        if batch.alias:
            self._aliased.setdefault(batch.alias, set()).add(place)

    def _leave(self, batch: Batch, place: int) -> None:
        for name in _names(batch):
            self._named[name].discard(place)
            if not self._named[name]:
                del self._named[name]
                if self._known is not None:
                    for clue in _clues_of(name, self._known):
                        self._clues[clue].discard(name)
        if batch.alias:
            self._aliased[batch.alias].discard(place)
            if not self._aliased[batch.alias]:
                del self._aliased[batch.alias]

    def _note(self, name: str, known: PlantList) -> None:
        for clue in _clues_of(name, known):
            self._clues.setdefault(clue, set()).add(name)


def _clues_of(name: str, known: PlantList) -> set[Clue]:
    """What two names have in common if they are alike."""
    _, words, plant = meant(name.lower(), known)
    return {*words, (plant.latin, plant.name)} if plant is not None else {*words}


def _names(batch: Batch) -> set[str]:
    return {name for name in (batch.name, *batch.plants) if name}
