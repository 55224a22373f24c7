"""Sentences that follow others by chance: each is answered, asked about or refused, and none of them stops the conversation."""

import pytest

from assistant import Session


@pytest.mark.parametrize(
    "said",
    [
        ("tincture 40 nettle 30 oat 30 hawthorn to get it back up to 60", "how much more 95 to get it back up to 60"),
        ("112 g fresh nettle 1:2 at 60, call it red", "200 g dried sage 1:5", "start afresh", "red at 1:3", "the other one, at 40 %"),
        ("strained 1.1 l, usually 3 % sludge. what's left after racking",
         "and the 80 proof one I get drained, what with a screw press, and what's the difference?"),
        ("1 litre of 45 from 95", "1:3 instead, each dose?", "that at 80 %, plant was 75 percent water. how many ml of mine instead",
         "150 g fresh nettle 85% water, 1:1 in 37.5% vodka. where does it end"),
    ],
)  # fmt: skip
def test_no_sentence_stops_the_conversation(said):
    session = Session()
    for sentence in said:
        reply = session.say(sentence)
        assert reply.text
        assert reply.status


def test_the_working_asked_for_with_the_figures_stands_below_the_answer():
    reply = Session().say("show me the working for 500 ml of 60 from 95")
    assert reply.status == "answered"
    assert "500 mL × 60 % ÷ 95 % = 316 mL" in reply.text
    assert reply.text.splitlines()[0].startswith("For 500 mL at 60 %: 316 mL")


def test_a_start_that_lies_behind_is_of_the_last_such_day():
    from datetime import date

    reply = Session(today=lambda: date(2026, 11, 28)).say("when do i strain it, started 4 november, 6 weeks")
    assert "16 December 2026" in reply.text.splitlines()[0]
