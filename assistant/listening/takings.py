"""What a person takes: a dose, how often, for how long; and the line of tokens in which that is looked for."""

from __future__ import annotations

import re

from assistant.dataclass import dataclass, field
from assistant.listening.pieces import Piece
from assistant.listening.statements import Reading, Reference

DOSE = r"<(?:mL|drop)> (?:of (?:it|that|the tincture) )?"
OFTEN = r"(?:<x>|<aday>|(?:in the |each |every )?(?:morning|evening|afternoon)|(?:at |each )?(?:night|bedtime|noon|lunch|breakfast|dinner)) "


@dataclass(frozen=True, slots=True)
class Stretch:
    """So much, so often a day, for so many days (None where that was not said)."""

    dose: float
    unit: str  # mL | drop
    times: float | None
    days: float | None


@dataclass(frozen=True, slots=True)
class Steps:
    """Steps told without the dose they begin at: how much each goes down (below 0) or up, to what last dose, each how many days, and in which unit."""

    step: float
    last: float
    days: float
    unit: str


@dataclass
class Regimen:
    """What is taken: one after the other (`in_turn`), or all of them in each day; `on` and `off` are the days of a round, 0 where it is every day.

    `anew` are other steps from the dose that was told before.
    """

    stretches: list[Stretch] = field(default_factory=list)
    in_turn: bool = False
    on: float = 0.0
    off: float = 0.0
    anew: Steps | None = None


@dataclass
class Row:
    """The pieces of a sentence, found again by their place in the line of its tokens."""

    pieces: list[Piece]
    places: dict[int, int]
    taken: set[int]
    reading: Reading

    def island(self, hit: re.Match[str], group: str) -> int | None:
        """Place of the first island of a group."""
        start = hit.start(group)
        return None if start < 0 else next((i for p, i in sorted(self.places.items()) if start <= p < hit.end(group) and self.pieces[i].is_island), None)

    def value(self, hit: re.Match[str], group: str) -> float | None:
        at = self.island(hit, group)
        item = None if at is None else self.pieces[at].item
        return None if item is None else item.value

    def use(self, hit: re.Match[str], *groups: str) -> None:
        for group in groups:
            at = self.island(hit, group)
            if at is not None and at not in self.taken:
                self.taken.add(at)
                piece = self.pieces[at]
                self.reading.references.append(Reference("reference", piece.start, piece.end, piece.item.value if piece.item else None))


def unit_of(row: Row, hit: re.Match[str], group: str) -> str:
    """mL or drop."""
    at = row.island(hit, group)
    return row.pieces[at].code[1:-1] if at is not None else "mL"


def dose_of(row: Row, hit: re.Match[str], group: str) -> float:
    """A teaspoon in a dose is 5 mL."""
    at = row.island(hit, group)
    item = None if at is None else row.pieces[at].item
    if item is None or item.value is None:
        return 0.0
    if item.unit == "mL" and isinstance(item.alt, (int, float)) and item.said_unit.startswith(("tsp", "teaspoon", "spoon")):
        return float(item.alt)
    return item.value


def times_of(row: Row, hit: re.Match[str]) -> float | None:
    """How often a day, None where it was not said."""
    if hit.group("often") is None:
        return None
    value = row.value(hit, "often")
    return 1.0 if value is None else value
