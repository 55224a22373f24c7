"""Sentence → tags: what was said that is no number (for the skin, gathered wild, on the stove, help).

Words are looked up in the table of grammar/tags.txt by their first word, longest way of saying first; words that mean nothing here ("skip" in
the table) are passed over. A negation shortly before it in the same clause turns it round: "not for a child" denies. Knows no plant and no figure.
"""

from __future__ import annotations

from collections.abc import Iterator

from assistant.dataclass import dataclass
from assistant.patterns import looked_for
from assistant.tagtable import Pattern, TagTable, tag_table

_WORD = looked_for(r"[^\W\d_]+(?:['’`][^\W\d_]+)*|\d+(?:[.,/]\d+)*|[.,;:!?()]")
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


Word = tuple[str, int, int]  # as compared, start, end
Index = dict[str, tuple[Pattern, ...]]  # first word → ways of saying, longest first
Silent = frozenset[tuple[int, str]]  # (place of a word, tag that is not read there)


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
    beginning = [(at, patterns) for at, word in enumerate(words) if (patterns := _beginning(word[0], index))]
    silent = _silenced(words, beginning)
    strong: dict[str, TagSpan] = {}
    weak: dict[str, TagSpan] = {}
    against: dict[str, TagSpan] = {}
    for at, patterns in beginning:
        for pattern, end in _standing(words, at, patterns, silent):
            denied = pattern.denies or _negated(words, at)
            span = TagSpan(pattern.tag, words[at][1], words[end - 1][2], denied)
            (against if denied else weak if pattern.weak else strong).setdefault(pattern.tag, span)
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


def _index_of(patterns: tuple[Pattern, ...]) -> Index:
    found: dict[str, list[Pattern]] = {}
    for pattern in patterns:
        for first in pattern.words[0]:
            found.setdefault("#" if first[0] == "#" else first, []).append(pattern)
    return {word: tuple(sorted(some, key=lambda p: -len(p.words))) for word, some in found.items()}


_KEPT: dict[int, tuple[TagTable, Index]] = {}


def _index(table: TagTable) -> Index:
    # Hashing some hundred patterns at each sentence would cost more than reading it, so the index is kept by identity.
    held = _KEPT.get(id(table))
    if held is None or held[0] is not table:
        held = (table, _index_of(table.patterns))
        _KEPT[id(table)] = held
    return held[1]


def _standing(words: list[Word], at: int, patterns: tuple[Pattern, ...], silent: Silent) -> Iterator[tuple[Pattern, int]]:
    """Every way of saying a tag that stands at a place, the longest of each tag, with the place after it."""
    found: dict[str, tuple[Pattern, int]] = {}
    for pattern in patterns:
        if pattern.silences or (pattern.tag in found and not pattern.denies):
            continue
        if (at, "") not in silent and (at, pattern.tag) not in silent:
            end = _end(words, at, pattern.words)
            if end and (end - 1, "") not in silent and (end - 1, pattern.tag) not in silent:
                found[pattern.tag] = (pattern, end)
    yield from found.values()


def _silenced(words: list[Word], beginning: list[tuple[int, tuple[Pattern, ...]]]) -> Silent:
    """Places at which a tag, or any tag (""), is not read: "tea tree" is no tea, and a gas ring no ring of bark."""
    return frozenset(
        (place, pattern.tag)
        for at, patterns in beginning
        for pattern in patterns
        if pattern.silences
        for place in range(at, _end(words, at, pattern.words))
    )


def _beginning(word: str, index: Index) -> tuple[Pattern, ...]:
    return index.get(word, ()) + (index.get("#", ()) if word[0].isdigit() else ())


def _end(words: list[Word], at: int, wanted: tuple[tuple[str, ...], ...]) -> int:
    """The place after the pattern if it stands at `at`, else 0."""
    place, gap = at, 0
    for choice in wanted:
        if choice == ("..",):
            gap += _GAP
            continue
        if choice == ("$",):
            if place < len(words) and words[place][0] not in _STOPS:
                return 0
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
        return word != first[1:] and word not in choice and not (first == "^#" and word[0].isdigit())
    if word in choice:
        return True
    if not word[0].isdigit() or not any(one[0] == "#" for one in choice):
        return False
    return any(one == "#" or (one[0] == "#" and _within(word, one)) for one in choice)


def _within(word: str, span: str) -> bool:
    """Whether a number lies in a range written #1-17."""
    low, _, high = span[1:].partition("-")
    return word.isdecimal() and int(low) <= int(word) <= int(high)  # "²" is a digit and no number


def _negated(words: list[Word], at: int) -> bool:
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
