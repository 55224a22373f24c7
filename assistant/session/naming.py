"""By which words a person means a plan or a figure: "the willow" is the willow bark, "the spirit" is the stock."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

from assistant.cautions.plant import Plant
from assistant.cautions.plants import PlantList, plants
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import VOCABULARY, about, base

WORD = looked_for(r"[^\W\d_]+(?:-[^\W\d_]+)*")
# What people call a figure beyond the vocabulary's own words.
CALLED = {
    "herb": "weight herb plant grams scale scales material", "menstruum": "volume liquid pour menstruum ml millilitres", "ratio": "ratio proportion",
    "strength": "strength percent percentage abv pour poured", "stock": "spirit stock alcohol vodka brandy rum everclear",
    "stock_strength": "stock", "water": "water",
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
    known = plants()
    return alike(meant(one.lower(), known), meant(other.lower(), known))


Meant = tuple[str, frozenset[str], Plant | None]  # the name in lower case, its words, the plant it is an entry of


@lru_cache(maxsize=4096)
def meant(name: str, known: PlantList) -> Meant:
    """What a name in lower case means, to be compared with another."""
    hit = known.called(name)
    plant = hit.plant if hit is not None else None
    return name, frozenset(name.split()), plant if plant is not None and plant.is_known else None


def alike(one: Meant, other: Meant) -> bool:
    """Whether two names may mean the same plant: their words, or those of one among those of the other, or one entry of the list."""
    if not one[0] or not other[0]:
        return False
    return one[1] <= other[1] or other[1] <= one[1] or (one[2] is not None and one[2] == other[2])


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
