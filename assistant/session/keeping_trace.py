"""Questions to the book: which bottles came from where, what is due, what is past its date, labels and sheets; and forgetting."""

from __future__ import annotations

import re
from datetime import date, timedelta

from assistant.book import batches, gatherings, labels, own_numbers, record, sheets, tracing
from assistant.book.dates import in_words, months_later, said_month, week_of
from assistant.book.gatherings import Gathering
from assistant.book.wording import amount, plural
from assistant.patterns import looked_for
from assistant.reply import Origin, Reply, Value
from assistant.session.entering import Entry, on, value

ORIGINS: tuple[Origin, ...] = ("said", "measured", "assumed", "found")
MUCH_OF_A_STAND = 10.0  # percent a year; common practice among those who gather wild


def forget(entry: Entry) -> Reply | None:
    """ "Forget that": the last turn that changed or kept something is taken back and gone from the book for good."""
    memory = entry.session.memory
    if not memory.is_kept:
        return None  # nothing is kept: taking it back is all there is to do
    if memory.conversation is None or memory.waiting:
        return None
    gone = memory.forget(entry.session)
    if gone is None:
        return entry.reply("There is nothing to forget.")
    memory.lot_in_hand = None
    entry.session.rewinding = True  # what is gone is no step to come back to
    kept = f" With it went {', '.join(gone.kept)}." if gone.kept else ""
    batch = entry.session.batch
    text = f"Forgotten for good: the last thing you told me, and what came of it.{kept} A backup or an export made before still holds it."
    return entry.reply(text, batch=batch.title if batch is not None else "")


# ── from the plants to the bottles, and back ─────────────────────────────────────────────────────────────────────────────


def _gatherings_meant(entry: Entry) -> list[Gathering]:
    hit = re.search(r"\bgathering\s+(\d{1,9})\b", entry.rest, re.IGNORECASE)
    if hit is not None:
        entry.take(hit.start(1), hit.end(1), "label")
        one = gatherings.by_id(entry.book, int(hit.group(1)))
        return [one] if one is not None else []
    month = said_month(entry.rest, entry.today)
    first, last = (month[0], month[1]) if month is not None else (None, None)
    if month is not None:
        entry.take(month[2], month[3], "time")
    day = entry.day() if month is None else None
    found: list[Gathering] = []
    for named in entry.reading.named:
        found += gatherings.of_plant(entry.book, named.name, day or first, day or last)
    if found:
        return found
    place = _place_meant(entry)
    return gatherings.at_place(entry.book, place) if place else []


def _place_meant(entry: Entry) -> str:
    """A place the book knows, named in the sentence; the longest where one stands in another."""
    text = entry.heard.lower()
    known = [p for p in gatherings.places(entry.book) if re.search(rf"(?<!\w){re.escape(p.lower())}(?!\w)", text)]
    place = max(known, key=len, default="")
    if place:
        start = text.index(place.lower())
        entry.take(start, start + len(place), "label")
    return place


def came_from(entry: Entry) -> Reply | None:
    """ "Which bottles came from the June nettle?", "… from lot S-12?"."""
    lot = entry.lot()
    if lot is not None:
        went, head = tracing.from_lot(entry.book, lot), f"lot {lot}"
    else:
        if not entry.reading.named and not _known_place(entry):
            return None
        meant = _gatherings_meant(entry)
        if not meant:
            return entry.reply("No such gathering is in the book. Say “log a gathering: 640 g nettle leaf at Mill Lane on 12 June”.")
        went = [w for one in meant for w in tracing.from_gathering(entry.book, one)]
        head = "; ".join(f"gathering {g.id}, {g.title}, {in_words(g.gathered_on)}" for g in meant[:4])
    lines, values = [f"From {head}:"], []
    seen: set[int] = set()
    for one in went:
        if one.batch.id in seen:
            continue
        seen.add(one.batch.id)
        bottles = ", ".join(f"{plural(b.bottles, 'bottle')} of {b.size:g} mL ({in_words(b.bottled_on)})" for b in one.bottlings) or "not bottled yet"
        through = f", by way of lot {one.through}" if one.through else ""
        lines.append(f"  {one.batch.title}{through}: {bottles}")
        values += [value("bottles", b.bottles, about=one.batch.lot, batch=one.batch.title) for b in one.bottlings]
        values += [value("bottle_size", b.size, about=one.batch.lot, batch=one.batch.title) for b in one.bottlings]
    if not seen:
        lines = [f"Nothing kept was made from {head}."]
    return entry.reply("\n".join(lines), values, status="answered" if values or seen else "noted")


def _known_place(entry: Entry) -> bool:
    return entry.session.memory.is_begun and any(p.lower() in entry.heard.lower() for p in gatherings.places(entry.book))


