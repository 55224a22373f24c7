"""What is said after a stop: another plant takes the place of the one that was refused, with its figures or with those held."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.listening.statements import Reading
from assistant.session.batch import Batch
from assistant.session.naming import same_plant

if TYPE_CHECKING:
    from assistant.session.conversation import Session


def instead_of_the_stopped(session: Session, reading: Reading) -> Batch | None:
    """The batch that a sentence naming another plant speaks of, right after a stop; None where it does not.

    With a weight or a ratio of its own it is a new job; else the new plant goes into what was held, and nothing said of the old plant's use
    is lost.
    """
    draft = session.draft
    if not session.halted or draft is None or not reading.named or draft.members:
        return None
    names = tuple(dict.fromkeys(n.name for n in reading.named))
    if any(same_plant(names[0], old) for old in (draft.name, *draft.plants)):
        return None
    if {s.quantity for s in reading.said if not s.weak} & {"herb", "ratio", "dried", "menstruum"}:
        return Batch()
    return draft.having(name=names[0], plants=names)
