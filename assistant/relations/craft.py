"""How a room of relations writes one down: short, with its source and evidence always given."""

from __future__ import annotations

from assistant.relations.relation import Relation

COMMON = "common practice, no source"
BALANCE = "conservation of mass"
OIML = "OIML R 22 (1975), International alcoholometric tables: density of ethanol-water mixtures"


def practice(name: str, equation: str, says: str, when: str = "", source: str = COMMON) -> Relation:
    """A relation of the trade: a definition or a habit. `when` lists the tags a batch must bear, `!` before those it must not."""
    return Relation(name, equation, says, source, "common practice", frozenset(when.split()))


def balance(name: str, equation: str, says: str, when: str = "", source: str = BALANCE) -> Relation:
    """A relation that holds by arithmetic or by conservation of matter."""
    evidence = "read" if source == OIML else "common practice"
    return Relation(name, equation, says, source, evidence, frozenset(when.split()))
