"""Sentence → tags: what was said that is no number (for the skin, gathered wild, on the stove, help).

Words are looked up in the table of grammar/tags.txt by their first word, longest way of saying first; a word belongs to one way of saying at
most. A negation shortly before it in the same clause turns it round: "not for a child" denies. Knows no plant and no figure.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from assistant.tagtable import Pattern, TagTable, tag_table

_WORD = re.compile(r"[^\W\d_]+(?:['’`][^\W\d_]+)*|\d+(?:[.,/]\d+)*|[.,;:!?()]")
_STOPS = frozenset(".,;:!?()")
_ENDS_NEGATION = frozenset({"but", "and", "so", "then", "because", "since", "instead", "only", "just"})
_NEGATIONS = frozenset(
    "not never without dont doesnt didnt isnt arent wasnt wont wouldnt shouldnt cant cannot no neither nor non avoid avoiding except aint".split()
)
# After these a negation is none: "no wait", "not sure", "not only".
_NO_NEGATION = frozenset("wait sure certain only just idea problem matter worries need good long".split())
_REACH = 4  # words a negation reaches over
_REACH_OF_NO = 2
_GAP = 3  # words that ".." may pass over
LONGEST = 400  # words of a sentence that are looked at


@dataclass(frozen=True, slots=True)
class TagSpan:
    """Where in the sentence a tag was heard, and whether it was denied."""

    tag: str
    start: int
    end: int
    denied: bool = False


@dataclass(frozen=True, slots=True)
class TagsHeard:
    """tags established, denied said not to hold, passing those of this sentence alone (not kept with the batch), spans where each was heard."""

    tags: frozenset[str] = frozenset()
    denied: frozenset[str] = frozenset()
    passing: frozenset[str] = frozenset()
    spans: tuple[TagSpan, ...] = ()


def read_tags(sentence: str, table: TagTable | None = None) -> TagsHeard:
    """The tags in a sentence. Never fails; a sentence without any gives empty sets.

    >>> sorted(read_tags("comfrey salve for the skin, not to drink").tags & {"internal", "external"})
    ['external']
    """
    table = table or tag_table()
    words = list(_words(sentence))[:LONGEST]
    index = _index(table)
    strong: dict[str, TagSpan] = {}
    weak: dict[str, TagSpan] = {}
    against: dict[str, TagSpan] = {}
    at = 0
    while at < len(words):
        hit = _longest(words, at, index)
        if hit is None:
            at += 1
            continue
        patterns, end = hit
        for pattern in patterns:
            if not pattern.tag:
                continue
            denied = pattern.denies or _negated(words, at)
            span = TagSpan(pattern.tag, words[at][1], words[end - 1][2], denied)
            (against if denied else weak if pattern.weak else strong).setdefault(pattern.tag, span)
        at = end
    for tag, span in weak.items():
        if tag not in strong and not (table.rivals.get(tag, frozenset()) & strong.keys()) and tag not in against:
            strong[tag] = span
    for tag, causes in table.follows:
        if causes <= strong.keys() and tag not in against:
            strong.setdefault(tag, strong[min(causes)])
    tags = frozenset(strong)
    return TagsHeard(tags, frozenset(against) - tags, tags & table.passing, (*strong.values(), *(s for t, s in against.items() if t not in tags)))


def keep(held: frozenset[str], denied: frozenset[str], heard: TagsHeard, table: TagTable | None = None) -> tuple[frozenset[str], frozenset[str]]:
    """What the batch bears after a sentence: the newest member of a family replaces the older, passing tags are dropped.

    >>> keep(frozenset({"internal", "fresh"}), frozenset(), read_tags("it is for a rub"))[0] >= {"external", "fresh"}
    True
    """
    table = table or tag_table()
    gone = {rival for tag in heard.tags for rival in table.rivals.get(tag, ())} | set(heard.denied)
    tags = (held - (gone - heard.tags)) | (heard.tags - table.passing)
    return tags, (denied | heard.denied) - tags


def _words(sentence: str) -> Iterator[tuple[str, int, int]]:
    """(word, start, end): lower case, apostrophes dropped, numbers as they stand."""
    for hit in _WORD.finditer(sentence):
        word = hit.group().lower()
        for mark in "'’`":
            word = word.replace(mark, "")
        yield word, hit.start(), hit.end()


@lru_cache(maxsize=8)
def _index_of(patterns: tuple[Pattern, ...]) -> dict[str, tuple[Pattern, ...]]:
    found: dict[str, list[Pattern]] = {}
    for pattern in patterns:
        for first in pattern.words[0]:
            found.setdefault("#" if first[0] == "#" else first, []).append(pattern)
    return {word: tuple(sorted(some, key=lambda p: -len(p.words))) for word, some in found.items()}


_KEPT: dict[int, tuple[TagTable, dict[str, tuple[Pattern, ...]]]] = {}


def _index(table: TagTable) -> dict[str, tuple[Pattern, ...]]:
    # Hashing some hundred patterns at each sentence would cost more than reading it, so the index is kept by identity.
    held = _KEPT.get(id(table))
    if held is None or held[0] is not table:
        held = (table, _index_of(table.patterns))
        _KEPT[id(table)] = held
    return held[1]


def _longest(words: list[tuple[str, int, int]], at: int, index: dict[str, tuple[Pattern, ...]]) -> tuple[list[Pattern], int] | None:
    """Every tag whose way of saying begins here and reaches farthest, with the place after it."""
    word = words[at][0]
    candidates = index.get(word, ()) + (index.get("#", ()) if word[0].isdigit() else ())
    best: list[Pattern] = []
    reach = 0
    for pattern in candidates:
        end = _end(words, at, pattern.words)
        if end > reach:
            best, reach = [pattern], end
        elif end == reach and end:
            best.append(pattern)
    return (best, reach) if best else None


def _end(words: list[tuple[str, int, int]], at: int, wanted: tuple[tuple[str, ...], ...]) -> int:
    """The place after the pattern if it stands at `at`, else 0."""
    place, gap = at, 0
    for choice in wanted:
        if choice == ("..",):
            gap = _GAP
            continue
        while True:
            if place >= len(words) or words[place][0] in _STOPS:
                return 0
            word = words[place][0]
            place += 1
            if _fits(word, choice):
                break
            if not gap:
                return 0
            gap -= 1
        gap = 0
    return place


def _fits(word: str, choice: tuple[str, ...]) -> bool:
    first = choice[0]
    if first[0] == "^":
        return word != first[1:] and word not in choice and not ("^#" == first and word[0].isdigit())
    if word in choice:
        return True
    if not word[0].isdigit() or not any(one[0] == "#" for one in choice):
        return False
    return any(one == "#" or (one[0] == "#" and _within(word, one)) for one in choice)


def _within(word: str, span: str) -> bool:
    """Whether a number lies in a range written #1-17."""
    low, _, high = span[1:].partition("-")
    return word.isdigit() and int(low) <= int(word) <= int(high)


def _negated(words: list[tuple[str, int, int]], at: int) -> bool:
    for back in range(1, _REACH + 1):
        place = at - back
        if place < 0:
            return False
        word = words[place][0]
        if word in _STOPS or word in _ENDS_NEGATION:
            return False
        if word in _NEGATIONS and words[place + 1][0] not in _NO_NEGATION and (word != "no" or back <= _REACH_OF_NO):
            return True
    return False
