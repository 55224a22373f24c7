"""A problem put as a plain list: "Given: plant weight 112 g; ratio 1:2. Find: menstruum."

Every quantity of the vocabulary can be put so, by its caption, with the ingredient before it where it has one. The relations that
hold between just the quantities named are the ones meant.
"""

from __future__ import annotations

import re
from functools import lru_cache

from assistant.dataclass import dataclass
from assistant.patterns import looked_for
from assistant.quantities.showing import SIGNS
from assistant.quantities.vocabulary import VOCABULARY, about, base, key_for
from assistant.relations import RELATIONS
from assistant.session.batch import Batch, Fact
from assistant.session.merging import Merged
from assistant.solving.expression import read_equation

LIST = looked_for(
    r"\s*given\s*(?:\(([a-z, ]+)\))?:?\s+(.+?)\.?\s+(?:find|sought|what is the|what are the):?\s+(.+?)\s*[.?]?\s*", re.IGNORECASE | re.DOTALL
)
FIGURE = looked_for(r"(?:1:)?(-?\d+(?:\.\d+)?)(?::1)?\s*(%|g/mL|mL/g|mL|g|drops?|days?|°C|°Bx)?", re.IGNORECASE)
TAGS = frozenset(tag.removeprefix("!") for r in RELATIONS for tag in r.when)
STATES = frozenset({"fresh", "dried", "neat", "by_weight", "double"})


@dataclass(frozen=True, slots=True)
class Givens:
    """What was given, (key, value, start, end), and what is sought."""

    figures: tuple[tuple[str, float, int, int], ...]
    sought: str
    tags: frozenset[str] = frozenset()


@lru_cache(maxsize=1)
def _captions() -> tuple[tuple[str, str], ...]:
    """Captions with their quantity, the longest first."""
    pairs = ((" " + q.caption.lower(), name) for name, q in VOCABULARY.items())
    return tuple(sorted(pairs, key=lambda pair: -len(pair[0])))


def named(text: str) -> tuple[str, ...]:
    """The keys a caption may stand for; "thyme volume" is that of the thyme."""
    words = " ".join(text.lower().split())
    return _ending(f" {words}") or _ending(f" {words.removeprefix('the ')}")


def _ending(spoken: str) -> tuple[str, ...]:
    found: list[str] = []
    longest = 0
    for caption, name in _captions():
        if not spoken.endswith(caption) or len(caption) < longest:
            continue
        member = spoken[: -len(caption)].strip()
        if bool(member) == VOCABULARY[name].indexed:
            found.append(key_for(name, member))
            longest = len(caption)
    return tuple(found)


def read_givens(text: str) -> Givens | None:
    """The list in a sentence, None where it is none or a piece of it is not understood."""
    whole = LIST.fullmatch(text)
    if whole is None:
        return None
    options: list[tuple[tuple[str, ...], float, int, int]] = []
    at = whole.start(2)
    for piece in whole[2].split(";"):
        figure = next(reversed(list(FIGURE.finditer(piece))), None)  # the last figure of a piece is its value
        keys = named(piece[: figure.start()].strip(" :=,")) if figure is not None else ()
        if figure is None or piece[figure.end() :].strip(" .") or not keys:
            return None
        fitting = tuple(k for k in keys if _fits(k, figure[2] or ""))
        if not fitting:
            return None
        options.append((fitting, float(figure[1]), at + figure.start(), at + figure.end()))
        at += len(piece) + 1
    sought = named(whole[3])
    if not sought:
        return None
    said = frozenset(tag.strip().replace(" ", "_") for tag in (whole[1] or "").lower().split(","))
    if whole[1] and not said <= TAGS:
        return None
    return _settled(options, sought, said - {""})


def _fits(key: str, unit: str) -> bool:
    own = SIGNS.get(VOCABULARY[base(key)].unit, "").strip()
    spoken = unit.lower().rstrip("s")
    return spoken == own.lower().rstrip("s") or (spoken == "°bx" and own == "%")


def _settled(options: list[tuple[tuple[str, ...], float, int, int]], sought: tuple[str, ...], tags: frozenset[str]) -> Givens:
    """Two quantities may share a caption: those that stand together in one relation are meant."""
    groups = [frozenset(n.name for n in read_equation(r.equation).names) for r in RELATIONS]

    def fit(key: str, others: set[str]) -> int:
        return max((len(group & others) for group in groups if base(key) in group), default=0)

    every = {base(k) for keys, *_ in options for k in keys} | {base(k) for k in sought}
    chosen = tuple((max(keys, key=lambda k: fit(k, every)), value, start, end) for keys, value, start, end in options)
    given = {key for key, *_ in chosen}
    return Givens(chosen, max(sought, key=lambda k: (k not in given, fit(k, every))), tags)


def merged_from(givens: Givens, turn: int) -> Merged:
    """The list as a batch of its own; the tags of the relations meant are its frames."""
    keys = [key for key, *_ in givens.figures]
    tags = givens.tags or _tags_meant({base(k) for k in (*keys, givens.sought)}, base(givens.sought))
    facts = {key: Fact(value, "said", turn) for key, value, *_ in givens.figures}
    members = tuple(dict.fromkeys(about(k) for k in (*keys, givens.sought) if about(k)))
    batch = Batch(frames=tags - STATES, tags=tags & STATES, members=members, wanted=(givens.sought,)).having(facts=facts)
    return Merged(batch, used=[(start, end, base(key)) for key, _, start, end in givens.figures], new_keys=set(keys), asked=(givens.sought,))


def _tags_meant(mentioned: set[str], sought: str) -> frozenset[str]:
    """Where no kind of work was named: that of the relation between just the quantities mentioned."""
    groups = [(r, {n.name for n in read_equation(r.equation).names}) for r in RELATIONS]
    meant = [r for r, names in groups if names == mentioned] or [r for r, names in groups if sought in names and names <= mentioned]
    return frozenset(tag for r in meant[:1] for tag in r.when if not tag.startswith("!"))
