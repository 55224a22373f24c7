"""Every number said is used, or asked about: the last look at a reply before it is given."""

from __future__ import annotations

import re
from collections.abc import Sequence

from assistant.patterns import looked_for
from assistant.reply import Question, Reply, Used

NUMBER_WORD = looked_for(
    r"\b(?:two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|(?:thir|four|fif|six|seven|eigh|nine)teen|twenty|thirty|forty|fifty|sixty"
    r"|seventy|eighty|ninety|hundred|thousand|half|dozen)\b|\d+(?:[.,]\d+)*",
    re.IGNORECASE,
)
LONGEST = 40
POINTS = frozenset({"label", "time"})


def accounted(reply: Reply, numbers: Sequence[tuple[int, int, str]]) -> Reply:
    """The reply with every number of the sentence in a used piece or named in a question.

    numbers   (start, end, kind) of each island that bears a number; a label or a time of day is only pointed at
    """
    taken = bytearray(len(reply.heard))  # a mark for every character that something speaks for
    for piece in reply.used:
        _mark(taken, piece.start, piece.end)
    spoken = " ".join(q.text for q in reply.questions).lower()
    if reply.status in ("refused", "not_understood", "conflict"):
        spoken += " " + reply.text.lower()
    used = list(reply.used)
    lost: list[str] = []
    for start, end, kind in numbers:
        if any(taken[start:end]):
            continue
        text = reply.heard[start:end]
        if kind in POINTS:
            used.append(Used(text=text[:LONGEST], start=start, end=min(end, start + LONGEST), quantity=kind))
            _mark(taken, start, min(end, start + LONGEST))
        elif text.lower() not in spoken:
            lost.append(text)
            _mark(taken, start, end)
    for hit in NUMBER_WORD.finditer(reply.heard):
        if hit.group().lower() not in spoken and not any(taken[hit.start() : hit.end()]):
            lost.append(hit.group())
            _mark(taken, *hit.span())
    if len(used) == len(reply.used) and not lost:
        return reply
    lost = list(dict.fromkeys(lost))
    changes: dict[str, object] = {"used": tuple(sorted(used, key=lambda u: u.start))}
    if lost:
        ask = "What is " + " and ".join(f"“{n[:LONGEST]}”" for n in lost) + " for?"
        changes["questions"] = (*reply.questions, Question(text=ask))
        changes["text"] = f"{reply.text}\n{ask}"
    return reply.model_copy(update=changes)


def _mark(taken: bytearray, start: int, end: int) -> None:
    taken[start:end] = b"\1" * max(min(end, len(taken)) - start, 0)
