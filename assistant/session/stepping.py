"""A dose that goes by steps, spoken of again: how much was taken before the last step, the last dose for some weeks more, steps of another length."""

from __future__ import annotations

import re
from collections.abc import MutableSequence
from typing import TYPE_CHECKING

from assistant.dataclass import replace
from assistant.listening.statements import Loose, Reading, Reference, Said
from assistant.patterns import looked_for
from assistant.quantities.spelt import number_of
from assistant.quantities.vocabulary import VOCABULARY, about, base, key_for
from assistant.reply import Value
from assistant.session.batch import Fact
from assistant.session.figuring import Worked
from assistant.session.wording import number, shown

if TYPE_CHECKING:
    from assistant.session.merging import Merged

DROPS = 20.0  # to the mL, until the person has counted
ON_AND_ON = looked_for(r"\b(?:then|more|another|further|stays?|staying|stay on|keeps?|keep on|after that|from there|at that)\b", re.IGNORECASE)
EVERY_OTHER = {"other": 2.0, "second": 2.0, "third": 3.0}
EVERY = looked_for(
    r"\b(?:every|each|a step|steps of|step every)\s+(?:(?P<number>\d+|two|three|four|five|six|seven|ten|other|second|third)\s+)?"
    r"(?P<unit>days?|weeks?|fortnights?)\b|\b(?P<weekly>weekly)\b",
    re.IGNORECASE,
)
UNIT_DAYS = {"day": 1.0, "week": 7.0, "fortnight": 14.0}


def lay_stepping(reading: Reading, frames: set[str], facts: dict[str, Fact], members: MutableSequence[str], turn: int, merged: Merged) -> None:
    """What a sentence changes of steps already told. Changes the reading, the facts and the names of the steps."""
    if "regimen" not in frames or reading.regimen is not None or not any(k.startswith("days_in[") for k in facts):
        return
    if _goes_on(reading, facts, members, turn, merged):
        return
    _other_length(reading, facts, members, turn, merged)


def _goes_on(reading: Reading, facts: dict[str, Fact], members: MutableSequence[str], turn: int, merged: Merged) -> bool:
    """ "Then 30 a day for 2 more weeks": the last dose goes on so long."""
    last = members[-1]
    told = [s for s in reading.said if s.quantity in ("course", "days")]
    if key_for("days_in", last) in facts or len(told) != 1 or not ON_AND_ON.search(reading.heard):
        return False
    facts[key_for("days_in", last)] = Fact(told[0].value, "said", turn)
    merged.new_keys.add(key_for("days_in", last))
    merged.used.append((told[0].start, told[0].end, "days_in"))
    dose = facts[key_for("dose_in", last)].value
    per_ml = facts["drops_per_ml"].value if "drops_per_ml" in facts else DROPS
    again = [
        s for s in reading.said if s.quantity in ("dose", "dose_drops", "times_a_day", "daily") and any(abs(s.value - v) < 1e-6 for v in (dose, dose * per_ml))
    ]
    same = [f for f in reading.loose if any(abs(f.value - v) < 1e-6 for v in (dose, dose * per_ml))]
    named: list[Said | Loose] = [*again, *same]
    reading.references += [Reference("reference", f.start, f.end, f.value) for f in named]
    reading.said[:] = [s for s in reading.said if s not in told and s not in again]
    reading.loose[:] = [f for f in reading.loose if f not in same]
    return True


def _other_length(reading: Reading, facts: dict[str, Fact], members: MutableSequence[str], turn: int, merged: Merged) -> None:
    """ "If we drop every 4 days instead": the same steps, each so long."""
    hit = EVERY.search(reading.heard)
    lengths = {facts[k].value for m in members if (k := key_for("days_in", m)) in facts}
    if hit is None or len(lengths) != 1:
        return
    unit = "week" if hit.group("weekly") else hit.group("unit").lower().rstrip("s")
    said = (hit.group("number") or "1").lower()
    days = UNIT_DAYS[unit] * (EVERY_OTHER[said] if said in EVERY_OTHER else number_of(said))
    if days <= 0:
        return
    stretches = [(facts.pop(key_for("dose_in", m)), facts.pop(key_for("times_in", m), None), facts.pop(key_for("days_in", m), None)) for m in members]
    members[:] = _names(days, len(stretches), open_end=stretches[-1][2] is None)
    for member, (dose, times, length) in zip(members, stretches, strict=True):
        facts[key_for("dose_in", member)] = dose
        if times is not None:
            facts[key_for("times_in", member)] = times
        if length is not None:
            facts[key_for("days_in", member)] = replace(length, value=days, turn=turn)
            merged.new_keys.add(key_for("days_in", member))
    reading.said[:] = [s for s in reading.said if not (hit.start() <= s.start < hit.end())]
    reading.loose[:] = [f for f in reading.loose if not (hit.start() <= f.start < hit.end())]
    reading.references.append(Reference("days_in", hit.start(), hit.end(), days))
    reading.let_go("forget")  # "drop every 4 days" goes down, and forgets nothing


def _names(days: float, many: int, *, open_end: bool) -> list[str]:
    names = []
    for n in range(many):
        first, last = 1 + n * days, (n + 1) * days
        ends = "on" if open_end and n == many - 1 else number(last, "1")
        names.append(f"days {number(first, '1')} {ends}" if ends == "on" else f"days {number(first, '1')} to {ends}")
    return names


def before_the_last(worked: Worked) -> tuple[str, tuple[Value, ...]] | None:
    """The line and figures of what is taken before the last dose of a regimen by steps, whose end nobody told; None elsewhere."""
    batch = worked.batch
    if "regimen" not in batch.frames or "in_turn" not in batch.tags or len(batch.members) < 2:
        return None
    if key_for("days_in", batch.members[-1]) in batch.facts:
        return None
    volume = days = 0.0
    terms = []
    for member in batch.members[:-1]:
        dose, times, length = (batch.value(key_for(q, member)) for q in ("dose_in", "times_in", "days_in"))
        if dose is None or length is None:
            return None
        volume += dose * (times or 1.0) * length
        days += length
        terms.append(f"{number(dose * (times or 1.0), 'mL')} × {number(length, '1')}")
    values = [_value("supply", volume, batch.title), _value("course", days, batch.title)]
    per_ml = batch.value("drops_per_ml") or DROPS
    drops = ""
    if any(f.said_unit == "drop" for k, f in batch.facts.items() if base(k) == "dose_in" and about(k)):
        values.append(_value("dose_drops", volume * per_ml, batch.title))
        drops = f", {shown('dose_drops', volume * per_ml)}"
    working = " + ".join(terms) if len(terms) <= 8 else f"{len(terms)} steps"
    return f"Before the last step: {shown('course', days)}{drops}, {shown('supply', volume)} ({working} mL).", tuple(values)


def _value(quantity: str, value: float, batch: str) -> Value:
    return Value(quantity=quantity, batch=batch, value=value, unit=VOCABULARY[quantity].unit, origin="found", text=shown(quantity, value))
