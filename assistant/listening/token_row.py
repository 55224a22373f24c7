"""A sentence as a row of tokens in one line, so that a pattern over them can be searched and its figures found again."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Sequence

from assistant.listening.pieces import Piece


class TokenRow:
    """Tokens with a blank after each. Places in the line are turned back into numbers of pieces."""

    def __init__(self, pieces: list[Piece], tokens: list[str]) -> None:
        self.pieces = pieces
        self.tokens = tokens
        self.line = " ".join(tokens) + " "
        self.places: dict[int, int] = {}  # where a token begins in the line: its number
        place = 0
        for n, token in enumerate(tokens):
            self.places[place] = n
            place += len(token) + 1
        self.places[place] = len(tokens)

    def find(self, pattern: re.Pattern[str]) -> Iterator[tuple[re.Match[str], int, int]]:
        """Every hit that begins and ends at a token: the match, its first piece and the one behind its last."""
        for hit in pattern.finditer(self.line):
            first, last = self.places.get(hit.start()), self.places.get(hit.end())
            if first is not None and last is not None and last > first:
                yield hit, first, last

    def islands(self, first: int, last: int, codes: Collection[str]) -> list[int]:
        """The pieces between two places that are figures of these kinds."""
        return [n for n in range(first, last) if self.tokens[n] in codes]

    def value(self, n: int) -> float | None:
        item = self.pieces[n].item
        return None if item is None else item.value

    def span(self, first: int, last: int) -> tuple[int, int]:
        """Where the pieces from first up to last stand in the sentence."""
        return self.pieces[first].start, self.pieces[last - 1].end


def any_of(words: Collection[str]) -> str:
    """Words of a class, longest first, as one group of a pattern over tokens (each with its blank).

    >>> any_of(["mark", "marks"])
    '(?:marks |mark )'
    """
    return "(?:" + "|".join(re.escape(w.replace("_", " ")) + " " for w in sorted(words, key=lambda w: (-len(w), w))) + ")"


STOPS = frozenset(", . ; : ? ! and but".split())


def clause_of(words: Sequence[str]) -> list[str]:
    """The words up to the next stop or figure.

    >>> clause_of(["for", "the", "stall", ",", "sold"])
    ['for', 'the', 'stall']
    """
    kept: list[str] = []
    for word in words:
        if word in STOPS or word.startswith("<"):
            break
        kept.append(word)
    return kept
