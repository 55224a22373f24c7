"""A person's instruments: what each reads, how far it may be out, and which of them a figure was read on.

They are the session's, kept with the conversation and in the book, and in force wherever a batch is worked out.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from typing import Any

from assistant.dataclass import dataclass, defaults, replace
from assistant.faults import FileFault
from assistant.listening.measured_on import is_of_the_field
from assistant.listening.statements import Tool
from assistant.matter import cylinders, droppers, scales
from assistant.quantities.vocabulary import base

KINDS = {"scale": "g", "glass": "mL", "dropper": "drop", "hydrometer": "percent"}
#: what a scale, a glass and a hydrometer read; what was only planned was read off nothing
WEIGHED = frozenset(
    "herb gross tare picked wilted dried gathered_weight weight sugar honey liquid boiled_from boiled_to had_weight sugar_had honey_had".split()
)
IN_THE_FIELD = frozenset({"picked", "gross", "tare", "gathered_weight"})
POURED = frozenset("menstruum stock water in_jar pressed racked volume decoction honey_volume glycerine_volume poured blend liquid_volume".split())
READ_OFF = {"scale": WEIGHED, "glass": POURED, "hydrometer": frozenset({"hydrometer"}), "dropper": frozenset({"drops_per_ml"})}
MOST_KEPT = 40
LONGEST_NAME = 40


@dataclass(frozen=True, slots=True)
class Error:
    """How far a reading may be out, in the unit of the reading, and why."""

    plus_minus: float
    why: str


@dataclass(frozen=True, slots=True)
class Instrument:
    """One instrument, its fields as in statements.Tool: figures in the unit of its kind (KINDS), None or "" where nothing was said of them."""

    kind: str
    name: str
    capacity: float | None = None
    step: float | None = None
    accuracy: str = ""
    standard: str = ""
    plus_minus: float | None = None
    per_ml: float | None = None
    strength: float | None = None

    @property
    def unit(self) -> str:
        return KINDS[self.kind]

    def holds(self, value: float) -> bool:
        """Whether it reads that much at once."""
        return self.capacity is None or value <= self.capacity * (1 + 1e-9)

    def error(self, value: float) -> Error | None:
        """How far a reading of this much may be out; None where nothing is known of it.

        A glass filled several times is out the same way each time, so its error counts as often as it is filled.
        """
        if self.kind == "dropper" and self.plus_minus is not None and self.standard:
            fewest, most = droppers.drops_of_water()
            return Error(self.plus_minus, f"{fewest:.3g} to {most:.3g} of water, {droppers.SOURCE}; of spirit up to {droppers.OF_SPIRIT:g}")
        if self.kind == "dropper":
            why = f"{droppers.COUNTED:g} % of a counted dropper, {droppers.SOURCE}"
            return None if self.per_ml is None else Error(droppers.counted_error(self.per_ml), why)
        once = self._once(min(value, self.capacity) if self.capacity else value)
        if once is None or self.kind != "glass" or self.holds(value) or self.capacity is None:
            return once
        fills = math.ceil(value / self.capacity - 1e-9)
        return Error(once.plus_minus * fills, f"{once.why}, filled {fills} times")

    def _once(self, value: float) -> Error | None:
        if self.plus_minus is not None:
            return Error(self.plus_minus, "as you said of it")
        if self.kind == "scale" and self.accuracy and self.step:
            out = scales.permitted(value, self.step, self.accuracy)
            if out is not None:
                return Error(out, f"class {self.accuracy} in {self.step:g} g steps, {scales.SOURCE} when verified")
        if self.kind == "glass" and self.accuracy and self.capacity:
            out = cylinders.tolerance(self.capacity, self.accuracy, self.standard or cylinders.STANDARDS[0])
            if out is not None:
                return Error(out, f"class {self.accuracy}, {cylinders.standard_of(self.capacity, self.standard or cylinders.STANDARDS[0])}")
        if self.step:
            return Error(scales.half_a_step(self.step), f"half a {self.step:g} {SIGN[self.unit]} step")
        if self.kind != "glass" or not self.capacity or self.name.endswith(("jug", "beaker")):
            return None
        common = cylinders.cylinder_of(self.capacity)
        return None if common is None else Error(scales.half_a_step(common.division), f"half a {common.division:g} mL mark, as such glasses are marked")


SIGN = {"g": "g", "mL": "mL", "percent": "%", "drop": "drops"}


def from_tool(tool: Tool, known: Instrument | None) -> Instrument:
    """What was said of an instrument, laid over what was known of it."""
    if tool.kind == "dropper" and tool.standard and tool.per_ml is None:
        fewest, most = droppers.drops_of_water()
        tool = replace(tool, per_ml=droppers.UNCOUNTED, plus_minus=(most - fewest) / 2)
    said = {name: value for name in defaults(Instrument) if (value := getattr(tool, name)) not in (None, "")}
    if tool.kind == "dropper" and not tool.standard:
        known = None  # counted now: what was taken before no longer holds
    return Instrument(**said) if known is None else replace(known, **said)


class Instruments(tuple[Instrument, ...]):
    """A person's instruments, in the order they were told."""

    __slots__ = ()

    def named(self, name: str) -> Instrument | None:
        """By its name; else by its noun where there is just one of them ("the scale"); a place stands for the scale that is used there."""
        exact = next((i for i in self if i.name == name), None)
        if exact is not None or not name:
            return exact
        if name in ("field", "home"):
            fitting = [i for i in self if i.kind == "scale" and is_of_the_field(i.name) == (name == "field")]
            return fitting[-1] if fitting else None
        alike = [i for i in self if name.split()[-1] == i.name.split()[-1] and (len(name.split()) == 1 or set(name.split()) <= set(i.name.split()))]
        return alike[0] if len(alike) == 1 else None

    def with_(self, tools: list[Tool]) -> Instruments:
        """These and what was said now; the same name again adds to what was known of it."""
        known = list(self)
        for tool in tools:
            old = Instruments(known).named(tool.name)
            if old is not None and old.name != tool.name and sum(_differs(getattr(old, f), getattr(tool, f)) for f in ("capacity", "step", "plus_minus")) > 1:
                old = None  # "the scale" reads nothing like the only one there is: another
            new = from_tool(replace(tool, name=old.name if old is not None and old.kind == tool.kind else tool.name), old)
            known = [i for i in known if i is not old and i.name != new.name]
            known.append(new)
        return Instruments(known[-MOST_KEPT:])

    def without(self, names: list[str]) -> Instruments:
        gone = [found for name in names if (found := self.named(name)) is not None]
        return Instruments(i for i in self if i not in gone)

    def for_reading(self, key: str, value: float, tool: str = "") -> Instrument | None:
        """The instrument that a figure was read on: the one that was named, else the finest that takes it; None where there is none.

        What was weighed where it grew was weighed on the scale that is carried out, where there is one.
        """
        kind = next((k for k, quantities in READ_OFF.items() if base(key) in quantities), "")
        if not kind:
            return None
        if tool:
            return self.named(tool)
        fitting = [i for i in self if i.kind == kind and i.error(value) is not None]
        taking = [i for i in fitting if i.holds(value)] or (fitting if kind == "glass" else [])
        if kind == "scale" and base(key) in IN_THE_FIELD:
            taking = [i for i in taking if is_of_the_field(i.name)] or taking
        return min(taking, key=lambda i: _size(i, value), default=None)

    def error_of(self, key: str, value: float, tool: str = "") -> float | None:
        """± of a figure by the instrument it was read on; None where there is none."""
        found = self.for_reading(key, value, tool)
        error = None if found is None else found.error(value)
        return None if error is None else error.plus_minus


