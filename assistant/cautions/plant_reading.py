"""rules/plants.toml and rules/plant_names.txt → records; every fault told with file, line and nearest name.

A record is plain data (lists, numbers, texts), so that the ready file can keep it: PlantList makes plants of it when they are asked for.
A person's own plants are outside input: sizes are bounded, unknown keys are refused, nothing is run.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from assistant.cautions.fault import Fault, nearest
from assistant.cautions.plant import PART_KINDS, Entry, PlantList, folded, key_of

EVIDENCE = ("read", "memory", "common practice")
SPANS = {  # key → lowest and highest sensible value
    "water": (0.0, 99.0),
    "fresh_ratio": (0.1, 1000.0),
    "fresh_strength": (0.0, 100.0),
    "dried_ratio": (0.1, 1000.0),
    "dried_strength": (0.0, 100.0),
    "daily_dried": (0.0, 1000.0),
}
PLANT_KEYS = ("latin", "names", "family", "implied", "part", "flags")
# What a rule may call a plant; each stands for a kind of care.
FLAGS = """
    abortive-oil allergy alkaloidal aristolochic at-risk bleeding blistering botulism-in-oil children cites controlled coumarin cyanogenic deadly
    deadly-look-alikes duration emetic ephedrine external-only fresh-bark-violent fungus interactions irritant irritant-oil kava liver look-alikes
    low-dose mucilaginous photosensitising pregnancy protected pyrrolizidine pyrrolizidine-traces resinous salicylate sedative skin slow tannin-rich
    thujone toxic toxic-seed weedy
