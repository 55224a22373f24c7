"""Instruments in the book: kept with everything else a person owns, taken up again, forgotten with the sentence that told them."""

import sqlite3

import pytest

from assistant.book import Book, belongings
from tests.book.kit import session, told

SPRING = "my spring scale goes to a kilo in 10 g steps"


@pytest.fixture
def place(tmp_path):
    return tmp_path / "book.db"


def kept(place):
    with Book(place) as book:
        return belongings.of_kind(book, "instrument")


def test_they_are_kept_and_there_again_in_another_conversation(place):
    told(place, SPRING, "the cylinder is 100 ml, class B", "my dropper makes 34 drops a ml of 50 %")
    assert set(kept(place)) == {"spring scale", "100 mL cylinder", "dropper"}
    later = session(place)
    assert [i.name for i in later.instruments] == ["spring scale", "100 mL cylinder", "dropper"]
    reply = later.say("112 g fresh nettle at 80 % water, 1:2 at 60 %")
    assert next(v for v in reply.values if v.quantity == "menstruum").plus_minus == pytest.approx(10.0)


def test_what_was_told_anew_takes_the_place_of_what_was_kept(place):
    told(place, SPRING)
    told(place, "the spring scale reads in 5 g steps")
    assert kept(place)["spring scale"]["step"] == 5.0
    assert kept(place)["spring scale"]["capacity"] == 1000.0


def test_sold_and_undone_reach_the_book(place):
    one = told(place, SPRING, "my kitchen scale reads in 1 g steps", "sold the spring scale")
    assert set(kept(place)) == {"kitchen scale"}
    one.say("undo")
    assert set(kept(place)) == {"spring scale", "kitchen scale"}


def test_forgetting_the_sentence_forgets_the_instrument(place):
    one = told(place, "112 g fresh nettle, 1:2 at 60 %", SPRING)
    one.say("forget that")
    assert not kept(place)
    assert not one.instruments


def test_a_conversation_taken_up_has_what_the_person_owns_now(place):
    told(place, "112 g fresh nettle at 80 % water, 1:2 at 60 %", SPRING)
    with Book(place) as book:
        belongings.put(book, "instrument", "balance", {"kind": "scale", "name": "balance", "step": 0.1})
    later = session(place)
    assert later.memory.go_on(later) is not None
    assert [i.name for i in later.instruments] == ["spring scale", "balance"]
    later.say("undo")
    assert set(kept(place)) == {"spring scale", "balance"}


def test_one_that_was_tampered_with_is_left_out(place):
    told(place, SPRING, "my kitchen scale reads in 1 g steps")
    with sqlite3.connect(place) as raw:
        raw.execute("""UPDATE belongings SET data = '{"kind": "scale", "name": "spring scale", "step": -4}' WHERE name = 'spring scale'""")
    assert [i.name for i in session(place).instruments] == ["kitchen scale"]


def test_a_session_without_a_book_keeps_none(tmp_path):
    one = session(None)
    one.say(SPRING)
    assert [i.name for i in one.instruments] == ["spring scale"]
    assert not session(None).instruments
