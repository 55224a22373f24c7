"""The state of the plant in hand asked for: "are they dried?", "is that fresh or dried". A question sets nothing."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.listening.statements import Reading
from assistant.patterns import looked_for
from assistant.reply import Reply
from assistant.session.batch import STATES
from assistant.session.fresh_or_dried import state_question

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

ASKS = looked_for(
    r"^\W*(?:(?:and|but|so|wait|hang on|hm+)\W+)*(?:is|are|was|were|did (?:i|you|we) (?:say|take|mean|have)|do you (?:take|have))\s+"
    r"(?:it|they|that|this|these|those|them|the \w+(?: \w+)?)\s+(?:all |as |meant |supposed |to be |the )*"
    r"(?P<state>fresh|dried|dry)(?:\s+or\s+(?:fresh|dried|dry|not))?(?: weight| herb| plant| one| ones| stuff)?\W*$",
    re.IGNORECASE,
)


def state_asked(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """What the plant in hand is taken as, where a sentence asks just that."""
    batch = session.batch
    hit = ASKS.match(reading.heard) if batch is not None else None
    if hit is None or batch is None or session.draft is not None or batch.members or "herb" not in batch.facts or reading.said or reading.loose:
        return None
    plant = f"the {batch.name}" if batch.name else "the plant"
    held = batch.tags & STATES
    if len(held) != 1:
        question = state_question()
        return answers.reply("asking", f"Nothing was said of that, and the ratio counts {plant} as it is weighed. {question.text}", questions=(question,))
    state = next(iter(held))
    asked = "fresh" if hit["state"].lower() == "fresh" else "dried"
    head = "" if " or " in hit.group().lower() else "Yes: " if asked == state else "No: "
    text = f"{head}{plant} is taken as {state}."
    return answers.reply("answered", f"{text[:1].upper()}{text[1:]}")
