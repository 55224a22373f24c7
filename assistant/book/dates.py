"""Dates of the bench: weeks and months ahead, the week a day lies in, and the days people name.

>>> months_later(date(2031, 1, 31), 1), week_of(date(2031, 6, 12))
(datetime.date(2031, 2, 28), (datetime.date(2031, 6, 9), datetime.date(2031, 6, 15)))
"""

from __future__ import annotations

import calendar
import re
from datetime import date, timedelta

from assistant.faults import SentenceFault
from assistant.quantities.spelt import number_of

_MONTH_NAMES = "january february march april may june july august september october november december".split()  # whatever the locale
_DAY_NAMES = "monday tuesday wednesday thursday friday saturday sunday".split()
MONTHS = {form: n for n, name in enumerate(_MONTH_NAMES, 1) for form in (name, name[:3])} | {"sept": 9}
DAYS = {form: n for n, name in enumerate(_DAY_NAMES) for form in (name, name[:3])}
_MONTH = "|".join(sorted(MONTHS, key=len, reverse=True))
_DAY = "|".join(sorted(DAYS, key=len, reverse=True))
_ISO = re.compile(r"\b(\d{4})-(\d{1,2})-(\d{1,2})\b")
_DAY_MONTH = re.compile(rf"\b(\d{{1,2}})(?:st|nd|rd|th)?\s+(?:of\s+)?({_MONTH})\.?(?:,?\s+(\d{{4}}))?\b", re.IGNORECASE)
_MONTH_DAY = re.compile(rf"\b({_MONTH})\.?\s+(?:the\s+)?(\d{{1,2}})(?:st|nd|rd|th)?(?:,?\s+(\d{{4}}))?\b(?!\s*(?:ml|g|kg|l)\b)", re.IGNORECASE)
_WORDS = re.compile(rf"\b(today|yesterday|tomorrow|day before yesterday|(?:last|this|next|on)\s+(?:{_DAY}))\b", re.IGNORECASE)
_AGO = re.compile(r"\b(\d+|a|one|two|three|four|five|six)\s+(day|week)s?\s+ago\b", re.IGNORECASE)
FURTHEST = date(9000, 1, 1)


def months_later(day: date, months: int) -> date:
    """The same day so many months on; the last day of the month where it is shorter."""
    count = day.year * 12 + day.month - 1 + months
    year, month = divmod(count, 12)
    if not 1 <= year < FURTHEST.year:
        raise SentenceFault("that date is too far off", try_this="“press in six weeks”")
    return date(year, month + 1, min(day.day, calendar.monthrange(year, month + 1)[1]))


def days_later(day: date, days: float) -> date:
    """So many whole days on.

    fails   SentenceFault, where the calendar does not reach
    """
    if not -1e6 < days < 1e6:
        raise SentenceFault("that date is too far off", try_this="“press in six weeks”")
    try:
        return day + timedelta(days=round(days))
    except OverflowError:
        raise SentenceFault("that date is too far off", try_this="“press in six weeks”") from None


def week_of(day: date) -> tuple[date, date]:
    """Monday and Sunday of the week of a day."""
    monday = day - timedelta(days=day.weekday())
    return monday, monday + timedelta(days=6)


def said_date(text: str, today: date, *, ahead: bool = False) -> tuple[date, int, int] | None:
    """The first date named in a text, with its place; a day without a year is the nearest one not `ahead` of today (or, ahead, the next one).

    fails   SentenceFault, for a day that no calendar has ("31 June")

    >>> said_date("gathered on 12 June", date(2031, 9, 1))
    (datetime.date(2031, 6, 12), 12, 19)
    """
    found = [m for m in (_ISO.search(text), _DAY_MONTH.search(text), _MONTH_DAY.search(text), _WORDS.search(text), _AGO.search(text)) if m is not None]
    if not found:
        return None
    hit = min(found, key=lambda m: (m.start(), -m.end()))
    return _meant(hit, today, ahead), hit.start(), hit.end()


def _meant(hit: re.Match[str], today: date, ahead: bool) -> date:
    if hit.re is _WORDS:
        return _by_word(hit.group(1).lower(), today)
    if hit.re is _AGO:
        count = int(number_of(hit.group(1)))
        return days_later(today, -count * (7 if hit.group(2).lower() == "week" else 1))
    if hit.re is _ISO:
        year, month, day = (int(g) for g in hit.groups())
        return _real(year, month, day, hit.group())
    name, number, year_said = (hit.group(2), hit.group(1), hit.group(3)) if hit.re is _DAY_MONTH else (hit.group(1), hit.group(2), hit.group(3))
    month, day = MONTHS[name.lower()], int(number)
    if year_said:
        return _real(int(year_said), month, day, hit.group())
    if month == 2 and day == 29:
        return _leap_day(today, ahead)
    said = _real(today.year, month, day, hit.group())
    if ahead:
        return said if said >= today else _real(today.year + 1, month, day, hit.group())
    return said if said <= today else _real(today.year - 1, month, day, hit.group())


def _leap_day(today: date, ahead: bool) -> date:
    """29 February without a year: the nearest there is, on the side that is meant."""
    years = [y for y in range(today.year - 8, today.year + 9) if calendar.isleap(y)]
    days = [date(y, 2, 29) for y in years]
    return min(d for d in days if d >= today) if ahead else max(d for d in days if d <= today)


def _by_word(word: str, today: date) -> date:
    fixed = {"today": 0, "yesterday": -1, "tomorrow": 1, "day before yesterday": -2}
    if word in fixed:
        return days_later(today, fixed[word])
    which, name = word.split()
    step = DAYS[name] - today.weekday()
    if which == "last":
        return days_later(today, step if step < 0 else step - 7)
    if which == "next":
        return days_later(today, step if step > 0 else step + 7)
    return days_later(today, step)


def _real(year: int, month: int, day: int, words: str) -> date:
    try:
        return date(year, month, day)
    except ValueError:
        raise SentenceFault(f"there is no day “{words.strip()}”", where=words.strip(), try_this="a date like “12 June” or “2031-06-12”") from None


def said_month(text: str, today: date) -> tuple[date, date, int, int] | None:
    """The month a text names ("the June nettle", "May 2030"): its first and last day and its place; without a year the latest that has begun."""
    hit = re.search(rf"\b({_MONTH})\b(?:\s+(\d{{4}}))?", text, re.IGNORECASE)
    if hit is None or (hit.group(1).lower() in ("may", "mar", "march") and not hit.group(1)[0].isupper()):
        return None
    month = MONTHS[hit.group(1).lower()]
    year = int(hit.group(2)) if hit.group(2) else today.year - (month > today.month)
    first = date(max(1, min(year, 8999)), month, 1)
    return first, months_later(first, 1) - timedelta(days=1), hit.start(), hit.end()


def in_words(day: date | str | None) -> str:
    """A date as a label shows it: 12 June 2031; empty for none."""
    if day is None or day == "":
        return ""
    day = date.fromisoformat(day) if isinstance(day, str) else day
    return f"{day.day} {_MONTH_NAMES[day.month - 1].capitalize()} {day.year}"
