"""What came of a lot: its yield against what was expected, what the marc held, its bottles; and what a drying showed."""

from __future__ import annotations

import re

from assistant.book import batches, own_numbers, stock
from assistant.book.dates import in_words
from assistant.book.wording import amount, plural
from assistant.faults import FigureFault
from assistant.reply import Reply
from assistant.session.assuming import PRESS_METHODS
from assistant.session.entering import Entry, on, value
from assistant.session.figuring import part_of
from assistant.session.freezing import best_before
from assistant.session.wording import sentence


def pressed(entry: Entry) -> Reply | None:
    """ "Lot 24-07 gave 205 mL": the actual yield beside the expected one, and what the marc held as the person's own number."""
    kept = entry.kept()
    if kept is None:
        return entry.no_such_lot()
    got = entry.amount(kept.unit, "pressed" if kept.unit == "mL" else "batch")
    day = entry.day() or entry.today
    method = next((words for tag, (_, words, _) in PRESS_METHODS.items() if tag in entry.reading.tags), "") or kept.method
    if got is None and not re.search(r"\b(?:pressed|strained)\b", entry.rest, re.IGNORECASE):
        return None
    if got is not None and not 0 < got <= 1e7:
        raise FigureFault("that is no yield", got=got, low=0, high=1e7, unit=kept.unit, try_this=f"“lot {kept.lot} gave 205 mL”")
    changes: dict[str, object] = {"pressed_on": day.isoformat(), "method": method, "best_before": best_before(kept, day) or kept.best_before}
    if kept.ready_on == kept.press_on or kept.ready_on is None:
        changes["ready_on"] = day.isoformat()
    if got is not None:
        changes["actual"] = got
    held = _held(kept, got)
    with entry.entering() as turn:
        batches.amend(entry.book, kept.id, **changes)
        if held is not None:
            entry.book.run("DELETE FROM measured WHERE batch = ? AND quantity = 'held_per_gram'", kept.id)
            own_numbers.add(entry.book, "held_per_gram", held, day, plant=kept.plant, part=kept.part, method=method, batch=kept.id, turn=turn)
    entry.session.memory.lot_in_hand = kept.id
    now = batches.by_id(entry.book, kept.id) or kept
    lines, values = [f"{kept.title[:1].upper()}{kept.title[1:]}, pressed {in_words(day)}" + ("." if got is None else f": {amount(got, kept.unit)}.")], []
    if got is None:
        lines.append(f"How much came out? Say “lot {kept.lot} gave 205 mL”.")
    else:
        values.append(value("pressed" if kept.unit == "mL" else "batch", got, batch=kept.title, origin="measured"))
    if now.yield_percent is not None and got is not None:
        lines.append(f"{now.yield_percent:.1f} % of the {amount(kept.expected, kept.unit)} expected.")
        values.append(value("yield_of_expected", now.yield_percent, "percent", batch=kept.title))
        values.append(value(str(kept.record.get("expected_from") or "pressed"), kept.expected, batch=kept.title))
    if held is not None:
        own = own_numbers.held_per_gram(entry.book, kept.plant, method)
        yours = f"; {own.words}: {own.value:.3g}, from now on yours in place of the table's" if own is not None else ""
        lines.append(f"The marc held {held:.3g} mL per g of dry matter{yours}.")
        values.append(value("held_per_gram", held, batch=kept.title))
        values += [value("held_per_gram", own.value, about="own")] if own is not None else []
    lines.append(sentence([f"best before {in_words(now.best_before)}"]) if now.best_before else "")
    values += on("best_before", now.best_before, kept.title) + on("pressed_on", day, kept.title)
    return entry.reply("\n".join(line for line in lines if line), values, batch=kept.title)


def pressed_by_name(entry: Entry) -> Reply | None:
    """ "H-12 gave 205 mL": where the book has a lot of that name; else the words are about the batch in hand."""
    return pressed(entry) if entry.session.memory.lots_named(entry.heard) else None


