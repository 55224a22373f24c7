"""A regimen laid into a batch, and how long a bottle lasts on one that changes."""

from __future__ import annotations

from collections.abc import MutableSequence, Sequence
from typing import TYPE_CHECKING

from assistant.dataclass import replace
from assistant.listening.statements import Reading
from assistant.listening.steps import climb
from assistant.listening.takings import Regimen, Stretch
from assistant.quantities.vocabulary import VOCABULARY, about, base, key_for
from assistant.reply import Value
from assistant.session.batch import Batch, Fact
from assistant.session.wording import number, shown

if TYPE_CHECKING:
    from assistant.session.merging import Merged

SAME_EVERY_DAY = ("dose", "dose_drops", "times_a_day", "daily")
LONGEST = 3660  # days: past ten years nobody counts
DROPS = 20.0  # to the mL, until the person has counted


def lay_regimen(reading: Reading, frames: set[str], tags: set[str], facts: dict[str, Fact], members: MutableSequence[str], turn: int, merged: Merged) -> None:
    """Doses that change become the members of the batch, a stretch each; days on and off are figures of the whole."""
    regimen = reading.regimen
    if regimen is None:
        return
    if regimen.on:
        for key, value in (("on_days", regimen.on), ("off_days", regimen.off)):
            facts[key] = Fact(value, "said", turn)
            merged.new_keys.add(key)
    if regimen.anew is not None and "regimen" in frames and members:
        _other_steps(regimen, facts, members)
    if not regimen.stretches or (members and "regimen" not in frames):
        return
    for key in [k for k in facts if about(k) or k in SAME_EVERY_DAY]:
        del facts[key]
    members[:] = _names(regimen)
    frames.add("regimen")
    tags -= {"in_turn", "each_day"}
    tags.add("in_turn" if regimen.in_turn else "each_day")
    per_ml = facts["drops_per_ml"].value if "drops_per_ml" in facts else DROPS
    for member, stretch in zip(members, regimen.stretches, strict=True):
        dose = stretch.dose / per_ml if stretch.unit == "drop" else stretch.dose
        told: dict[str, float | None] = {"dose_in": dose, "times_in": stretch.times or 1.0, "days_in": stretch.days}
        for quantity, figure in told.items():
            if figure is not None:
                facts[key_for(quantity, member)] = Fact(figure, "said", turn, stretch.unit if quantity == "dose_in" and stretch.unit == "drop" else "")
                merged.new_keys.add(key_for(quantity, member))


def steps_without_bottle(frames: set[str], facts: dict[str, Fact]) -> bool:
    """Whether steps are told and no bottle: "how many days" asks then how long the steps take."""
    return "regimen" in frames and any(base(k) == "days_in" for k in facts) and not facts.keys() & {"bottle_size", "bottles"}


def how_long_steps_take(facts: dict[str, Fact], members: Sequence[str]) -> tuple[str, ...]:
    """All their days; nothing where the last dose goes on and on: what goes before it is told beside every answer."""
    return ("course",) if key_for("days_in", members[-1]) in facts else ()


def _other_steps(regimen: Regimen, facts: dict[str, Fact], members: MutableSequence[str]) -> None:
    """ "Gentler: half a mL less every 3 nights, down to half a mL": other steps from the first dose told, which stop where those stopped."""
    anew = regimen.anew
    dose, times = facts.get(key_for("dose_in", members[0])), facts.get(key_for("times_in", members[0]))
    if anew is None or dose is None:
        return
    per_ml = (facts["drops_per_ml"].value if "drops_per_ml" in facts else DROPS) if anew.unit == "drop" else 1.0
    regimen.in_turn = True
    like = Stretch(dose.value * per_ml, anew.unit, times.value if times is not None else None, anew.days)
    climb(regimen, like.dose, anew.step, anew.last, like, None)
    if regimen.stretches and key_for("days_in", members[-1]) in facts:
        regimen.stretches[-1] = replace(regimen.stretches[-1], days=anew.days)


def _names(regimen: Regimen) -> list[str]:
    if not regimen.in_turn:
        return [f"{n}{'st' if n == 1 else 'nd' if n == 2 else 'rd' if n == 3 else 'th'} taking" for n in range(1, len(regimen.stretches) + 1)]
    names, day = [], 1.0
    for stretch in regimen.stretches:
        last = "on" if stretch.days is None else number(day + stretch.days - 1, "1")
        names.append(f"days {number(day, '1')} {last}" if last == "on" else f"days {number(day, '1')} to {last}")
        day += stretch.days or 0.0
    return names


def days_it_lasts(volume: float, batch: Batch) -> float | None:
    """Whole days a volume [mL] lasts on a regimen whose doses change in turn; the last one goes on. None where a day takes nothing."""
    stretches = [_of(batch, m) for m in batch.members]
    left, days = volume, 0
    for n, stretch in enumerate(stretches):
        a_day = stretch.dose * (stretch.times or 1.0)
        if a_day <= 0:
            return None
        longest = stretch.days if stretch.days is not None and n < len(stretches) - 1 else float(LONGEST)
        fits = min(longest, (left + 1e-9) // a_day)
        days += int(fits)
        left -= fits * a_day
        if fits < longest:
            break
    return float(days)


def _of(batch: Batch, member: str) -> Stretch:
    return Stretch(batch.value(key_for("dose_in", member)) or 0.0, "mL", batch.value(key_for("times_in", member)), batch.value(key_for("days_in", member)))


def lasting(batch: Batch) -> tuple[str, Value] | None:
    """The line and the figure of how long the bottle lasts, None where no bottle or no such regimen is in hand."""
    size = batch.value("bottle_size")
    if size is None or "in_turn" not in batch.tags or "regimen" not in batch.frames:
        return None
    days = days_it_lasts(size, batch)
    if days is None:
        return None
    return f"{shown('bottle_size', size)} lasts {shown('days', days)}.", Value(
        quantity="days", batch=batch.title, value=days, unit=VOCABULARY[base("days")].unit, text=shown("days", days)
    )