def went_into(entry: Entry) -> Reply | None:
    """ "What went into lot 24-07?"."""
    kept = entry.kept()
    if kept is None:
        return entry.no_such_lot()
    lines, values = [f"{kept.title[:1].upper()}{kept.title[1:]}, started {in_words(kept.started)}:"], on("started", kept.started, kept.title)
    for one in tracing.into_lot(entry.book, kept):
        part = one.component
        where = f", {part.source}" if part.source else ""
        if one.gathering is not None:
            where = f", gathering {one.gathering.id}: {one.gathering.title}, {in_words(one.gathering.gathered_on)}"
        lines.append(f"  {amount(part.amount, part.unit)} {part.what}{', lot ' + part.lot if part.lot else ''}{where}")
        if part.amount is not None:
            values.append(value("weight" if part.unit == "g" else "volume", part.amount, part.unit, about=part.what, batch=kept.title, origin="said"))
    assumed = [str(a.get("text")) for a in kept.record.get("assumptions", ()) if isinstance(a, dict)]
    if assumed:
        lines.append(f"Taken for granted then: {'; '.join(assumed)}.")
    return entry.reply("\n".join(lines), values, status="answered", batch=kept.title)


# ── what is due ──────────────────────────────────────────────────────────────────────────────────────────────────────────


def due(entry: Entry) -> Reply | None:
    """ "What presses this week?", with what should have been pressed before."""
    first, last, words = _span(entry)
    found = tracing.to_press(entry.book, first, last) if entry.session.memory.is_begun else []
    late = [b for b in tracing.overdue(entry.book, entry.today) if b.press_on and b.press_on < first.isoformat()] if entry.session.memory.is_begun else []
    lines, values = [], []
    for batch in found:
        lines.append(f"{in_words(batch.press_on)}: {batch.title}" + (f", {amount(batch.expected, batch.unit)} expected" if batch.expected is not None else ""))
        values += on("press_on", batch.press_on, batch.title)
        values += [value("pressed", batch.expected, batch.unit, about=batch.lot, batch=batch.title)] if batch.expected is not None else []
    head = f"To press {words}:" if lines else f"Nothing is to be pressed {words}."
    if late:
        lines += ["Over its time:", *(f"{in_words(b.press_on)}: {b.title}" for b in late)]
        values += [v for b in late for v in on("press_on", b.press_on, b.title)]
    return entry.reply("\n".join([head, *lines]), values, status="answered" if values else "noted")


def _span(entry: Entry) -> tuple[date, date, str]:
    text, today = entry.heard.lower(), entry.today
    monday, sunday = week_of(today)
    if "next week" in text:
        return monday + timedelta(days=7), sunday + timedelta(days=7), "next week"
    if "this month" in text:
        first = today.replace(day=1)
        return first, months_later(first, 1) - timedelta(days=1), "this month"
    month = said_month(entry.rest, today)
    if month is not None and "week" not in text:
        entry.take(month[2], month[3], "time")
        first, last = month[:2] if month[1] >= today else (months_later(month[0], 12), months_later(month[0], 13) - timedelta(days=1))  # it lies ahead
        return first, last, f"in {in_words(first).split(' ', 1)[1]}"
    if "today" in text:
        return today, today, "today"
    return monday, sunday, "this week"


def past(entry: Entry) -> Reply | None:
    """ "What is past its date?"."""
    found = tracing.past_date(entry.book, entry.today) if entry.session.memory.is_begun else []
    if not found:
        return entry.reply("Nothing kept is past its date.")
    lines = [f"{b.title}: best before {in_words(b.best_before)} ({b.preparation})" for b in found]
    lines.append("Custom, not proof: look, smell and taste before using or throwing out.")
    return entry.reply("\n".join(lines), [v for b in found for v in on("best_before", b.best_before, b.title)], status="answered")


def lots(entry: Entry) -> Reply | None:
    rows = entry.book.rows("SELECT * FROM batches ORDER BY started DESC, id DESC LIMIT 40") if entry.session.memory.is_begun else []
    kept = [batches.batch_of(row) for row in rows]
    if not kept:
        return entry.reply("The book is empty. Say “keep this as lot 24-07” when a batch is in hand.")
    lines = [f"{b.title}: started {in_words(b.started)}" + (f", {amount(b.actual, b.unit)} pressed" if b.actual is not None else "") for b in kept]
    values = [v for b in kept for v in on("started", b.started, b.title)]
    values += [value("pressed", b.actual, b.unit, about=b.lot, batch=b.title, origin="measured") for b in kept if b.actual is not None]
    return entry.reply("\n".join(lines), values, status="answered")


# ── stands ───────────────────────────────────────────────────────────────────────────────────────────────────────────────


