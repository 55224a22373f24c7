"""Volumes of a formula rounded to what a measuring cylinder reads, the total kept, and the error that makes."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping

from assistant.dataclass import dataclass
from assistant.listening.statements import Reading
from assistant.matter.cylinders import CYLINDERS, cylinder_for
from assistant.quantities.vocabulary import VOCABULARY, key_for
from assistant.reply import Value
from assistant.session.figuring import Worked
from assistant.session.wording import number, shown

CYLINDER = re.compile(r"\b(?:cylinder|graduate|measuring jug|beaker)\b", re.IGNORECASE)
HOLDS = re.compile(r"\b(?:a|my|the|one)\s+[\d.]+\s*(?:ml|mL|millilit\w+)\s+(?:measuring\s+)?(?:cylinder|graduate)\b", re.IGNORECASE)
WHOLE = 1.0  # mL, where nothing was said of the marks


@dataclass(frozen=True, slots=True)
class Rounded:
    """The volumes as they are poured [mL], the marks they are read at, and the largest error of any, in percent of what was wanted."""

    volumes: Mapping[str, float]
    division: float
    worst: str
    error: float


def rounded(volumes: Mapping[str, float], division: float) -> Rounded:
    """Each volume at the nearest mark, the total at its nearest mark too: what is missing goes where it hurts least.

    division   mL between two marks

    >>> rounded({"thyme": 50.0, "elecampane": 33.3333, "licorice": 16.6667}, 1.0).volumes
    {'thyme': 50.0, 'elecampane': 33.0, 'licorice': 17.0}
    """
    total = round(sum(volumes.values()) / division)
    marks = {m: max(0, math.floor(v / division + 1e-9)) for m, v in volumes.items()}
    short = total - sum(marks.values())
    by_rest = sorted(volumes, key=lambda m: (marks[m] - volumes[m] / division, m))  # the largest remainder first
    for member in by_rest[: max(0, short)]:
        marks[member] += 1
    poured = {m: marks[m] * division for m in volumes}
    errors = {m: 100 * (poured[m] - v) / v for m, v in volumes.items() if v > 0}
    worst = max(errors, key=lambda m: abs(errors[m]), default="")
    return Rounded(poured, division, worst, errors.get(worst, 0.0))


def division_said(reading: Reading, volumes: Mapping[str, float]) -> float:
    """mL between the marks: as said ("to the nearest 5 mL"), by the cylinder that was named, else whole mL."""
    act = reading.act("round")
    figure = act.figures[0] if act is not None and act.figures else None
    if figure is None:
        return max(cylinder_for(v).division for v in volumes.values()) if CYLINDER.search(reading.heard) else WHOLE
    if HOLDS.search(reading.heard):
        return next((c.division for c in CYLINDERS if c.capacity >= figure), CYLINDERS[-1].division)
    return figure


def rounding(worked: Worked, reading: Reading) -> tuple[str, tuple[Value, ...]] | None:
    """The line and the figures of a rounding that was asked for; None elsewhere."""
    if not reading.has("round"):
        return None
    volumes = {m: v for m in worked.batch.members if (v := worked.value(key_for("volume", m))) is not None}
    if len(volumes) < 2:
        return None
    result = rounded(volumes, division_said(reading, volumes))
    title = "rounded"
    told = ", ".join(f"{m} {shown('volume', v)}" for m, v in result.volumes.items())
    values = tuple(
        Value(quantity="volume", about=m, batch=title, value=v, unit=VOCABULARY["volume"].unit, text=shown("volume", v)) for m, v in result.volumes.items()
    )
    line = f"Read off at {shown('volume', result.division)} marks: {told}; together {shown('blend', sum(result.volumes.values()))}."
    if result.worst and abs(result.error) > 0.05:
        line += f" The most that is out is {result.worst}, by {number(abs(result.error), 'percent')} %."
        values += (
            Value(quantity="share", about=result.worst, batch=title, value=result.error, unit="percent", text=f"{number(abs(result.error), 'percent')} %"),
        )
    return line, values
