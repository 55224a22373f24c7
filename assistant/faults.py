"""The one family of errors.

    BenchError            what happened, where, and what to do next
    ├── SentenceFault     a sentence cannot be read or held
    ├── FigureFault       a number lies outside what a relation or a table can bear
    ├── FileFault         a file or a line of it (rules, plants, book, import) cannot be used
    └── HouseFault        a part of the program itself is missing or broken: not the person's doing

Fields only; the wording is put together in __str__, so that a test may ask for a field or for the text. A caution is never an error.
"""

from collections.abc import Sequence
from typing import Any


class BenchError(Exception):
    """An error a person can act on; the doors print it as one message, without a traceback.

    what      what happened, a sentence without full stop
    where     file and line, quantity, or piece of the sentence; "" when the whole sentence is meant
    try_this  what to do next: a line that can be typed, or an instruction; "" only where nothing helps
    near      the nearest known names, best first; at most five are shown
    got       the value refused, as given; None when no value is meant
    low, high the limits it broke, in the unit of the value
    unit      the unit of got, low and high
    """

    def __init__(
        self,
        what: str,
        *,
        where: str = "",
        try_this: str = "",
        near: Sequence[str] = (),
        got: Any = None,
        low: float | None = None,
        high: float | None = None,
        unit: str = "",
    ) -> None:
        super().__init__(what)
        self.what = what
        self.where = where
        self.try_this = try_this
        self.near = tuple(near)[:5]
        self.got = got
        self.low = low
        self.high = high
        self.unit = unit

    def __str__(self) -> str:
        said = f"{self.where}: {self.what}" if self.where else self.what
        parts = [said.rstrip(".") + "."]
        if self.near:
            parts.append(f"Nearest: {', '.join(self.near)}.")
        if self.try_this:
            parts.append(f"Try: {self.try_this}")
        return " ".join(parts)

    def __reduce__(self) -> tuple[Any, ...]:
        # The default would call the class with the message alone and lose every field on the way through pickle or copy.
        return (_again, (type(self), dict(self.__dict__)))


def _again(kind: type[BenchError], fields: dict[str, Any]) -> BenchError:
    fault = kind.__new__(kind)
    Exception.__init__(fault, fields["what"])
    fault.__dict__.update(fields)
    return fault


class SentenceFault(BenchError):
    """A sentence cannot be read or held; `where` is the piece that is meant."""


class FigureFault(BenchError):
    """A number lies outside what a relation or a table can bear; got, low, high and unit tell by how much."""


class FileFault(BenchError):
    """A file, or a line of it, cannot be used; `where` is "file, line N" or "file, line N, column M"."""


class HouseFault(BenchError):
    """A part of the program itself is missing or broken; `try_this` says how to mend the installation."""
