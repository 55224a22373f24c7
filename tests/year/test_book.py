"""What the book adds to the year: lots due, what they hold, spirit bought and used, a year planned from the last, years of gathering."""

from __future__ import annotations

import pytest

from tests.year.bench import bench, figure, talk

JAR = "112 g fresh nettle, 1:2 at 60 %, 80 % water, my stock is 95"


def near(value: float) -> float:
    return pytest.approx(value, rel=1e-6)


def kept(*more: str):
    session = bench()
    talk("put 5 L of 95 % spirit into stock, lot S-12", JAR, "keep this as lot 31-01 nettle, press on 14 June", session=session)
    if more:
        talk(*more, session=session)
    return session


def test_the_pressing_day_from_the_book():
    session = kept("100 g dried yarrow, 1:5 at 45 %", "keep this as lot 31-02 yarrow, press on 14 June")
    reply = talk("two jars saturday", session=session)
    expected = {row["lot"]: row["expected"] for row in session.memory.book.rows("SELECT lot, expected FROM batches")}
    assert figure(reply, "day_out") == near(sum(expected.values()))
    assert [q.wants for q in reply.questions] == [("basket",), ("bottle_size",)]
    reply = talk("basket of 500 mL, 50 mL bottles", session=session)
    assert figure(reply, "day_loads") == 1 + 2  # 112 + 22.4 × 5 = 224 mL; 70 + 500 = 570 mL
    assert figure(reply, "day_bottles") == sum(int(v // 50) for v in expected.values())


def test_another_count_than_the_book_has_is_said():
    assert "You say 7 jars; the book has 1 due by then." in talk("seven jars saturday", session=kept()).text


def test_nothing_due_asks_what_is_in_the_jars():
    reply = talk("seven jars saturday")
    assert reply.status == "asking"


def test_orders_against_the_lots():
    session = kept("lot 31-01 gave 205 mL")
    reply = talk("promised 300 mL of nettle", session=session)
    assert figure(reply, "order_short", "nettle") == 95


def test_the_ledger_from_the_book():
    session = kept()
    used = 224 * 60 / 95
    reply = talk("spirit ledger: 4.7 L of 95 on the shelf", session=session)
    assert figure(reply, "pure_missing") == near((5000 - used - 4700) * 0.95)
    talk("used up 100 mL of the 95 %", session=session)
    reply = talk("spirit ledger: 4.7 L of 95 on the shelf", session=session)
    assert figure(reply, "pure_missing") == near((5000 - used - 100 - 4700) * 0.95)  # what was poured away is a named loss


def test_a_year_planned_from_the_last():
    reply = talk("plan the year from the book, 10 % more", session=kept("lot 31-01 gave 205 mL"))
    assert figure(reply, "needed_for_year", "nettle") == near(205 * 1.1)


def test_years_of_gathering():
    session = bench()
    talk(
        "log a gathering: 640 g elderflower at the Long Ditch on 10 June 2029", "log a gathering: 400 g elderflower at the Long Ditch on 2 June 2030",
        "log a gathering: 300 g elderflower at the Long Ditch on 2 June 2026", session=session,
    )  # fmt: skip
    reply = talk("when did I pick elderflower these four years?", session=session)
    assert reply.text.split("\n") == ["2028: none in the book", "2029: 10 June, 640 g", "2030: 2 June, 400 g", "2031: none in the book"]
    assert not reply.questions
