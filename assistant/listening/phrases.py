"""The phrases people say, found in a sentence.

A sentence reaches this module as a row of items (words and islands). Each item becomes one token of a string; each phrase is a
pattern over tokens. A phrase says which island is which quantity, or what is asked, or what is to be done. How the files are
written stands at the head of grammar/phrases/01-words.txt; phrase_files.py reads them, phrase_patterns.py translates them.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import lru_cache

from assistant.dataclass import dataclass
from assistant.listening.phrase_files import Line, Pages, read_pages
from assistant.listening.phrase_patterns import Capture, Patterns


class Phrase:
    """One line of a phrase file; its expression is made when a sentence first bears one of its words."""

    __slots__ = ("_captures", "_line", "_pattern", "_patterns", "_requirements", "act", "contexts", "gives", "needs", "quantity", "source", "weight", "where")

    def __init__(self, line: Line, patterns: Patterns) -> None:
        self.quantity = line.quantity
        self.act = line.act  # say | ask | tag | do | free
        self.source = line.source
        self.where = line.where
        self.gives = line.gives
        self.needs = line.needs
        self.weight = line.weight
        self.contexts = line.contexts
        self._line = line
        self._patterns = patterns
        self._pattern: re.Pattern[str] | None = None
        self._captures: tuple[Capture, ...] = ()
        self._requirements: tuple[frozenset[str], ...] | None = None

    @property
    def pattern(self) -> re.Pattern[str]:
        if self._pattern is None:
            self._pattern, self._captures = self._patterns.compiled(self.source, self.quantity, self._line.own)
        return self._pattern

    @property
    def requirements(self) -> tuple[frozenset[str], ...]:
        """Words of which a sentence must bear one each; weighed before the expression is made, which is dear."""
        if self._requirements is None:
            self._requirements = self._patterns.requirements(self.source)
        return self._requirements

    @property
    def captures(self) -> tuple[Capture, ...]:
        _ = self.pattern
        return self._captures


@dataclass(frozen=True, slots=True)
class Match:
    """A phrase found: which items it covers and which item each capture took."""

    phrase: Phrase
    first: int
    last: int
    taken: tuple[tuple[str, int], ...]  # (quantity, item index)


OF_THIS_WORK = 0.4  # what is said in one kind of work alone tells more there than what is said everywhere


class PhraseBook:
    """All phrases and word classes, ready to search."""

    def __init__(self, pages: Pages, units: Mapping[str, str]) -> None:
        self.classes = pages.classes
        self.words = pages.words
        self.units = dict(units)
        nouns = (pages.classes.get(name, frozenset()) for name in ("SCALENOUN", "GLASSNOUN", "DROPPERNOUN", "METERNOUN", "FIELDPLACE", "HOMEPLACE"))
        self.of_instruments = frozenset().union(*nouns, {"<drop/mL>", "glass", "glasses", "measure"})
        patterns = Patterns(units, pages.classes, pages.kinds)
        self.phrases = [Phrase(line, patterns) for line in pages.lines]
        self._by_anchor: dict[str, list[int]] = {}
        self._unanchored: list[int] = []
        for place, line in enumerate(pages.lines):
            for word in line.anchors:
                self._by_anchor.setdefault(word, []).append(place)
            if not line.anchors:
                self._unanchored.append(place)

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
            if not phrase.needs <= kinds or any(bag.isdisjoint(words) for words in phrase.requirements):
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
        found.sort(
            key=lambda m: (
                -m.phrase.weight - (OF_THIS_WORK if m.phrase.contexts else 0.0),
                -len(m.taken),
                -(m.last - m.first) if m.phrase.act != "say" else (m.last - m.first),
                m.first,
            )
        )
        return found


@lru_cache(maxsize=1)
def phrase_book() -> PhraseBook:
    """The shipped phrases, read once a process."""
    from assistant.quantities.vocabulary import VOCABULARY

    units = {name: q.unit for name, q in VOCABULARY.items()}
    return PhraseBook(read_pages(units), units)
