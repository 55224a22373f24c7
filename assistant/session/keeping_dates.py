"""Dates of a lot: started, shaken until, pressed on, ready; said with the lot, after it, or before there is one."""

from __future__ import annotations

import re
from datetime import date
from typing import Any

from assistant.book import batches
from assistant.book.dates import days_later, in_words, months_later
from assistant.dataclass import replace
from assistant.patterns import looked_for
from assistant.quantities.spelt import SPELT, number_of
from assistant.reply import Reply, Value
from assistant.session.entering import Entry, on
from assistant.session.freezing import best_before
from assistant.session.wording import sentence

# "a month" is read as an item of its own kind (how often), so that spans of time before a day to come are read here.
_COUNTS = (*SPELT, "a", "an", "another")
_SPAN = looked_for(rf"(?:about\s+)?(?:(\d{{1,4}}(?:\.\d+)?|{'|'.join(_COUNTS)})\s+(day|week|month|year)s?|(?:a\s+)?(fortnight))(?:'s?)?\b", re.IGNORECASE)
_DAYS = {"day": 1, "week": 7}


def _after(entry: Entry, pattern: str, start: date | None) -> date | None:
    """The day so long after `start` as is said behind these words; taken."""
    hit = re.search(pattern, entry.rest, re.IGNORECASE)
    span = _SPAN.match(entry.rest, hit.end()) if hit is not None and start is not None else None
    if hit is None or span is None or start is None:
        return None
    entry.take(span.start(), span.end(), "days")
    _take_how_often(entry, hit.start(), hit.end())
    if span.group(3):
        return days_later(start, 14)
    count, unit = 1.0 if span.group(1).lower() == "another" else number_of(span.group(1)), span.group(2).lower()
    if unit in _DAYS:
        return days_later(start, count * _DAYS[unit])
    months = count * (12 if unit == "year" else 1)
    return months_later(start, int(months)) if months.is_integer() else days_later(start, months * 30)


def _take_how_often(entry: Entry, start: int, end: int) -> None:
    """ "Shake daily for …": how often is part of it."""
    for item in entry.items:
        if item.value is not None and start <= item.start and item.end <= end and entry.is_free(item):
            entry.take(item.start, item.end, "times_a_day")


def dates_said(entry: Entry) -> dict[str, date]:
    """Started, shake until, press on, ready on: as the sentence says, each counted from the start or, for ready, from pressing."""
    days: dict[str, date] = {}
    if re.search(r"\b(?:started|begun|put up|set up)\b", entry.rest, re.IGNORECASE):
        day = entry.day()
        if day is not None:
            days["started"] = day
    started = days.get("started") or entry.session.memory.dates.get("started") or _started_already(entry) or entry.today
    for name, pattern in (("shake_until", r"\bshake\b[^,;.]*?\bfor\s+"), ("press_on", r"\b(?:press|strain)\b[^,;.]*?\b(?:in|after)\s+")):
        day = _after(entry, pattern, started)
        if day is not None:
            days[name] = day
    if "press_on" not in days and re.search(r"\b(?:press|strain)\b[^,;.]*\bon\b", entry.rest, re.IGNORECASE):
        day = entry.day(ahead=True)
        if day is not None:
            days["press_on"] = day
    ready = _after(entry, r"\b(?:settle|rest it|let it stand|clear)\s+for\s+", days.get("press_on") or _press_already(entry))
    if ready is not None:
        days["ready_on"] = ready
    return days


def _in_hand(entry: Entry) -> batches.Batch | None:
    """The lot that a date said by itself is about; none where this very sentence keeps another."""
    key = entry.session.memory.lot_in_hand if "book_keep" not in {a.name for a in entry.reading.acts} else None
    return None if key is None else batches.by_id(entry.book, key)


def _started_already(entry: Entry) -> date | None:
    kept = _in_hand(entry)
    return date.fromisoformat(kept.started) if kept is not None else None


def _press_already(entry: Entry) -> date | None:
    kept = _in_hand(entry)
    return date.fromisoformat(kept.press_on) if kept is not None and kept.press_on else entry.session.memory.dates.get("press_on")


def dated(batch: batches.Batch, days: dict[str, date], started: date) -> batches.Batch:
    fields: dict[str, Any] = {name: day.isoformat() for name, day in days.items() if name != "started"}
    press = days.get("press_on")
    made = press or started
    if "shake_until" not in fields and press is not None:
        fields["shake_until"] = press.isoformat()
    if "ready_on" not in fields and press is not None:
        fields["ready_on"] = press.isoformat()
    return replace(batch, **fields, best_before=best_before(batch, made) or batch.best_before)


def dates(entry: Entry) -> Reply | None:
    """ "Press in six weeks", said by itself: of the lot kept last; before there is one, it waits for it."""
    kept = entry.kept()
    days = dates_said(entry)
    if not days or entry.left_over or entry.reading.ingredients:
        return None
    if kept is None:
        entry.session.memory.dates.update(days)
        words = sentence([f"{name.replace('_', ' ')} {in_words(day)}" for name, day in days.items()])
        return entry.reply(f"{words} It goes with the batch when you say “keep this as lot {free_lot(entry)}”.", [v for n, d in days.items() for v in on(n, d)])
    started = days.get("started") or date.fromisoformat(kept.started)
    changed = dated(replace(kept, started=started.isoformat()), days, started)
    with entry.entering():
        names = ("started", "shake_until", "press_on", "ready_on", "best_before")
        batches.amend(entry.book, kept.id, **{n: getattr(changed, n) for n in names if getattr(changed, n) != getattr(kept, n)} or {"started": kept.started})
    return entry.reply(f"{kept.title[:1].upper()}{kept.title[1:]}: {dates_line(changed)}", date_values(changed), batch=kept.title)


def free_lot(entry: Entry) -> str:
    """A lot by the year and a number: the next that is free."""
    year = f"{entry.today.year % 100:02d}"
    number = 1 + len(entry.book.rows("SELECT 1 FROM batches WHERE lot LIKE ?", f"{year}-%"))
    while batches.named(entry.book, f"{year}-{number:02d}") is not None:
        number += 1
    return f"{year}-{number:02d}"


def dates_line(kept: batches.Batch) -> str:
    named = (
        ("started", kept.started), ("shake daily until", kept.shake_until), ("pressed", kept.pressed_on),
        ("press on", None if kept.pressed_on else kept.press_on), ("ready", kept.ready_on), ("best before", kept.best_before),
    )  # fmt: skip
    return sentence([f"{name} {in_words(day)}" for name, day in named if day])


def date_values(kept: batches.Batch) -> list[Value]:
    names = ("started", "shake_until", "press_on", "pressed_on", "ready_on", "best_before")
    return [v for name in names for v in on(name, getattr(kept, name), kept.title)]
