"""What both doors do with one sentence: it always comes back as a reply, whatever was said and whatever went wrong.

A fault of the family BenchError, a bug in the program, and a line too long to be a sentence all become a refusal that says what
happened and what to do; the bench stays as it was. Nothing here knows a terminal.
"""

from typing import TYPE_CHECKING, Protocol

from assistant.faults import BenchError
from assistant.listening.lengths import LONGEST_SENTENCE, excess

if TYPE_CHECKING:  # the prompt stands before pydantic is loaded
    from assistant.reply import Reply

SHORTER = "Can you say it in shorter sentences, one a line?"


class Talker(Protocol):
    """What a door needs of a session."""

    def say(self, text: str) -> "Reply": ...
    def next_words(self, text: str) -> list[str]: ...
    def bench_line(self) -> str: ...


def answer(talker: Talker, sentence: str) -> "Reply":
    """The reply to a sentence; never raises on account of it."""
    if too_much := excess(sentence):
        return refusal(sentence[:LONGEST_SENTENCE], too_much, SHORTER)
    try:
        return talker.say(sentence)
    except BenchError as fault:
        return refusal(sentence, str(fault), fault.try_this or "Can you say it another way?")
    except Exception as bug:  # noqa: BLE001 - a bug must not end a conversation at the bench
        return refusal(
            sentence,
            f"That sentence met a fault of the program itself ({_named(bug)}); the bench is as it was before it.",
            "Can you say it another way?",
        )


def refusal(heard: str, happened: str, ask: str) -> "Reply":
    from assistant.reply import Question, Reply

    text = happened if ask in happened else f"{happened}\n{ask}"
    return Reply(heard=heard, status="refused", text=text, questions=(Question(text=ask),))


def _named(bug: Exception) -> str:
    """The bug in one line, for a report."""
    words = " ".join(str(bug).split())
    return f"{type(bug).__name__}: {words[:120]}" if words else type(bug).__name__
