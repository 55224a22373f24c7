"""Kept lots: a batch frozen under its lot, and the notes a batch record asks a person for."""

from __future__ import annotations

import re

from assistant.book import batches, gatherings, stock
from assistant.book.dates import said_month
from assistant.book.gatherings import Gathering
from assistant.book.record import BY_LETTER, NOTES
from assistant.book.wording import amount
from assistant.patterns import looked_for
from assistant.reply import Reply, Value
from assistant.session.entering import Entry, value
from assistant.session.freezing import frozen
from assistant.session.keeping_dates import date_values, dated, dates_line, dates_said, free_lot

NAME = looked_for(r"\s*(.*?)\s*(?:[,;:.!?]|\bpress\b|\bstarted\b|\bshake\b|\bfrom\b|\bto press\b|$)", re.IGNORECASE)
AS = looked_for(r"\b(?:as|under)\s+(?:the\s+)?(lot|batch|code)?\s*", re.IGNORECASE)


def keep(entry: Entry) -> Reply | None:
    """ "Keep this as lot 24-07 nettle, press in six weeks": what else the sentence says of the batch is worked out first."""
    session = entry.session
    as_ = AS.search(entry.rest)
    is_code = as_ is not None and (as_.group(1) or "").lower() == "code"
    lot, name = _named(entry, as_)
    days = dates_said(entry)
    gathered = _gathering_said(entry)
    reply = _work_out_first(entry)
    if reply is not None and (not reply.is_good or session.draft is not None):
        return reply
    batch = session.batch
    if batch is None or not (batch.facts or batch.members) or session.draft is not None:
        if session.draft is not None:
            return entry.asking("The batch in hand is not settled yet. Shall that be settled first?", "undo")
        return entry.asking("There is no batch in hand to keep. What is in the jar?", "112 g fresh nettle, 1:2 at 60 %")
    if not lot:
        free = free_lot(entry)
        return entry.asking("Under which lot shall I keep it?", f"keep this as lot {free}")
    started = days.get("started") or session.memory.dates.get("started") or entry.today
    with entry.entering() as turn:
        book = entry.book
        made = frozen(session, batch, book, lot=lot, name=name, code=lot if is_code else "", started=started, gathered=gathered)
        with_dates = dated(made.batch, {**session.memory.dates, **days}, started)
        key = batches.keep(book, with_dates, made.components, turn)
        for part in made.components:
            if part.item is not None and part.amount:
                item = stock.item_of(book.rows("SELECT * FROM items WHERE id = ?", part.item)[0])
                stock.take(book, item, part.amount, started, batch=key, turn=turn)
    session.memory.lot_in_hand, session.memory.dates = key, {}
    kept = batches.by_id(entry.book, key)
    assert kept is not None
    return _told(entry, kept, made.components)


def _named(entry: Entry, as_: re.Match[str] | None) -> tuple[str, str]:
    """The lot, and what it is called beside."""
    lot = entry.lot() or ""
    if as_ is None:
        return lot, ""
    hit = NAME.match(entry.rest, as_.end())
    name = entry.heard[hit.start(1) : hit.end(1)].strip() if hit is not None else ""
    if lot and name.lower().startswith(("lot", "batch", "code")):
        name = name.split(" ", 1)[1] if " " in name else ""
    if lot:
        name = name.replace(lot, "").strip(" ,.")
        return lot, name[:60]
    words = " ".join(name.split())[: batches.LONGEST_LOT]
    if hit is not None and words:
        entry.take(hit.start(1), hit.end(1), "label")
    return words, ""


def _gathering_said(entry: Entry) -> Gathering | None:
    """ "From the June nettle", "from gathering 3": which gathering it was made from."""
    hit = re.search(r"\bfrom\s+gathering\s+(\d{1,9})\b", entry.rest, re.IGNORECASE)
    if hit is not None:
        entry.take(hit.start(1), hit.end(1), "label")
        return gatherings.by_id(entry.book, int(hit.group(1)))
    if not re.search(r"\bfrom\s+the\b", entry.rest, re.IGNORECASE) or entry.session.batch is None:
        return None
    month = said_month(entry.rest, entry.today)
    plants = entry.session.batch.plants[:1] or tuple(n.name for n in entry.reading.named[:1])
    if month is None or not plants:
        return None
    found = gatherings.of_plant(entry.book, plants[0], month[0], month[1])
    return found[-1] if found else None


def _work_out_first(entry: Entry) -> Reply | None:
    """What the other clauses of the sentence say of the batch, laid over it as any sentence is; None where they say nothing."""
    text = entry.of_the_batch
    if not any(c.isalnum() for c in text):
        return None
    reading = entry.session.read(text)
    if not (reading.said or reading.ingredients or reading.liquids or reading.loose):
        return None
    reading.heard = entry.heard
    taken = list(entry.answers.used)
    reply = entry.session.take(reading, entry.answers)
    entry.answers.used = taken
    for used in reply.used:
        if entry.rest[used.start : used.end].strip():
            entry.take(used.start, used.end, used.quantity)
    return reply


def _told(entry: Entry, kept: batches.Batch, components: tuple[batches.Component, ...]) -> Reply:
    values: list[Value] = []
    lines = [f"Kept as {kept.title}{'' if entry.session.memory.is_kept else ', for this conversation (no book is open)'}."]
    went = []
    for part in components:
        source = f" ({part.source}{', lot ' + part.lot if part.lot and 'lot' not in part.source else ''})" if part.source else ""
        went.append(f"{amount(part.amount, part.unit)} {part.what}{source}")
        if part.amount is not None:
            values.append(value("weight" if part.unit == "g" else "volume", part.amount, about=part.what, batch=kept.title, origin="found"))
    if went:
        lines.append(f"In it: {'; '.join(went)}.")
    if kept.expected is not None:
        lines.append(f"Expected: {amount(kept.expected, kept.unit)}.")
        values.append(value(str(kept.record.get("expected_from") or "pressed"), kept.expected, batch=kept.title))
    lines.append(dates_line(kept))
    values += date_values(kept)
    questions = ()
    if kept.press_on is None and kept.preparation in ("tincture", "oil", "vinegar", "glycerite"):
        lines.append("When is it pressed? Say “press in six weeks”.")
    return entry.reply("\n".join(line for line in lines if line), values, batch=kept.title, questions=questions)


def note(entry: Entry) -> Reply | None:
    """ "Note the cleaning for lot 24-07: jar and press scalded": a field of the batch record that only a person can fill."""
    kept = entry.kept()
    if kept is None:
        return entry.no_such_lot()
    hit = re.search(r"\b(?:note|write|log|record|add|put)\b\s+(?:down\s+)?(?:an?\s+|the\s+)?(\w+)", entry.heard, re.IGNORECASE)
    letter = NOTES.get((hit.group(1) if hit is not None else "").lower(), "g")
    _, colon, words = entry.heard.partition(":")
    words = " ".join(words.split())
    if not colon or not words:
        return entry.asking("What shall the note say?", f"note the cleaning for lot {kept.lot}: jar and press scalded")
    entry.take(len(entry.heard) - len(entry.heard.partition(":")[2]), len(entry.heard), "label")
    with entry.entering() as turn:
        batches.check(entry.book, kept.id, letter, entry.today, words[:2000], turn)
    return entry.reply(f"{kept.title[:1].upper()}{kept.title[1:]}, {BY_LETTER[letter].asks}: {words}", batch=kept.title)
