"""What is no arithmetic is answered as a careful teacher would, in many words; and bench talk that sounds like it is not."""

from pathlib import Path

import pytest

from assistant import Session

PAGE = Path(__file__).with_name("scope_wordings.txt")


def wordings():
    """(caution, wording) of every line; "silent" for what no stop may answer."""
    found, head = [], ""
    for line in PAGE.read_text(encoding="utf-8").splitlines():
        line = line.strip()
        if line.startswith("["):
            head = line.strip("[]")
        elif line and not line.startswith("#"):
            found.append((head, line))
    return found


ANSWERED = [(c, w) for c, w in wordings() if c != "silent"]
SILENT = [w for c, w in wordings() if c == "silent"]


@pytest.mark.parametrize(("caution", "wording"), ANSWERED, ids=[w for _, w in ANSWERED])
def test_it_is_answered_without_a_figure(caution, wording):
    reply = Session().say(wording)
    assert reply.status == "refused", reply.text
    assert caution in [c.id for c in reply.cautions]
    assert reply.questions
    assert not [v for v in reply.values if v.origin == "found"]


@pytest.mark.parametrize("wording", SILENT)
def test_bench_talk_is_not_stopped(wording):
    assert "stop" not in [c.level for c in Session().say(wording).cautions]


def test_a_question_about_a_person_beside_a_sum_leaves_the_sum_alone():
    reply = Session().say("100 g dried thyme, 1:5 at 70 %; do I have bronchitis?")
    assert reply.status == "answered"
    assert any(v.quantity == "menstruum" and v.value == 500 for v in reply.values)
    assert ("what-somebody-has-aside", "warn") in [(c.id, c.level) for c in reply.cautions]


def test_it_names_what_it_does_and_who_helps():
    for wording in ("do I have diabetes", "what should I take for a cold", "what's the dose for a child"):
        text = Session().say(wording).text.lower()
        assert "licensed" in text
        assert "arithmetic" in text or "work out" in text


def test_nothing_of_the_batch_is_lost_by_it():
    session = Session()
    session.say("112 g fresh nettle, 1:2 at 60 %")
    session.say("do I have diabetes")
    assert any(v.quantity == "menstruum" and v.value == 224 for v in session.say("how much menstruum").values)
