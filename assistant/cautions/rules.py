"""What a rule is, and what it says once it fires."""

from __future__ import annotations

from typing import Any, NamedTuple

from assistant.cautions.conditions import Condition, from_data, to_data

LEVELS = ("stop", "warn", "note")
EVIDENCE = ("read", "memory", "common practice")  # from strong to weak


class Rule(NamedTuple):
    """A note pinned over the bench.

    when      it speaks where this holds, unless the exception is established too
    level     stop (no figure before the person answers), warn, note; `practising` is the level for one who practises
    say       what is said, with {places} for figures; asks: what is asked where the last claim alone is open ("" for nothing)
    sources   (id or title, where in it, evidence); fires_on and silent_on: sentences of a conversation that the tests speak
    """

    id: str
    theme: str
    level: str
    when: Condition
    say: str
    why: str
    sources: tuple[tuple[str, str, str], ...]
    fires_on: tuple[str, ...] = ()
    silent_on: tuple[str, ...] = ()
    unless: Condition | None = None
    asks: str = ""
    practising: str = ""
    file: str = ""
    line: int = 0

    @property
    def evidence(self) -> str:
        """How sure it is: as its weakest source."""
        return max((evidence for _, _, evidence in self.sources), key=EVIDENCE.index)

    def to_data(self) -> dict[str, Any]:
        """The rule as plain data, without its examples: they are for the tests, and stay in the text."""
        return {
            "id": self.id,
            "theme": self.theme,
            "level": self.level,
            "when": to_data(self.when),
            "unless": to_data(self.unless) if self.unless else None,
            "say": self.say,
            "asks": self.asks,
            "why": self.why,
            "sources": [list(source) for source in self.sources],
            "practising": self.practising,
            "file": self.file,
            "line": self.line,
        }

    @classmethod
    def from_data(cls, data: dict[str, Any]) -> Rule:
        kept = dict(data)
        kept["when"] = from_data(data["when"])
        kept["unless"] = from_data(data["unless"]) if data["unless"] else None
        kept["sources"] = tuple(tuple(source) for source in data["sources"])
        return cls(**kept)


class Caution(NamedTuple):
    """What a rule said. `asked` tells that one deciding fact is open and the rule only asks; `key` is what to remember once it was spoken."""

    id: str
    level: str
    theme: str
    text: str
    why: str
    source: str
    evidence: str
    asked: bool = False

    @property
    def key(self) -> str:
        return self.id + ("?" if self.asked else "")
