"""The folders of rules and plants: the shipped one, and a person's own read after it.

The shipped folder is read from rules/ready.json as long as that matches the texts it was made from (python -m assistant.cautions.ready makes
it anew); otherwise the texts themselves are read, so that a rule edited in a checkout speaks at once.

A person's own folder may hold *.rules, plants.toml, plant_names.txt and sources.toml. It adds; it may reword a warning or a note by using its
name again, and it may not take away a stop or a danger of a plant.
"""

from __future__ import annotations

import json
import zlib
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from contextvars import ContextVar
from functools import lru_cache
from pathlib import Path
from typing import Any, NamedTuple

from assistant.cautions.fault import Fault
from assistant.cautions.plant import Entry, PlantList
from assistant.cautions.rules import Rule
from assistant.cautions.speaking import RuleBook
from assistant.places import grammar_folder, rules_folder
from assistant.tagtable import tag_table

READY = "ready.json"
MOST_FILES = 200
MOST_BYTES = 2_000_000
_MADE_FROM = ("*.rules", "plants.toml", "plant_names.txt", "sources.toml")


class Pack(NamedTuple):
    """What a folder, or several laid over each other, hold. `own` are the rules of the last folder laid on, with their examples."""

    book: RuleBook
    plants: PlantList
    sources: Mapping[str, str]
    faults: tuple[Fault, ...] = ()
    own: tuple[Rule, ...] = ()


@lru_cache(maxsize=1)
def shipped() -> Pack:
    """The shipped rules and plants, read once."""
    folder = rules_folder()
    ready = folder / READY
    if ready.is_file():
        data = json.loads(ready.read_text(encoding="utf-8"))
        if data.get("digest") == digest(folder):
            return _from_ready(data)
    return read_texts(folder)


_IN_USE: ContextVar[Pack | None] = ContextVar("pack in use", default=None)


def in_use() -> Pack:
    """The rules and plants that hold for the conversation being answered: the shipped ones, unless a person's own are laid over them."""
    return _IN_USE.get() or shipped()


@contextmanager
def using(pack: Pack | None) -> Iterator[None]:
    """Answer with a pack of one's own; None answers with the shipped one. Each conversation has its own, side by side in one program."""
    before = _IN_USE.set(pack)
    try:
        yield
    finally:
        _IN_USE.reset(before)


def digest(folder: Path) -> str:
    """A fingerprint of every text the shipped rules are made from."""
    made = 0
    files = [path for pattern in _MADE_FROM for path in sorted(folder.glob(pattern))]
    for path in (*files, grammar_folder() / "tags.txt", grammar_folder() / "rules.lark"):
        made = zlib.crc32(path.read_bytes().replace(b"\r\n", b"\n"), zlib.crc32(path.name.encode(), made))
    return f"{made:08x}"


def read_texts(folder: Path) -> Pack:
    """A whole folder from its texts alone, as the shipped one is made; its faults are in the pack."""
    from assistant.cautions.plant_reading import plant_list, read_names, read_plants

    faults: list[Fault] = []
    sources = _sources(folder, faults)
    records, shared, told = read_plants(_text(folder / "plants.toml", faults), "plants.toml")
    faults.extend(told)
    plants = plant_list(records, shared, read_names(_text(folder / "plant_names.txt", faults)))
    rules = _rules(folder, plants, sources, faults)
    return Pack(RuleBook(rules, sources, tag_table(), _units()), plants, sources, tuple(faults))


def read_folder(path: Path | str, base: Pack | None = None) -> Pack:
    """A person's own folder laid over `base` (the shipped one). Never fails: what is wrong is left out and told in `faults`."""
    from assistant.cautions.plant_reading import entries_of, read_names, read_plants

    base = base or shipped()
    folder = Path(path)
    faults: list[Fault] = []
    if not folder.is_dir():
        return Pack(base.book, base.plants, base.sources, (Fault("there is no such folder", str(path), try_this="make it, or name another"),))
    sources = {**base.sources, **_sources(folder, faults)}
    plants = base.plants
    records, shared, told = read_plants(_text(folder / "plants.toml", faults), "plants.toml")
    faults.extend(told)
    names = read_names(_text(folder / "plant_names.txt", faults))
    if records or shared or names:
        merged, moved = _laid_over(list(base.plants.records), records)
        own = entries_of(merged, shared, [])
        bare = entries_of([], {}, names)
        plants = PlantList(merged, {**bare, **base.plants.entries, **{k: v for k, v in own.items() if set(v.plants) & moved or v.name in shared}})
    rules = _rules(folder, plants, sources, faults)
    taken = {rule.id: rule for rule in base.book.rules()}
    kept: list[Rule] = []
    for rule in rules:
        if rule.id in taken and taken[rule.id].level == "stop":
            faults.append(Fault(f"{rule.id} is a shipped stop and cannot be replaced", rule.file, rule.line, 1, try_this="give your rule a name of its own"))
        else:
            kept.append(rule)
    replaced = {rule.id for rule in kept}
    book = RuleBook([*(r for r in base.book.rules() if r.id not in replaced), *kept], sources, base.book.tags, base.book.units)
    return Pack(book, plants, sources, tuple(faults), tuple(kept))


