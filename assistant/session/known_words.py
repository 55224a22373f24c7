"""The words the bench knows and the plants it finds among them: of the grammar, of the common words, and of the plants in force."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from assistant.cautions.plants import PlantList, plants
from assistant.listening.common import COMMON
from assistant.listening.phrases import phrase_book
from assistant.listening.spelling import Lexicon
from assistant.places import grammar_file


def lexicon() -> Lexicon:
    """Every word the bench knows, for judging near misses."""
    return _lexicon_with(plants())


@lru_cache(maxsize=4)
def _lexicon_with(known: PlantList) -> Lexicon:
    common = {w for w in grammar_file("common_words.txt").read_text(encoding="utf-8").splitlines() if w and not w.startswith("#")}
    return Lexicon(phrase_book().words | COMMON | known.words(), common)


def find_names(words: Sequence[str]) -> list[tuple[int, int, str]]:
    """Plant names in a row of words: (first, behind the last, the name as said)."""
    return [(f.start, f.end, f.name) for f in plants().find(list(words))]
