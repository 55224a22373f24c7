"""Strengths in a list of a recipe: bare numbers that are strengths where others have theirs told, and those that a spirit had claimed."""

from __future__ import annotations

from assistant.listening.lines import Line, Row
from assistant.listening.statements import Reading

SAYS_STRENGTH = frozenset("that's thats which is at , being ( it's of".split())
STRONGEST = 96.0  # percent


def bare_strengths(runs: list[list[Line]], row: Row) -> None:
    """ "50 mL valerian at 25 %, 30 skullcap at 45, 20 lavender that's 60": where one has its strength told, a bare number behind another is a strength too."""
    lines = [line for run in runs for line in run]
    if not any(q == "strength_of" for line in lines for q, _ in line.extras) or any(
        row.tokens[at] in ("<per>", "<money>") for ln in lines for _, at in ln.extras
    ):
        return
    for line in lines:
        line.extras = [("strength_of" if q == "price_of" and row.tokens[at] == "<#>" else q, at) for q, at in line.extras]
        at = line.last
        while at < len(row.tokens) and at < line.last + 3 and row.tokens[at] in SAYS_STRENGTH:
            at += 1
        item = row.pieces[at].item if at < len(row.tokens) else None
        bare = at > line.last and row.tokens[at : at + 1] == ["<#>"] and at not in row.taken and "strength_of" not in dict(line.extras)
        if bare and item is not None and item.value is not None and item.value <= STRONGEST:
            line.extras.append(("strength_of", at))


def given_back(start: int, at: int, row: Row, reading: Reading) -> None:
    """A strength that was taken for a spirit's, and belongs to a share: "a third of it at 25 %"."""
    for said in [s for s in reading.said if s.start == start]:
        reading.said.remove(said)
        row.taken.discard(at)
    reading.frames.discard("dilution")


__all__ = ["bare_strengths", "given_back"]