def check_folder(path: Path | str) -> list[Fault]:
    """Every fault of a person's own folder, by file and line; an empty list where all is well."""
    return faults_in(read_folder(path))


def faults_in(pack: Pack) -> list[Fault]:
    """The faults of a folder that was read; its rules that never speak, or add nothing to another, are faults too."""
    from assistant.cautions.soundness import faults_of

    unsound = faults_of(pack.own, pack.book.rules(), pack.book.tags.rivals, pack.plants)
    return sorted((*pack.faults, *unsound), key=lambda fault: (fault.file, fault.line, fault.column))


def _rules(folder: Path, plants: PlantList, sources: Mapping[str, str], faults: list[Fault]) -> list[Rule]:
    from assistant.cautions.meaning import meaning_of
    from assistant.cautions.reading import read_rules
    from assistant.quantities.vocabulary import VOCABULARY

    meaning = meaning_of(VOCABULARY, tag_table(), plants, sources)
    files = sorted(folder.glob("*.rules"))
    if len(files) > MOST_FILES:
        faults.append(Fault(f"more than {MOST_FILES} files of rules; the rest is not read", str(folder)))
    rules: list[Rule] = []
    where: dict[str, Rule] = {}
    for file in files[:MOST_FILES]:
        read, told = read_rules(_text(file, faults), file.name, meaning)
        faults.extend(told)
        for rule in read:
            if rule.id in where:
                first = where[rule.id]
                faults.append(Fault(f"{rule.id} stands already in {first.file}, line {first.line}", rule.file, rule.line, 1, try_this="name it otherwise"))
            else:
                where[rule.id] = rule
                rules.append(rule)
    return rules


def _sources(folder: Path, faults: list[Fault]) -> dict[str, str]:
    import tomllib  # a person's own folder needs it, the shipped one seldom

    text = _text(folder / "sources.toml", faults)
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        faults.append(Fault(str(error), "sources.toml"))
        return {}
    sources: dict[str, str] = {}
    for ident, title in data.items():
        if isinstance(title, str) and 0 < len(title) <= 400 and title.isprintable():
            sources[ident] = title
        else:
            faults.append(Fault(f"the source {ident!r} needs a title", "sources.toml", try_this='my-teacher = "notes of a course, 2024"'))
    return sources


def _text(path: Path, faults: list[Fault]) -> str:
    """The text of a file; empty where there is none. A file that cannot be read as text is told."""
    if not path.exists():
        return ""
    try:
        if not path.is_file() or path.stat().st_size > MOST_BYTES:
            faults.append(Fault(f"this is no plain file of at most {MOST_BYTES // 1_000_000} MB", path.name))
            return ""
        return path.read_text(encoding="utf-8")
    except UnicodeDecodeError as error:
        faults.append(Fault("this is not written in UTF-8", path.name, path.read_bytes()[: error.start].count(b"\n") + 1, try_this="save it again as UTF-8"))
    except OSError as error:
        faults.append(Fault(f"this cannot be read: {error.strerror}", path.name))
    return ""


def _laid_over(base: list[Any], own: Sequence[dict[str, Any]]) -> tuple[list[Any], set[int]]:
    """Own records over shipped ones of the same Latin name: own names and parts first, and no flag is lost. Gives the places that changed."""
    places = {record["latin"]: place for place, record in enumerate(base)}
    moved: set[int] = set()
    for record in own:
        place = places.get(record["latin"])
        if place is None:
            places[record["latin"]] = len(base)
            moved.add(len(base))
            base.append(record)
            continue
        old = base[place]
        kinds = {part["kind"] for part in record["parts"]}
        flags = {flag[0] for flag in record["flags"]}
        base[place] = {
            **record,
            "names": list(dict.fromkeys([*record["names"], *old["names"]])),
            "implied": {**old["implied"], **record["implied"]},
            "parts": [*record["parts"], *(part for part in old["parts"] if part["kind"] not in kinds)],
            "flags": [*record["flags"], *(flag for flag in old["flags"] if flag[0] not in flags)],
        }
        moved.add(place)
    return base, moved


def _units() -> dict[str, str]:
    from assistant.quantities.vocabulary import VOCABULARY

    return {name: quantity.unit for name, quantity in VOCABULARY.items()}


def _from_ready(data: Mapping[str, Any]) -> Pack:
    plants = data["plants"]
    entries = {tuple(key.split(" ")): Entry(name, tuple(places), part) for key, name, places, part in plants["entries"]}
    return Pack(RuleBook(data["rules"], data["sources"], tag_table(), _units()), PlantList(plants["records"], entries), data["sources"])
