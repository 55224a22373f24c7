"""A piece of the sentence and what it became, cut to what the reply may carry."""

from __future__ import annotations

from assistant.listening.statements import Reading
from assistant.reply import LONGEST_PIECE, Used


def piece(heard: str, start: int, end: int, quantity: str) -> Used:
    """The piece of a sentence from start to end."""
    end = min(end, start + LONGEST_PIECE)
    return Used(text=heard[start:end], start=start, end=end, quantity=quantity)


def references(reading: Reading) -> list[Used]:
    """Every figure of a sentence that is no quantity of a batch."""
    return [piece(reading.heard, r.start, r.end, r.what) for r in reading.references]
