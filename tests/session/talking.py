"""What the tests of a conversation share: sentences in, the last reply out, and one figure of it."""

from __future__ import annotations

from assistant import Session
from assistant.reply import Reply


def talk(*sentences: str) -> tuple[Session, Reply]:
    """The session and its reply to the last of the sentences."""
    session = Session()
    replies = [session.say(s) for s in sentences]
    return session, replies[-1]


def value(reply: Reply, quantity: str) -> float:
    """The figure a reply gives for that quantity; fails where it gives none."""
    found = [v.value for v in reply.values if v.quantity == quantity]
    assert found, f"no {quantity} in: {reply.text}"
    return found[0]
