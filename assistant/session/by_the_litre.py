"""What is on the shelf costs so much a litre: "a litre of the echinacea costs me 42, in 100 mL bottles …", "10 of the 100s, all in"."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.listening.statements import Asked, Loose, Reading, Reference, Said
from assistant.patterns import looked_for
from assistant.session.work import take_as

if TYPE_CHECKING:
    from assistant.session.batch import Batch
    from assistant.session.conversation import Session

COSTS = (
    r"(?:costs?|costing|stands?|stood|comes?(?: out)?|works? out|sets?|runs?|is|was|at|for)"
    r"(?:\W+(?:me|us|back|in|at|to|about|around|is|was|out|of|make|:))*"
)
WORDS = r"(?:[a-z][a-z'-]*\W+){0,5}?"
COSTS_SO = looked_for(
    rf"^\W*{WORDS}(?:(?:costs?|costing)|(?:stands?|stood|comes?(?: out)?|works? out|sets?|runs?)(?:\W+(?:in|at|to|out))*\W+(?:me|us))"
    r"(?:\W+(?:me|us|back|in|at|to|about|around|out|is))*\W*$", re.I
)
STANDS_AT = looked_for(rf"\b(?:tincture|extract|syrup|elixir|glycerite|oxymel|infused oil|blend|cordial|liniment|stuff)\W+{COSTS}\W*$", re.I)
OF_IT = looked_for(r"^\W*(?:for |of )?(?:the |my |our )?(?:tincture|extract|syrup|elixir|glycerite|oxymel|infused oil|blend)\b", re.I)
BOUGHT = looked_for(
    r"\b(?:spirits?|alcohol|ethanol|vodka|brandy|gin|rum|grain|menstruum|water|vinegar|glycerine?|honey|sugar|olive|sunflower|almond|carrier|oil|wine)\b", re.I
)
MADE = looked_for(r"^\W*to (?:make|produce)\b", re.I)
ONE = looked_for(r"^(?:an?|one|1|each|every|per|the)?\s*[a-z]+$", re.I)
ASKS = looked_for(r"\b(?:what|what's|whats|how much|cost|costs|price)\b|\?", re.I)
SO_MANY = looked_for(
    r"^\W*(?:(?:and|so|what|whats|about|for|how|much|is|are|do|does|would|cost|price|of|make|it|i|want|need|sell|say)\W+)*"
    r"(?P<n>\d+|a dozen|(?:two|half a) dozen|two|three|four|five|six|eight|ten|twelve|twenty)\W+(?:bottles?\W+)?(?:of\W+)?(?:the|those|these|them|that|such)\b",
    re.I,
)
BARE = frozenset({"#", "n", "money"})
LIQUIDS = frozenset({"pressed", "menstruum", "in_jar", "bottle_size", "spirit_in_hand", "stock", "syrup", "blend"})
COUNTS = frozenset({"scale_n", "scale", "scale_one", "for_jars", "aside"})


def by_the_litre(session: Session, reading: Reading) -> None:
    """Hear what a litre of it costs, what all of it cost to make, and so many bottles of it. Changes the reading."""
    batch = session.batch
    if reading.ingredients or reading.liquids or (batch is not None and batch.members):
        return
    told = _at_so_much(reading) or _so_much_costs(reading)
    if told and not reading.asked and ASKS.search(reading.heard) and any(s.quantity == "bottle_size" for s in reading.said):
        reading.asked.append(Asked("bottle_cost", 0, len(reading.heard)))
    if batch is not None and "cost_per_ml" in batch.facts and not told:
        _so_many(reading)
        _the_empty_of_that_size(session, reading, batch)


def _at_so_much(reading: Reading) -> bool:
    """ "The tincture stands me in 38 a litre"."""
    heard = reading.heard
    for figure in [f for f in reading.loose if f.kind == "per" and f.unit == "1/mL"]:
        if STANDS_AT.search(heard[: figure.start]) or OF_IT.match(heard[figure.end :]):
            take_as(reading, figure, "cost_per_ml")
            reading.frames.add("cost")
            return True
    return False


def _so_much_costs(reading: Reading) -> bool:
    """ "A litre of the echinacea costs me 42" is its cost by the mL; "2 litres of the syrup cost me 16" all that was spent on them."""
    heard = reading.heard
    amounts = [f for f in reading.figures if (f.quantity in LIQUIDS if isinstance(f, Said) else f.kind == "mL") and f.value > 0]
    for amount in amounts:
        paid = min((f for f in reading.figures if f.start >= amount.end), key=lambda f: f.start, default=None)
        if paid is None or not _is_money(paid):
            continue
        between = heard[amount.end : paid.start]
        if not COSTS_SO.match(between) or BOUGHT.search(between):
            continue
        whole = ONE.match(heard[amount.start : amount.end].strip()) is None or MADE.match(heard[paid.end :]) is not None
        figure = take_as(reading, paid, "materials" if whole else "cost_per_ml", paid.value if whole else paid.value / amount.value)
        if whole and isinstance(amount, Loose):
            take_as(reading, amount, "pressed")
        elif not whole:
            reading.said[:] = [s for s in reading.said if s is not amount]
            reading.loose[:] = [f for f in reading.loose if f is not amount]
            reading.references.append(Reference("reference", amount.start, amount.end))
        reading.said[:] = [s for s in reading.said if s is figure or not (s.start == figure.start and s.end == figure.end)]
        reading.frames.add("cost")
        return True
    return False


def _is_money(figure: Said | Loose) -> bool:
    return figure.kind in BARE if isinstance(figure, Loose) else figure.quantity in ("bottle_cost", "materials")


def _so_many(reading: Reading) -> None:
    """ "10 of the 100s all in", "a dozen of those": so many bottles, and what they come to."""
    hit = SO_MANY.match(reading.heard)
    if hit is None or any(s.quantity == "bottles" for s in reading.said):
        return
    counted = next((f for f in reading.figures if hit.start("n") <= f.start < hit.end("n") and (isinstance(f, Said) or f.kind in BARE)), None)
    act = next((a for a in reading.acts if a.name in COUNTS and len(a.figures) == 1), None)
    if counted is not None:
        take_as(reading, counted, "bottles")
    elif act is not None:
        reading.said.append(Said("bottles", act.figures[0], hit.start("n"), hit.end("n")))
    else:
        return
    reading.let_go(*COUNTS)
    reading.asked[:] = [Asked("batch_cost", hit.start(), hit.end())]
    reading.frames.add("cost")


def _the_empty_of_that_size(session: Session, reading: Reading, batch: Batch) -> None:
    """Back at a size that was priced before, the empty costs what it did."""
    size = next((s for s in reading.said if s.quantity == "bottle_size"), None)
    now = batch.facts.get("bottle_size")
    if size is None or now is None or now.value == size.value or any(s.quantity == "empty_bottle" for s in reading.said):
        return
    marks = (mark.in_hand for mark in reversed(session.journal.before))
    before = next((b for b in marks if b is not None and b.value("bottle_size") == size.value and "empty_bottle" in b.facts), None)
    if before is not None:
        reading.said.append(Said("empty_bottle", before.facts["empty_bottle"].value, size.start, size.end))
