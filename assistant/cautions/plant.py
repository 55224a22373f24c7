"""A plant: what is known of it, and finding plants in a row of words by common or Latin name.

Knows how a name is spelt and joined ("elder berries", "elderberry", "St John's-wort"), and nothing of any plant: that stands in
rules/plants.toml and, names only, in rules/plant_names.txt.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache
from typing import Any, NamedTuple

# What a person calls a part → the kind of part; water, ratios and rules go by kind.
PART_KINDS: dict[str, str] = {
    word: kind
    for kind, words in {
        "root": "root roots rhizome rhizomes tuber tubers rootstock taproot crown",
        "leaf": "leaf leaves foliage needle needles tip tips frond fronds",
        "flower": "flower flowers blossom blossoms petal petals bloom blooms head heads strobile strobiles cone cones catkin catkins",
        "herb": "herb herbs top tops stalk stalks shoot shoots plant aerial haulm",
        "berry": "berry berries fruit fruits hip hips haw haws pod pods drupe drupes",
        "bark": "bark barks twig twigs",
        "seed": "seed seeds nut nuts grain grains kernel kernels",
        "bulb": "bulb bulbs clove cloves corm corms",
        "bud": "bud buds",
        "resin": "resin resins gum",
        "stem": "stem stems",
        "fungus": "fungus mushroom mushrooms conk conks",
        "thallus": "lichen thallus seaweed frond",
    }.items()
    for word in words.split()
}


class Span(NamedTuple):
    """A range [percent, or R of 1:R] with where it is from and how sure that is (read | memory | common practice)."""

    low: float
    high: float
    source: str
    evidence: str

    @property
    def middle(self) -> float:
        return (self.low + self.high) / 2


class Part(NamedTuple):
    """One part of a plant. `kind` is its kind, `name` what the books call it; ratios are the R of 1:R, strengths % vol as poured."""

    kind: str
    name: str
    water: Span | None = None
    fresh_ratio: Span | None = None
    fresh_strength: Span | None = None
    dried_ratio: Span | None = None
    dried_strength: Span | None = None
    daily_dried: Span | None = None  # g of dried plant a day for an adult, from a published monograph


class Flag(NamedTuple):
    """Something to mind about a plant: name of the flag, a note in plain words, source and evidence."""

    name: str
    note: str
    source: str
    evidence: str


class Plant(NamedTuple):
    """A plant as it was named. Where nothing is known of it, `latin` is empty, and so are parts and flags."""

    name: str  # as it was called, in the dictionary's spelling
    latin: str = ""
    names: tuple[str, ...] = ()
    family: str = ""
    parts: tuple[Part, ...] = ()
    flags: tuple[Flag, ...] = ()
    called_part: str = ""  # the part its name means by itself: "elderflower" is the flower

    @property
    def is_known(self) -> bool:
        return bool(self.latin)

    @property
    def genus(self) -> str:
        return self.latin.split(" ", 1)[0]

    def flag(self, name: str) -> Flag | None:
        for flag in self.flags:
            if flag.name == name:
                return flag
        return None

    def part(self, kind: str = "") -> Part | None:
        """The part of that kind; without a kind the part its name means, else the first; None where the plant has no such part here."""
        kind = kind or self.called_part
        if not kind:
            return self.parts[0] if self.parts else None
        kind = PART_KINDS.get(kind, kind)
        for part in self.parts:
            if part.kind == kind:
                return part
        return None

    def water_range(self, part: str = "") -> Span | None:
        """Water in the fresh plant [percent of fresh weight]; None where nothing is known."""
        found = self.part(part)
        return found.water if found else None


def unknown_plant(name: str) -> Plant:
    """A plant of which nothing is known but what it was called."""
    return Plant(name=name)


class Found(NamedTuple):
    """A name found at words[start:end]. Several `plants` mean that the name is shared and must be asked about; `part` is what the name implies."""

    name: str
    start: int
    end: int
    plants: tuple[Plant, ...]
    part: str = ""

    @property
    def plant(self) -> Plant | None:
        """The plant meant, or None where the name is shared by several."""
        return self.plants[0] if len(self.plants) == 1 else None

    @property
    def question(self) -> str:
        """What to ask where the name is shared; empty where it is not."""
        if len(self.plants) < 2:
            return ""
        return f"{self.name.capitalize()}: which? {', or '.join(f'{p.name} ({p.latin})' for p in self.plants)}."


MOST_CALLED = 4096  # names kept beside what they mean
_SHORTEST_JOINED = 6  # letters: below, two short words run together by chance
_JOINTS = re.compile(r"[\s\-‐‑–_.]+")
_MARKS = re.compile(r"[^\w]+")


@lru_cache(maxsize=4096)
def folded(word: str) -> str:
    """A word with case, apostrophes and plural taken off: "Berries" → "berry", "john's" → "john".

    >>> [folded(w) for w in ("Berries", "leaves", "St", "John's", "hops", "moss")]
    ['berry', 'leaf', 'st', 'john', 'hop', 'moss']
    """
    word = _MARKS.sub("", word.lower())
    if word.endswith("ies") and len(word) > 4:
        return word[:-3] + "y"
    if word in ("leaves", "leafs"):
        return "leaf"
    if word.endswith(("ches", "shes", "sses", "xes", "oes")):
        return word[:-2]
    if word.endswith("s") and not word.endswith(("ss", "us", "is")) and len(word) > 2:
        return word[:-1]
    return word


@lru_cache(maxsize=4096)
def key_of(name: str) -> tuple[str, ...]:
    """A name as the row of folded words it is looked up by."""
    return tuple(folded(word) for word in _JOINTS.split(name.strip()) if _MARKS.sub("", word))


class Entry(NamedTuple):
    """What a name leads to: places of plants in the list (none: a name of which nothing is known), and the part it implies."""

    name: str
    plants: tuple[int, ...] = ()
    part: str = ""


class PlantList:
    """All plants and names. Records are turned into plants when they are first asked for."""

    def __init__(self, records: Sequence[Mapping[str, Any]], entries: Mapping[tuple[str, ...], Entry]) -> None:
        self.records = records
        self.entries = entries
        self._made: dict[tuple[int, str], Plant] = {}
        self._called: dict[str, Found | None] = {}
        firsts: dict[str, list[tuple[str, ...]]] = {}
        for key in self.entries:
            firsts.setdefault(key[0], []).append(key)
        self._firsts = firsts

    def __len__(self) -> int:
        return len(self.records)

    def find(self, words: str | Sequence[str]) -> tuple[Found, ...]:
        """Every plant named in a row of words, longest names first, left to right; words belong to one name at most.

        words   the words in order, or a text that is split at spaces
        """
        row = words.split() if isinstance(words, str) else words
        keys = [key_of(word) for word in row]
        flat = [(piece, place) for place, key in enumerate(keys) for piece in key]
        found: list[Found] = []
        at = 0
        while at < len(flat):
            hit = self._at(flat, at)
            if hit is None:
                at += 1
                continue
            entry, length = hit
            found.append(Found(entry.name, flat[at][1], flat[at + length - 1][1] + 1, self._plants(entry), entry.part))
            at += length
        return tuple(found)

    def called(self, name: str) -> Found | None:
        """What a name by itself means, or None where the name is not known."""
        if name not in self._called:
            if len(self._called) >= MOST_CALLED:
                self._called.clear()
            found = self.find(name)
            whole = len(found) == 1 and found[0].start == 0 and found[0].end == len(name.split())
            self._called[name] = found[0] if whole else None
        return self._called[name]

    def plant(self, latin: str) -> Plant | None:
        """The plant of that Latin name, called by its first common name."""
        for place, record in enumerate(self.records):
            if record["latin"] == latin:
                return self._plant(place, "")
        return None

    def names(self) -> tuple[str, ...]:
        """Every name that is understood, for completion; sorted."""
        return tuple(sorted({entry.name for entry in self.entries.values()}))

    def words(self) -> frozenset[str]:
        """Every single word of the names, for judging near misses."""
        return frozenset(word for entry in self.entries.values() for word in re.findall(r"[^\W\d_]+", entry.name.lower()))

    def __iter__(self) -> Iterator[Plant]:
        return (self._plant(place, "") for place in range(len(self.records)))

    def _at(self, flat: list[tuple[str, int]], at: int) -> tuple[Entry, int] | None:
        """The longest name that begins at a place, with the number of words it takes."""
        best: tuple[Entry, int] | None = None
        for key in self._firsts.get(flat[at][0], ()):
            if (best is None or len(key) > best[1]) and self._stands(flat, at + 1, key[1:]):
                best = (self.entries[key], len(key))
        if at + 1 < len(flat):
            # "elder berries" is "elderberries" written apart.
            joined = flat[at][0] + flat[at + 1][0]
            for key in self._firsts.get(joined, ()) if len(joined) >= _SHORTEST_JOINED else ():
                if (best is None or len(key) + 1 > best[1]) and self._stands(flat, at + 2, key[1:]):
                    best = (self.entries[key], len(key) + 1)
        return best

    @staticmethod
    def _stands(flat: list[tuple[str, int]], at: int, key: tuple[str, ...]) -> bool:
        return at + len(key) <= len(flat) and all(flat[at + n][0] == word for n, word in enumerate(key))

    def _plants(self, entry: Entry) -> tuple[Plant, ...]:
        if not entry.plants:
            return (unknown_plant(entry.name),)
        shared = len(entry.plants) > 1
        return tuple(self._plant(place, "" if shared else entry.name, "" if shared else entry.part) for place in entry.plants)

    def _plant(self, place: int, called: str, part: str = "") -> Plant:
        made = self._made.get((place, called))
        if made is None:
            made = self._made[(place, called)] = plant_of(self.records[place], called, part)
        return made


def plant_of(record: Mapping[str, Any], called: str = "", part: str = "") -> Plant:
    """A plant from its record (plain data, as plant_reading gives it and the ready file keeps it)."""
    name = called
    if not name or key_of(name) == key_of(record["latin"]):
        name = record["names"][0]
    return Plant(
        name=name,
        latin=record["latin"],
        names=tuple(record["names"]),
        family=record["family"],
        parts=tuple(Part(p["kind"], p["name"], **{k: Span(*v) for k, v in p.items() if k not in ("kind", "name")}) for p in record["parts"]),
        flags=tuple(Flag(*flag) for flag in record["flags"]),
        called_part=part,
    )
