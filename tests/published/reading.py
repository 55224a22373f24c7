"""Reads the published checks: a folder of TOML files, one a topic, each figure with its source and evidence beside it.

A file holds `about` and one or more sets of rows that share a question, a source and a tolerance:

    [[set]]
    says     = "what the figures are"             # names the test case
    asks     = "density"                          # the question; the test of the topic knows how to answer it
    takes    = ["% by weight", "°C"]              # what stands in a row: first what is given,
    gives    = ["kg/m³"]                          # then what the source prints
    rows     = [[5, 0, 991.27]]
    kind     = "each"                             # each (the default): every figure;  between: two figures, the limits that hold the answer
    within   = 0.005                              # tolerance in the unit of `gives`, and/or
    within_percent = 0.3                          # in percent of the figure; the wider of the two counts
    because  = "two decimals are printed"         # why that wide
    source   = "…"
    evidence = "read"                             # read | memory | computed | common practice
    seen_as  = "…"                                # what it was read in; needed where evidence is read
    note     = "…"                                # optional

An unknown or missing key, a row of the wrong length, a figure stated twice and a file without rows are errors, so that no check can fall silent.
"""

import tomllib
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

FOLDER = Path(__file__).parent

_NEEDED = {"says", "asks", "takes", "gives", "rows", "because", "source", "evidence"}
_OPTIONAL = {"kind", "within", "within_percent", "seen_as", "note"}
_EVIDENCE = {"read", "memory", "computed", "common practice"}
_KINDS = {"each", "between"}


class BadFile(Exception):
    """A file of checks cannot be used; the message names the file, the set and what is wrong with it."""


@dataclass(frozen=True)
class Check:
    """One row: what is given, what the source prints, and how near an answer must come."""

    says: str
    asks: str
    given: tuple[Any, ...]
    printed: tuple[float, ...]
    kind: str
    within: float
    within_percent: float
    source: str
    evidence: str

    def holds(self, answer: float | Sequence[float]) -> None:
        """Assert that an answer of the program agrees with the source."""
        where = f"{self.says} {self.given}: {self.source} ({self.evidence})"
        if self.kind == "between":
            low, high = sorted(self.printed)
            assert isinstance(answer, int | float), where
            assert low - self.within <= answer <= high + self.within, f"{where} allows {low} to {high}, the program says {answer}"
            return
        answers = (answer,) if isinstance(answer, int | float) else tuple(answer)
        assert len(answers) == len(self.printed), where
        for figure, printed in zip(answers, self.printed, strict=True):
            slack = max(self.within, abs(printed) * self.within_percent / 100) * (1 + 1e-9) + 1e-12
            assert abs(figure - printed) <= slack, f"{where} has {printed}, the program says {figure}, further than {slack:g} off"


def read(path: Path) -> list[Check]:
    """Every check of one file, in its order. Fails with BadFile."""
    text = tomllib.loads(path.read_text(encoding="utf-8"))
    if unknown := set(text) - {"about", "set"}:
        raise BadFile(f"{path.name}: unknown {sorted(unknown)}; a file holds about and set")
    if not str(text.get("about", "")).strip():
        raise BadFile(f"{path.name}: says nothing about what it holds")
    checks: list[Check] = []
    for one in text.get("set", []):
        checks.extend(_rows(path.name, one))
    if not checks:
        raise BadFile(f"{path.name}: holds no check")
    seen: set[tuple[Any, ...]] = set()
    for check in checks:
        key = (check.asks, repr(check.given), check.source)
        if key in seen:
            raise BadFile(f"{path.name}, {check.says!r}: {check.given} is stated twice")
        seen.add(key)
    return checks


def _rows(file: str, one: dict[str, Any]) -> list[Check]:
    where = f"{file}, {one.get('says', 'a set without a name')!r}"
    if unknown := set(one) - _NEEDED - _OPTIONAL:
        raise BadFile(f"{where}: unknown {sorted(unknown)}; known are {sorted(_NEEDED | _OPTIONAL)}")
    if missing := sorted(key for key in _NEEDED if not one.get(key) and key != "takes"):
        raise BadFile(f"{where}: {missing} missing or empty")
    if one["evidence"] not in _EVIDENCE:
        raise BadFile(f"{where}: evidence {one['evidence']!r}; it is one of {sorted(_EVIDENCE)}")
    if one["evidence"] == "read" and not one.get("seen_as"):
        raise BadFile(f"{where}: read, but seen_as does not say in what")
    kind = one.get("kind", "each")
    if kind not in _KINDS:
        raise BadFile(f"{where}: kind {kind!r}; it is one of {sorted(_KINDS)}")
    if "within" not in one and "within_percent" not in one:
        raise BadFile(f"{where}: no tolerance")
    takes, gives = one.get("takes", []), one["gives"]
    if kind == "between" and len(gives) != 2:
        raise BadFile(f"{where}: between needs two figures, the limits")
    for row in one["rows"]:
        if len(row) != len(takes) + len(gives):
            raise BadFile(f"{where}: row {row} has {len(row)} entries, {len(takes) + len(gives)} are named")
    return [
        Check(
            says=one["says"],
            asks=one["asks"],
            given=tuple(row[: len(takes)]),
            printed=tuple(row[len(takes) :]),
            kind=kind,
            within=one.get("within", 0.0),
            within_percent=one.get("within_percent", 0.0),
            source=one["source"],
            evidence=one["evidence"],
        )
        for row in one["rows"]
    ]


def published(topic: str) -> pytest.MarkDecorator:
    """Parametrise a test over the checks of a topic: `@published("strengths")` hands it `check`."""
    checks = read(FOLDER / f"{topic}.toml")
    return pytest.mark.parametrize("check", [pytest.param(check, id=f"{check.says} {'; '.join(map(str, check.given))}".strip()) for check in checks])


def questions(topic: str) -> set[str]:
    """Every question a topic asks: the test of the topic must answer all of them and no others."""
    return {check.asks for check in read(FOLDER / f"{topic}.toml")}
