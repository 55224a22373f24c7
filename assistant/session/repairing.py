"""Mending a conflict: "the 800 is right", "it's the ratio that's wrong", "the ratio", or a new figure for one of them."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.listening.statements import Reading
from assistant.quantities.vocabulary import VOCABULARY, base
from assistant.reply import Reply
from assistant.session.pointing import same_number
from assistant.session.repeating import refer

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

HOLDS = frozenset({"right", "right_word"})
FALLS = frozenset({"wrong", "forget"})
WORD = re.compile(r"[a-z]+(?:-[a-z]+)*", re.IGNORECASE)
# What people call them beyond the vocabulary's own words.
CALLED = {
    "herb": ("weight", "herb", "plant", "grams", "scale", "scales"), "menstruum": ("volume", "liquid", "spirit", "pour", "menstruum", "ml", "millilitres"),
    "ratio": ("ratio",), "strength": ("strength", "percent", "percentage", "abv"), "stock_strength": ("stock",), "water_content": ("water", "moisture"),
    "finished_strength": ("finish", "finished", "final"),
}  # fmt: skip


def repair(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """The next step out of a conflict, None where the sentence brings something else."""
    draft = session.draft
    disputed = [k for k in session.disputed if draft is not None and k in draft.facts]
    if draft is None or len(disputed) < 2:
        return None
    holds = _named(session, reading, disputed, HOLDS)
    falls = [k for k in disputed if base(k) in reading.freed] + _named(session, reading, disputed, FALLS)
    if not falls and not holds and not reading.said and not reading.loose:
        falls = [k for k in disputed if k in {a.key for a in reading.asked}] or _by_word(reading, disputed)
    falls = [k for k in dict.fromkeys(falls) if k not in holds]
    left = [k for k in disputed if k not in holds]
    if holds and not falls and len(left) == 1:
        falls = left
    if falls and len(falls) < len(disputed):
        refer(answers, reading)
        used = answers.used
        key = falls[0]
        reading.said, reading.loose, reading.freed = [], [], set()
        reply = session.take(reading, answers, onto=draft.without(*falls).having(wanted=(key,)), index=session.current if session.draft_of_current else -1)
        return reply.model_copy(update={"used": tuple(dict.fromkeys((*used, *reply.used)))})
    if holds and len(left) >= 2:
        refer(answers, reading)
        return answers.still_disputed(draft, tuple(holds), tuple(left))
    return None


def _named(session: Session, reading: Reading, disputed: list[str], acts: frozenset[str]) -> list[str]:
    """The disputed figures that acts of these names point at, by number or by word."""
    draft = session.draft
    assert draft is not None
    found: list[str] = []
    for act in reading.acts:
        if act.name not in acts:
            continue
        figures = [f for f in (*reading.said, *reading.loose) if act.start <= f.start and f.end <= act.end]
        numbers = [f.value for f in figures] + [n for f in figures if (n := getattr(f, "number", None)) is not None] + list(act.figures)
        by_number = [k for k in disputed if any(same_number(draft.facts[k], n, session.measures) for n in numbers)]
        found += by_number or _by_word(Reading(reading.heard[act.start : act.end]), disputed)
    return list(dict.fromkeys(found))


def _by_word(reading: Reading, disputed: list[str]) -> list[str]:
    words = {w.lower() for w in WORD.findall(reading.heard)}
    hits = []
    for key in disputed:
        names = set(CALLED.get(base(key), ())) or {w for name in (VOCABULARY[base(key)].caption, *VOCABULARY[base(key)].spoken) for w in name.split()}
        if words & names:
            hits.append(key)
    return hits
