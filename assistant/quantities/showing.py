"""Figures as the bench shows them: rounded to what can be read off a scale or a jug, with their unit.

Ground for whatever tells a figure to a person: the session's answers and the teaching alike.
"""

from __future__ import annotations

from datetime import date
from functools import lru_cache

from assistant.quantities.vocabulary import VOCABULARY, about, base
from assistant.quantities.working_year import DATES, MONTHS

SIGNS = {"percent": " %", "g": " g", "mL": " mL", "g/mL": " g/mL", "mL/g": " mL/g", "drop": " drops", "day": " days", "1": "", "degC": " °C"}

MONTH_NAMES = "January February March April May June July August September October November December".split()


def in_words(day: float) -> str:
    """A day of the calendar as a label shows it.

    >>> in_words(741605)
    '12 June 2031'
    >>> in_words(-3)
    'no day of the calendar'
    """
    if not 1 <= round(day) <= date.max.toordinal():
        return "no day of the calendar"
    when = date.fromordinal(round(day))
    return f"{when.day} {MONTH_NAMES[when.month - 1]} {when.year}"


def plural(value: float, word: str) -> str:
    return word if round(value, 6) == 1 else word + "s"


def number(value: float, unit: str) -> str:
    """A value rounded to what the bench can read: whole units from 100 up, tenths from 10, hundredths below."""
    if unit == "day" or (unit == "1" and value == int(value)):
        whole = f"{value:.0f}"
        return "0" if whole == "-0" else whole
    size = abs(value)
    if unit == "percent":
        text = f"{value:.1f}" if size >= 10 or size == 0 else f"{value:.2f}"
    elif unit in ("g/mL", "mL/g"):
        text = f"{value:.3g}" if size < 1 else f"{value:.2f}"
    elif unit == "drop":
        text = f"{value:.0f}" if size >= 10 else f"{value:.1f}"
    elif size >= 100:
        text = f"{value:.0f}"
    elif size >= 10:
        text = f"{value:.1f}"
    elif size >= 1 or size == 0:
        text = f"{value:.2f}"
    else:
        text = f"{value:.3f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text  # dust below nothing is nothing


@lru_cache(maxsize=4096)  # a figure stands in the answer, among the values and in the working of others
def shown(key: str, value: float) -> str:
    """A value with its unit: "224 mL", "60 %", "1:2" for a ratio."""
    name = base(key)
    if name in DATES:
        return in_words(value)
    if name in MONTHS:
        return MONTH_NAMES[round(value) - 1]
    unit = VOCABULARY[name].unit if name in VOCABULARY else "1"
    text = number(value, unit)
    if name in ("ratio", "dry_ratio", "ratio_by_weight", "ratio_of", "blend_ratio"):
        return f"1:{text}"
    if name == "brix":
        return f"{text} °Bx"
    if name == "drying_ratio":
        return f"{text}:1"
    if unit in ("drop", "day"):
        return f"{text} {plural(value, SIGNS[unit].strip()[:-1])}"
    return text + SIGNS.get(unit, f" {unit}")


def in_working(key: str, value: float) -> str:
    """A value as it stands in a line of working: a ratio is the number that is multiplied by."""
    if base(key) in ("ratio", "dry_ratio", "ratio_by_weight", "ratio_of", "blend_ratio", "drying_ratio"):
        return number(value, "1")
    return shown(key, value)


def caption(key: str) -> str:
    """What a quantity is called, with the ingredient before it: "thyme volume"."""
    name = VOCABULARY[base(key)].caption if base(key) in VOCABULARY else base(key)
    return f"{about(key)} {name}" if about(key) else name
