"""By which words a person means a plan or a figure: "the willow" is the willow bark, "the spirit" is the stock."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache

from assistant.cautions.plants import PlantList, plants
from assistant.quantities.vocabulary import VOCABULARY, about, base

WORD = re.compile(r"[^\W\d_]+(?:-[^\W\d_]+)*")
# What people call a figure beyond the vocabulary's own words.
CALLED = {
    "herb": "weight herb plant grams scale scales material", "menstruum": "volume liquid pour menstruum ml millilitres", "ratio": "ratio proportion",
    "strength": "strength percent percentage abv pour poured", "stock": "spirit stock alcohol", "stock_strength": "stock", "water": "water",
    "water_content": "water moisture wet", "finished_strength": "finish finishes finished final ends",
    "in_jar": "jar", "pressed": "pressed press pressing yield", "dried": "dry dried dries", "to_gather": "pick gather picked",
}  # fmt: skip
IDLE = frozenset("of the a an to in and as at by for on per it its is with from".split())


@lru_cache(maxsize=512)
def words_of(name: str) -> frozenset[str]:
    """The words by which a quantity goes."""
    words = set(CALLED.get(name, "").split())
    if name in VOCABULARY:
        for phrase in (VOCABULARY[name].caption, *VOCABULARY[name].spoken):
            words |= set(WORD.findall(phrase.lower()))
    return frozenset(words - IDLE)


def how_named(key: str, text: str) -> int:
    """How many of a figure's words stand in a text; its ingredient's name counts most."""
    said = {w.lower() for w in WORD.findall(text)}
    score = len(said & words_of(base(key)))
    return score + (4 if about(key) and set(about(key).lower().split()) & said else 0)


def same_plant(one: str, other: str) -> bool:
    """Whether two names are the same plant's: the same words, one a part of the other, or two names of one entry."""
    return _same_plant(one.lower(), other.lower(), plants())


@lru_cache(maxsize=1024)
def _same_plant(a: str, b: str, known: PlantList) -> bool:
    if not a or not b:
        return False
    if a == b:
        return True
    first, second = set(a.split()), set(b.split())
    if first <= second or second <= first:
        return True
    hit, hat = known.called(a), known.called(b)
    return hit is not None and hat is not None and hit.plant is not None and hit.plant == hat.plant and getattr(hit.plant, "is_known", False)


def settled(said: tuple[str, ...], named: Iterable[str]) -> tuple[str, ...]:
    """The plants of a batch once a shared name among them was told: "snakeroot", then "black cohosh"."""
    chosen = list(said)
    for place, name in enumerate(chosen):
        shared = plants().called(name)
        if shared is None or not shared.question:
            continue
        for other in named:
            hit = plants().called(other)
            if hit is not None and hit.plant is not None and hit.plant.latin in {p.latin for p in shared.plants}:
                chosen[place] = other
    return tuple(chosen)
