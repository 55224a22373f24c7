"""Mending a conflict: "the 800 is right", "it's the ratio that's wrong", "the ratio", "keep the weight", clause by clause."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.listening.statements import Reading
from assistant.patterns import looked_for
from assistant.quantities.units import units
from assistant.quantities.vocabulary import VOCABULARY, base
from assistant.reply import Reply
from assistant.session.batch import Fact
from assistant.session.figuring import work_out
from assistant.session.naming import WORD, how_named
from assistant.session.placing import as_said
from assistant.session.renumbering import number_of, same_number
from assistant.session.repeating import refer

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

CLAUSE = looked_for(r"[,;.!?]\s*|\b(?:and|but|so|plus)\b", re.IGNORECASE)
STANDS = looked_for(
    r"\b(?:right|correct|stands?|holds?|keep|true|sure|certain|fine|trust|believe|stick|stay|measured|weighed|fixed|definite(?:ly)?|good"
    r"|ok(?:ay)?|leave|go with)\b",
    re.IGNORECASE,
)
GIVES = looked_for(
    r"\b(?:wrong|off|mistaken?|slip|gives?|drop|forget|changes?|scrap|ignore|bad|false|incorrect|misread|typo|guess(?:ed)?|not right"
    r"|isn['’]?t right|not sure)\b",
    re.IGNORECASE,
)


OTHER_WAYS = ("drop_share", "all_in", "shrink", "undo", "afresh", "whatif", "same")  # another way out, with a meaning of its own


def repair(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """The next step out of a conflict, None where the sentence brings something else."""
    draft = session.draft
    disputed = [k for k in session.disputed if draft is not None and k in draft.facts]
    if draft is None or len(disputed) < 2 or any(reading.has(a) for a in OTHER_WAYS) or _brings_new(session, reading, disputed):
        return None
    holds, falls = _sorted(session, reading, disputed)
    left = [k for k in disputed if k not in holds]
    if holds and not falls and len(left) == 1:
        falls = left
    if falls and len(falls) < len(disputed):
        refer(answers, reading)
        used = answers.used
        reading.said, reading.loose, reading.asked, reading.freed, reading.acts = [], [], [], set(), []
        mended = draft.without(*falls).having(wanted=tuple(falls))
        reply = session.take(reading, answers, onto=mended, index=session.current if session.draft_of_current else -1)
        return reply.model_copy(update={"used": tuple(dict.fromkeys((*used, *reply.used)))})
    if holds and len(left) >= 2:
        refer(answers, reading)
        return answers.still_disputed(draft, tuple(holds), tuple(left))
    return None


def _figures(reading: Reading, first: int, last: int) -> list[tuple[float, float]]:
    """The figures of a stretch of the sentence: in bench units, and as bare numbers."""
    return [(f.value, number_of(f)) for f in reading.figures if first <= f.start and f.end <= last]


def _brings_new(session: Session, reading: Reading, disputed: list[str]) -> bool:
    """Whether a figure in the sentence is none of those in conflict."""
    assert session.draft is not None
    facts = [session.draft.facts[k] for k in disputed]
    return any(not any(same_number(f, n, session.measures) for f in facts for n in pair) for pair in _figures(reading, 0, len(reading.heard)))


def _sorted(session: Session, reading: Reading, disputed: list[str]) -> tuple[list[str], list[str]]:
    """The disputed figures that are said to hold, and those said to give. A clause without its own word for it goes with the one before."""
    draft = session.draft
    assert draft is not None
    holds: list[str] = []
    falls: list[str] = []
    polarity: list[str] | None = None
    at = 0
    for cut in (*(m.span() for m in CLAUSE.finditer(reading.heard)), (len(reading.heard), len(reading.heard))):
        clause = reading.heard[at : cut[0]]
        numbers = _figures(reading, at, cut[0])
        at = cut[1]
        meant = [k for k in disputed if any(same_number(draft.facts[k], n, session.measures) for pair in numbers for n in pair)]
        if not meant:
            spellings = units().spellings
            said = {spellings[w.lower()].name for w in WORD.findall(clause) if w.lower() in spellings}
            own_units = {k: spellings[unit].name for k in disputed if (unit := draft.facts[k].said_unit.lower()) in spellings}
            meant = [k for k, unit in own_units.items() if unit in said]  # "trust the litre"
        if not meant:
            best = max((how_named(k, clause) for k in disputed), default=0)
            meant = [k for k in disputed if best and how_named(k, clause) == best][:1]
        own = falls if GIVES.search(clause) else holds if STANDS.search(clause) else None
        polarity = own if own is not None else polarity
        if meant:
            (polarity if polarity is not None else falls).extend(meant)  # "the ratio", to "which one gives?"
    falls = [k for k in dict.fromkeys(falls) if k not in holds]
    return list(dict.fromkeys(holds)), falls


def which_mends(session: Session, reading: Reading) -> tuple[str, ...]:
    """What an open question wants, narrowed to the one figure that the new number mends: "dur, 0.83" after 1.3 L came out of a litre poured.

    Only where every figure in question was said already, the sentence brings one bare number alone, and it mends exactly one of them.
    """
    draft, wants = session.draft, session.wants
    if draft is None or len(wants) < 2 or reading.said or len(reading.loose) != 1 or any(w not in draft.facts for w in wants):
        return wants
    figure = reading.loose[0]
    if figure.kind not in ("#", "n") and figure.kind not in ("mL", "g"):
        return wants
    mended = []
    for key in wants:
        said = as_said(figure, key, draft.facts[key], session.measures)
        worked = work_out(draft.with_facts({key: Fact(said.value, "said", session.turn)}))
        if not worked.solution.impossible and not worked.solution.conflicts and figure.kind in ("#", "n", VOCABULARY[base(key)].unit):
            mended.append(key)
    return tuple(mended) if len(mended) == 1 else wants
