"""What the book adds to the working year: lots due on a pressing day, what a lot holds, what spirit was bought and used, a year planned from the last."""

from __future__ import annotations

import re
from datetime import date, timedelta
from typing import TYPE_CHECKING

from assistant.book import batches, stock, tracing
from assistant.book.dates import DAYS, in_words, said_date
from assistant.dataclass import replace
from assistant.listening.statements import Reading, Reference
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import key_for
from assistant.reply import Question, Reply, Used
from assistant.session.batch import Batch, Fact
from assistant.session.naming import same_plant
from assistant.session.year_whole import whole

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

WEEKDAY = looked_for(rf"\b(?:on\s+|this\s+)?({'|'.join(d for d in DAYS if len(d) > 3)})\b", re.IGNORECASE)
COUNT = looked_for(r"\b(\d+|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)\s+jars?\b", re.IGNORECASE)
SMALL = {w: n for n, w in enumerate("two three four five six seven eight nine ten eleven twelve".split(), 2)}
RECIPE = ("ratio", "dry_ratio", "strength", "water_content", "stock_strength", "held_per_gram")
A_YEAR = 365  # days
ACCOUNT = "bought 10 L of 95, used 6.2 L, 3.5 L on the shelf"
TELL = "nettle 850 mL from 400 g, elder 600 mL from 300 g; basket 2 L, 50 mL bottles"


