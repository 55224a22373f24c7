"""A time so long that no calendar has the day: said plainly, never a traceback."""

from __future__ import annotations

import pytest

from assistant import Session
from assistant.reply import breaches


@pytest.mark.parametrize("weeks", ["400000 weeks", "4e9 weeks", "800000 days", "999000 days"])
def test_a_time_that_leads_off_the_calendar(weeks):
    session = Session()
    session.say("must be bottled for 12 December, four weeks in the jar, a week to settle: when do I start at the latest?")
    reply = session.say(f"{weeks} in the jar")
    assert not list(breaches(reply))
    assert reply.text
