"""The phrase files of grammar/phrases/ read: classes of words, blocks of phrases. How they are written stands at the head of 01-words.txt."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from typing import Any

from assistant.dataclass import dataclass, field
from assistant.faults import BenchError
from assistant.listening.phrase_patterns import Patterns
from assistant.places import grammar_folder

FILES = (
    "01-words.txt",
    "02-gathering.txt",
    "03-spirit.txt",
    "04-jar.txt",
    "05-vessels.txt",
    "06-recipes.txt",
    "07-doses.txt",
    "08-talk.txt",
    "09-teaching.txt",
    "10-book.txt",
    "11-care.txt",
    "12-instruments.txt",
    "13-year.txt",
)
READY = "phrases.ready.json"
NO_QUANTITY = frozenset({"talk", "tag", "frame"})


@dataclass(frozen=True, slots=True)
class Line:
    """One phrase as written, with what it weighs. `own` are the kinds of figure its block takes."""

    quantity: str
    act: str
    source: str
    where: str
    gives: tuple[str, ...]
    own: str
    contexts: frozenset[str]
    weight: float
    anchors: frozenset[str]
    needs: frozenset[str]


@dataclass
class Pages:
    """Everything the phrase files say."""

    classes: dict[str, frozenset[str]] = field(default_factory=dict)
    kinds: dict[str, str] = field(default_factory=dict)
    words: set[str] = field(default_factory=set)
    lines: list[Line] = field(default_factory=list)


def read_pages(units: Mapping[str, str]) -> Pages:
    """The shipped phrases: from the kept form where it matches the texts, else from the texts.

    units   bench unit of each quantity
    fails   BenchError naming file and line
    """
    texts = phrase_texts()
    kept = grammar_folder() / READY
    if kept.is_file():
        data = json.loads(kept.read_text(encoding="utf-8"))
        if data.get("digest") == digest(texts, units):
            return from_data(data)
    return Reader(units).read(texts)


def phrase_texts() -> list[tuple[str, str]]:
    folder = grammar_folder() / "phrases"
    return [(name, (folder / name).read_text(encoding="utf-8")) for name in FILES]


def digest(texts: list[tuple[str, str]], units: Mapping[str, str]) -> str:
    """A fingerprint of the phrase files and of the quantities they speak of."""
    import hashlib  # only where the texts are held against what was kept

    made = hashlib.blake2b(digest_size=16)
    for name, text in texts:
        made.update(name.encode() + b"\0" + text.encode() + b"\0")
    made.update(repr(sorted(units.items())).encode())
    return made.hexdigest()


class Reader:
    """Reads the files one after the other; a class may be used in every file behind its own."""

    def __init__(self, units: Mapping[str, str]) -> None:
        self.units = units
        self.pages = Pages()
        self.patterns = Patterns(units, self.pages.classes, self.pages.kinds)

    def read(self, texts: list[tuple[str, str]]) -> Pages:
        for _, text in texts:
            for head in re.finditer(r"^([a-z_]+) (\S+)$", text, re.MULTILINE):
                self.pages.kinds.setdefault(head.group(1), head.group(2))
        for name, text in texts:
            self._read(text, "grammar/phrases/" + name)
        return self.pages

    def _read(self, text: str, file: str) -> None:
        block, kinds, contexts = "", "", frozenset[str]()
        for number, raw in enumerate(text.splitlines(), 1):
            line = raw.split(" # ")[0].rstrip() if not raw.startswith("#") else ""
            if not line.strip():
                continue
            where = f"{file}, line {number}"
            if line[0].isspace():
                verb, _, rest = line.strip().partition(" ")
                if not block:
                    raise BenchError(what=f"“{line.strip()}” stands before any block", where=where, try_this="begin a block with a quantity's name")
                self._line(block, kinds, verb, rest.strip(), where, contexts)
            elif "=" in line and line.split("=")[0].strip().isupper():
                name, _, members = line.partition("=")
                words: list[str] = []
                for word in members.split():
                    words.extend(self.pages.classes[word] if word.isupper() and word in self.pages.classes else (word,))
                self.pages.classes[name.strip()] = frozenset(words)
                self.pages.words.update(part for w in words for part in w.split("_"))
            elif line.startswith("in "):
                contexts = frozenset(line.split()[1:]) - {"any"}
            else:
                block, _, kinds = line.partition(" ")
                kinds = kinds.strip()
                if block not in self.units and block not in NO_QUANTITY:
                    raise BenchError(what=f"“{block}” is no quantity", where=where, try_this="use a name from the vocabulary")

    def _line(self, block: str, kinds: str, verb: str, rest: str, where: str, contexts: frozenset[str]) -> None:
        own = self.patterns.kinds_for(block, kinds)
        body, _, gives = rest.partition(" -> ")
        given = tuple(gives.split())
        if verb == "noun":
            self._add(block, "free", f"{body} .. wrong/off/mistaken/slip/gives", own, given, where, contexts)
            self._add(block, "free", f"( drop | forget | ignore | scrap | never mind ) the? {body}", own, given, where, contexts)
            for form in (
                f"<> of/a/the/in? the/a/my? {body}",
                f"{body} BE? ABOUT? <>",
                f"{body} LINK LINK? LINK? <+>",
            ):
                self._add(block, "say", form, own, given, where, contexts)
            self._add(block, "ask", f"ASK .. {body}", own, given, where, contexts)
            self._add(block, "ask", f"{body} ASKEND", own, given, where, contexts, bonus=-0.5)
        elif verb in ("say", "ask", "tag", "do"):
            self._add(block, verb, body, own, given, where, contexts)
        elif verb == "maybe":  # a weak reading, taken when nothing better claims the island
            self._add(block, "say", body, own, given, where, contexts, bonus=-2.0)
        else:
            raise BenchError(what=f"“{verb}” is not noun, say, maybe, ask, tag or do", where=where, try_this="begin the line with one of these")

    def _add(self, block: str, act: str, body: str, own: str, given: tuple[str, ...], where: str, contexts: frozenset[str], bonus: float = 0.0) -> None:
        worth = self.patterns.worth(body, block, own, where, self.pages.words)
        self.pages.lines.append(Line(block, act, body, where, given, own, contexts, round(worth.weight + bonus, 3), worth.anchors, worth.needs))


def as_data(pages: Pages, fingerprint: str) -> dict[str, Any]:
    """The kept form of the phrases, plain data in a fixed order."""
    sets: dict[tuple[str, ...], int] = {}  # hundreds of phrases share their anchors: each set of words is kept once

    def place(words: frozenset[str]) -> int:
        return sets.setdefault(tuple(sorted(words)), len(sets))

    lines = [
        [p.quantity, p.act, p.source, p.where, p.gives, p.own, place(p.contexts), p.weight, place(p.anchors), place(p.needs)]
        for p in pages.lines
    ]
    classes = {name: sorted(words) for name, words in pages.classes.items()}
    return {"digest": fingerprint, "classes": classes, "kinds": pages.kinds, "words": sorted(pages.words), "sets": [list(s) for s in sets], "lines": lines}


def from_data(data: Mapping[str, Any]) -> Pages:
    sets = [frozenset(words) for words in data["sets"]]
    lines = [
        Line(q, act, source, where, tuple(gives), own, sets[contexts], weight, sets[anchors], sets[needs])
        for q, act, source, where, gives, own, contexts, weight, anchors, needs in data["lines"]
    ]
    return Pages({k: frozenset(v) for k, v in data["classes"].items()}, dict(data["kinds"]), set(data["words"]), lines)


def main() -> int:
    """Write the kept form anew: python -m assistant.listening.phrase_files."""
    from assistant.quantities.vocabulary import VOCABULARY

    units = {name: q.unit for name, q in VOCABULARY.items()}
    texts = phrase_texts()
    pages = Reader(units).read(texts)
    text = json.dumps(as_data(pages, digest(texts, units)), ensure_ascii=False, separators=(",", ":"))
    (grammar_folder() / READY).write_text(text + "\n", encoding="utf-8")
    print(f"{len(pages.lines)} phrases kept in grammar/{READY}")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
