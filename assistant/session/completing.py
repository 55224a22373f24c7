"""Words that may come next: those that follow the words just typed in the phrases of the grammar, and the plants."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from functools import lru_cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from assistant.cautions.plants import PlantList

MOST = 60
FIGURE = "<>"
PLANT = "@"


@lru_cache(maxsize=1)
def _followers() -> dict[str, Counter[str]]:
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
    counted = _followers().get(before, Counter())
    likely = [w for w, _ in sorted(counted.items(), key=lambda item: (-item[1], item[0])) if w != PLANT and w.startswith(half)]
    names = (
        [n for n in _plants() if any(n.startswith(" ".join([*words[-k:], half]).strip() if k else half) for k in range(min(2, len(words)) + 1))]
        if half or PLANT in counted
        else []
    )
    rest = [w for w in _all_words() if half and w.startswith(half)]
    return list(dict.fromkeys([*likely[:20], *names[:20], *rest]))[:MOST]
