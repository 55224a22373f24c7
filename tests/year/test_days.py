"""Backwards in time: dates by the calendar, the line of days, what runs out against what comes next."""

from __future__ import annotations

import pytest

from tests.year.bench import bench, day, figure, talk


def test_the_latest_start_by_hand():
    reply = talk("Must be bottled for 12 December, four weeks in the jar, a week to settle")
    assert day(reply, "needed_by") == "2031-12-12"
    assert day(reply, "press_by") == "2031-12-05"  # a week before
    assert day(reply, "latest_start") == "2031-11-07"  # four weeks before that
    assert figure(reply, "lead_days") == 35


def test_the_line_of_days_fits_and_shows_the_three_dates():
    reply = talk("Must be bottled for 12 December, four weeks in the jar, a week to settle")
    line, dates = next((a, b) for a, b in zip(reply.text.split("\n"), reply.text.split("\n")[1:], strict=False) if a.startswith("["))
    assert len(line) <= 60
    assert len(dates) <= 60
    assert [dates.index(d) for d in ("7 Nov", "5 Dec", "12 Dec")] == sorted(dates.index(d) for d in ("7 Nov", "5 Dec", "12 Dec"))


@pytest.mark.parametrize(("settle", "jar"), [("a day", "five weeks"), ("five weeks", "a day"), ("two weeks", "two weeks"), ("no time", "one week")])
def test_the_line_of_days_fits_whatever_its_parts(settle, jar):
    reply = talk(f"Must be bottled for 12 December, {jar} in the jar, {settle} to settle")
    assert all(len(line) <= 60 for line in reply.text.split("\n") if line.startswith(tuple("[0123456789")))


def test_forward_from_the_start():
    reply = talk("started on 1 June, 28 days in the jar, ten days to settle: when is it ready?")
    assert day(reply, "latest_start") == "2031-06-01"
    assert day(reply, "needed_by") == "2031-07-09"


def test_a_change_moves_every_date():
    reply = talk("Must be bottled for 12 December, four weeks in the jar, a week to settle", "six weeks in the jar")
    assert day(reply, "latest_start") == "2031-10-24"


def test_when_it_runs_out_against_the_next_one():
    reply = talk("900 mL left, 35 mL a day: when does it run out?", "six weeks in the jar and a week to settle")
    assert figure(reply, "days_left") == 25  # 900 / 35 = 25.7
    assert day(reply, "runs_out_on") == "2031-07-07"
    assert figure(reply, "days_to_spare") == 25 - 49
    assert day(reply, "next_start") == "2031-05-19"
    assert "24 days without any" in reply.text


def test_nothing_said_of_the_next_one_is_assumed_by_name():
    reply = talk("900 mL left, 35 mL a day")
    assert any("four weeks in the jar" in a.text for a in reply.assumptions)


def test_why_a_date():
    reply = talk("Must be bottled for 12 December, four weeks in the jar, a week to settle", "why")
    assert reply.steps[-1].working == "12 December 2031 − 35 days = 7 November 2031"


def test_a_day_no_calendar_has():
    session = bench()
    reply = session.say("Bottled for 31 November, four weeks in the jar")
    assert reply.status == "refused"
    assert "31 November" in reply.text
    assert not session.batches
