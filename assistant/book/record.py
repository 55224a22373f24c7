"""The batch record: a kept lot held against 21 CFR 111.260, field by field.

The rule is written for makers of dietary supplements; at a kitchen bench it is a yardstick, not the law. Of each field this module
knows whether a kitchen has it, and which stay blank.
source   21 CFR 111.260 (a)–(i) read, (j)–(n) from memory
"""

from __future__ import annotations

from typing import Literal

from assistant.book import batches, tracing
from assistant.book.batches import Batch
from assistant.book.book import Book
from assistant.book.dates import in_words
from assistant.book.wording import amount
from assistant.dataclass import dataclass

Kitchen = Literal["has", "may", "blank"]


@dataclass(frozen=True, slots=True)
class Field:
    """One paragraph of the rule: what it asks for, and whether a kitchen has it, may have it, or leaves it blank."""

    letter: str
    asks: str
    kitchen: Kitchen
    say: str = ""  # how it is told to the book, where a person has to tell it


FIELDS = (
    Field("a", "lot number of the finished batch", "has"),
    Field("b", "equipment and lines used", "may", "“note the equipment for lot 24-07: two-litre jar, oak press”"),
    Field("c", "when the equipment was cleaned", "may", "“note the cleaning for lot 24-07: jar and press scalded 11 June”"),
    Field("d", "lot of each component, package and label", "may", "“from lot S-12” beside a component"),
    Field("e", "identity and weight or measure of each component", "has"),
    Field("f", "actual yield and percent of theoretical yield", "has", "“lot 24-07 gave 205 mL”"),
    Field("g", "results of monitoring", "may", "“note the watch for lot 24-07: shaken daily, covered throughout”"),
    Field("h", "results of tests and examinations", "may", "“note a test for lot 24-07: smells green, clear, hydrometer 52 %”"),
    Field("i", "evidence that the finished product meets its specification", "blank"),
    Field("j", "date of each step, and initials of who did, weighed and checked it", "may", "“note the hands for lot 24-07: T. O. weighed, W. checked”"),
    Field("k", "packaging and labels: what was used, how many, a label kept", "may", "“bottled lot 24-07: 4 bottles of 50 mL”"),
    Field("l", "review of the record, and release or rejection", "may", "“note the release of lot 24-07: read through, released”"),
    Field("m", "review of anything that went wrong, and what was decided", "may", "“note a fault in lot 24-07: lid rusted, poured over”"),
    Field("n", "reprocessing", "may", "“note the rework of lot 24-07: pressed a second time”"),
)
BY_LETTER = {field.letter: field for field in FIELDS}

# What a note is called when it is told → the paragraph it belongs to.
NOTES = {
    "equipment": "b", "vessel": "b", "cleaning": "c", "components": "d", "watch": "g", "monitoring": "g", "test": "h", "tests": "h", "checks": "h",
    "check": "h", "hands": "j", "initials": "j", "packaging": "k", "labels": "k",
    "release": "l", "review": "l", "fault": "m", "faults": "m", "rework": "n", "note": "g",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Entry:
    """One field as it stands for a lot; `words` is empty where it is blank."""

    field: Field
    words: tuple[str, ...]

    @property
    def is_blank(self) -> bool:
        return not self.words


def record_of(book: Book, batch: Batch) -> list[Entry]:
    """Every field of the rule for a lot, in its order."""
    came = tracing.into_lot(book, batch)
    bottled = batches.bottlings_of(book, batch.id)
    words: dict[str, list[str]] = {field.letter: [] for field in FIELDS}
    words["a"].append(batch.title)
    if batch.method:
        words["b"].append(f"pressed: {batch.method}")
    for one in came:
        part = one.component
        words["e"].append(f"{part.what}, {amount(part.amount, part.unit)}")
        if part.lot:
            words["d"].append(f"{part.what}: lot {part.lot}")
        elif one.gathering is not None:
            words["d"].append(f"{part.what}: gathering {one.gathering.id}, {one.gathering.title}, {in_words(one.gathering.gathered_on)}")
        elif part.source:
            words["d"].append(f"{part.what}: {part.source}")
    words["f"] += yield_words(batch)
    words["j"] += dates_of(batch)
    words["k"] += [f"{b.bottles} × {b.size:g} mL, {in_words(b.bottled_on)}" for b in bottled]
    for check in batches.checks_of(book, batch.id):
        words[check.field if check.field in words else "g"].append(f"{check.words} ({in_words(check.made_on)})")
    return [Entry(field, tuple(words[field.letter])) for field in FIELDS]


def yield_words(batch: Batch) -> list[str]:
    words = []
    if batch.expected is not None:
        words.append(f"expected {amount(batch.expected, batch.unit)}")
    if batch.actual is not None:
        words.append(f"actual {amount(batch.actual, batch.unit)}")
    if batch.yield_percent is not None:
        words.append(f"{batch.yield_percent:.1f} % of what was expected")
    return words


def dates_of(batch: Batch) -> list[str]:
    """Started, shaken until, press on, pressed, ready: those that are known."""
    named = (
        ("started", batch.started), ("shake daily until", batch.shake_until), ("press on", None if batch.pressed_on else batch.press_on),
        ("pressed", batch.pressed_on), ("ready", batch.ready_on), ("best before", batch.best_before),
    )  # fmt: skip
    return [f"{name} {in_words(day)}" for name, day in named if day]
