"""Gatherings told to the book, and the shelf: what was brought in, what is gone, what is left, and whether a plan has enough."""

from __future__ import annotations

import re
from itertools import pairwise
from typing import TYPE_CHECKING

from assistant.book import BookFault, gatherings, stock
from assistant.book.dates import in_words
from assistant.book.gatherings import Gathering
from assistant.book.wording import amount
from assistant.cautions.plants import plants
from assistant.dataclass import replace
from assistant.listening.statements import Reading
from assistant.patterns import looked_for
from assistant.reply import Reply, Value
from assistant.session.entering import Entry, value
from assistant.session.figuring import PARTS

if TYPE_CHECKING:
    from assistant.session.conversation import Session

PERMISSION = (
    r"\b(?:with|by)\s+([^,;:.]*?\b(?:leave|permission|say-so|blessing|consent|agreement))\b",
    r"\b((?:leave|permission)\s+(?:of|from|by)\s+[^,;.]+)",
    r"\b(my own (?:garden|land|ground|field)|own garden|own land)\b",
)
STOP_OF_PLACE = r"(?=\s*(?:[,;.!?]|$|\bon\s+(?:the\s+)?\d|\bwith\b|\btook\b|\bby\b|\btoday\b|\byesterday\b))"
PLACE = (rf"\b((?:at|by|near|behind|below|above|along|under|beside|from|in)\s+(?!(?:the\s+)?book\b)(?:the\s+|my\s+)?[^,;.]*?){STOP_OF_PLACE}",)


OF_THE_STAND = looked_for(r"\s*(?:of|from)\s+(?:the|that|this)\s+(?:stand|patch|bed|colony|plants)", re.IGNORECASE)
OUT_OF = looked_for(r"\s*(?:plants?\s+)?(?:of|out of|from)\s+(?:the\s+|about\s+)?", re.IGNORECASE)
OF_PLANTS = looked_for(r"\s*(?:plants?|stems?|crowns?|there)", re.IGNORECASE)


def gathered(entry: Entry) -> Reply | None:
    """ "Log a gathering: 640 g nettle leaf at Mill Lane on 12 June, a fifth of the stand, with the farm's leave"."""
    names = [n.name for n in entry.reading.named]
    hand = entry.session.batch
    plant = names[0] if names else hand.plants[0] if hand is not None and hand.plants else ""
    if not plant:
        return entry.asking("Which plant was gathered?", "log a gathering: 640 g nettle leaf at Mill Lane on 12 June")
    day = entry.day() or entry.today
    weight = entry.amount("g", "gathered_weight")
    if weight is None and not names and hand is not None:
        weight = hand.value("picked") or hand.value("herb")
    stand_plants, taken, share = _stand(entry)
    permission = next((w for p in PERMISSION if (w := entry.words(p))), "")
    for pattern in PERMISSION:
        _blank(entry, pattern)
    place = ""
    for pattern in PLACE:
        said = entry.words(pattern)
        if said:
            place = re.sub(r"^(?:at|from|in)\s+(?:the\s+)?|\s+on$", "", said, flags=re.IGNORECASE)
            _blank(entry, pattern)
    found = plants().called(plant)
    known = found.plant if found is not None else None
    part = next((p for p in PARTS if p in entry.reading.tags), "") or (known.called_part if known is not None else "")
    state = "dried" if "dried" in entry.reading.tags else "fresh"
    made = Gathering(
        plant=plant, gathered_on=day.isoformat(), weight=weight, latin=known.latin if known is not None else "", part=part, state=state, place=place,
        stand_plants=stand_plants, plants_taken=taken, stand_share=share, permission=permission,
    )  # fmt: skip
    with entry.entering() as turn:
        key = gatherings.add(entry.book, made, turn)
    made = replace(made, id=key)
    return _gathering_told(entry, made)


