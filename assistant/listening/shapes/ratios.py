# ruff: noqa: ARG001  (every shape is called with both, whether it needs them or not)
"""Ratios 1:R and 3:2:1, and parts."""

from __future__ import annotations

from typing import Any

from assistant.listening.counts import Count
from assistant.listening.shapes.around import BEFORE_PRONOUN, COUNTED_THINGS, HIGHEST_LEFT, TAILS, Around, Meaning, number_meaning
from assistant.listening.tokens import Token, cap

_RATIO_CUES = frozenset("ratio at parts proportion proportions wax".split())


def ratio_meaning(*terms: float) -> Meaning:
    if len(terms) > 2:
        return {"kind": "parts_list", "alt": terms}
    left, right = terms
    return {"kind": "ratio", "value": cap(right / left) if left else None, "unit": "1", "alt": terms, "said": right}


def ratio(children: list[Any], around: Around) -> Meaning | None:
    counts = [child.value for child in children if isinstance(child, Count)]
    colon: Token = children[1]
    behind = around.tokens[around.at + 2] if colon is around.tokens[around.at + 1] else colon
    tight = around.tokens[around.at].end == colon.start and behind.start == colon.end
    if around.kind_after() == "PERCENT" or (not tight and around.kind_after() in TAILS):
        return None  # "Question 1: 5 g of …"
    if around.after() in ("am", "pm", "o'clock") and len(counts) == 2:
        return {"kind": "time"}
    if sum(counts) == 100:
        return {"kind": "parts_list", "alt": tuple(counts)}  # 50:50
    return ratio_meaning(*counts)


def ratio_to(children: list[Any], around: Around) -> Meaning | None:
    pair: Count = children[0]
    assert pair.low is not None
    assert pair.high is not None
    left, right = pair.low, pair.high
    if left > HIGHEST_LEFT or left < 0 or around.kind_after() in TAILS or (around.before() == "from" and around.before(2) not in ("ratio", "ratios")):
        return None
    cued = bool(around.words_before(3) & _RATIO_CUES) or around.after() == "ratio" or "to" in (around.after(1), around.after(2), around.after(3))
    if not cued and left < right and (around.after() in COUNTED_THINGS or (left >= 2 and right < 2 * left)):
        return number_meaning(pair)  # "8 to 10 plants"
    return ratio_meaning(left, right)


def ratio_to_more(children: list[Any], around: Around) -> Meaning | None:
    if around.kind_after() in TAILS or around.before() == "from":
        return None
    pair: Count = children[0]
    assert pair.low is not None
    assert pair.high is not None
    return ratio_meaning(pair.low, pair.high, *(child.value for child in children[1:] if isinstance(child, Count)))


def ratio_in(children: list[Any], around: Around) -> Meaning | None:
    """ "a ratio of 1 in 5"; never where "in" is followed by a strength or a vessel."""
    left, right = children[0].value, children[2].value
    if left != 1 or right > HIGHEST_LEFT or around.kind_after() in TAILS or around.after() in COUNTED_THINGS or around.before() in BEFORE_PRONOUN:
        return None
    return ratio_meaning(left, right)


def ratio_parts(children: list[Any], around: Around) -> Meaning | None:
    left, right = (child.value for child in children if isinstance(child, Count))
    return None if around.kind_after() in TAILS else ratio_meaning(left, right)


def ratio_one_part(children: list[Any], around: Around) -> Meaning | None:
    return None if around.kind_after() in TAILS else ratio_meaning(1.0, children[3].value)


def parts(children: list[Any], around: Around) -> Meaning:
    count: Count = next(child for child in children if isinstance(child, Count))
    return {**number_meaning(count), "kind": "parts", "said_unit": "part"}


def one_part(children: list[Any], around: Around) -> Meaning:
    return {**number_meaning(Count(1)), "kind": "parts", "said_unit": "part"}


def parts_and_share(children: list[Any], around: Around) -> Meaning:
    return {**number_meaning(Count(children[0].value + children[3].value)), "kind": "parts", "said_unit": "part"}


def one_part_and_share(children: list[Any], around: Around) -> Meaning:
    return {**number_meaning(Count(1 + children[3].value)), "kind": "parts", "said_unit": "part"}
