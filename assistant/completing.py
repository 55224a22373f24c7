"""Which words to offer while a sentence is being typed: from the words that could come next to what replaces the half-typed one.

A pure function of two texts, so that it is tested with strings; the prompt only shows what comes out.
"""

import re
from collections.abc import Iterable

from assistant.dataclass import dataclass

MOST = 12  # more than a person reads before typing on


@dataclass(frozen=True, slots=True)
class Offer:
    """A word or phrase, and how many typed characters before the cursor it replaces."""

    text: str
    replaces: int


def offers(typed: str, words: Iterable[str], most: int = MOST) -> list[Offer]:
    """What could stand at the end of `typed`, in the order given, at most `most`.

    A phrase of several words ("lemon balm") is offered on its first letters and again after its first word ("lemon b").
    Nothing is offered that is already there in full.

    >>> offers("112 g fresh lemon b", ["lemon balm", "basil"])
    [Offer(text='lemon balm', replaces=7), Offer(text='basil', replaces=1)]
    """
    starts = _starts(typed)
    lowered = typed.lower()
    chosen: dict[str, Offer] = {}
    for word in words:
        low = word.lower()
        for start in starts:
            tail = lowered[start:]
            if low.startswith(tail) and low != tail and low not in chosen:
                chosen[low] = Offer(word, len(tail))
                break
        if len(chosen) == most:
            break
    return list(chosen.values())


def _starts(typed: str) -> list[int]:
    """Where the last one, two or three words before the cursor begin, the longest reach first; after a space also the cursor itself."""
    starts = [found.start() for found in re.finditer(r"\S+", typed)][-3:]
    if not typed or typed[-1].isspace():
        starts.append(len(typed))
    return starts
