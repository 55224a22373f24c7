"""The last conversation offered at the door, and taken up where the person says so. Nothing heavy is loaded for the offer."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from assistant.faults import BenchError

if TYPE_CHECKING:
    from assistant.turns import Talker

__all__ = ["forgotten", "is_yes", "offer", "taken_up"]

YES = frozenset({"go on", "yes", "y", "yes please", "pick it up", "pick up", "carry on", "continue", "take it up"})
LONGEST = 60  # characters of the last sentence that the offer shows


def offer(place: Path) -> str:
    """The line that offers the last conversation; what is wrong where the book cannot be used; empty where nothing was said yet."""
    if not place.exists():
        return ""
    from assistant.book import Book, BookFault, conversations
    from assistant.book.dates import in_words

    try:
        with Book(place, patience=2.0) as book:
            last = conversations.last(book)
            if last is None:
                return ""
            row = book.row("SELECT heard, said_on FROM turns WHERE conversation = ? ORDER BY n DESC LIMIT 1", last)
    except BookFault as fault:
        return f"(Nothing will be kept: {fault})"
    if row is None:
        return ""
    heard = " ".join(str(row["heard"]).split())
    heard = heard if len(heard) <= LONGEST else heard[: LONGEST - 1].rstrip() + "…"
    return f"Last time, {in_words(row['said_on'])}: “{heard}”. “go on” picks it up; anything else begins afresh."


def is_yes(sentence: str) -> bool:
    return sentence.strip().lower().rstrip(".!") in YES


def taken_up(talker: Talker) -> str:
    """Take up the last conversation; where it stands, in a line."""
    memory: Any = getattr(talker, "memory", None)
    if memory is None:
        return "There is nothing to pick up."
    try:
        last = memory.last_conversation()
        if last is None:
            return "There is nothing to pick up."
        memory.take_up(talker, last)
    except BenchError as fault:
        return str(fault)
    return f"We go on: {talker.bench_line() or 'nothing on the bench yet'}."


def forgotten(talker: Talker) -> Sequence[str]:
    """Sentences that the session has just forgotten for good; each is told once."""
    memory: Any = getattr(talker, "memory", None)
    if memory is None or not memory.forgotten:
        return ()
    gone: list[str] = list(memory.forgotten)
    memory.forgotten.clear()
    return gone