def _stand(entry: Entry) -> tuple[float | None, float | None, float | None]:
    """Plants in the stand, plants taken, share of the stand [percent]: as far as they were said."""
    share = None
    for item in entry.figures("1", "percent"):
        behind = entry.rest[item.end : item.end + 40]
        if OF_THE_STAND.match(behind) and (item.kind == "percent" or item.said_unit == "share"):
            share = float(item.value or 0.0) * (1 if item.kind == "percent" else 100)
            entry.take(item.start, item.end, "stand_share")
    counts = entry.figures("1")
    for one, other in pairwise(counts):
        between, behind = entry.rest[one.end : other.start], entry.rest[other.end : other.end + 20]
        if OUT_OF.fullmatch(between) and OF_PLANTS.match(behind):
            entry.take(one.start, one.end, "plants_taken")
            entry.take(other.start, other.end, "stand_plants")
            return other.value, one.value, share
    for item in counts:
        if re.match(r"\s*(?:plants?|stems?|crowns?)\b", entry.rest[item.end : item.end + 12], re.IGNORECASE):
            standing = re.match(r"\s*\w+\s+(?:in the|there|standing)", entry.rest[item.end : item.end + 30], re.IGNORECASE)
            entry.take(item.start, item.end, "stand_plants" if standing else "plants_taken")
            return (item.value, None, share) if standing else (None, item.value, share)
    return None, None, share


def _blank(entry: Entry, pattern: str) -> None:
    hit = re.search(pattern, entry.rest, re.IGNORECASE)
    if hit is not None:
        entry.take(hit.start(1), hit.end(1), "label")


def _gathering_told(entry: Entry, made: Gathering) -> Reply:
    where = f" at {made.place}" if made.place else ""
    much = f"{amount(made.weight, 'g')} " if made.weight is not None else ""
    lines = [f"Gathering {made.id} kept: {much}{made.plant}{' ' + made.part if made.part else ''}{where}, {in_words(made.gathered_on)}."]
    values: list[Value] = []
    if made.weight is not None:
        values.append(value("gathered_weight", made.weight, about=made.plant, origin="said"))
    if made.share is not None:
        lines.append(f"{made.share:.3g} % of the stand.")
        values.append(value("stand_share", made.share, about=made.plant, origin="said" if made.stand_share is not None else "found"))
    for quantity, count in (("plants_taken", made.plants_taken), ("stand_plants", made.stand_plants)):
        if count is not None:
            values.append(value(quantity, count, about=made.plant, origin="said"))
    if made.permission:
        lines.append(f"Permission: {made.permission}.")
    if made.place:
        before = [g for g in gatherings.at_place(entry.book, made.place) if g.plant == made.plant]
        years = gatherings.by_year(before)
        if len(before) > 1:
            lines.append(f"From there so far: {'; '.join(f'{y.year}: {y.words}' for y in years)}.")
            values += [value("gathered_weight", y.weight, about=str(y.year)) for y in years]
            values += [value("stand_share", y.share, about=str(y.year)) for y in years if y.share is not None]
    asked = (("place", made.place), ("weight", made.weight), ("share of the stand", made.share), ("permission", made.permission))
    blank = [name for name, known in asked if known in ("", None)]
    if blank:
        lines.append(f"Not said: {', '.join(blank)}.")
    return entry.reply("\n".join(lines), values)


# ── the shelf ────────────────────────────────────────────────────────────────────────────────────────────────────────────



