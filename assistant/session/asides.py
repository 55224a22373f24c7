"""What is told beside an answer, and changes nothing in it: the same drops from a dropper that makes smaller ones."""

from __future__ import annotations

from assistant.dataclass import dataclass, replace
from assistant.listening.statements import Reading
from assistant.quantities.vocabulary import VOCABULARY, base
from assistant.reply import Value
from assistant.session.by_grams import ways_out
from assistant.session.figuring import Worked, work_out
from assistant.session.regimens import DROPS, lasting
from assistant.session.rounding import rounding
from assistant.session.stepping import before_the_last
from assistant.session.wording import shown

SMALL_DROPS = 38.0  # drops of spirit in a mL: drop tables, 140 spirit and 60 water drops in 3.70 mL
HANGS_ON_DROPS = ("days", "dose", "supply", "alcohol_per_dose", "herb_per_dose")


@dataclass(frozen=True, slots=True)
class Aside:
    """A line of the reply and the figures that stand in it."""

    text: str
    values: tuple[Value, ...] = ()


def asides(worked: Worked, reading: Reading) -> list[Aside]:
    """Everything to be told beside this answer."""
    ways = ways_out(worked)
    found = [_small_drops(worked), None if ways is None else Aside("\n".join(ways.lines), ways.values)]
    read_off = rounding(worked, reading)
    found.append(None if read_off is None else Aside(*read_off))
    lasts = lasting(worked.batch)
    found.append(None if lasts is None else Aside(lasts[0], (lasts[1],)))
    before = before_the_last(worked)
    found.append(None if before is None else Aside(*before))
    found.append(_drops_of_stretches(worked))
    return [a for a in found if a is not None]


def _drops_of_stretches(worked: Worked) -> Aside | None:
    """Doses that change, told in drops nobody has counted: what they were reckoned at, and what they would be at 38 to the mL."""
    facts = worked.batch.facts
    drops = {k: f for k, f in facts.items() if base(k) == "dose_in" and f.said_unit == "drop"}
    if not drops or "drops_per_ml" in facts:
        return None
    other = work_out(worked.batch.with_facts({k: replace(f, value=f.value * DROPS / SMALL_DROPS) for k, f in drops.items()}))
    told, values = [], []
    for key in ("days", "supply", "daily"):
        before, after = worked.value(key), other.value(key)
        if before is not None and after is not None and abs(before - after) > 1e-9 and not other.solution.conflicts:
            told.append(f"{VOCABULARY[key].caption} {shown(key, after)}")
            values.append(Value(quantity=key, batch="at 38 drops to the mL", value=after, unit=VOCABULARY[key].unit, origin="found", text=shown(key, after)))
    small = f" Spirit may drop as small as 38 to the mL: then {', '.join(told[:2])}." if told else ""
    return Aside(f"Counted at 20 drops to the mL.{small}", tuple(values[:2]))


def _small_drops(worked: Worked) -> Aside | None:
    """Drops of a spirit extract, not counted yet: what they would be at 38 to the mL."""
    taken = worked.taken.get("drops_per_ml")
    if taken is None or "dose_drops" not in worked.batch.facts or worked.batch.frames & {"essential", "glycerite", "oil"}:
        return None
    other = work_out(worked.batch, extra={"drops_per_ml": SMALL_DROPS})
    told, values = [], []
    for key in HANGS_ON_DROPS:
        before, after = worked.value(key), other.value(key)
        if before is None or after is None or abs(before - after) < 1e-9 or other.solution.conflicts:
            continue
        told.append(f"{VOCABULARY[base(key)].caption} {shown(key, after)}")
        values.append(Value(quantity=key, batch="at 38 drops to the mL", value=after, unit=VOCABULARY[key].unit, origin="found", text=shown(key, after)))
    if not told:
        return None
    return Aside(f"Spirit may drop as small as 38 to the mL: then {', '.join(told[:2])}.", tuple(values[:2]))
