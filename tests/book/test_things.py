"""Lots, gatherings, the shelf, own numbers, dates and ways through the book, each by itself."""

from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.book import Book, BookFault, batches, belongings, gatherings, own_numbers, record, stock, tracing
from assistant.book.batches import Batch, Component
from assistant.book.dates import days_later, months_later, said_date, said_month, week_of
from assistant.book.gatherings import Gathering
from assistant.book.keeping_times import keeping_time
from assistant.faults import FigureFault, SentenceFault
from tests.book.kit import TODAY, filled


@pytest.fixture
def book():
    with Book() as one:
        filled(one)
        yield one


def test_a_kept_lot_is_frozen(book):
    kept = batches.named(book, "24-07")
    with pytest.raises(BookFault):
        batches.amend(book, kept.id, expected=500.0)
    with pytest.raises(BookFault):
        batches.amend(book, kept.id, record={})
    batches.amend(book, kept.id, actual=205.0, pressed_on="2031-07-24")
    now = batches.named(book, "24-07")
    assert now.record == kept.record
    assert now.yield_percent == pytest.approx(100 * 205 / 244)


def test_yield_is_a_percent_of_what_was_expected():
    """430 of 500 mL is 86.0 %: the arithmetic behind 21 CFR 111.260(f)."""
    assert Batch("1", "tincture", "2031-06-12", expected=500.0, actual=430.0).yield_percent == pytest.approx(86.0, abs=0.05)


def test_a_lot_is_taken_once_whatever_its_case(book):
    batches.keep(book, Batch("h-1", "tincture", "2031-06-12"), [])
    for lot in ("H-1", " h-1 "):
        with pytest.raises(SentenceFault) as fault:
            batches.keep(book, Batch(lot, "tincture", "2031-06-12"), [])
        assert "H-1b".lower() in fault.value.try_this.lower()
    for lot in ("", "  ", "x" * 41):
        with pytest.raises(SentenceFault):
            batches.keep(book, Batch(lot, "tincture", "2031-06-12"), [])


def test_every_field_of_the_rule_is_accounted_for(book):
    """21 CFR 111.260 (a) to (n): what a kitchen has stands there, what it has not is blank."""
    entries = {e.field.letter: e for e in record.record_of(book, batches.named(book, "24-07"))}
    assert "".join(entries) == "abcdefghijklmn"
    assert {letter for letter, e in entries.items() if not e.is_blank} == set("acdefjk")
    assert entries["e"].words == ("nettle fresh, 112 g", "spirit of 95 %, 142 mL", "water, 89 mL")
    assert any("lot S-12" in w for w in entries["d"].words)
    assert any("gathering 1" in w for w in entries["d"].words)
    assert entries["k"].words == ("4 × 50 mL, 12 June 2031",)
    assert set(record.NOTES.values()) <= set(record.BY_LETTER)
    assert [f.letter for f in record.FIELDS if f.kitchen == "blank"] == ["i"]


def test_a_stand_over_the_years(book):
    years = gatherings.by_year(gatherings.at_place(book, "mill lane"))
    assert [(y.year, y.visits, y.weight, y.share) for y in years] == [(2030, 1, 300.0, 15.0), (2031, 1, 640.0, 20.0)]
    assert gatherings.used_of(book, 1) == 112.0
    with pytest.raises(FigureFault):
        gatherings.add(book, Gathering("nettle", "2031-06-12", stand_plants=20.0, plants_taken=30.0))


def test_the_shelf_adds_up(book):
    spirit = stock.spirit(book, 95.1)
    level = stock.level(book, spirit)
    assert (level.brought, level.used, level.otherwise) == (5000.0, 141.5, 0.0)
    stock.take(book, spirit, 100.0, TODAY)
    assert stock.level(book, spirit).left == pytest.approx(4758.5)
    assert stock.spirit(book, 96.0) is None
    assert stock.lots_of(book, spirit) == ["S-12"]
    for bad in (0.0, -1.0, float("nan"), 1e12):
        with pytest.raises(FigureFault):
            stock.bring_in(book, spirit, bad, TODAY)


@settings(max_examples=25, deadline=None)
@given(st.lists(st.floats(0.1, 1e4), min_size=1, max_size=12))
def test_what_comes_in_is_used_or_left(amounts):
    with Book() as one:
        item = stock.item_for(one, "oil", "olive oil", "mL")
        for place, amount in enumerate(amounts):
            (stock.bring_in if place % 2 == 0 else stock.take)(one, item, amount, TODAY)
        level = stock.level(one, item)
        assert level.left == pytest.approx(sum(amounts[::2]) - sum(amounts[1::2]), abs=1e-6)
        assert level.brought == pytest.approx(level.left + level.used + level.otherwise)


def test_own_numbers_are_the_last_five_with_their_spread(book):
    for value in (9.0, 2.0, 2.2, 2.4, 2.6, 2.8):
        own_numbers.add(book, "held_per_gram", value, TODAY, plant="sage", method="a screw press")
    own = own_numbers.held_per_gram(book, "sage")
    assert (own.count, own.value, own.low, own.high) == (5, pytest.approx(2.4), 2.0, 2.8)
    assert own.words == "your last 5 pressings of sage"
    assert own_numbers.held_per_gram(book, "sage", "a potato ricer").value == 2.4  # of another plant, but by that method
    assert own_numbers.held_per_gram(book, "yarrow").count == 5
    assert own_numbers.held_per_gram(book, "yarrow", "a hydraulic press") is None
    own_numbers.add(book, "water_content", 78.0, TODAY, plant="nettle", part="leaf")
    assert own_numbers.water_content(book, "nettle", "leaf").words == "your last drying of nettle leaf"
    assert own_numbers.water_content(book, "nettle", "root") is None
    assert own_numbers.water_content(book, "", "") is None
    with pytest.raises(FigureFault):
        own_numbers.add(book, "water_content", 130.0, TODAY)


