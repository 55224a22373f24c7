"""Dates of a lot: started, shaken until, pressed on, ready; said with the lot, after it, or before there is one."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date

from assistant.book import batches
from assistant.book.dates import days_later, in_words, months_later
from assistant.listening.islands import Item
from assistant.reply import Reply, Value
from assistant.session.entering import Entry, on
from assistant.session.freezing import best_before
from assistant.session.wording import sentence


def _after(entry: Entry, pattern: str) -> Item | None:
    """The span of time said behind these words."""
    hit = re.search(pattern, entry.rest, re.IGNORECASE)
    if hit is None:
        return None
    return next((i for i in entry.figures("day") if hit.end() - 1 <= i.start <= hit.end() + 8), None)


def _later(day: date, span: Item) -> date:
    """So long after a day: months and years by the calendar, the rest by days."""
    unit = span.said_unit
    if span.said is not None and float(span.said).is_integer() and unit.startswith(("month", "year")):
        return months_later(day, int(span.said) * (12 if unit.startswith("year") else 1))
    return days_later(day, span.value or 0.0)


def dates_said(entry: Entry) -> dict[str, date]:
    """Started, shake until, press on, ready on: as the sentence says, each counted from the start or, for ready, from pressing."""
    days: dict[str, date] = {}
    if re.search(r"\b(?:started|begun|put up|set up)\b", entry.rest, re.IGNORECASE):
        day = entry.day()
        if day is not None:
            days["started"] = day
    started = days.get("started") or entry.session.memory.dates.get("started") or _started_already(entry) or entry.today
    for name, pattern in (("shake_until", r"\bshake\b[^,;.]*?\bfor\s+"), ("press_on", r"\b(?:press|strain)\b[^,;.]*?\b(?:in|after)\s+")):
        span = _after(entry, pattern)
        if span is not None:
            entry.take(span.start, span.end, "days")
            days[name] = _later(started, span)
    if "press_on" not in days and re.search(r"\b(?:press|strain)\b[^,;.]*\bon\b", entry.rest, re.IGNORECASE):
        day = entry.day(ahead=True)
        if day is not None:
            days["press_on"] = day
    span = _after(entry, r"\b(?:settle|rest it|let it stand|clear)\s+for\s+")
    if span is not None:
        pressed = days.get("press_on") or _press_already(entry)
        if pressed is not None:
            entry.take(span.start, span.end, "days")
            days["ready_on"] = _later(pressed, span)
    return days


def _in_hand(entry: Entry) -> batches.Batch | None:
    key = entry.session.memory.lot_in_hand
    return None if key is None else batches.by_id(entry.book, key)


def _started_already(entry: Entry) -> date | None:
    kept = _in_hand(entry) if "book_keep" not in {a.name for a in entry.reading.acts} else None
    return date.fromisoformat(kept.started) if kept is not None else None


def _press_already(entry: Entry) -> date | None:
    kept = _in_hand(entry)
    return date.fromisoformat(kept.press_on) if kept is not None and kept.press_on else entry.session.memory.dates.get("press_on")


def dated(batch: batches.Batch, days: dict[str, date], started: date) -> batches.Batch:
    fields = {name: day.isoformat() for name, day in days.items() if name != "started"}
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
        ("started", kept.started), ("shake daily until", kept.shake_until), ("pressed", kept.pressed_on), ("press on", None if kept.pressed_on else kept.press_on),
        ("ready", kept.ready_on), ("best before", kept.best_before),
    )  # fmt: skip
    return sentence([f"{name} {in_words(day)}" for name, day in named if day])


def date_values(kept: batches.Batch) -> list[Value]:
    names = ("started", "shake_until", "press_on", "pressed_on", "ready_on", "best_before")
    return [v for name in names for v in on(name, getattr(kept, name), kept.title)]
