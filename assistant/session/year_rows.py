"""Rows of the year's work laid into a batch: each plant a member, with what it wants, what is promised of it, what it costs."""

from __future__ import annotations

from collections.abc import MutableSequence
from typing import TYPE_CHECKING

from assistant.listening.ingredients import called
from assistant.listening.statements import Ingredient, Reading
from assistant.quantities.vocabulary import about, key_for
from assistant.session.batch import Fact
from assistant.session.sweets import put
from assistant.session.year_work import ROWS

if TYPE_CHECKING:
    from assistant.session.merging import Merged


def lay_rows(
    lines: list[Ingredient], reading: Reading, frames: set[str], facts: dict[str, Fact], members: MutableSequence[str], turn: int, merged: Merged
) -> None:
    """A fresh list replaces the old one; a line about a known batch changes it, and a new one joins.

    merged   is told what was bad, what is new and which pieces of the sentence were used
    """
    if reading.frames & ROWS:
        frames -= ROWS - reading.frames
    fresh = len(lines) >= 2 and not any(called(line.name, members) for line in lines)
    if fresh and members:
        for key in [k for k in facts if about(k)]:
            del facts[key]
        members.clear()
    for line in lines:
        member = called(line.name, members) or line.name
        if member not in members:
            members.append(member)
        for quantity, value, start, end in line.figures:
            put(key_for(quantity, member), value, start, end, facts, turn, merged)
