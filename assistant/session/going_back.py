"""Back and forth: what was said last undone or done again, a clean bench, the first plan, another plan by its name."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.listening.statements import Loose, Reading, Said
from assistant.patterns import looked_for
from assistant.reply import Reply
from assistant.session import pointing, undoing
from assistant.session.merging import lay_over

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

UNDO_AND = looked_for(r"\b(?:undo|scratch|scrap|cancel|reverse|forget) (?:that|it|the last)\b[ ,;.]*(?:and|then|but)\b", re.IGNORECASE)


def bears_figures(reading: Reading) -> bool:
    return bool(reading.said or reading.ingredients or reading.liquids or reading.loose)


def new_figures(session: Session, reading: Reading) -> bool:
    """Figures that are not merely figures already shown ("where does the 224 come from")."""
    return any(not _is_shown(session, s.value) for s in reading.said) or bool(reading.ingredients or reading.liquids)


def asks_for_more(session: Session, reading: Reading) -> bool:
    """ "Show me how you got it. And how much more sugar to get to 65": a question of its own behind it, with a figure that is new for what it is."""
    figures = session.last.solution.figures if session.last is not None else {}
    fresh: list[Said | Loose] = [f for f in reading.loose if not _is_shown(session, f.value)]
    fresh += [s for s in reading.said if s.key not in figures or not _is_near(s.value, figures[s.key].value)]
    return any(a.end and f.start > a.start for a in reading.asked for f in fresh)


def _is_shown(session: Session, value: float) -> bool:
    return session.last is not None and any(_is_near(value, f.value) for f in session.last.solution.figures.values())


def _is_near(value: float, shown: float) -> bool:
    return abs(value - shown) <= 0.005 * max(abs(shown), 1)


def going_back(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    counted = [f for f in reading.loose if any(a.start <= f.start and f.end <= a.end for a in reading.acts if a.name in ("undo", "redo", "first"))]
    figures = bool(reading.said or reading.ingredients or reading.liquids or len(counted) < len(reading.loose))
    if reading.has("redo") and not figures and session.journal.behind:
        return undoing.redo(session, reading, answers)
    if (reading.has("undo") or reading.has("redo")) and not figures:
        return undoing.undo(session, reading, answers)
    if reading.has("undo") and figures and _last_was_a_change(session):
        if reading.has("undo_first") or UNDO_AND.search(reading.heard) or _changes_the_same(session, reading):
            session.stand_on(session.journal.before[-1])  # "scratch that, 1:3": the last change goes, and this one comes in its place
            session.rewinding = False
        return None
    if reading.has("afresh") and not bears_figures(reading):
        session.draft, session.wants, session.current, session.last, session.last_keys = None, (), -1, None, ()
        session.went = True
        return answers.noted("A clean bench. The earlier plans are kept: “back to the first one” brings them back.")
    if reading.has("first") and not bears_figures(reading) and not reading.has("compare"):
        session.went = True
        return undoing.back_to_first(session, answers)
    if (reading.has("batch") or reading.has("go_to")) and not bears_figures(reading) and not reading.has("compare"):
        named = pointing.plans_named(reading, session)
        if named:
            session.went = True
            return undoing.back_to(session, answers, named[0])
    return None


def _last_was_a_change(session: Session) -> bool:
    """Whether the last sentence changed a plan rather than began one."""
    before = session.journal.before
    return bool(before) and len(before[-1].batches) == len(session.batches) and session.draft is None and before[-1].draft is None and bool(session.batches)


def _changes_the_same(session: Session, reading: Reading) -> bool:
    """Whether a sentence changes what the last one changed."""
    batch = session.batch
    if batch is None:
        return False
    return bool(lay_over(batch, reading, session.turn, ()).new_keys & set(batch.changed))