def _held(kept: batches.Batch, got: float | None) -> float | None:
    """mL that the marc held per g of dry matter, where the lot knows what was in the jar; None outside what a press can do."""
    in_jar, dry = kept.figure("in_jar") or kept.figure("menstruum"), kept.figure("dry_matter")
    if dry is None and kept.state == "dried":
        dry = kept.figure("herb")
    if got is None or in_jar is None or not dry or kept.preparation not in ("tincture", "vinegar", "glycerite"):
        return None
    held = (in_jar - got) / dry
    low, high, _ = own_numbers.LIMITS["held_per_gram"]
    return held if low <= held <= high else None


def bottled(entry: Entry) -> Reply | None:
    """ "Bottled lot 24-07: 4 bottles of 50 mL"; bottles come off the shelf where the shelf has them."""
    kept = entry.kept()
    if kept is None:
        return entry.no_such_lot()
    size = entry.amount("mL", "bottle_size")
    count = entry.amount("1", "bottles")
    day = entry.day() or entry.today
    if size is None or count is None:
        return entry.asking("How many bottles of what size?", f"bottled lot {kept.lot}: 4 bottles of 50 mL")
    if count != int(count) or not 0 < count <= 1e6 or not 0 < size <= 1e6:
        try_this = f"“bottled lot {kept.lot}: 4 bottles of 50 mL”"
        raise FigureFault("bottles are whole and hold something", got=count, low=1, high=1e6, unit="1", try_this=try_this)
    with entry.entering() as turn:
        batches.bottle(entry.book, kept.id, day, int(count), size, turn)
        empty = stock.find(entry.book, f"bottle of {size:g} mL", 0.0, "1")
        if empty is not None:
            stock.take(entry.book, empty, count, day, batch=kept.id, turn=turn)
    entry.session.memory.lot_in_hand = kept.id
    total = sum(b.bottles * b.size for b in batches.bottlings_of(entry.book, kept.id))
    text = f"{kept.title[:1].upper()}{kept.title[1:]}: {plural(count, 'bottle')} of {size:g} mL, {in_words(day)}."
    values = [value("bottles", count, batch=kept.title, origin="said"), value("bottle_size", size, batch=kept.title, origin="said")]
    whole = kept.actual if kept.actual is not None else kept.expected
    if whole is not None and kept.unit == "mL":
        text += f"\n{amount(total, 'mL')} bottled of {amount(whole, 'mL')} {'pressed' if kept.actual is not None else 'expected'}."
        if total > whole * 1.02:
            text += " That is more than there was: is the yield or the count right?"
        values.append(value("to_bottle", total, batch=kept.title))
        values.append(value("pressed", whole, batch=kept.title, origin="measured" if kept.actual is not None else "found"))
    text += f"\n“labels for lot {kept.lot}” writes them."
    return entry.reply(text, values, batch=kept.title)


def measured(entry: Entry) -> Reply | None:
    """ "Keep this drying": the water content the batch in hand came to is the person's own from here on."""
    last = entry.session.last
    figure = last.solution.figures.get("water_content") if last is not None else None
    if last is None or figure is None or figure.origin != "found" or not last.batch.plants:
        return entry.asking("No drying is in hand. What did it weigh fresh and dried?", "600 g fresh nettle dried down to 130 g")
    plant, part = last.batch.plants[0], part_of(last.batch)
    with entry.entering() as turn:
        own_numbers.add(entry.book, "water_content", figure.value, entry.today, plant=plant, part=part, turn=turn)
    own = own_numbers.water_content(entry.book, plant, part)
    assert own is not None
    text = f"Kept: {plant}{' ' + part if part else ''} had {figure.value:.3g} % water."
    text += f" {own.words[:1].upper()}{own.words[1:]}: {own.value:.3g} % ({own.spread}), yours in place of the table's."
    return entry.reply(text, [value("water_content", figure.value, about=plant), value("water_content", own.value, about="own")])
