"""The phrases people say, read from grammar/phrases/ and found in a sentence.

A sentence reaches this module as a row of items (words and islands). Each item becomes one token of a string; each phrase is a
pattern over tokens. A phrase says which island is which quantity, or what is asked, or what is to be done. How the files are
written stands at the head of grammar/phrases/01-words.txt.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from functools import cached_property, lru_cache

from assistant.faults import BenchError
from assistant.places import grammar_file

FILES = ("01-words.txt", "02-gathering.txt", "03-spirit.txt", "04-jar.txt", "05-vessels.txt", "06-recipes.txt", "07-doses.txt", "08-talk.txt")
GAP = r"(?:[^<>,.;?! ]+ ){0,%d}"
LOOSE_GAP = r"(?:[^<>.;?! ]+ ){0,%d}"
# Words that say little by themselves: a phrase that rests on them gives way to one that names its quantity.
FUNCTION_WORDS = frozenset("using off at to with in of for on from by the a an is it its it's and or my , . as into be are was so then that this i up down out about".split())
LITTLE = 0.3
KINDS_OF_UNIT = {"g": "g", "mL": "mL", "percent": "%", "1": "#", "drop": "drop", "day": "day", "g/mL": "g/mL", "mL/g": "mL/g", "degC": "C"}
ALSO = {"g": ("g", "oz"), "mL": ("mL", "oz", "cup"), "#": ("#", "n"), "bx": ("bx",), "any": ("g", "oz", "mL", "cup", "%", "#", "n", ":", "drop", "day", "mL/g", "g/mL", "part", "x", "money", "C", "per")}


@dataclass(frozen=True, slots=True)
class Capture:
    """One island of a phrase: the regex group, the quantity it becomes (`?` is the answer to an open question)."""

    group: str
    quantity: str


@dataclass
class Phrase:
    """One line of a phrase file, compiled when a sentence first bears one of its words."""

    quantity: str
    act: str  # say | ask | tag | do
    source: str
    where: str
    gives: tuple[str, ...]
    anchors: frozenset[str]
    needs: frozenset[str]
    weight: float
    captures: tuple[Capture, ...]
    pattern_text: str
    contexts: frozenset[str] = field(default_factory=frozenset)

    @cached_property
    def pattern(self) -> re.Pattern[str]:
        return re.compile(self.pattern_text)


@dataclass(frozen=True, slots=True)
class Match:
    """A phrase found: which items it covers and which item each capture took."""

    phrase: Phrase
    first: int
    last: int
    taken: tuple[tuple[str, int], ...]  # (quantity, item index)


class PhraseBook:
    """All phrases and word classes, ready to search."""

    def __init__(self) -> None:
        self.classes: dict[str, frozenset[str]] = {}
        self.phrases: list[Phrase] = []
        self.words: set[str] = set()
        self.units: dict[str, str] = {}
        self._met: dict[str, frozenset[str]] = {}
        self._written: dict[str, str] = {}
        self._by_anchor: dict[str, list[int]] = {}
        self._unanchored: list[int] = []
        self.kinds: dict[str, str] = {}  # quantity → the kinds its block declares

    def load(self, units: dict[str, str]) -> PhraseBook:
        """Read every file. `units` gives the bench unit of each quantity. Fails with BenchError naming file and line."""
        self.units = units
        texts = [(name, grammar_file("phrases/" + name).read_text(encoding="utf-8")) for name in FILES]
        for _, text in texts:
            for head in re.finditer(r"^([a-z_]+) (\S+)$", text, re.MULTILINE):
                self.kinds.setdefault(head.group(1), head.group(2))
        for name, text in texts:
            self._read(text, "grammar/phrases/" + name)
        return self

    # ── reading the files ────────────────────────────────────────────────────────────────────────────────────────────

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
                    words.extend(self.classes[word] if word.isupper() and word in self.classes else (word,))
                self.classes[name.strip()] = frozenset(words)
                self.words.update(part for w in words for part in w.split("_"))
            elif line.startswith("in "):
                contexts = frozenset(line.split()[1:]) - {"any"}
            else:
                block, _, kinds = line.partition(" ")
                kinds = kinds.strip()
                if block not in self.units and block not in ("talk", "tag", "frame"):
                    raise BenchError(what=f"“{block}” is no quantity", where=where, try_this="use a name from the vocabulary")

    def _kinds(self, block: str, kinds: str) -> str:
        kinds = kinds or self.kinds.get(block, "")
        if kinds:
            return kinds
        return KINDS_OF_UNIT.get(self.units.get(block, ""), "#")

    def _line(self, block: str, kinds: str, verb: str, rest: str, where: str, contexts: frozenset[str]) -> None:
        own = self._kinds(block, kinds)
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
        captures: list[Capture] = []
        anchors: frozenset[str] = frozenset()
        needs: set[str] = set()
        weight = bonus
        parts: list[str] = []
        depth = 0
        group_worth = choice_worth = 0.0
        choices: list[frozenset[str]] = []  # of a required group, the words one of which each alternative needs
        for element in body.split():
            if element in ("(", "|", ")", ")?", ")*", ")+"):
                # A required group is worth what its least telling alternative is; an alternative, its most telling word.
                if element == "(" and depth == 0:
                    group_worth, choice_worth, choices = 1.0, 0.0, [frozenset()]
                elif depth == 1:
                    group_worth, choice_worth = min(group_worth, choice_worth or 1.0), 0.0
                    if element == "|":
                        choices.append(frozenset())
                    if element in (")", ")+"):
                        weight += group_worth
                        wanted = frozenset().union(*choices) if all(choices) else frozenset()
                        if wanted and (not anchors or len(wanted) < len(anchors)):
                            anchors = wanted
                depth += {"(": 1, "|": 0}.get(element, -1)
                parts.append({"(": "(?:", "|": "|"}.get(element, element))
                continue
            optional = element.endswith("?") and element != "?" and not element.startswith("<")
            if element.startswith("<") and element.endswith("?"):
                optional = True
            core = element[:-1] if optional else element
            if core in ("..", "...", "~"):
                parts.append({"..": GAP % 4, "...": LOOSE_GAP % 9, "~": GAP % 1}[core])
                continue
            if core.startswith("<"):
                text, capture, kinds = self._island(core, block, own, len(captures), where, alone=len(body.split()) == 1)
                captures.extend(capture)
                if not optional and depth == 0:
                    weight += 1.0
                    if len(kinds) == 1:
                        needs.add(kinds[0])
                parts.append(f"(?:{text})?" if optional else text)
                continue
            words = self._alternatives(core)
            worth = LITTLE if words & FUNCTION_WORDS else 1.0
            if depth > 0:
                choice_worth = max(choice_worth, worth)
            if depth == 1 and words and not optional and not choices[-1]:
                choices[-1] = frozenset(w.split("_")[0] for w in words)
            if not optional and depth == 0 and core != "ASKEND":
                weight += worth
                if words and (not anchors or len(words) < len(anchors)):
                    anchors = frozenset(w.split("_")[0] for w in words)
            self.words.update(part for w in words for part in w.split("_") if part.isalpha())
            regex = self._words_regex(core, words)
            parts.append(f"(?:{regex})?" if optional else regex)
        pattern = r"(?<![^ ])" + "".join(parts)
        for word in anchors:
            self._by_anchor.setdefault(word, []).append(len(self.phrases))
        if not anchors:
            self._unanchored.append(len(self.phrases))
        self.phrases.append(
            Phrase(block, act, body, where, given, anchors, frozenset(needs), weight, tuple(captures), pattern, contexts)
        )

    def _island(self, core: str, block: str, own: str, count: int, where: str, *, alone: bool) -> tuple[str, list[Capture], list[str]]:
        inside = core.strip("<>")
        if inside.startswith("::"):
            kinds, name = ":", inside[2:]
        else:
            kinds, _, name = inside.partition(":")
            if inside == ":":
                kinds = ":"
        if inside == ":_":
            kinds, name = ":", "_"
        if inside in ("", "+"):
            kinds, name = own + ("|#" if inside == "+" and "#" not in own.split("|") else ""), block
        elif kinds == "+":
            kinds = self._kinds(name, "") + "|#"
        elif kinds == "":
            kinds = self._kinds(name, "")
        if name and name != "_" and name not in self.units:
            raise BenchError(what=f"“{core}” names no quantity", where=where, try_this="write <kind:quantity>")
        if name == "_":
            name = ""
        alternatives: list[str] = []
        for kind in kinds.split("|"):
            alternatives.extend(ALSO.get(kind, (kind,)))
        if alternatives == ["%"] and self.units.get(name) == "percent" and not alone:
            alternatives.append("share")  # "lose a fifth"
        group = f"c{count}"
        text = f"(?P<{group}><(?:{'|'.join(re.escape(a) for a in dict.fromkeys(alternatives))})>) "
        if not name:
            name = "_" if inside.endswith(":_") else block
        if name != "_" and name not in self.units:
            name = "_"
        return text, [Capture(group, name)], list(dict.fromkeys(alternatives))

    def _alternatives(self, core: str) -> frozenset[str]:
        known = self._met.get(core)
        if known is None:
            known = self._met[core] = self._spelt_out(core)
        return known

    def _spelt_out(self, core: str) -> frozenset[str]:
        words: set[str] = set()
        for option in core.split("/"):
            if option in ("PLANT", "ASKEND", "WORD"):
                return frozenset()
            if option.isupper() and option in self.classes:
                words |= self.classes[option]
            else:
                words.add(option)
        return frozenset(words)

    def _words_regex(self, core: str, words: frozenset[str]) -> str:
        known = self._written.get(core)
        if known is None:
            known = self._written[core] = self._regex_of(core, words)
        return known

    def _regex_of(self, core: str, words: frozenset[str]) -> str:
        if core == "PLANT":
            return "(?:@ )"
        if core == "WORD":
            return r"[^<>,.;:?! ]+ "
        if core == "ASKEND":
            return r"(?=\? |$|[.,;] )"
        ordered = sorted(words, key=lambda w: (-len(w), w))
        return "(?:" + "|".join(re.escape(w.replace("_", " ")) for w in ordered) + ") "

    # ── finding them in a sentence ──────────────────────────────────────────────────────────────────────────────────

    def find(self, tokens: list[str], context: frozenset[str], acts: tuple[str, ...] = ("say", "ask", "tag", "do")) -> list[Match]:
        """Every phrase of these acts in a row of tokens, the most telling first."""
        if not tokens:
            return []
        line = " ".join(tokens) + " "
        starts = {}
        position = 0
        for index, token in enumerate(tokens):
            starts[position] = index
            position += len(token) + 1
        starts[position] = len(tokens)
        bag = frozenset(tokens)
        kinds = frozenset(t[1:-1] for t in tokens if t.startswith("<"))
        found: list[Match] = []
        candidates = set(self._unanchored)
        for word in bag:
            candidates.update(self._by_anchor.get(word, ()))
        for place in sorted(candidates):
            phrase = self.phrases[place]
            if phrase.act not in acts:
                continue
            if phrase.contexts and not phrase.contexts & context:
                continue
            if not phrase.needs <= kinds:
                continue
            at = 0
            while (hit := phrase.pattern.search(line, at)) is not None:
                first = starts[hit.start()]
                last = starts.get(hit.end())
                if last is None:
                    last = max(i for p, i in starts.items() if p <= hit.end())
                taken = tuple((c.quantity, starts[hit.start(c.group)]) for c in phrase.captures if hit.start(c.group) >= 0)
                found.append(Match(phrase, first, last, taken))
                at = hit.start() + len(tokens[first]) + 1
                if at > len(line):
                    break
        found.sort(key=lambda m: (-m.phrase.weight, -len(m.taken), -(m.last - m.first) if m.phrase.act != "say" else (m.last - m.first), m.first))
        return found


@lru_cache(maxsize=1)
def phrase_book() -> PhraseBook:
    """The shipped phrases, read once a process."""
    from assistant.quantities.vocabulary import VOCABULARY

    return PhraseBook().load({name: q.unit for name, q in VOCABULARY.items()})