def stand(entry: Entry) -> Reply | None:
    """ "Can I go back to Mill Lane?", "what did I take from Mill Lane?": what it gave, year by year."""
    if not entry.session.memory.is_begun:
        return None
    place = _place_meant(entry)
    if not place:
        known = gatherings.places(entry.book)
        if any(entry.reading.has(a) for a in ("batch", "go_to", "first")):
            return None
        if not known:
            return entry.reply("No gathering is in the book yet. Say “log a gathering: 640 g nettle leaf at Mill Lane on 12 June”, and next year it is told.")
        return entry.reply(f"Nothing from there is in the book. Places it knows: {', '.join(known[:8])}.")
    found = gatherings.at_place(entry.book, place)
    lines, values = [], []
    for plant in dict.fromkeys(g.plant for g in found):
        years = gatherings.by_year([g for g in found if g.plant == plant])
        lines.append(f"{plant[:1].upper()}{plant[1:]} from {place}: " + "; ".join(f"{y.year}: {y.words}" for y in years) + ".")
        for year in years:
            values.append(value("gathered_weight", year.weight, about=f"{plant} {year.year}"))
            values += [value("stand_share", year.share, about=f"{plant} {year.year}")] if year.share is not None else []
        shares = [y.share for y in years if y.share is not None]
        if shares and max(shares) > MUCH_OF_A_STAND:
            lines.append("More than a tenth of the stand was taken in a year: look how it came back before you cut, and take less or let it rest.")
        elif not shares:
            lines.append("The share of the stand was never said; count what stands there before you cut.")
    last = found[-1]
    lines.append(f"Last there: {in_words(last.gathered_on)}." + (f" Permission: {last.permission}." if last.permission else " No permission is noted."))
    return entry.reply("\n".join(lines), [*values, *on("gathered_on", last.gathered_on)], status="answered")


SPELT = {word: n for n, word in enumerate("two three four five six seven eight nine ten".split(), 2)}
YEARS_BACK = looked_for(rf"\b(?:these|last|past|over)\s+(?:the\s+)?(?:last\s+|past\s+)?(\d{{1,2}}|{'|'.join(SPELT)})\s+years\b", re.IGNORECASE)


def when(entry: Entry) -> Reply | None:
    """ "When did I pick elderflower?"; "… these four years?": a line for each year."""
    if not entry.reading.named or not entry.session.memory.is_begun:
        return None
    back = YEARS_BACK.search(entry.rest)
    found = [g for n in entry.reading.named for g in gatherings.of_plant(entry.book, n.name)]
    years = 0
    if back is not None:
        entry.take(back.start(1), back.end(), "days")
        years = SPELT.get(back.group(1).lower()) or int(back.group(1))
        found = [g for g in found if int(g.gathered_on[:4]) > entry.today.year - years]
    if not found:
        return entry.reply(f"No gathering of {entry.reading.named[0].name} {'of those years ' if years else ''}is in the book.")
    values = [v for g in found[-20:] for v in on("gathered_on", g.gathered_on)]
    if years:
        values += [value("gathered_weight", g.weight, about=f"{g.plant} {g.gathered_on[:4]}") for g in found[-20:] if g.weight is not None]
        last = entry.today.year
        lines = [_of_year(year, [g for g in found if g.gathered_on.startswith(str(year))]) for year in range(last - years + 1, last + 1)]
        return entry.reply("\n".join(lines), values, status="answered")
    lines = [f"{in_words(g.gathered_on)}: {amount(g.weight, 'g') + ' ' if g.weight is not None else ''}{g.title}" for g in found[-20:]]
    values += [value("gathered_weight", g.weight, about=g.plant) for g in found[-20:] if g.weight is not None]
    return entry.reply("\n".join(lines), values, status="answered")


def _of_year(year: int, found: list[Gathering]) -> str:
    """A year's days of gathering, with what was taken."""
    if not found:
        return f"{year}: none in the book"
    days = [f"{in_words(g.gathered_on).rsplit(' ', 1)[0]}{', ' + amount(g.weight, 'g') if g.weight is not None else ''}" for g in found]
    return f"{year}: {'; '.join(days)}"


# ── what is printed ──────────────────────────────────────────────────────────────────────────────────────────────────────


def label(entry: Entry) -> Reply | None:
    kept = entry.kept()
    if kept is None:
        return entry.no_such_lot()
    count = entry.amount("1", "bottles")
    bottled = batches.bottlings_of(entry.book, kept.id)
    sizes = list(dict.fromkeys(b.size for b in bottled)) or [0.0]
    texts, values = [], []
    for size in sizes:
        texts.append("\n".join(labels.label_for(kept, size or None).rows()))
        values += [value("bottle_size", size, batch=kept.title)] if size else []
    if count is None:
        count = float(sum(b.bottles for b in bottled))
    values += [value("bottles", count, batch=kept.title)] if count else []
    values += _figures(kept, ("ratio", "finished_strength", "strength", "blend_strength")) + on("best_before", kept.best_before, kept.title)
    how = f"gallipot --book FILE --sheet “labels {kept.lot}” labels.html prints {plural(count, 'label') if count else 'a page of them'}."
    return entry.reply("\n\n".join([*texts, how]), values, status="answered" if values else "noted", batch=kept.title)


