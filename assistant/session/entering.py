"""One sentence that has to do with the book: its figures, lot and dates, each taken once, and nothing passed over.

What no one took is asked about at the end, so that no number is dropped in silence.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from contextlib import AbstractContextManager
from datetime import date
from typing import TYPE_CHECKING

from assistant.book import Book, batches
from assistant.book.dates import in_words, said_date
from assistant.listening.islands import Item, read
from assistant.listening.statements import Reading
from assistant.listening.words import Habits
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import VOCABULARY
from assistant.reply import LONGEST_PIECE, Origin, Question, Reply, Status, Used, Value
from assistant.session.pointing import unnamed
from assistant.session.wording import number

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

LOT = looked_for(r"\b(?:lot|batch|code)\s+(?:no\.?\s*|number\s+|#\s*)?((?=[\w./-]*\d)[\w][\w./-]*)", re.IGNORECASE)
CLAUSE_END = looked_for(r"[,;](?=\s|$)|[.?!](?=\s|$)|\band then\b")
SIGNS = {"mL": " mL", "g": " g", "percent": " %", "1": "", "day": " days"}


class Entry:
    """A sentence in the hands of the book's talk."""

    def __init__(self, session: Session, reading: Reading, answers: Answers) -> None:
        self.session = session
        self.reading = reading
        self.answers = answers
        self.heard = answers.heard
        text = unnamed(self.heard, session.memory.lots_named(self.heard))
        self.items = read(text, Habits(measures=session.measures, decimal_comma=session.decimal_comma)).items
        self.today: date = session.memory.today()
        self._rest = self.heard  # with what was taken blanked out
        self._taken: list[tuple[int, int]] = []

    @property
    def book(self) -> Book:
        return self.session.memory.book

    def entering(self) -> AbstractContextManager[int | None]:
        return self.session.memory.entering(self.session)

    # ── taking ───────────────────────────────────────────────────────────────────────────────────────────────────────

    def take(self, start: int, end: int, quantity: str) -> None:
        """Say of a piece of the sentence what it became."""
        for at in range(start, end, LONGEST_PIECE):
            stop = min(end, at + LONGEST_PIECE)
            self.answers.used.append(Used(text=self.heard[at:stop], start=at, end=stop, quantity=quantity))
        self._taken.append((start, end))
        self._rest = self._rest[:start] + " " * (end - start) + self._rest[end:]

    @property
    def of_the_batch(self) -> str:
        """The sentence with every clause blanked out in which something was taken for the book, or which speaks of keeping."""
        text = self.heard
        spans = [(u.start, u.end) for u in self.answers.used] + [(a.start, a.end) for a in self.reading.acts if a.name.startswith("book_") or a.name == "keep"]
        at = 0
        for stop in [*CLAUSE_END.finditer(self.heard), None]:
            end = stop.start() if stop is not None else len(self.heard)
            if any(at <= start < end for start, _ in spans):
                text = text[:at] + " " * (end - at) + text[end:]
            at = stop.end() if stop is not None else end
        return text

    def is_free(self, item: Item) -> bool:
        return not any(start < item.end and item.start < end for start, end in self._taken)

    def figures(self, *units: str) -> list[Item]:
        """Amounts in these units that nothing has taken yet, in the order said; "1" are bare counts."""
        wanted = {"percent": ("percent", "proof"), "1": ("number",)}
        kinds = {kind for unit in units for kind in wanted.get(unit, ("amount",))}
        return [
            item for item in self.items
            if item.kind in kinds and item.value is not None and self.is_free(item) and (item.kind != "amount" or item.unit in units)
        ]  # fmt: skip

    def amount(self, unit: str, quantity: str) -> float | None:
        """The first amount in that unit, taken for that quantity; an ounce of a liquid is a fluid ounce."""
        for item in self.figures("g", "mL") if unit in ("g", "mL") else self.figures(unit):
            value = item.value if item.unit == unit or unit not in ("g", "mL") else item.alt if item.unit == "g" and item.said_unit in ("oz", "ounce") else None
            if value is not None:
                self.take(item.start, item.end, quantity)
                return float(value)
        return None

    def lot(self) -> str | None:
        """The lot named in the sentence, taken; without the word before it too where the sentence has a sign like S-12."""
        hit = LOT.search(self._rest)
        if hit is not None:
            lot = hit.group(1).rstrip(".,")
            self.take(hit.start(), hit.start(1) + len(lot), "label")
            return lot
        for item in self.items:
            if item.kind == "label" and self.is_free(item):
                self.take(item.start, item.end, "label")
                return re.sub(r"^(?:lot|batch|code|no\.?|number|#)\s*", "", item.text, flags=re.IGNORECASE).strip()
        return None

    def kept(self) -> batches.Batch | None:
        """The kept batch the sentence speaks of: by its lot, else by its plant, else the one kept last in this conversation."""
        lot = self.lot()
        if lot is not None:
            return batches.named(self.book, lot)
        found = self._known_lot()
        if found is not None:
            return found
        for named in self.reading.named:
            found = batches.latest(self.book, named.name)
            if found is not None:
                return found
        key = self.session.memory.lot_in_hand
        return None if key is None else batches.by_id(self.book, key)

    def _known_lot(self) -> batches.Batch | None:
        """A lot of the book whose name stands in the sentence, without the word lot before it; the longest where one holds another."""
        found = batches.first_in(self.book, self._rest)
        if found is None:
            return None
        kept, start, end = found
        self.take(start, end, "label")
        return kept

    def day(self, *, ahead: bool = False) -> date | None:
        """The first date in what is left of the sentence, taken."""
        found = said_date(self._rest, self.today, ahead=ahead)
        if found is None:
            return None
        day, start, end = found
        self.take(start, end, "time")
        return day

    def words(self, pattern: str) -> str:
        """The first group of a pattern in what is left of the sentence, as the person said it."""
        hit = re.search(pattern, self._rest, re.IGNORECASE)
        return " ".join(self.heard[hit.start(1) : hit.end(1)].split()).strip(" ,.;:") if hit is not None else ""

    @property
    def rest(self) -> str:
        return self._rest

    @property
    def left_over(self) -> list[Item]:
        """Figures that nothing took."""
        return [i for i in self.items if i.value is not None and i.kind not in ("word", "punct", "time", "label") and self.is_free(i)]

    # ── answering ────────────────────────────────────────────────────────────────────────────────────────────────────

    def reply(self, text: str, values: Sequence[Value] = (), *, status: Status = "noted", questions: Sequence[Question] = (), batch: str = "") -> Reply:
        """The reply; what was said and not taken is asked about."""
        asked = [Question(text=f"What is “{item.text}” for?") for item in self.left_over] if status in ("noted", "answered") else []
        for item in self.items:  # a date or a label that only points somewhere
            if item.kind in ("time", "label") and self.is_free(item):
                self.take(item.start, item.end, item.kind)
        lines = [text, *(q.text for q in asked)]
        return self.answers.reply(status, "\n".join(lines), batch=batch, values=tuple(values), questions=(*questions, *asked))

    def asking(self, text: str, *choices: str) -> Reply:
        for item in self.items:
            if item.value is not None and self.is_free(item):
                self.take(item.start, item.end, "reference")
        return self.reply(text, status="asking", questions=(Question(text=text, choices=choices),))

    def no_such_lot(self) -> Reply:
        known = [row["lot"] for row in self.book.rows("SELECT lot FROM batches ORDER BY id DESC LIMIT 3")]
        if not known:
            return self.asking("Nothing is kept yet. Which batch is it?", "keep this as lot 24-07")
        return self.asking("That lot is not in the book. Which one is it?", *(f"lot {k}" for k in known))


def value(quantity: str, amount: float | None, unit: str = "", *, about: str = "", batch: str = "", origin: Origin = "found") -> Value:
    """A figure of the book as the reply carries it."""
    unit = unit or (VOCABULARY[quantity].unit if quantity in VOCABULARY else "1")
    shown = "" if amount is None else number(amount, unit) + SIGNS.get(unit, f" {unit}")
    return Value(quantity=quantity, about=about, batch=batch, value=amount, unit=unit, origin=origin, text=shown)


def on(quantity: str, day: str | date | None, batch: str = "") -> list[Value]:
    """A date as the reply carries it; nothing where there is none."""
    if day is None or day == "":
        return []
    text = day if isinstance(day, str) else day.isoformat()
    return [Value(quantity=quantity, batch=batch, date=text, origin="found", text=in_words(day))]
