"""A bench for the working year's tests: one conversation on a fixed day, and what stands in a reply."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

from assistant import Session
from assistant.matter import ethanol
from assistant.reply import Reply, breaches

TODAY = date(2031, 6, 12)  # a Thursday


def talk(*sentences: str, session: Session | None = None, book: Path | None = None) -> Reply:
    """The last reply of a conversation; each reply keeps the contract."""
    session = session or bench(book)
    reply = None
    for sentence in sentences:
        reply = session.say(sentence)
        assert not list(breaches(reply)), reply.text
    assert reply is not None
    return reply


def bench(book: Path | None = None) -> Session:
    return Session(book=book, today=lambda: TODAY)


def figure(reply: Reply, quantity: str, about: str = "", batch: str | None = None) -> float:
    """The figure of that quantity; of one plant, or of one of the ways, where named."""
    hits = [v for v in reply.values if v.quantity == quantity and v.about == about and (batch is None or v.batch == batch)]
    assert hits, f"no {quantity} of {about or 'the whole'} in: {reply.text}"
    assert hits[0].value is not None
    return hits[0].value


def day(reply: Reply, quantity: str) -> str | None:
    return next(v.date for v in reply.values if v.quantity == quantity)


def jar_of_a_gram(ratio: float, strength: float, water: float) -> tuple[float, float]:
    """mL in the jar for each gram of fresh plant, and the percent it finishes at: alcohol stays, weights add up, found by halving.

    An arithmetic of its own: of the program it takes the table of densities alone.
    """
    weight = ratio * ethanol.density_of(strength) + water
    alcohol = ratio * strength / 100
    low, high = 0.01, strength
    for _ in range(200):
        finish = (low + high) / 2
        volume = alcohol / (finish / 100)
        low, high = (finish, high) if volume * ethanol.density_of(finish) > weight else (low, finish)
    return volume, finish


def table_lines(reply: Reply) -> list[str]:
    """The lines of a reply that stand in columns."""
    return [line for line in reply.text.split("\n") if re.search(r"\S {2,}\S", line.strip()) and not line.startswith(("[", "   Dry"))]
