# ruff: noqa: ARG001  (every shape is called with both, whether it needs them or not)
"""Strengths: percent, proof of either country, degrees Brix; all as the percent number."""

from __future__ import annotations

from typing import Any

from assistant.listening.counts import Count, system_of
from assistant.listening.shapes.around import UK_WORDS, Around, Meaning
from assistant.listening.tokens import cap

UK_PROOF = 0.5715  # 100° proof is 57.15 % by volume
US_PROOF = 0.5  # twice the percent
_MOVING = frozenset(
    "cut bring brings take takes took lift lifts lifted raise raised dilute diluted drop dropped water lower lowered thin thinned "
    "stretch bump get got turn make go went change changed reduce reduced boil boiled from down up move".split()
)
_US_WORDS = frozenset("american america us usa".split())


def _strength(count: Count, kind: str, said_unit: str, factor: float = 1.0) -> Meaning:
    meaning: Meaning = {
        "kind": kind, "value": cap(count.value * factor), "unit": "percent", "said_unit": said_unit, "said": count.value, "slack": count.slack * factor,
    }  # fmt: skip
    if count.low is not None and count.high is not None:
        meaning["low"], meaning["high"] = count.low * factor, count.high * factor
    return meaning


def _is_strength_range(count: Count, around: Around) -> bool:
    """ "75 to 85 %", but not "take it from 40 to 55 %"."""
    return not (count.form == "to" and around.words_before(4) & _MOVING)


def percent(children: list[Any], around: Around) -> Meaning | None:
    count: Count = children[0]
    return _strength(count, "percent", "%") if _is_strength_range(count, around) else None


def share_percent(children: list[Any], around: Around) -> Meaning:
    return _strength(children[0], "percent", "%")


def abv(children: list[Any], around: Around) -> Meaning | None:
    return _strength(children[0], "percent", "abv") if _is_strength_range(children[0], around) else None


def brix(children: list[Any], around: Around) -> Meaning | None:
    return _strength(children[0], "percent", "Bx") if _is_strength_range(children[0], around) else None


def percents_between(children: list[Any], around: Around) -> Meaning | None:
    low, high = (child for child in children if isinstance(child, Count))
    if low.value >= high.value:
        return None
    return _strength(Count((low.value + high.value) / 2, high.slack, low=low.value, high=high.value, form="-"), "percent", "%")


def proof(children: list[Any], around: Around) -> Meaning | None:
    """Twice the percent (US), or the degrees of the old British proof, by the country named with it, behind it, or the sign."""
    count: Count = children[0]
    if not _is_strength_range(count, around):
        return None
    kinds = {child.type: child for child in children[1:]}
    british = system_of(kinds["SYSTEM"]) == "imperial" if "SYSTEM" in kinds else _proof_is_british("DEGREE" in kinds, around)
    factor, other, name = (UK_PROOF, US_PROOF, "UK proof") if british else (US_PROOF, UK_PROOF, "US proof")
    return {**_strength(count, "proof", name, factor), "alt": cap(count.value * other)}


def proof_before(children: list[Any], around: Around) -> Meaning | None:
    """The country and the word before the figure: "uk proof 70"."""
    system, _, count = children
    return proof([count, system], around)


def _proof_is_british(degrees: bool, around: Around) -> bool:
    for token in around.tokens[around.end : around.end + 5]:
        if token.type == "N":
            break
        if token.word in UK_WORDS or token.word in _US_WORDS:
            return token.word in UK_WORDS
    # the degree sign before "proof" is the old British way of writing it
    return around.mentions.british or (degrees and not any(token.type == "SYSTEM" and system_of(token) == "us" for token in around.tokens))
