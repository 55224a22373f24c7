"""A sentence as a row of items: words, and the islands among them that say how much.

    read("85g nettle, 1:2 at sixty percent", Habits()).items

Every item is frozen and knows its span; what depends on the person's habits is worked out here, in bench units.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from assistant.dataclass import dataclass, replace
from assistant.listening.counts import Counting, Measuring
from assistant.listening.items import Item
from assistant.listening.kept_tables import bench_tables
from assistant.listening.shapes import Around, meaning_of, mentions
from assistant.listening.slackening import either_way, slacken
from assistant.listening.tokens import Token
from assistant.listening.walking import END, Callbacks, Node, Tables, Walk
from assistant.listening.words import Habits, read_words

__all__ = ["Habits", "Heard", "Item", "read"]

MAX_ISLAND = 120  # words: the parts of forty ingredients; what is longer must not make the reading slow


@dataclass(frozen=True, slots=True)
class Heard:
    """A sentence read: its items in order, and a note on each word that was read as another ("metruum → menstruum").

    measures    the country named beside a unit ("imperial pint"), worth keeping for the sentences to come; or ""
    """

    items: tuple[Item, ...]
    notes: tuple[str, ...]
    measures: str = ""


def read(sentence: str, habits: Habits = Habits()) -> Heard:  # noqa: B008  (frozen)
    """Read a sentence into items; any text at all has a reading, and every number in it lies in exactly one item."""
    tokens, notes = read_words(sentence, habits)
    items: list[Item] = []
    first_words, said = _tables().first_words, mentions(tokens)
    at, ended = 0, -2  # ended: where the tokens of the last island stop
    while at < len(tokens):
        token = tokens[at]
        found = _island(Around(tokens, at, at, items, habits, said), sentence) if token.type in first_words else None
        if found is None:
            items.append(_plain(token, sentence))
            at += 1
            continue
        item, after = found
        joined = _compound(items, item, ended == at) if ended == at or (ended == at - 1 and tokens[ended].type == "AND") else None
        if joined is not None:
            del items[-1 if ended == at else -2 :]
            items.append(replace(joined, text=sentence[joined.start : joined.end]))
        elif item.kind == "slack":
            slacken(items, item, sentence, ended == at)
        else:
            items.append(item)
        at = ended = after
    return Heard(tuple(either_way(items)), tuple(notes), said.measures)


# --- the grammar, set on a stretch of words -----------------------------------------------------------------------------


def _trees(tokens: list[Token], at: int, limit: int) -> Iterator[tuple[int, Node]]:
    """The islands that begin at `at`, longest first: how many tokens each takes, and its tree."""
    walk = _tables().walk()
    whole: list[tuple[int, Walk]] = []  # where an island may end, and the walk as it stood there
    for size, token in enumerate(tokens[at : at + limit], 1):
        if not walk.may_take(token.type) or not walk.take(token):
            break
        if walk.may_take(END):
            whole.append((size, walk.copy()))
    for size, walked in reversed(whole):
        tree = walked.finish()
        if tree is not None:
            yield size, tree


@cache
def _tables() -> Tables:
    """bench.lark, with what its numbers and units come to."""
    return bench_tables(callbacks())


def callbacks() -> Callbacks:
    """What is made of each named alternative that is not left to the shapes."""
    own = {name: getattr(Measuring, name) for name in vars(Measuring) if not name.startswith("_")}
    return own | {f"numbers__{name}": getattr(Counting, name) for name in vars(Counting) if not name.startswith("_")}


def _island(around: Around, sentence: str) -> tuple[Item, int] | None:
    """The longest island that begins at `around.at` and makes sense where it stands, and the token behind it."""
    tokens, at = around.tokens, around.at
    for size, tree in _trees(tokens, at, MAX_ISLAND):
        around.end = at + size
        meaning = meaning_of(tree.data, tree.children, around)
        if meaning is not None:
            start, end = tokens[at].start, tokens[at + size - 1].end
            return Item(text=sentence[start:end], start=start, end=end, **meaning), at + size
    return None


# --- what no island holds ---------------------------------------------------------------------------------------------------

_SIGN_NAMES = {"°": "degrees", "º": "degrees", "˚": "degrees"}


def _plain(token: Token, sentence: str) -> Item:
    text = sentence[token.start : token.end]
    kind = token.type
    if kind in ("PUNCT", "COLON", "SLASH"):
        return Item("punct", text, token.start, token.end, token.word)
    if kind in ("DASH", "SIGNED", "JOINED"):
        return Item("punct", text, token.start, token.end, ",")
    if kind in ("N", "FRACTION", "EACHES"):
        # the grammar takes every number by itself; were that ever to fail, the number is still handed on
        said_unit = {"EACHES": "each", "FRACTION": "share"}.get(kind, "")
        return Item("number", text, token.start, token.end, value=token.value, said=token.value, said_unit=said_unit)
    word = "percent" if kind == "PERCENT" else _SIGN_NAMES.get(token.word, token.word.replace("_", " "))
    if token.unit is not None and kind != "HOURS":
        return Item("word", text, token.start, token.end, word, unit=token.unit.bench, said_unit=token.unit.shown)
    return Item("word", text, token.start, token.end, word)


# --- islands that belong together ---------------------------------------------------------------------------------------------

_SMALLER = {
    "stone": ("lb",), "lb": ("oz",), "kg": ("g",), "L": ("mL", "dL", "cL"), "gal": ("qt", "pint", "L"), "qt": ("pint", "cup", "fl oz", "oz"),
    "pint": ("fl oz", "oz"), "cup": ("tbsp", "fl oz", "oz"), "tbsp": ("tsp",), "year": ("month",), "month": ("week", "day"), "week": ("day",),
    "hour": ("minute",), "minute": ("second",),
}  # fmt: skip
_JOINED_BY_AND = frozenset({"stone", "lb", "gal", "qt", "pint", "cup", "tbsp", "year", "month", "week", "hour"})


def _compound(items: list[Item], item: Item, adjoins: bool) -> Item | None:
    """ "2 lb" and "3 oz" behind it are one amount; "1 kg" and "2 kg" are two."""
    before = items[-1] if adjoins else items[-2]
    if not adjoins and before.said_unit not in _JOINED_BY_AND:
        return None
    if before.kind != item.kind or before.kind not in ("amount", "time") or item.said_unit not in _SMALLER.get(before.said_unit, ()):
        return None
    if before.low is not None or item.low is not None or before.said is None or before.said % 1 or item.value is None or before.value is None:
        return None
    one = before.value / before.said if before.said else 0
    value = item.alt if item.said_unit == "oz" and before.unit == "mL" else item.value
    if not 0 <= value < abs(one):
        return None
    return replace(before, end=item.end, value=before.value + value, slack=item.slack, alt=None, said=before.said + value / one)
