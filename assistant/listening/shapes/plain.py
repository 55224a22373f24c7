# ruff: noqa: ARG001  (every shape is called with both, whether it needs them or not)
"""Bare numbers: counts, shares ("half of", "a third"), multiples ("1.5x", "twice"), sizes ("fifties"), dates."""

from __future__ import annotations

from typing import Any

from assistant.listening.counts import Count
from assistant.listening.shapes.around import BEFORE_PRONOUN, COUNTABLE_ONE, TAILS, VESSELS, Around, Meaning, is_either, number_meaning
from assistant.listening.shapes.ratios import ratio_meaning
from assistant.listening.tokens import NUMERIC, Token
from assistant.listening.words import MONTHS

_AFTER_PRONOUN = frozenset("is was are were who that which i we you comes goes has had does did will would should can i'm".split())
_LOST = frozenset("lose loses losing lost off minus waste wastes".split())  # "lose a tenth pressing it" is a share, "a third pressing" one more
_FULL = frozenset("full of the that this it way".split())


def bare(children: list[Any], around: Around) -> Meaning | None:
    count: Count = children[0]
    first = around.tokens[around.at]
    if around.end - around.at == 1:
        if first.type == "DIGIT" and first.word == "one" and _is_pronoun(around):
            return {"kind": "word", "word": "one"}
        if first.word == "pair":
            return None
    elif around.tokens[around.end - 1].word == "one" and around.kind_after() in ("TO", "COLON", "PART") and _starts_number(around):
        return None  # "at sixty one to five": the one belongs to the ratio
    if count.spoken and around.kind_after() == "UNIT" and around.after(1) in VESSELS:
        return None  # "six fifty ml bottles" are six of 50 mL
    if count.share == "fraction":
        over, under = _sides(first.text)
        if over + under == 100:
            return {"kind": "parts_list", "alt": (over, under)}  # 50/50
        if over == 1 and ("ratio" in around.words_before(3) or around.after() in ("ratio", "tincture", "extract")):
            return ratio_meaning(over, under)
    if count.share:
        if count.share == "quarter" and around.after() not in _FULL and not _goes_on_sharing(first, around):
            return None  # "the third jar", "quarter it"
        if count.share == "a quarter" and first.type == "A" and around.after() in COUNTABLE_ONE and around.before() not in _LOST:
            return None  # "a third jar" is one more
        return number_meaning(count, said_unit="share")
    if _is_year(count, around):
        return {"kind": "time", "value": count.value, "said": count.value}
    if around.kind_after() == "WORD" and around.after() in ("am", "pm", "o'clock"):
        return {"kind": "time", "value": count.value, "said": count.value}
    return number_meaning(count)


def _goes_on_sharing(first: Token, around: Around) -> bool:
    """ "Half oats quarter hops quarter valerian": a quarter of the whole, where a share of it was told before."""
    told = any(i.kind == "number" and i.said_unit == "share" for i in around.items)
    return told and first.word == "quarter" and around.kind_after() == "WORD" and around.after() not in ("it", "them", "that", "this", "the")


def _starts_number(around: Around) -> bool:
    behind = around.kind_after(1)
    return behind in NUMERIC or (behind == "TO" and around.kind_after(2) in NUMERIC)


def _sides(text: str) -> tuple[float, float]:
    """1/5 → 1 and 5; 0 and 0 for a sign like ½."""
    over, slash, under = text.replace("⁄", "/").partition("/")
    return (float(over), float(under)) if slash else (0.0, 0.0)


def _is_pronoun(around: Around) -> bool:
    """ "fix that one", "a 60 % one"; but "one chamomile", "just one"."""
    if around.before() in BEFORE_PRONOUN:
        return True
    if around.after() in _AFTER_PRONOUN and not around.adjoins_figure():
        return True
    return around.adjoins_figure() and around.kind_after() not in TAILS and around.items[-1].kind in ("percent", "ratio", "amount", "proof", "number")


_SEASONS = frozenset("spring summer autumn fall winter season harvest since year years".split())


def _is_year(count: Count, around: Around) -> bool:
    """A year: "since 2023", "autumn 2024". A day and a month are one word already (words.py)."""
    if count.value % 1 or around.end - around.at != 1 or around.tokens[around.at].type != "N" or around.kind_after() in TAILS:
        return False
    return 1900 <= count.value <= 2100 and (around.before() in MONTHS or around.before() in _SEASONS)


def bare_range(children: list[Any], around: Around) -> Meaning | None:
    count: Count = children[0]
    assert count.low is not None
    assert count.high is not None
    if count.form == "-":
        if "ratio" in around.words_before(3) or (count.low == 1 and around.after() in ("ratio", "tincture", "extract")):
            return ratio_meaning(count.low, count.high)
        if count.low >= count.high or count.low < 0:
            # 24-07 is a mark, 500 - 50 a subtraction
            return {"kind": "label"} if around.end - around.at == 3 and not around.has_gaps() else None
    elif count.form == "or" and not is_either(count):
        return None
    return number_meaning(count) if count.low < count.high else None


def times(children: list[Any], around: Around) -> Meaning:
    return number_meaning(children[0], said_unit="times")


def times_after(children: list[Any], around: Around) -> Meaning | None:
    if around.kind_after() in TAILS:
        return None  # "5 mL x 14 days"
    return number_meaning(children[1], said_unit="times")


def multiple(children: list[Token], around: Around) -> Meaning | None:
    token = children[0]
    if token.word == "once":
        return None  # "once it is strained"
    return {"kind": "number", "value": token.value, "said_unit": "times", "said": token.value}


def sizes(children: list[Token], around: Around) -> Meaning:
    value = children[0].value
    return {"kind": "number", "value": value, "said_unit": "each", "said": value}