def handle(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """A reply where the book has what the sentence leaves out; None where it has not, or where nothing of it is asked."""
    memory = session._memory
    begun = memory is not None and memory.is_begun
    if reading.has("year_press") and not reading.ingredients:
        return pressing_day(session, reading, answers, begun)
    if "ledger" in reading.frames and not reading.said and not begun and (session.batch is None or "ledger" not in session.batch.frames):
        ask = Question(text="What was bought, what was used, and what stands on the shelf?", wants=("spirit_bought",), choices=(ACCOUNT,))
        return answers.reply("asking", f"{ask.text} (for example: {ACCOUNT})", questions=(ask,))
    if not begun:
        return None
    if reading.has("year_from_book"):
        return from_book(session, reading, answers)
    if "orders" in reading.frames and reading.ingredients:
        return orders(session, reading, answers)
    if "ledger" in reading.frames and not {s.quantity for s in reading.said} & {"spirit_bought", "spirit_used"}:
        return ledger(session, reading, answers)
    return None


def _day(session: Session, reading: Reading, answers: Answers) -> tuple[date | None, str]:
    """The day a sentence speaks of: a date, or the next such weekday."""
    today = session.memory.today()
    found = said_date(reading.heard, today, ahead=True)
    if found is not None:
        answers.used.append(Used(text=reading.heard[found[1] : found[2]][:40], start=found[1], end=found[2], quantity="time"))
        return found[0], in_words(found[0])
    hit = WEEKDAY.search(reading.heard)
    if hit is None:
        return None, ""
    ahead = (DAYS[hit.group(1).lower()] - today.weekday()) % 7
    day = today + timedelta(days=ahead)
    return day, f"{hit.group(1).capitalize()}, {in_words(day)}"


def pressing_day(session: Session, reading: Reading, answers: Answers, begun: bool) -> Reply | None:
    """ "Seven jars Saturday": the lots due by that day, what each gives, loads, bottles and labels, the one due first first."""
    day, words = _day(session, reading, answers)
    today = session.memory.today()
    last = day or today + timedelta(days=6 - today.weekday())
    due = (
        [*tracing.overdue(session.memory.book, today), *tracing.to_press(session.memory.book, today - timedelta(days=today.weekday()), last)]
        if begun
        else []
    )
    due = list({b.id: b for b in due}.values())
    counted = COUNT.search(reading.heard)
    said = 0
    if counted is not None:
        said = SMALL.get(counted.group(1).lower()) or int(counted.group(1))
    if not due:
        ask = Question(text="What is in the jars?", wants=("jar_out", "jar_herb"), choices=(TELL,))
        where = f" by {words}" if words else ""
        return answers.reply("asking", f"Nothing in the book is due{where}. {ask.text} (for example: {TELL})", questions=(ask,))
    facts: dict[str, Fact] = {}
    names = []
    for lot in sorted(due, key=lambda b: (b.press_on or "", b.plant, b.id)):
        name = f"{lot.lot} {lot.plant}".strip()
        names.append(name)
        facts |= _jar(lot, name, session.turn)
    held = session.batch
    if held is not None:
        facts |= {k: f for k, f in held.facts.items() if k in ("basket", "bottle_size", "drained_per_gram")}
    told = {s.quantity for s in reading.said} | facts.keys()
    batch = Batch(name="pressing day", frames=frozenset({"press_day"}), members=tuple(names)).having(facts=facts)
    clean = replace(
        reading, named=[], mentions=[], ingredients=[], frames=reading.frames | {"press_day"}, loose=[f for f in reading.loose if f.value != said], asked=[]
    )
    clean.said = [s for s in reading.said if s.quantity in ("basket", "bottle_size", "drained_per_gram")]
    if counted is not None:
        clean.references = [*reading.references, Reference("reference", counted.start(1), counted.end(1), float(said))]
    reply = session.take(clean, answers, onto=batch, index=-1)
    more = []
    if said and said != len(names):
        more.append(f"You say {said} jars; the book has {len(names)} due by then.")
    questions = list(reply.questions)
    for key, text, choice in (
        ("basket", "How many litres does the press basket take?", "a basket of 3 L"),
        ("bottle_size", "How big are the bottles?", "50 mL bottles"),
    ):
        if key not in told:
            questions.append(Question(text=text, wants=(key,), choices=(choice,)))
            more.append(f"{text} (for example: {choice})")
    return reply.model_copy(update={"text": "\n".join([reply.text, *more]), "questions": tuple(questions)})


def _jar(lot: batches.Batch, name: str, turn: int) -> dict[str, Fact]:
    """What the book has of a jar: the mL expected, the plant in it and its water."""
    facts: dict[str, Fact] = {}
    for quantity, value in (("jar_out", lot.expected if lot.unit == "mL" else None), ("jar_herb", lot.figure("herb"))):
        if value:
            facts[key_for(quantity, name)] = Fact(value, "measured", turn)
    water = 0.0 if lot.state == "dried" else lot.figure("water_content")
    if water is not None:
        facts[key_for("jar_water", name)] = Fact(water, "measured", turn)
    return facts


def in_lots(session: Session, plant: str) -> float | None:
    """mL of a plant in pressed lots, less what went into other lots; None where none was pressed."""
    book = session.memory.book
    rows = book.rows("SELECT * FROM batches WHERE plant = ? AND actual IS NOT NULL AND unit = 'mL'", plant.lower())
    lots = [batches.batch_of(row) for row in rows]
    if not lots:
        return None
    used = 0.0
    for lot in lots:
        row = book.row("SELECT coalesce(sum(amount), 0) AS used FROM components WHERE lot = ? AND unit = 'mL'", lot.lot)
        used += float(row["used"]) if row is not None else 0.0
    return sum(lot.actual or 0.0 for lot in lots) - used


def orders(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """ "Promised 400 mL of nettle": against what the lots of that plant hold by the book, where it was not said."""
    facts: dict[str, Fact] = {}
    held = session.batch if session.batch is not None and "orders" in session.batch.frames else None
    for row in reading.ingredients:
        if any(q == "lot_has" for q, *_ in row.figures) or (held is not None and key_for("lot_has", row.name) in held.facts):
            continue
        there = in_lots(session, row.name)
        if there is not None:
            facts[key_for("lot_has", row.name)] = Fact(there, "measured", session.turn)
    if not facts:
        return None
    onto = (held or Batch(frames=frozenset({"orders"}))).with_facts(facts)
    members = (*onto.members, *(row.name for row in reading.ingredients if row.name not in onto.members))
    return session.take(reading, answers, onto=onto.having(members=members), index=session.current if held is not None else -1)


def ledger(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """ "Spirit ledger: 3.1 L of 95 on the shelf": what the book has bought and used, in pure alcohol, against what stands there."""
    bought = used = gone = 0.0
    for level in stock.levels(session.memory.book):
        if level.item.kind == "spirit":
            share = level.item.strength / 100
            bought, used, gone = bought + level.brought * share, used + level.used * share, gone + level.otherwise * share
    if not bought:
        return None
    facts = {"pure_bought": bought, "pure_used": used, "pure_gone": gone}
    batch = Batch(frames=frozenset({"ledger"})).having(facts={k: Fact(v, "measured", session.turn) for k, v in facts.items()})
    return session.take(reading, answers, onto=batch, index=-1)


def from_book(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """ "Plan the year from the book": each plant pressed in the last year, made again as it was, what is left of it counted."""
    today = session.memory.today()
    since = (today - timedelta(days=A_YEAR)).isoformat()
    rows = session.memory.book.rows("SELECT * FROM batches WHERE started >= ? AND preparation = 'tincture' AND plant <> '' ORDER BY started, id", since)
    lots = [batches.batch_of(row) for row in rows]
    if not lots:
        ask = Question(text="How much of each plant went last year?", wants=("used_last_year",), choices=("used 4 L nettle last year",))
        return answers.reply("asking", f"No tincture of the last year is in the book. {ask.text} (for example: {ask.choices[0]})", questions=(ask,))
    shared = {
        s.quantity: Fact(s.value, "said", session.turn)
        for s in reading.said
        if s.quantity in ("growth", "fall", "trim_loss", "margin", "bottle_size", "stock_strength")
    }
    answers.used += [Used(text=reading.heard[s.start : s.end][:40], start=s.start, end=min(s.end, s.start + 40), quantity=s.quantity) for s in reading.said]
    for plant in dict.fromkeys(lot.plant for lot in lots):
        own = [lot for lot in lots if lot.plant == plant]
        last = own[-1]
        facts = {q: Fact(v, "measured", session.turn) for q in RECIPE if (v := last.figure(q)) is not None}
        facts["used_last_year"] = Fact(sum(lot.actual if lot.actual is not None else lot.expected or 0.0 for lot in own), "measured", session.turn)
        tags = frozenset({last.state} if last.state in ("fresh", "dried") else ())
        place = next((i for i, b in enumerate(session.batches) if "year" in b.frames and same_plant(b.name, plant)), -1)
        plan = Batch(name=plant, plants=(plant,), frames=frozenset({"year"}), tags=tags).having(facts=facts | shared, wanted=("to_gather", "stock"))
        session.keep(plan, place)
    return whole(session, reading, answers)
