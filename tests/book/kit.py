"""A bench with a book, for the tests of this folder. The day is always the same one."""

from datetime import date
from pathlib import Path

from assistant import Session
from assistant.book import Book, batches, gatherings, own_numbers, stock
from assistant.book.batches import Batch, Component
from assistant.book.gatherings import Gathering

TODAY = date(2031, 6, 12)


def session(place: Path | None = None) -> Session:
    return Session(book=place, today=lambda: TODAY)


def told(place: Path | None, *sentences: str) -> Session:
    """A session to which these sentences were said; each must have been answered or noted."""
    one = session(place)
    for sentence in sentences:
        reply = one.say(sentence)
        assert reply.is_good, f"{sentence}\n{reply.text}"
    return one


def filled(book: Book) -> None:
    """A small year: two gatherings, stock, two lots, one made with the other, bottles and a check."""
    with book.writing():
        nettle = gatherings.add(book, Gathering("nettle", "2031-06-10", 640.0, place="Mill Lane", part="leaf", stand_share=20.0, permission="the farm's leave"))
        gatherings.add(book, Gathering("nettle", "2030-05-02", 300.0, place="Mill Lane", stand_plants=200.0, plants_taken=30.0))
        spirit = stock.item_for(book, "spirit", "spirit", "mL", 95.0)
        stock.bring_in(book, spirit, 5000.0, TODAY, lot="S-12", price=60.0)
        record = {
            "figures": [{"quantity": "ratio", "about": "", "value": 2.0, "unit": "1", "origin": "said"}],
            "assumptions": [{"text": "80 % water"}],
            "steps": [],
            "tables": {},
        }
        one = batches.keep(
            book,
            Batch(
                "24-07", "tincture", "2031-06-12", name="nettle", plant="nettle", press_on="2031-06-14", best_before="2034-06-14", expected=244.0, record=record
            ),
            [
                Component("nettle fresh", 112.0, "g", gathering=nettle),
                Component("spirit of 95 %", 141.5, "mL", lot="S-12", item=spirit.id),
                Component("water", 89.0, "mL"),
            ],
        )
        stock.take(book, spirit, 141.5, TODAY, batch=one)
        batches.bottle(book, one, TODAY, 4, 50.0)
        batches.check(book, one, "c", TODAY, "jar and press scalded")
        two = batches.keep(
            book, Batch("F-1", "formula", "2031-06-12", code="H12", expected=100.0, best_before="2031-06-01"), [Component("nettle", 40.0, "mL", lot="24-07")]
        )
        batches.bottle(book, two, TODAY, 1, 100.0)
        own_numbers.add(book, "held_per_gram", 2.4, TODAY, plant="nettle", method="a potato ricer", batch=one)
