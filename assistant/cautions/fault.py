"""What is wrong in a file of rules or plants, with its place; collected, not raised, so that all of it is told at once."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from assistant.faults import FileFault

_BEHIND = 0.15  # a name less like the word than this behind the best is no help


class Fault(FileFault):
    """A fault of a file: file name, line and column counted from 1 (0 where the whole file is meant)."""

    def __init__(self, what: str, file: str, line: int = 0, column: int = 0, *, near: Sequence[str] = (), try_this: str = "") -> None:
        where = file + (f", line {line}" if line else "") + (f", column {column}" if column else "")
        super().__init__(what, where=where, near=near, try_this=try_this)
        self.file = file
        self.line = line
        self.column = column


def nearest(word: str, known: Iterable[str], count: int = 3) -> tuple[str, ...]:
    """The known names most like the word, best first; only those that come near the best."""
    from difflib import SequenceMatcher, get_close_matches

    folded: dict[str, str] = {}
    for name in known:
        folded.setdefault(name.lower(), name)
    hits = get_close_matches(word.lower(), folded, n=count, cutoff=0.55)
    likeness = [SequenceMatcher(None, hit, word.lower()).ratio() for hit in hits]
    return tuple(folded[hit] for hit, like in zip(hits, likeness, strict=True) if like > likeness[0] - _BEHIND)