def _thing(entry: Entry) -> tuple[str, str, str, float] | None:
    """What is spoken of: kind, name, unit and strength; None where it is nothing for the shelf."""
    text = entry.rest.lower()
    strength = entry.amount("percent", "stock_strength")
    if strength is not None or re.search(r"\b(?:spirit|spirits|alcohol|ethanol|vodka|brandy|rum|gin)\b", text):
        kind = next((w for w in ("vodka", "brandy", "rum", "gin") if re.search(rf"\b{w}\b", text)), "spirit")
        return ("spirit", kind, "mL", strength or 0.0) if not re.search(r"\b(?:vinegar|glycerine?)\b", text) else ("vinegar", "vinegar", "mL", strength or 0.0)
    bottle = re.search(r"\b(bottles?|jars?|tins?|vials?)\b", text)
    if bottle is not None:
        size = entry.amount("mL", "bottle_size")
        name = bottle.group(1).rstrip("s")
        return ("bottle" if name != "jar" else "jar", f"{name} of {size:g} mL" if size is not None else name, "1", 0.0)
    wax = re.search(r"\b(beeswax|candelilla|wax)\b", text)
    if wax is not None:
        return "wax", wax.group(1), "g", 0.0
    oil = re.search(r"\b(?:(\w+)\s+)?oil\b", text)
    if oil is not None:
        name = f"{oil.group(1)} oil" if oil.group(1) and oil.group(1) not in ("of", "the", "ml", "l", "litres", "litre", "g", "some") else "oil"
        return "oil", name, "mL" if entry.figures("mL") or not entry.figures("g") else "g", 0.0
    for kind, unit in (("honey", "g"), ("sugar", "g"), ("vinegar", "mL"), ("glycerine", "mL")):
        if re.search(rf"\b{kind.removesuffix('e')}e?\b", text):
            return kind, kind, unit, 0.0
    if entry.reading.named:
        plant = entry.reading.named[0].name
        if re.search(r"\b(?:tincture|extract)\b", text):
            return "extract", f"{plant} tincture", "mL", 0.0
        if "dried" in entry.reading.tags:
            return "dried herb", plant, "g", 0.0
    return None


def brought(entry: Entry) -> Reply | None:
    """ "Brought in 5 L of 95 % spirit, lot S-12"; without a file open only what is put into stock by that word."""
    plainly = re.search(r"\b(?:stock|stores|store|shelf)\b", entry.heard, re.IGNORECASE)
    lot = entry.lot() or entry.words(r"\blot\s+([\w./-]+)")
    if not plainly and not lot and not entry.session.memory.is_kept:
        return None
    _blank(entry, r"\blot\s+([\w./-]+)")
    thing = _thing(entry)
    if thing is None:
        return None if not plainly else entry.asking("What came in, and how much of it?", "brought in 5 L of 95 % spirit")
    kind, name, unit, strength = thing
    much = entry.amount(unit, "have" if unit == "mL" else "have_weight" if unit == "g" else "bottles")
    if much is None:
        return entry.asking(f"How much {name} came in?", "brought in 5 L of 95 % spirit")
    price = _price(entry)
    day = entry.day() or entry.today
    with entry.entering() as turn:
        item = stock.item_for(entry.book, kind, name, unit, strength)
        stock.bring_in(entry.book, item, much, day, lot=lot, price=price, turn=turn)
    return _level_told(entry, item, f"On the shelf: {_counted(much, item)}{', lot ' + lot if lot else ''}, {in_words(day)}.")


def _counted(much: float, item: stock.Item) -> str:
    return f"{much:g} × {item.title}" if item.unit == "1" else f"{amount(much, item.unit)} {item.title}"


def _price(entry: Entry) -> float | None:
    for item in entry.items:
        if item.kind == "money" and entry.is_free(item):
            entry.take(item.start, item.end, "price_of")
            return item.value
    hit = re.search(r"\b(?:for|cost|costing|paid)\s+(\d+(?:\.\d+)?)\s*(?:[.,;]|$)", entry.rest, re.IGNORECASE)
    if hit is None:
        return None
    entry.take(hit.start(1), hit.end(1), "price_of")
    return float(hit.group(1))


