"""Volumes of a formula rounded to what a measuring cylinder reads, the total kept, and the error that makes."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping

from assistant.dataclass import dataclass
from assistant.listening.statements import Reading
from assistant.matter.cylinders import CYLINDERS, cylinder_for
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import VOCABULARY, key_for
from assistant.reply import Value
from assistant.session.figuring import Worked
from assistant.session.instruments import Instrument, at_hand
from assistant.session.wording import number, shown

CYLINDER = looked_for(r"\b(?:cylinder|graduate|measuring jug|beaker)\b", re.IGNORECASE)
HOLDS = looked_for(r"\b(?:a|my|the|one)\s+[\d.]+\s*(?:ml|mL|millilit\w+)\s+(?:measuring\s+)?(?:cylinder|graduate|jug|beaker)\b", re.IGNORECASE)
TOLD = 0.05  # [percent] an error below it is none
WHOLE = 1.0  # mL, where nothing was said of the marks


@dataclass(frozen=True, slots=True)
class Rounded:
    """The volumes as they are poured [mL], the marks they are read at, and how far each is out, in percent of what was wanted."""

    volumes: Mapping[str, float]
    division: float
    errors: Mapping[str, float]

    @property
    def worst(self) -> str:
        """The one that is furthest out; "" where none is."""
        return max(self.errors, key=lambda m: abs(self.errors[m]), default="")


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
    errors = {m: 100 * (poured[m] - v) / v if v > 0 else 0.0 for m, v in volumes.items()}
    return Rounded(poured, division, errors)


def division_said(reading: Reading, volumes: Mapping[str, float]) -> float:
    """mL between the marks: as said ("to the nearest 5 mL"), by the cylinder that was named, else whole mL."""
    act = reading.act("round")
    figure = act.figures[0] if act is not None and act.figures else None
    own = sorted((i for i in at_hand() if i.kind == "glass" and (i.capacity or i.step)), key=lambda i: i.capacity or math.inf)
    if figure is None and own:
        return max(_marks(next((i for i in own if i.holds(v)), own[-1])) for v in volumes.values())
    if figure is None:
        return max(cylinder_for(v).division for v in volumes.values()) if CYLINDER.search(reading.heard) else WHOLE
    if HOLDS.search(reading.heard):
        mine = next((i for i in own if i.capacity == figure), None)
        return _marks(mine) if mine is not None else next((c.division for c in CYLINDERS if c.capacity >= figure), CYLINDERS[-1].division)
    return figure


def _marks(glass: Instrument) -> float:
    """mL between the marks of a person's own glass: as said of it, else as such glasses are marked."""
    return glass.step or next((c.division for c in CYLINDERS if c.capacity >= (glass.capacity or 0.0)), CYLINDERS[-1].division)


def _out(error: float) -> str:
    """ " (+2 %)" behind a volume whose mark misses it."""
    return f" ({'+' if error > 0 else '−'}{number(abs(error), 'percent')} %)" if abs(error) > TOLD else ""


def rounding(worked: Worked, reading: Reading) -> tuple[str, tuple[Value, ...]] | None:
    """The line and the figures of a rounding that was asked for; None elsewhere."""
    if not reading.has("round"):
        return None
    volumes = {m: v for m in worked.batch.members if (v := worked.value(key_for("volume", m))) is not None}
    if len(volumes) < 2:
        return None
    result = rounded(volumes, division_said(reading, volumes))
    title = "rounded"
    told = ", ".join(f"{m} {shown('volume', v)}{_out(result.errors[m])}" for m, v in result.volumes.items())
    values = tuple(
        Value(quantity="volume", about=m, batch=title, value=v, unit=VOCABULARY["volume"].unit, text=shown("volume", v)) for m, v in result.volumes.items()
    )
    line = f"Read off at {shown('volume', result.division)} marks: {told}; together {shown('blend', sum(result.volumes.values()))}."
    if result.worst and abs(result.errors[result.worst]) > TOLD:
        line += f" The most that is out is {result.worst}, by {number(abs(result.errors[result.worst]), 'percent')} %."
        values += tuple(
            Value(quantity="share", about=m, batch=title, value=error, unit="percent", text=f"{number(abs(error), 'percent')} %")
            for m, error in result.errors.items()
            if abs(error) > TOLD
        )
    return line, values
