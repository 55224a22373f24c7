"""A dose told by its measure and how often, no day named: "half tsp 3 times, 4 oz bottle", "30 drops twice from 50 mL"."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.listening.statements import Asked, Loose, Reading, Said
from assistant.patterns import looked_for
from assistant.session.work import take_as

if TYPE_CHECKING:
    from assistant.session.batch import Batch

LARGEST_DOSE, MOST_DROPS, MOST_TIMES = 15.0, 200.0, 12.0  # mL, drops, a day
TAKEN = frozenset({"pressed", "menstruum", "stock", "spirit_in_hand", "blend", "dose", "dose_drops", "bottle_size"})
BETWEEN = looked_for(r"^\W*(?:(?:of|it|that|taken|about|in|with|some|a|little|warm|hot|cold|water|juice|tea)\b\W*)*$", re.IGNORECASE)
FROM = looked_for(r"\b(?:bottle|phial|vial|flask|from|out of)\b", re.IGNORECASE)
BOTTLE_IS = looked_for(r"\b(?:bottle|phial|vial|flask) (?:is|holds|of|has) (?:an? |about |only )?$", re.IGNORECASE)
BOTTLES = frozenset({"bottle_size", "menstruum", "pressed", "stock", "spirit_in_hand"})
ASKED = frozenset({"days", "bottles_needed", "daily", "supply", "bottles", "doses", "menstruum"})


def so_often(reading: Reading, batch: Batch | None) -> None:
    """Read a small measure right before "three times" or "twice", beside a bottle, as a dose. Changes the reading."""
    if reading.ingredients or reading.liquids or reading.named or (batch is not None and batch.members) or not FROM.search(reading.heard):
        return
    if {a.quantity for a in reading.asked} - ASKED or any(s.quantity == "times_a_day" for s in reading.said):
        return
    act, bare = reading.act("scale_n"), next((f for f in reading.loose if f.kind == "times"), None)
    times = act or bare
    often = act.figures[0] if act is not None and len(act.figures) == 1 else bare.value if bare is not None else 0.0
    if times is None or often != int(often) or not 1 <= often <= MOST_TIMES:
        return
    figures: list[Said | Loose] = sorted([*reading.said, *(f for f in reading.loose if f is not bare)], key=lambda f: f.start)
    taken = [f for f in figures if f.end <= times.start and BETWEEN.match(reading.heard[f.end : times.start]) and _is_small(f)]
    others = [f for f in figures if f not in taken]
    if len(taken) != 1 or len(others) != 1 or not isinstance(others[0], Said):
        return
    size = not others[0].said_unit and BOTTLE_IS.search(reading.heard[: others[0].start]) is not None  # "bottle is 100": no spirit's strength
    if others[0].quantity not in BOTTLES and not (size and others[0].quantity == "stock_strength"):
        return
    dose, bottle = taken[0], others[0]
    in_drops = dose.quantity == "dose_drops" if isinstance(dose, Said) else dose.kind == "drop"
    take_as(reading, bottle, "bottle_size")
    take_as(reading, dose, "dose_drops" if in_drops else "dose")
    reading.said.append(Said("times_a_day", often, times.start, times.end))
    reading.loose.clear()
    if act is not None:
        reading.acts.remove(act)
    reading.references[:] = [r for r in reading.references if not (times.start <= r.start < times.end)]
    reading.asked[:] = [a for a in reading.asked if a.quantity not in ("bottles", "menstruum")] or [Asked("days", 0, len(reading.heard))]
    reading.frames.add("dose")


def _is_small(figure: Said | Loose) -> bool:
    if isinstance(figure, Loose):
        return (figure.kind == "drop" and figure.value <= MOST_DROPS) or (figure.kind == "mL" and figure.value <= LARGEST_DOSE)
    return figure.quantity in TAKEN and figure.value <= (MOST_DROPS if figure.quantity == "dose_drops" else LARGEST_DOSE)
