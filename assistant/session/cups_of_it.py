"""A decoction drunk by the cup for so many days: the plant that is asked for is that of all the cups, and not what went into the pot."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.dataclass import replace
from assistant.listening.statements import Reading

if TYPE_CHECKING:
    from assistant.session.conversation import Session

PLANT = frozenset({"herb", "batch", "herb_for_course"})


def cups_of_it(session: Session, reading: Reading) -> None:
    """ "3 cups a day for a week. root altogether". Changes the reading's asked."""
    batch = session.batch
    if batch is None or "decoction" not in batch.frames or not {"herb", "boiled_to", "cup_size"} <= batch.facts.keys():
        return
    said = {s.quantity for s in reading.said}
    if {"cups_a_day", "course"} <= said | batch.facts.keys() and said & {"cups_a_day", "course"}:
        reading.asked[:] = [replace(a, quantity="herb_for_days") if a.quantity in PLANT else a for a in reading.asked]
        reading.frames -= {"tea"}


__all__ = ["cups_of_it"]
