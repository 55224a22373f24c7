"""What a word is by itself: the classes of grammar/words.txt and the units of quantities/units.txt together."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from assistant.dataclass import dataclass
from assistant.listening.spelling import SHORTEST, Lexicon
from assistant.places import grammar_file
from assistant.quantities.units import Unit, units


@dataclass(frozen=True, slots=True)
class Classes:
    """words.txt and units.txt together: what a word is by itself."""

    words: Mapping[str, tuple[str, float]]
    phrases: Mapping[str, tuple[tuple[tuple[str, ...], str, float, Unit | None], ...]]  # by first word, longest first
    units: Mapping[str, Unit]
    near: Lexicon  # what a slip beside a number may have been meant for


@cache
def classes() -> Classes:
    """The word classes, read once a process."""
    return read_classes(grammar_file("words.txt").read_text(encoding="utf-8"))


def read_classes(text: str) -> Classes:
    """Read a file of word classes.

    fails   ValueError naming the line: a value that is no number, or a word given to a class twice over
    """
    words: dict[str, tuple[str, float]] = {}
    phrases: dict[str, list[tuple[tuple[str, ...], str, float, Unit | None]]] = {}
    spellings = units().spellings
    for number, line in enumerate(text.splitlines(), 1):
        if not line.strip() or line.startswith("# "):
            continue
        kind, *entries = line.split()
        for entry in entries:
            word, equals, value = entry.rpartition("=") if len(entry) > 1 else (entry, "", "")
            if not equals:
                word, value = entry, "0"
            if word in words or word in spellings:
                raise ValueError(f"words.txt, line {number}: {word!r} has a class already")
            try:
                size = float(value)
            except ValueError as problem:
                raise ValueError(f"words.txt, line {number}: {value!r} is no number") from problem
            if "_" in word:
                spelt = tuple(word.split("_"))
                phrases.setdefault(spelt[0], []).append((spelt, kind, size, None))
            else:
                words[word] = (kind, size)
    singles: dict[str, Unit] = {}
    for word, unit in spellings.items():
        if " " in word:
            spelt = tuple(word.split())
            phrases.setdefault(spelt[0], []).append((spelt, "UNIT", 0.0, unit))
        else:
            singles[word] = unit
    for its in phrases.values():
        its.sort(key=lambda phrase: -len(phrase[0]))
    near = Lexicon(word for word in (*words, *singles) if len(word) > SHORTEST and word.isalpha())
    return Classes(words, {first: tuple(its) for first, its in phrases.items()}, singles, near)
