"""Taking back, putting again, and going back to an earlier plan."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.listening.statements import Reading
from assistant.reply import Reply
from assistant.session.repeating import again

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

MOST_AT_ONCE = 200


def how_often(reading: Reading, act: str) -> int:
    """ "undo twice", "take the last two back": how many changes; one where no number was said."""
    named = [int(a.arguments[0]) for a in reading.acts if a.name == act and len(a.arguments) == 1 and a.arguments[0].isdigit()]
    figures = [f for a in reading.acts if a.name == act for f in a.figures] or named
    return max(1, min(int(figures[-1]), MOST_AT_ONCE)) if figures else 1


def undo(session: Session, reading: Reading, answers: Answers) -> Reply:
    """Take back the last change alone, or the last few."""
    moved = 0
    for _ in range(how_often(reading, "undo")):
        mark = session.journal.back(session.mark())
        if mark is None:
            break
        session.stand_on(mark)
        moved += 1
    if not moved:
        return answers.noted("There is nothing to take back.")
    return _where_we_are(session, answers, "Taken back")


def redo(session: Session, reading: Reading, answers: Answers) -> Reply:
    """Put again what an undo took back."""
    moved = 0
    for _ in range(how_often(reading, "redo")):
        mark = session.journal.forth(session.mark())
        if mark is None:
            break
        session.stand_on(mark)
        moved += 1
    if not moved:
        return answers.noted("Nothing was taken back that could be put again.")
    return _where_we_are(session, answers, "Put again")


def _where_we_are(session: Session, answers: Answers, done: str) -> Reply:
    if session.draft is not None:
        mark = session.mark()
        reply = again(answers, session.draft, session.current, f"{done}.")
        if session.mark().draft is None:
            session.stand_on(mark)  # what was only asked about is told once more, and is no plan for that
        return reply
    if session.batch is None:
        session.last, session.last_keys = None, ()
        return answers.noted(f"{done}; the bench is clear.")
    return again(answers, session.batch, session.current)


def back_to_first(session: Session, answers: Answers) -> Reply:
    """The first plan; where there is only one, or it is the one in hand, the way it began."""
    if not session.batches:
        return answers.noted("There is no earlier plan yet.")
    session.draft, session.wants = None, ()
    if len(session.batches) > 1 and session.current != 0:
        return again(answers, session.batches[0], 0)
    return again(answers, session.firsts[0], 0)


def back_to(session: Session, answers: Answers, index: int) -> Reply:
    """Another plan as it stands now."""
    session.draft, session.wants = None, ()
    return again(answers, session.batches[index], index)