def _differs(old: float | None, new: float | None) -> bool:
    return old is not None and new is not None and old != new


def _size(instrument: Instrument, value: float) -> float:
    error = instrument.error(value)
    return math.inf if error is None else error.plus_minus


NONE = Instruments()
_IN_HAND: ContextVar[Instruments] = ContextVar("instruments", default=NONE)


@contextmanager
def in_hand(instruments: Instruments) -> Iterator[None]:
    """Within, batches are worked out with the errors of these instruments."""
    token = _IN_HAND.set(instruments)
    try:
        yield
    finally:
        _IN_HAND.reset(token)


def taken_up(instruments: Instruments) -> None:
    """From here to the end of the turn these are in force: what was said in this very sentence counts in it."""
    _IN_HAND.set(instruments)


def at_hand() -> Instruments:
    return _IN_HAND.get()


# ── as plain data, for the conversation and the book ─────────────────────────────────────────────────────────────────────


def as_data(instrument: Instrument) -> dict[str, Any]:
    return {name: value for name in defaults(Instrument) if (value := getattr(instrument, name)) not in (None, "")}


def from_data(data: Any) -> Instrument:
    """An instrument read back.

    fails   FileFault on anything that is none: the book may have been tampered with
    """
    if not isinstance(data, Mapping):
        raise _unreadable("a record is expected")
    known = set(defaults(Instrument))
    read: dict[str, Any] = {}
    for name, value in data.items():
        if name not in known:
            raise _unreadable(f"an instrument has no “{str(name)[:20]}”")
        if name in ("kind", "name", "accuracy", "standard"):
            if not isinstance(value, str) or len(value) > LONGEST_NAME or not value.isprintable():
                raise _unreadable(f"its {name} is no text")
        elif isinstance(value, bool) or not isinstance(value, int | float) or not 0 < value < 1e9:
            raise _unreadable(f"its {name} is no number")
        read[name] = value
    if read.get("kind") not in KINDS or not read.get("name"):
        raise _unreadable("it has no kind or no name")
    return Instrument(**read)


def _unreadable(why: str) -> FileFault:
    return FileFault(f"an instrument cannot be read: {why}", try_this="tell it again: “my kitchen scale reads in 1 g steps”")
