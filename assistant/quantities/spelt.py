"""Small numbers as words, for the rooms that find them in the sentence itself with patterns of their own."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

_NAMES = "one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen twenty"
SPELT: Mapping[str, int] = MappingProxyType({name: n for n, name in enumerate(_NAMES.split(), 1)})
_ARTICLES = {"a": 1.0, "an": 1.0, "half": 0.5, "half a": 0.5, "half an": 0.5, "a dozen": 12.0}


def number_of(said: str) -> float:
    """The number said in figures or in words, with an article for one of it.

    >>> number_of("2,5"), number_of("Twelve"), number_of("an"), number_of("half a")
    (2.5, 12.0, 1.0, 0.5)
    """
    word = said.lower()
    return float(SPELT[word]) if word in SPELT else _ARTICLES[word] if word in _ARTICLES else float(word.replace(",", "."))
