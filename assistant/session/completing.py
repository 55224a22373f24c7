"""Words that may come next: those that follow the words just typed in the phrases of the grammar, and the plants."""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter
from collections.abc import Iterator
from functools import lru_cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from assistant.cautions.plants import PlantList

MOST = 60
FIGURE = "<>"
PLANT = "@"


LAST = "\U0010ffff"  # sorts behind every letter


@lru_cache(maxsize=1)
def _followers() -> dict[str, tuple[tuple[str, ...], bool]]:
    """Word (or `<>` for any figure) → what follows it in the phrases, said by most phrases first, and whether a plant may."""
    return {
        word: (tuple(w for w, _ in sorted(counted.items(), key=lambda item: (-item[1], item[0])) if w != PLANT), PLANT in counted)
        for word, counted in _counted().items()
    }


def _counted() -> dict[str, Counter[str]]:
    """Word (or `<>` for any figure, `@` for a plant) → what follows it in the phrases, with how many phrases say so."""
    from assistant.listening.phrases import phrase_book

    book = phrase_book()
    followers: dict[str, Counter[str]] = {}
    for phrase in book.phrases:
        previous: tuple[str, ...] = ()
        for element in phrase.source.split():
            if element in ("(", "|", ")", ")?", ")*", ")+", "..", "...", "~", "ASKEND", "WORD"):
                continue
            here = tuple(_words_of(element, book.classes))
            for before in previous:
                followers.setdefault(before, Counter()).update(w for w in here if w not in (FIGURE, PLANT))
                if PLANT in here:
                    followers.setdefault(before, Counter())[PLANT] += 1
            previous = here
    return followers


def _words_of(element: str, classes: dict[str, frozenset[str]]) -> Iterator[str]:
    core = element[:-1] if element.endswith("?") and len(element) > 1 else element
    if core.startswith("<"):
        yield FIGURE
        return
    for option in core.split("/"):
        if option == "PLANT":
            yield PLANT
        elif option.isupper() and option in classes:
            yield from (w.replace("_", " ") for w in classes[option])
        elif option.isalpha():
            yield option


def _plants() -> tuple[str, ...]:
    from assistant.cautions.plants import plants

    return _names(plants())


@lru_cache(maxsize=4)
def _names(known: PlantList) -> tuple[str, ...]:
    return known.names()


@lru_cache(maxsize=1)
def _all_words() -> tuple[str, ...]:
    from assistant.listening.phrases import phrase_book
    from assistant.quantities.vocabulary import VOCABULARY

    words = {w for w in phrase_book().words if len(w) > 2} | {q.caption for q in VOCABULARY.values()}
    return tuple(sorted(words))


def next_words(text: str) -> list[str]:
    """What may come next after `text`, likeliest first: followers in the phrases, then plants, then any word of the bench.

    A half-typed last word narrows the choice; behind a space the followers of the last word are offered.
    """
    words = text.lower().split()
    half = words.pop() if words and not text[-1:].isspace() else ""
    before = words[-1].strip(",.;?!") if words else ""
    if before and (before[0].isdigit() or before in ("g", "ml", "oz", "%", "percent")):
        before = FIGURE
    followers, plant_follows = _followers().get(before, ((), False))
    likely = [w for w in followers if w.startswith(half)]
    begun = tuple(" ".join([*words[-k:], half]).strip() if k else half for k in range(min(2, len(words)) + 1))
    names = [n for n in _plants() if n.startswith(begun)] if half or plant_follows else []
    known = _all_words()
    rest = known[bisect_left(known, half) : bisect_left(known, half + LAST)] if half else ()
    return list(dict.fromkeys([*likely[:20], *names[:20], *rest]))[:MOST]
