"""Near misses: which known word was meant, if exactly one lies close enough.

A miss is a letter left out, put in, changed, or two neighbours swapped. Words of 4 to 6 letters may have one, longer
ones two; the first letter has to be right (or swapped with the second), because people rarely miss it and a filler word
must not become a plant.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from functools import lru_cache

SHORTEST = 4
_LONG = 7
# An ending a known word may bear without being a miss of another: jug → jugs, pour → poured.
_ENDINGS = ("'s", "s", "es", "ed", "d", "ing", "ly", "y")


class Lexicon:
    """A set of known words that can name the nearest one to a slip of the pen.

    words   what a slip may be meant as
    plain   everyday words besides: no slips themselves, and never put in another's place, since nothing hangs on them
    """

    __slots__ = ("_buckets", "meant", "words")

    def __init__(self, words: Iterable[str] = (), plain: Iterable[str] = ()) -> None:
        self.meant = frozenset(words)
        self.words = self.meant | frozenset(plain)
        self._buckets: dict[tuple[str, int], list[tuple[int, str]]] | None = None

    def __contains__(self, word: str) -> bool:
        return word in self.words

    def __bool__(self) -> bool:
        return bool(self.words)

    def knows(self, word: str) -> bool:
        """Whether it is a known word, as it stands or with a common ending."""
        words = self.words
        if word in words:
            return True
        for ending in _ENDINGS:
            if word.endswith(ending):
                stem = word[: -len(ending)]
                if ending == "d" and not stem.endswith("e"):
                    continue  # "pressd" bears no ending, it misses a letter
                if stem in words or (ending in ("ed", "ing") and (stem + "e" in words or (stem[-1:] == stem[-2:-1] and stem[:-1] in words))):
                    return True
        return word.endswith("ies") and word[:-3] + "y" in words

    def nearest(self, word: str) -> str:
        """The one known word nearest to it; "" when none is near, two are equally near, or the nearest is a plain one ("Maud" is no maid)."""
        if len(word) < SHORTEST:
            return ""
        buckets = self._indexed()
        furthest = 2 if len(word) >= _LONG else 1
        mask = letters(word)
        best, found = furthest + 1, ""
        for first in {word[0], word[1]}:
            for length in range(len(word) - furthest, len(word) + furthest + 1):
                for other_mask, other in buckets.get((first, length), ()):
                    if first != word[0] and other[1] != word[0]:
                        continue
                    # each miss changes at most two letters of the set
                    if (mask ^ other_mask).bit_count() > 2 * furthest:
                        continue
                    misses = distance(word, other, furthest)
                    if misses < best:
                        best, found = misses, other
                    elif misses == best and other != found:
                        found = _of_one_word(word, found, other)
        return found if best <= furthest and found in self.meant else ""

    def _indexed(self) -> dict[tuple[str, int], list[tuple[int, str]]]:
        if self._buckets is None:
            buckets: dict[tuple[str, int], list[tuple[int, str]]] = defaultdict(list)
            for word in sorted(self.words):
                if len(word) >= SHORTEST and word.isalpha():
                    buckets[word[0], len(word)].append((letters(word), word))
            self._buckets = dict(buckets)
        return self._buckets


def _of_one_word(word: str, one: str, other: str) -> str:
    """Of two forms of one word that are equally near, the one that ends as what was written does: "pressd" is pressed, not press; "" of two words."""
    same = bool(one) and (one.startswith(other) or other.startswith(one))
    alike = [form for form in (one, other) if form.endswith(word[-1])] if same else []
    return alike[0] if len(alike) == 1 else ""


@lru_cache(maxsize=4096)
def correct(word: str, lexicon: Lexicon) -> str:
    """The known word meant by `word`; the word itself when it is known, short, or near to none or to several.

    >>> correct("metruum", Lexicon(["menstruum", "mixture"]))
    'menstruum'
    """
    if len(word) < SHORTEST or lexicon.knows(word):
        return word
    return lexicon.nearest(word) or word


def letters(word: str) -> int:
    """Which letters occur, as bits; to tell in one step that two words cannot be near."""
    mask = 0
    for letter in word:
        mask |= 1 << (ord(letter) & 31)
    return mask


def distance(one: str, other: str, furthest: int) -> int:
    """Letters left out, put in, changed or swapped with their neighbour; `furthest + 1` when there are more."""
    if abs(len(one) - len(other)) > furthest:
        return furthest + 1
    before: list[int] = []
    row = list(range(len(other) + 1))
    for i, letter in enumerate(one, 1):
        two_before, before, row = before, row, [i]
        for j, its in enumerate(other, 1):
            misses = min(before[j] + 1, row[j - 1] + 1, before[j - 1] + (letter != its))
            if i > 1 and j > 1 and letter == other[j - 2] and one[i - 2] == its:
                misses = min(misses, two_before[j - 2] + 1)
            row.append(misses)
        if min(row) > furthest:
            return furthest + 1
    return min(row[-1], furthest + 1)
