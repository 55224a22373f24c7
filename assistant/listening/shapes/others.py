# ruff: noqa: ARG001  (every shape is called with both, whether it needs them or not)
"""Temperature, money, the slack of a figure, and numbers that only point at something."""

from __future__ import annotations

from typing import Any

from assistant.listening.counts import Count
from assistant.listening.shapes.amounts import amount_meaning
from assistant.listening.shapes.around import TAILS, Around, Meaning, number_meaning
from assistant.listening.tokens import NUMERIC, Token, cap

HIGHEST_BATCH = 20


def degrees(children: list[Any], around: Around) -> Meaning:
    return number_meaning(children[0], said_unit="degrees")


def _warmth(count: Count, said_unit: str, factor: float, shift: float) -> Meaning:
    def celsius_of(value: float) -> float:
        return (value - shift) * factor

    meaning: Meaning = {
        "kind": "temperature",
        "value": cap(celsius_of(count.value)),
        "unit": "degC",
        "said_unit": said_unit,
        "said": count.value,
        "slack": count.slack * factor,
    }
    if count.low is not None and count.high is not None:
        meaning["low"], meaning["high"] = celsius_of(count.low), celsius_of(count.high)
    return meaning


def celsius(children: list[Any], around: Around) -> Meaning:
    return _warmth(children[0], "°C", 1.0, 0.0)


def fahrenheit(children: list[Any], around: Around) -> Meaning:
    return _warmth(children[0], "°F", 5 / 9, 32.0)


def money(children: list[Any], around: Around) -> Meaning:
    count = next(child for child in children if isinstance(child, Count))
    word = next((child for child in children if isinstance(child, Token) and child.type == "MONEY"), None)
    sign = next((child for child in children if isinstance(child, Token) and child.type == "CURRENCY"), None)
    factor = word.value if word is not None and sign is None else 1.0
    said_unit = sign.word if sign is not None else word.word if word is not None else ""
    return {"kind": "money", "value": cap(count.value * factor), "unit": "1", "said_unit": said_unit, "said": count.value, "slack": count.slack * factor}


def slack(children: list[Any], around: Around) -> Meaning:
    return {"kind": "slack", "value": children[1].value, "said": children[1].value}


def slack_amount(children: list[Any], around: Around) -> Meaning:
    return {**amount_meaning(children[1], children[2], around), "kind": "slack", "alt": None}


def slack_percent(children: list[Any], around: Around) -> Meaning:
    return {"kind": "slack", "value": children[1].value, "unit": "percent", "said_unit": "%", "said": children[1].value}


# --- what only points ---


def label(children: list[Any], around: Around) -> Meaning | None:
    first, last = children[0], children[-1]
    if around.kind_after() in TAILS:
        return None
    if isinstance(last, Token):  # a code: 24-07-B, 12th, 2024-05-03
        if last.word == "ordinal":
            return {"kind": "label", "word": "ordinal", "value": last.value}
        if last.word == "date" or _looks_like_date(last.text):
            return {"kind": "time"}
        return {"kind": "label", "word": first.word if first is not last else ""}
    return _pointer(first, last, around)


def batch(children: list[Any], around: Around) -> Meaning | None:
    first, count = children[0], children[-1]
    if around.kind_after() in TAILS or count.value > HIGHEST_BATCH:
        return None
    return _pointer(first, count, around)


def _pointer(first: Token, count: Count, around: Around) -> Meaning | None:
    if count.low is None and (count.value % 1 or count.value < 0 or count.share):
        return None
    follows = around.kind_after()
    if follows in ("COLON", "SLASH", "TO", "IN") and around.kind_after(1) in NUMERIC:
        behind, colon = around.tokens[around.end + 1], around.tokens[around.end]
        if follows != "COLON" or behind.start == colon.end:
            return None  # "batch 1:2"
    return {"kind": "label", "word": first.word, "value": count.value if count.low is None else None}


def _looks_like_date(text: str) -> bool:
    pieces = [int(piece) for piece in text.replace("/", "-").replace(".", "-").split("-") if len(piece) <= 4 and piece.isdecimal()]
    if len(pieces) != 3 or len(pieces) != len(text.replace("/", "-").replace(".", "-").split("-")):
        return False
    if pieces[0] > 31:
        return 1 <= pieces[1] <= 12 and 1 <= pieces[2] <= 31
    return 1 <= pieces[0] <= 31 and 1 <= pieces[1] <= 31 and (pieces[2] > 31 or len(text.replace("-", "").replace(".", "").replace("/", "")) >= 6)