def test_from_the_plants_to_the_bottles_and_back(book):
    nettle = gatherings.of_plant(book, "nettle", date(2031, 6, 1), date(2031, 6, 30))
    assert [g.id for g in nettle] == [1]
    went = tracing.from_gathering(book, nettle[0])
    assert [(w.batch.lot, w.through, [(b.bottles, b.size) for b in w.bottlings]) for w in went] == [("24-07", "", [(4, 50.0)]), ("F-1", "24-07", [(1, 100.0)])]
    assert [w.batch.lot for w in tracing.from_lot(book, "s-12")] == ["24-07", "F-1"]
    came = tracing.into_lot(book, batches.named(book, "24-07"))
    assert [(c.component.what, c.gathering and c.gathering.place) for c in came] == [("nettle fresh", "Mill Lane"), ("spirit of 95 %", None), ("water", None)]


def test_lots_that_went_into_each_other_end(book):
    one = batches.keep(book, Batch("A", "formula", "2031-01-01"), [Component("b", 1.0, "mL", lot="B")])
    batches.keep(book, Batch("B", "formula", "2031-01-01"), [Component("a", 1.0, "mL", lot="A")])
    assert {w.batch.lot for w in tracing.from_lot(book, "A")} == {"A", "B"}
    assert one


def test_what_is_due_and_what_is_past(book):
    batches.keep(book, Batch("late", "tincture", "2031-04-01", press_on="2031-05-30"), [])
    batches.keep(book, Batch("next", "tincture", "2031-06-01", press_on="2031-06-16"), [])
    batches.keep(book, Batch("done", "tincture", "2031-04-01", press_on="2031-06-11", pressed_on="2031-06-11"), [])
    assert [b.lot for b in tracing.this_week(book, TODAY)] == ["24-07"]
    assert [b.lot for b in tracing.overdue(book, TODAY)] == ["late"]
    assert [b.lot for b in tracing.in_jars(book)] == ["late", "24-07", "next"]
    assert [b.lot for b in tracing.past_date(book, TODAY)] == ["F-1"]


@given(st.dates(date(1900, 1, 1), date(2200, 1, 1)), st.integers(-600, 600))
def test_months_on_land_in_the_month_meant(day, months):
    later = months_later(day, months)
    assert (later.year * 12 + later.month) - (day.year * 12 + day.month) == months
    assert later.day <= day.day
    monday, sunday = week_of(later)
    assert monday.weekday() == 0
    assert monday <= later <= sunday


@pytest.mark.parametrize(
    ("words", "day"),
    [
        ("on 12 June", date(2031, 6, 12)), ("on 13 June", date(2030, 6, 13)),
        ("June 3rd, 2029", date(2029, 6, 3)), ("2031-02-28", date(2031, 2, 28)), ("yesterday", date(2031, 6, 11)),
        ("last Tuesday", date(2031, 6, 10)), ("three weeks ago", date(2031, 5, 22)), ("on 1st of May", date(2031, 5, 1)), ("29 February", date(2028, 2, 29)),
    ],
)  # fmt: skip
def test_days_as_people_say_them(words, day):
    assert said_date(f"gathered {words}, a fifth", TODAY)[0] == day


def test_days_that_no_calendar_has():
    for words in ("31 June", "2031-13-01", "30 February 2031"):
        with pytest.raises(SentenceFault):
            said_date(words, TODAY)
    for days in (1e9, float("inf"), float("nan")):
        with pytest.raises(SentenceFault):
            days_later(TODAY, days)
    assert said_date("112 g nettle may go in 24-07", TODAY) is None
    assert said_date("press on 3 August", TODAY, ahead=True)[0] == date(2031, 8, 3)
    assert said_date("press on 3 May", TODAY, ahead=True)[0] == date(2032, 5, 3)
    assert said_month("the June nettle", TODAY)[:2] == (date(2031, 6, 1), date(2031, 6, 30))
    assert said_month("the July nettle", TODAY)[0] == date(2030, 7, 1)
    assert said_month("may I", TODAY) is None


@pytest.mark.parametrize(
    ("kind", "part", "finish", "brix", "months", "days"),
    [
        ("tincture", "", 45, None, 36, 0), ("tincture", "", 22, None, 12, 0),
        ("tincture", "", 15, None, 0, 7), ("glycerite", "", None, None, 12, 0), ("vinegar", "", None, None, 6, 0),
        ("syrup", "", None, 66, 6, 0), ("syrup", "", None, 50, 0, 14), ("oil", "", None, None, 6, 0),
        ("salve", "", None, None, 12, 0), ("dried herb", "leaf", None, None, 12, 0),
        ("dried herb", "root", None, None, 24, 0), ("decoction", "", None, None, 0, 2),
    ],
)  # fmt: skip
def test_what_keeps_how_long(kind, part, finish, brix, months, days):
    found = keeping_time(kind, part, finish, brix)
    assert (found.months, found.days) == (months, days)
    assert found.best_before(TODAY) == (months_later(TODAY, months) if months else TODAY + timedelta(days=days))


def test_nothing_is_said_of_what_custom_has_no_word_for():
    assert keeping_time("dilution") is None


def test_belongings(book):
    belongings.put(book, "scale", "spring", {"to": 1000, "step": 10})
    belongings.put(book, "scale", "spring", {"to": 1000, "step": 5})
    assert belongings.of_kind(book, "scale") == {"spring": {"to": 1000, "step": 5}}
    assert belongings.get(book, "scale", "kitchen") is None
    assert belongings.drop(book, "scale", "spring") is True
    assert belongings.drop(book, "scale", "spring") is False
