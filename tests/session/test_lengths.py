"""How long a sentence may be: up to the limit it is read, beyond it it is refused whole and the bench stays as it was."""

import pytest

from assistant import Session
from assistant.listening.lengths import LONGEST_SENTENCE, MOST_WORDS
from assistant.reply import breaches

SAID = "112 g fresh nettle, 1:2 at 60 %,"


def padded(words: int) -> str:
    return " ".join([SAID, *(["well"] * (words - len(SAID.split())))])


def test_as_many_words_as_are_read_are_read():
    reply = Session().say(padded(MOST_WORDS))
    assert reply.status == "answered"
    assert {v.quantity: v.value for v in reply.values}["menstruum"] == 224


@pytest.mark.parametrize("sentence", [padded(MOST_WORDS + 1), "½" * (LONGEST_SENTENCE + 1), "112 g " * 10_000], ids=["words", "signs", "both"])
def test_what_is_longer_is_refused_and_changes_nothing(sentence):
    session = Session()
    session.say("50 g dried yarrow 1:5")
    before = session.bench_line()
    reply = session.say(sentence)
    assert reply.status == "refused"
    assert reply.questions
    assert "nothing of it was taken in" in reply.text
    assert (reply.turn, list(breaches(reply)), session.bench_line()) == (2, [], before)
    assert len(reply.heard) <= LONGEST_SENTENCE
    assert session.say("how much menstruum").status == "answered"
