"""Figures told one after another, each beside the name of an ingredient in hand: "balm 28, lime 35, rose 60", "45 for the hops, 60 the balm"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from assistant.dataclass import dataclass
from assistant.listening.ingredients import called
from assistant.listening.statements import Loose, Reading
from assistant.session.nicknames import meant

WORD = re.compile(r"[a-z][a-z'’]{2,}", re.IGNORECASE)
FEWEST = 2


@dataclass(frozen=True, slots=True)
class Figure:
    """A number of the sentence, as whatever it was read: `kind` is a loose figure's, or the quantity it was taken for; `member` whose it is."""

    kind: str
    value: float
    start: int
    end: int
    member: str = ""


def figures_of(reading: Reading) -> list[Figure]:
    """Every number of a sentence, those of its lists too, in order."""
    lines = [Figure(q, v, a, b) for line in (*reading.ingredients, *reading.liquids) for q, v, a, b in line.figures if b > a]
    rows = [Figure(f.kind, f.value, f.start, f.end) for row in reading.rows for f in row]
    plain = [Figure(f.kind if isinstance(f, Loose) else f.quantity, f.value, f.start, f.end) for f in reading.figures]
    return list({f.start: f for f in sorted([*lines, *rows, *plain], key=lambda f: f.start)}.values())


def beside_each(reading: Reading, members: Sequence[str]) -> list[Figure]:
    """The figures that stand each beside another ingredient, all before their names or all behind; none where fewer than two do."""
    figures = figures_of(reading)
    marks: list[tuple[int, Figure | str]] = [(f.start, f) for f in figures]
    marks += [(n.start, m) for n in (*reading.named, *reading.mentions) if (m := called(n.name, members)) and not any(n.start == a for a, _ in marks)]
    for word in WORD.finditer(reading.heard):
        inside = any(f.start <= word.start() < f.end for f in figures)
        member = "" if inside else called(word[0].lower().removesuffix("'s").removesuffix("’s"), members) or meant(word[0].lower(), members)
        if member:
            marks.append((word.start(), member))
    row = [m for _, m in sorted(dict(marks).items())]
    row = [m for i, m in enumerate(row) if i == 0 or m != row[i - 1]]
    best: list[Figure] = []
    for names_first in (True, False):
        for at in range(len(row)):
            run = _run(row, at, names_first)
            if len(run) > len(best):
                best = run
    return best if len(best) >= FEWEST else []


def _run(row: Sequence[Figure | str], at: int, names_first: bool) -> list[Figure]:
    run: list[Figure] = []
    while at + 1 < len(row):
        name, figure = (row[at], row[at + 1]) if names_first else (row[at + 1], row[at])
        if not isinstance(name, str) or isinstance(figure, str) or name in [f.member for f in run]:
            break
        run.append(Figure(figure.kind, figure.value, figure.start, figure.end, name))
        at += 2
    return run


__all__ = ["Figure", "beside_each", "figures_of"]
