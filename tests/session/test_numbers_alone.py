""" "Just the numbers": something is said even where nothing has been worked out yet."""

from __future__ import annotations

import pytest

from assistant import Session
from assistant.reply import breaches


@pytest.mark.parametrize("before", ["58 g dried sage please", "112 g fresh nettle, 1:2 at 60 %", "60 ml bottle", "50 % out of 96"])
def test_something_is_said(before):
    session = Session()
    session.say(before)
    reply = session.say("just the numbers")
    assert not list(breaches(reply))
    assert reply.text.strip()


def test_what_was_only_noted_is_told():
    session = Session()
    session.say("58 g dried sage please")
    assert "58 g" in session.say("just the numbers").text
