"""A book of 100,000 batches against one of 1,000: opening it and asking what presses this week, and a turn with and without a book.

Run by hand: pytest -s tests/benchmarks/test_book.py
"""

import statistics
import time
from datetime import timedelta

import pytest

from assistant.book import Book, tracing
from tests.book.kit import TODAY, session

AT_MOST = 2.0  # times as long, and
BESIDE = 0.050  # seconds


def dates_of(n, count):
    """Started, to press, pressed, best before: ten lots a day up to today, the last 500 not pressed yet."""
    day = TODAY - timedelta(days=42 + (count - n) // 10)
    return day, day + timedelta(days=42), None if n > count - 500 else day, day + timedelta(days=1100)


def of_many(place, count):
    """A book of that many lots, a start every few minutes of the years before: as many are due this week in each."""
    with Book(place) as book, book.writing():
        book.connection.executemany(
            "INSERT INTO batches (lot, preparation, plant, started, press_on, pressed_on, best_before, expected, record)"
            " VALUES (?, 'tincture', 'nettle', ?, ?, ?, ?, 244, ?)",
            (
                (f"L{n}", *(d.isoformat() if d is not None else None for d in dates_of(n, count)), '{"figures": []}')
                for n in range(1, count + 1)
            ),
        )  # fmt: skip


@pytest.fixture(scope="module")
def books(tmp_path_factory):
    places = {}
    for count in (1_000, 100_000):
        places[count] = tmp_path_factory.mktemp("books") / f"{count}.db"
        of_many(places[count], count)
    return places


def median(work, times=15):
    spent = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        spent.append(time.perf_counter() - start)
    return statistics.median(spent)


def test_what_presses_this_week_of_a_hundred_thousand(books):
    def ask(place):
        with Book(place) as book:
            return tracing.this_week(book, TODAY)

    assert len(ask(books[1_000])) == len(ask(books[100_000])) > 5
    few, many = median(lambda: ask(books[1_000])), median(lambda: ask(books[100_000]))
    print(f"\nopening and asking: 1,000 batches {few * 1e3:.1f} ms, 100,000 batches {many * 1e3:.1f} ms ({many / few:.2f} times)", end="")
    assert many <= AT_MOST * few + BESIDE


def test_the_same_in_conversation(books):
    said = {count: session(place) for count, place in books.items()}
    few, many = (median(lambda one=said[count]: one.say("what presses this week?")) for count in (1_000, 100_000))
    print(f"\nsaid in a conversation: {few * 1e3:.1f} ms and {many * 1e3:.1f} ms ({many / few:.2f} times)", end="")
    assert many <= AT_MOST * few + BESIDE


def test_a_turn_with_a_book(tmp_path):
    bare, kept = session(), session(tmp_path / "book.db")
    for one in (bare, kept):
        one.say("112 g fresh nettle, 1:2 at 60 %")
    ratios = iter(range(2, 1000))
    without, with_book = (median(lambda one=one: one.say(f"what if 1:{next(ratios) / 7:.2f}"), 40) for one in (bare, kept))
    print(f"\na turn: {without * 1e3:.1f} ms without a book, {with_book * 1e3:.1f} ms with one", end="")
    assert with_book < 3 * without + BESIDE