""".split()
KINDS = tuple(sorted(set(PART_KINDS.values())))
MOST_PLANTS = 2000
LONGEST_TEXT = 600
_WORDS = re.compile(r"[^\W\d_]+")
_PLACE_IN_TOML = re.compile(r" \(at (?:line (\d+), column (\d+)|end of document)\)$")


def read_plants(text: str, file: str) -> tuple[list[dict[str, Any]], dict[str, list[str]], list[Fault]]:
    """Records, shared names (name → Latin names) and faults of a plants file. A faulty plant is left out, the others are kept."""
    faults: list[Fault] = []
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        said = str(error)
        told_at = _PLACE_IN_TOML.search(said)
        line, column = (int(told_at[1]), int(told_at[2])) if told_at and told_at[1] else (text.count("\n") + 1, 1)
        return [], {}, [Fault(_PLACE_IN_TOML.sub("", said), file, line, column, try_this="every [ has its ], every text its quotation marks")]
    known = ("plant", "shared")
    faults.extend(Fault(f"{key!r} is not known here", file, _line_of(text, key), 1, near=nearest(key, known)) for key in data if key not in known)
    plants = data.get("plant", [])
    if not isinstance(plants, list) or len(plants) > MOST_PLANTS:
        return [], {}, [*faults, Fault(f"plants must be written as [[plant]], {MOST_PLANTS} at most", file)]
    lines = [n for n, row in enumerate(text.splitlines(), 1) if row.strip().startswith("[[plant]]")]
    records: list[dict[str, Any]] = []
    for place, plant in enumerate(plants):
        first = lines[place] if place < len(lines) else 1
        last = lines[place + 1] if place + 1 < len(lines) else text.count("\n") + 2
        told = _Teller(text.splitlines(), file, first, last)
        record = _record(plant, told)
        faults.extend(told.faults)
        if record and not told.faults:
            records.append(record)
    shared = data.get("shared", {})
    good: dict[str, list[str]] = {}
    for name, latins in shared.items() if isinstance(shared, dict) else ():
        if isinstance(latins, list) and latins and all(isinstance(one, str) for one in latins):
            good[name] = latins
        else:
            faults.append(Fault(f"the shared name {name!r} needs a list of Latin names", file, _line_of(text, name), 1))
    return records, good, faults


def read_names(text: str) -> list[list[str]]:
    """The rows of a list of names: each a list of names of one plant."""
    rows = (line.split("#", 1)[0].split(",") for line in text.splitlines())
    return [names for row in rows if (names := [name.strip() for name in row if name.strip()])]


def entries_of(records: Sequence[Mapping[str, Any]], shared: Mapping[str, Sequence[str]], names: Iterable[Sequence[str]]) -> dict[tuple[str, ...], Entry]:
    """Every spelling of every name → what it leads to. What stands earlier wins, so that a bare name never hides a known plant."""
    entries: dict[tuple[str, ...], Entry] = {}
    places = {record["latin"]: place for place, record in enumerate(records)}
    for name, latins in shared.items():
        _spell(entries, Entry(name, tuple(places[latin] for latin in latins if latin in places)))
    for place, record in enumerate(records):
        for name in (*record["names"], record["latin"]):
            _spell(entries, Entry(name, (place,), record["implied"].get(name, "")))
    for row in names:
        for name in row:
            _spell(entries, Entry(name))
    return entries


def plant_list(records: Sequence[Mapping[str, Any]], shared: Mapping[str, Sequence[str]], names: Iterable[Sequence[str]]) -> PlantList:
    return PlantList(records, entries_of(records, shared, names))


def _spell(entries: dict[tuple[str, ...], Entry], entry: Entry) -> None:
    key = tuple(word for word in key_of(entry.name) if word != "×")
    if not key:
        return
    entries.setdefault(key, entry)
    whole = _WORDS.findall(entry.name.lower().replace("'", ""))
    if 1 < len(key) == len(whole) < 5:
        entries.setdefault((folded("".join(whole)),), entry)
        for at in range(len(key) - 1):  # "st johnswort"
            entries.setdefault((*key[:at], folded(whole[at] + whole[at + 1]), *key[at + 2 :]), entry)


def _line_of(text: str, key: str, first: int = 1, last: int = 0) -> int:
    for number, row in enumerate(text.splitlines()[first - 1 : (last - 1) if last else None], first):
        if key in row:
            return number
    return first


class _Teller:
    """Collects the faults of one plant and finds the line a key stands on."""

    def __init__(self, rows: list[str], file: str, first: int, last: int) -> None:
        self.rows, self.file, self.first, self.last = rows, file, first, last
        self.faults: list[Fault] = []

    def tell(self, what: str, key: str = "", near: Sequence[str] = (), try_this: str = "") -> None:
        line = self.first
        column = 1
        for number in range(self.first, min(self.last, len(self.rows) + 1)):
            at = self.rows[number - 1].find(key) if key else -1
            if at >= 0:
                line, column = number, at + 1
                break
        self.faults.append(Fault(what, self.file, line, column, near=near, try_this=try_this))


def _record(plant: Any, told: _Teller) -> dict[str, Any] | None:
    if not isinstance(plant, dict):
        told.tell("a plant must be written as [[plant]]")
        return None
    for key in plant:
        if key not in PLANT_KEYS:
            told.tell(f"{key!r} is not known in a plant", key, nearest(key, PLANT_KEYS))
    latin = _text(plant, "latin", told)
    family = _text(plant, "family", told)
    names = plant.get("names")
    if not isinstance(names, list) or not names or not all(isinstance(n, str) and 0 < len(n) < 60 and key_of(n) for n in names):
        told.tell("names must be a list of common names", "names", try_this='names = ["yarrow", "milfoil"]')
        names = []
    implied = plant.get("implied", {})
    for name, kind in implied.items() if isinstance(implied, dict) else ():
        if kind not in KINDS:
            told.tell(f"{kind!r} is no part", str(kind), nearest(str(kind), KINDS))
        if name not in names:
            told.tell(f"{name!r} is none of the names", name, nearest(name, names))
    parts = plant.get("part", [])
    if not isinstance(parts, list):
        told.tell("parts must be written as [[plant.part]]", "part")
        parts = []
    flags = plant.get("flags", {})
    if not isinstance(flags, dict):
        told.tell("flags must be written under [plant.flags]", "flags")
        flags = {}
    return {
        "latin": latin,
        "names": names,
        "family": family,
        "implied": dict(implied) if isinstance(implied, dict) else {},
        "parts": [part for part in (_part(part, told) for part in parts) if part],
        "flags": [flag for flag in (_flag(name, flag, told) for name, flag in flags.items()) if flag],
    }


def _text(plant: Mapping[str, Any], key: str, told: _Teller) -> str:
    value = plant.get(key)
    if not isinstance(value, str) or not value.strip() or len(value) > LONGEST_TEXT or not value.isprintable():
        told.tell(f"{key} must be a line of text", key)
        return ""
    return value


def _part(part: Any, told: _Teller) -> dict[str, Any] | None:
    if not isinstance(part, dict):
        told.tell("a part must be written as [[plant.part]]", "part")
        return None
    known = ("kind", "name", *SPANS)
    for key in part:
        if key not in known:
            told.tell(f"{key!r} is not known in a part", key, nearest(key, known))
    kind = part.get("kind")
    if kind not in KINDS:
        told.tell(f"{kind!r} is no kind of part", str(kind), nearest(str(kind), KINDS))
        return None
    made: dict[str, Any] = {"kind": kind, "name": str(part.get("name", kind))[:60]}
    for key, (low, high) in SPANS.items():
        if key not in part:
            continue
        span = part[key]
        if not (isinstance(span, list) and len(span) == 4 and all(isinstance(n, (int, float)) and not isinstance(n, bool) for n in span[:2])):
            told.tell(f"{key} must be [low, high, source, evidence]", key, try_this=f'{key} = [70, 80, "my own drying", "common practice"]')
        elif not low <= span[0] <= span[1] <= high:
            told.tell(f"{key} must lie between {low:g} and {high:g}, the lower figure first", key)
        elif not _sourced(span[2], span[3]):
            told.tell(f"{key} needs a source and an evidence", key, nearest(str(span[3]), EVIDENCE), f"evidence is one of {', '.join(EVIDENCE)}")
        else:
            made[key] = [float(span[0]), float(span[1]), span[2], span[3]]
    return made


def _flag(name: str, flag: Any, told: _Teller) -> list[str] | None:
    if name not in FLAGS:
        told.tell(f"{name!r} is not known as a flag", name, nearest(name, FLAGS))
        return None
    if not (isinstance(flag, list) and len(flag) == 3 and all(isinstance(f, str) and f.isprintable() and len(f) <= LONGEST_TEXT for f in flag)):
        told.tell(f"the flag {name} must be [note, source, evidence]", name)
        return None
    if not _sourced(flag[1], flag[2]):
        told.tell(f"the flag {name} needs a source and an evidence", name, nearest(flag[2], EVIDENCE), f"evidence is one of {', '.join(EVIDENCE)}")
        return None
    return [name, *flag]


def _sourced(source: Any, evidence: Any) -> bool:
    return isinstance(source, str) and 0 < len(source) <= LONGEST_TEXT and evidence in EVIDENCE
