"""A batch answered anew without a change of what was said."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.listening.statements import Reading
from assistant.reply import Reply, Used
from assistant.session.batch import Batch
from assistant.session.figuring import work_out
from assistant.session.merging import Merged

if TYPE_CHECKING:
    from assistant.session.answers import Answers


def again(answers: Answers, batch: Batch, index: int, words: str = "") -> Reply:
    """Answer a batch anew and make it the one in hand."""
    merged = Merged(batch)
    answers.merged = merged
    reply = answers.answer(Reading(answers.heard), merged, work_out(batch), index)
    return reply if not words else reply.model_copy(update={"text": f"{words}\n{reply.text}"})


def refer(answers: Answers, reading: Reading, *spans: tuple[int, int]) -> None:
    """Say of these places in the sentence that they only point at something; without any, of every figure in it."""
    places = spans or tuple((f.start, f.end) for f in (*reading.figures, *reading.claims)) + tuple((r.start, r.end) for r in reading.references)
    answers.used += [Used(text=reading.heard[a:b][:40], start=a, end=min(b, a + 40), quantity="reference") for a, b in places if b > a]
