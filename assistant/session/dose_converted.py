"""A dose that was only turned into another unit: "30 drops is how many mL", then "three times a day out of a 50 mL bottle, how many days"."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.listening.statements import Reading, Said
from assistant.session.converting import drops_in_hand

if TYPE_CHECKING:
    from assistant.session.conversation import Session

MOST_TURNS = 2  # so far back it is still spoken of
LARGEST_DOSE = 15.0  # mL: a tablespoon
DOSES = frozenset({"dose", "dose_drops", "dropperfuls", "daily", "herb_per_dose", "herb_per_day", "cup_size", "cups_a_day"})


def dose_converted(session: Session, reading: Reading) -> None:
    """Where it is said how often something is taken and no dose, what was turned into mL just before is the dose. Changes the reading."""
    before = session.conversion
    if before is None or session.turn - before.turn > MOST_TURNS or before.unit not in ("mL", "drop") or reading.ingredients or reading.liquids:
        return
    known = {s.quantity for s in reading.said} | (session.batch.facts.keys() if session.batch is not None else set())
    small = before.value if before.unit == "mL" else before.value / drops_in_hand()
    if "times_a_day" not in known or known & DOSES or not 0 < small <= LARGEST_DOSE or any(f.kind in ("drop", "cup") for f in reading.loose):
        return
    in_drops = before.said_unit in ("drop", "drops", "gtt", "gtts") or before.unit == "drop"
    reading.said.append(Said("dose_drops", small * drops_in_hand(), 0, 0) if in_drops else Said("dose", small, 0, 0, said_unit=before.said_unit))
    reading.frames.add("dose")