def _figures(kept: batches.Batch, quantities: tuple[str, ...] = ()) -> list[Value]:
    """The frozen figures of a lot, those of these quantities or all."""
    result = []
    for figure in kept.record.get("figures", ()):
        if not isinstance(figure, dict) or not isinstance(figure.get("value"), int | float) or (quantities and figure.get("quantity") not in quantities):
            continue
        origin: Origin = next((o for o in ORIGINS if o == figure.get("origin")), "found")
        about, unit = str(figure.get("about") or ""), str(figure.get("unit") or "1")
        result.append(value(str(figure["quantity"]), float(figure["value"]), unit, about=about, batch=kept.title, origin=origin))
    return result


def sheet(entry: Entry) -> Reply | None:
    """The batch sheet in the reply; as a page by the command line."""
    kept = entry.kept()
    if kept is None:
        return entry.no_such_lot()
    values = _figures(kept)
    if kept.yield_percent is not None:
        values.append(value("yield_of_expected", kept.yield_percent, "percent", batch=kept.title))
        values.append(value("pressed", kept.actual, kept.unit, batch=kept.title, origin="measured"))
    return entry.reply(sheets.batch_sheet(entry.book, kept).as_text().rstrip(), values, status="answered" if values else "noted", batch=kept.title)


IN_A_KITCHEN = {"has": "kept by itself", "may": "kept when told", "blank": "stays blank"}


def blank(entry: Entry) -> Reply | None:
    """Which fields of a batch record stay blank: of a lot, or at a kitchen bench at all."""
    kept = entry.kept()
    lines = ["Held against 21 CFR 111.260, the batch record of supplement makers (a yardstick, not the law of a kitchen):"]
    if kept is not None:
        empty = [e for e in record.record_of(entry.book, kept) if e.is_blank]
        how = [e.field.say.replace("24-07", kept.lot) or "a kitchen has none" for e in empty]
        lines += [f"({e.field.letter}) {e.field.asks}: {words}" for e, words in zip(empty, how, strict=True)] or ["nothing is blank"]
    else:
        lines += [f"({f.letter}) {f.asks}: {IN_A_KITCHEN[f.kitchen]}" for f in record.FIELDS]
    return entry.reply("\n".join(lines), batch=kept.title if kept is not None else "")


def gathering_sheet(entry: Entry) -> Reply | None:
    hit = re.search(r"\b(?:sheet|record)\s+(?:for\s+|of\s+)?(?:gathering\s+)?(\d{1,9})\b", entry.rest, re.IGNORECASE)
    if hit is not None:
        entry.take(hit.start(1), hit.end(1), "label")
        one = gatherings.by_id(entry.book, int(hit.group(1)))
    else:
        meant = _gatherings_meant(entry)
        one = meant[-1] if meant else gatherings.latest(entry.book)
    if one is None:
        return entry.asking("No gathering of that number is in the book. Which one is it?", "log a gathering: 640 g nettle leaf at Mill Lane on 12 June")
    values = [value("gathered_weight", one.weight, about=one.plant, origin="said")] if one.weight is not None else []
    values += [value("stand_share", one.share, about=one.plant)] if one.share is not None else []
    return entry.reply(sheets.gathering_sheet(entry.book, one).as_text().rstrip(), [*values, *on("gathered_on", one.gathered_on)], status="answered")


def own(entry: Entry) -> Reply | None:
    """The person's own numbers."""
    rows = entry.book.rows("SELECT DISTINCT quantity, plant, part FROM measured ORDER BY quantity, plant, part") if entry.session.memory.is_begun else []
    lines, values = [], []
    for row in rows:
        ask = own_numbers.held_per_gram if row["quantity"] == "held_per_gram" else own_numbers.water_content
        found = ask(entry.book, row["plant"], "" if row["quantity"] == "held_per_gram" else row["part"])
        if found is None:
            continue
        unit = "mL per g of dry matter" if row["quantity"] == "held_per_gram" else "% water"
        line = f"{found.words[:1].upper()}{found.words[1:]}: {found.value:.3g} {unit} ({found.spread})"
        if line not in lines:
            lines.append(line)
            values.append(value(row["quantity"], found.value, about=row["plant"]))
    if not lines:
        return entry.reply("None yet: “lot 24-07 gave 205 mL” makes one of each pressing, “keep this drying” of each drying.")
    return entry.reply("\n".join(lines), values, status="answered")
