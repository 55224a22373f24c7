"""The reply's own promises: what a breach is, that records are frozen, that JSON comes back the same."""

import pytest
from pydantic import ValidationError

from assistant.reply import Assumption, Question, Reply, Step, Used, Value, breaches


def sound(**more):
    fields = {"status": "answered", "heard": "112 g", "text": "Pour 224 mL.", "used": [Used(text="112 g", start=0, end=5, quantity="herb")]}
    return Reply(**(fields | more))


def test_a_sound_reply_has_no_breach():
    reply = sound(values=[Value(quantity="menstruum", value=224, unit="mL")], steps=[Step(quantity="menstruum", value=224, unit="mL")])
    assert list(breaches(reply)) == []


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"used": [Used(text="112", start=1, end=4, quantity="herb")]}, "does not stand"),
        ({"heard": "x" * 41, "used": [Used(text="x" * 41, start=0, end=41, quantity="herb")]}, "longer than 40"),
        ({"values": [Value(quantity="herb", value=1, unit="oz")]}, "no bench unit"),
        ({"steps": [Step(quantity="herb", value=1, unit="ml")]}, "no bench unit"),
        ({"assumptions": [Assumption(text="a", quantity="herb", value=1, unit="lb")]}, "no bench unit"),
        ({"values": [Value(quantity="herb")]}, "holds nothing"),
        ({"status": "refused"}, "without a question"),
        ({"status": "not_understood", "values": [Value(quantity="herb", value=1)]}, "was found"),
        ({"unused": ["112"]}, "left unused"),
        ({"text": " \n"}, "nothing is said"),
    ],
)
def test_each_breach_is_seen(change, words):
    assert any(words in breach for breach in breaches(sound(**change)))


@pytest.mark.parametrize("number", [float("nan"), float("inf"), float("-inf")])
def test_no_figure_is_endless_or_no_number(number):
    with pytest.raises(ValidationError):
        Value(quantity="herb", value=number)


def test_a_value_may_be_a_range_a_date_or_a_verdict():
    for held in ({"low": 100.0, "high": 120.0}, {"date": "2031-05-14"}, {"verdict": False}):
        assert list(breaches(sound(values=[Value(quantity="herb", **held)]))) == []


def test_an_unknown_status_or_field_is_refused():
    with pytest.raises(ValidationError):
        sound(status="done")
    with pytest.raises(ValidationError):
        sound(mood="fine")


def test_a_reply_cannot_be_changed_afterwards():
    reply = sound()
    with pytest.raises(ValidationError):
        reply.text = "Pour 500 mL."
    assert isinstance(reply.used, tuple)


def test_json_there_and_back_is_the_same_reply():
    reply = sound(values=[Value(quantity="herb", value=0.1 + 0.2, unit="g", origin="said")], questions=[Question(text="?", wants=["herb"])])
    assert Reply.model_validate_json(reply.model_dump_json()) == reply
    assert set(reply.model_dump()) == {
        "turn", "heard", "status", "batch", "values", "steps", "assumptions", "questions", "cautions", "used", "unused", "text",
    }  # fmt: skip


def test_only_answered_and_noted_are_good():
    good = {s for s in ("answered", "noted", "asking", "conflict", "refused", "not_understood") if sound(status=s).is_good}
    assert good == {"answered", "noted"}