def gone(entry: Entry) -> Reply | None:
    """ "Used up 200 mL of the 95 %": gone without a kept batch."""
    if not entry.session.memory.is_begun:
        return None
    thing = _thing(entry)
    if thing is None:
        return None
    kind, name, unit, strength = thing
    item = stock.spirit(entry.book, strength) if kind == "spirit" else stock.find(entry.book, name, strength, unit)
    if item is None:
        return None
    much = entry.amount(unit, "have" if unit == "mL" else "have_weight" if unit == "g" else "bottles")
    if much is None:
        return entry.asking(f"How much {item.title} is gone?", f"used up 200{' mL' if unit == 'mL' else ''} of the {item.name}")
    with entry.entering() as turn:
        stock.take(entry.book, item, much, entry.day() or entry.today, note="used up", turn=turn)
    return _level_told(entry, item, f"{_counted(much, item)} is off the shelf.")


def _level_told(entry: Entry, item: stock.Item, head: str) -> Reply:
    level = stock.level(entry.book, item)
    quantity = "have" if item.unit == "mL" else "have_weight" if item.unit == "g" else "bottles"
    return entry.reply(f"{head}\nLeft: {amount(level.left, item.unit)}.", [value(quantity, level.left, about=item.title)])


def stock_list(entry: Entry) -> Reply | None:
    """ "What's in stock?": everything on the shelf, or the one thing that is asked for."""
    strength = entry.amount("percent", "stock_strength")
    levels = stock.levels(entry.book) if entry.session.memory.is_begun else []
    if strength is not None:
        levels = [level for level in levels if abs(level.item.strength - strength) <= stock.SAME_STRENGTH]
    words = set(re.findall(r"[a-z]+", entry.heard.lower()))
    named = [level for level in levels if words & (set(level.item.name.lower().split()) - {"of", "ml"}) or level.item.kind in words]
    levels = named or levels
    if not levels:
        return entry.reply("Nothing is kept in stock. Say “brought in 5 L of 95 % spirit”.")
    lines, values = [], []
    for level in levels:
        item = level.item
        parts = [f"{amount(level.brought, item.unit)} brought in", f"{amount(level.used, item.unit)} in kept batches" if level.used else ""]
        parts.append(f"{amount(level.otherwise, item.unit)} used otherwise" if level.otherwise else "")
        lines.append(f"{item.title}: {amount(level.left, item.unit)} left ({', '.join(p for p in parts if p)}).")
        quantity = "have" if item.unit == "mL" else "have_weight" if item.unit == "g" else "bottles"
        values += [value(quantity, x, about=item.title) for x in (level.left, level.brought, level.used, level.otherwise) if x]
    return entry.reply("\n".join(lines), values, status="answered")


def beside(session: Session, reading: Reading, reply: Reply) -> Reply:
    """A plan held against the shelf: what is there of the spirit it takes, and whether it is enough."""
    if any(act.name.startswith("book_") for act in reading.acts):
        return reply
    if reply.status != "answered" or not session.memory.is_begun or session.last is None or "spirit_in_hand" in session.last.batch.facts:
        return reply
    needed = next((v.value for v in reply.values if v.quantity == "stock" and v.value is not None), None)
    strength = session.last.value("stock_strength")
    if needed is None and strength is None:
        needed = next((v.value for v in reply.values if v.quantity == "menstruum" and v.value is not None), None)
        strength = session.last.value("strength")
    if needed is None or strength is None:
        return reply
    try:
        item = stock.spirit(session.memory.book, strength)
        left = None if item is None else stock.level(session.memory.book, item).left
    except BookFault:
        return reply
    if item is None or left is None:
        return reply
    after = left - needed
    short = after < -0.5  # mL; less than that no jug shows
    what_then = f": {amount(-after, 'mL')} short." if short else f"; {amount(max(after, 0.0), 'mL')} is left after this."
    told = f"You have {amount(left, 'mL')} of {item.strength:g} %{what_then}"
    values = [
        value("spirit_in_hand", left, batch=reply.batch, origin="measured"),
        value("spirit_short" if short else "have_left", abs(after), about=item.title, batch=reply.batch),
    ]
    return reply.model_copy(update={"text": f"{reply.text}\n{told}", "values": (*reply.values, *values)})
