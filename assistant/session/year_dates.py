"""Days of the calendar said in a sentence about the working year, as figures: "bottled for 12 December", "started on 1 November"."""

from __future__ import annotations

import re
from datetime import date

from assistant.book.dates import MONTHS, said_date
from assistant.dataclass import replace
from assistant.faults import BenchError, SentenceFault
from assistant.listening.statements import Reading, Said, forget
from assistant.patterns import looked_for
from assistant.session.batch import Batch
from assistant.session.year_work import sort_asked

STARTED = looked_for(r"\b(?:start(?:ed|ing)?|begun|put up|set up|begin|went in|from|jarred)\b[^.;]{0,24}$", re.IGNORECASE)
PRESSED = looked_for(r"\b(?:press(?:ed|ing)?|strain(?:ed|ing)?)\b[^.;]{0,16}$", re.IGNORECASE)
TO_COME = looked_for(
    r"\b(?:start(?:ing)?|begin|press(?:ing)?|strain(?:ing)?|be (?:pressed|strained|started))\b[^.;,]{0,24}$|\bby\s+(?:the\s+)?$", re.IGNORECASE
)
PICKED = looked_for(
    r"\b(?:pick(?:ed)?|gather(?:ed)?|dig|dug|cut|harvest(?:ed)?|lift(?:ed)?|up)\b[^.;]{0,24}\b(?:in|during|every|each)\s+(?:early\s+|mid\s+|late\s+|the\s+)*$",
    re.IGNORECASE,
)
_NAMES = sorted((m for m in MONTHS if len(m) > 3 or m == "may"), key=len, reverse=True)
MONTH = looked_for(rf"\b({'|'.join(_NAMES)})\b", re.IGNORECASE)


OF_THE_ONLY_LOT = frozenset({"lot_has", "promised"})


def place_dates(reading: Reading, frames: frozenset[str], today: date, batch: Batch | None = None) -> None:
    """What a sentence asks sorted to its work, and its days and months made figures of it. Changes the reading; does nothing in other work.

    frames    those of the batch in hand, which the sentence may go on about
    batch     the one in hand: where it has one member, a lot without a name is of that one; a day without its month is in that of its days

    A day that no calendar has is kept in `reading.fault`, to be told.
    """
    here = reading.frames | frames
    sort_asked(reading, here)
    members = batch.members if batch is not None else ()
    if "orders" in here and len(members) == 1:
        reading.said[:] = [replace(s, member=members[0]) if s.quantity in OF_THE_ONLY_LOT and not s.member else s for s in reading.said]
    if here & {"timeline", "reserve"}:
        try:
            _days(reading, today)
            _day_alone(reading, batch)
            _feast(reading, today)
        except BenchError as fault:
            reading.fault = fault
    if "reserve" in here and "today" not in {s.quantity for s in reading.said}:
        reading.said.append(Said("today", float(today.toordinal()), 0, 0, said_unit="calendar"))
    if "year" in here:
        _month(reading)


# Days that are the same every year.
FEASTS = {
    "christmas": (12, 25), "yule": (12, 25), "candlemas": (2, 2), "midsummer": (6, 24), "lammas": (8, 1), "michaelmas": (9, 29),
    "halloween": (10, 31), "martinmas": (11, 11),
}  # fmt: skip
FEAST = looked_for(rf"\b(?:by|for|before|on)\s+({'|'.join(FEASTS)})\b", re.IGNORECASE)


def _feast(reading: Reading, today: date) -> None:
    """ "Bottled by Michaelmas": the next day of that name that is the same every year."""
    hit = FEAST.search(reading.heard)
    if hit is not None and not any(s.quantity == "needed_by" for s in reading.said):
        month, day = FEASTS[hit.group(1).lower()]
        when = date(today.year, month, day)
        when = when if when >= today else date(today.year + 1, month, day)
        reading.said.append(Said("needed_by", float(when.toordinal()), hit.start(1), hit.end(1)))


def _days(reading: Reading, today: date) -> None:
    text = reading.heard
    at = 0
    while (found := said_date(" " * at + text[at:], today, ahead=True)) is not None:
        day, start, end = found
        before = text[:start]
        if (STARTED.search(before) or PRESSED.search(before)) and not TO_COME.search(before):
            again = said_date(text[start:end], today)  # what was begun lies behind, without a year
            day = again[0] if again is not None else day
        name = "latest_start" if STARTED.search(before) else "press_by" if PRESSED.search(before) else "needed_by"
        if not re.fullmatch(r"\s*(?:today|yesterday)\s*", text[start:end], re.IGNORECASE) or name != "needed_by":
            reading.said.append(Said(name, float(day.toordinal()), start, end))
        for figure in [f for f in reading.loose if start <= f.start < end]:
            forget(figure, reading.said, reading.loose)  # the 3 of "march 3"
        at = end


NTH = looked_for(r"\b(?:the\s+)?(\d{1,2})(?:st|nd|rd|th)\b(?!\s+(?:of\s+)?[a-z]*(?:day|week|month|bottle|jar))", re.IGNORECASE)
OF_A_DAY = ("latest_start", "press_by", "needed_by")


def _day_alone(reading: Reading, batch: Batch | None) -> None:
    """ "And if I start on the 10th instead", behind the 3rd of March: in the same month. What followed from the other day is let go."""
    held = [k for k in OF_A_DAY if batch is not None and k in batch.facts]
    hit = NTH.search(reading.heard)
    if batch is None or hit is None or len(held) != 1 or any(s.quantity in OF_A_DAY for s in reading.said):
        return
    before = date.fromordinal(round(batch.facts[held[0]].value))
    try:
        day = before.replace(day=int(hit.group(1)))
    except ValueError:
        raise SentenceFault(f"there is no day “{hit.group()}” in that month", where=hit.group(), try_this="a date like “12 June”") from None
    for figure in [f for f in reading.figures if hit.start() <= f.start < hit.end()]:
        forget(figure, reading.said, reading.loose)
    ahead = reading.heard[: hit.start()]
    name = "latest_start" if STARTED.search(ahead) else "press_by" if PRESSED.search(ahead) else held[0]
    reading.said.append(Said(name, float(day.toordinal()), hit.start(), hit.end()))
    reading.freed |= set(held) - {name}


def _month(reading: Reading) -> None:
    for hit in MONTH.finditer(reading.heard):
        if not PICKED.search(reading.heard[: hit.start()]) or (hit.group(1).lower() in ("may", "march") and not hit.group(1)[0].isupper()):
            continue
        reading.said.append(Said("gather_month", float(MONTHS[hit.group(1).lower()]), hit.start(), hit.end()))
        return


__all__ = ["place_dates"]
