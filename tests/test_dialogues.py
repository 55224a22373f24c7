"""Conversations written by others, spoken from the first word to the last: how many come out as their authors expected.

The shares that must hold stand in dialogues/floors.toml. Whatever the share: no crash, no number dropped, no breach of the reply contract.
"""

import tomllib

import pytest

from assistant import Session
from assistant.reply import Caution, Question, Reply, Step, Used, Value
from tests.dialogues.judge import FOLDER, dropped, is_wanted, read_cases, run, shortfalls

FLOORS = tomllib.loads((FOLDER / "floors.toml").read_text(encoding="utf-8"))


def test_every_file_of_dialogues_has_a_floor_and_every_floor_a_file():
    assert FLOORS
    assert set(FLOORS) == {path.name for path in FOLDER.glob("*.jsonl")}


@pytest.mark.parametrize("name", sorted(FLOORS))
def test_enough_dialogues_hold(name):
    report = run(read_cases(FOLDER / name), Session)
    told = "\n".join([*report.misses, str(report)])
    assert not report.crashes, "\n".join(report.crashes)
    assert not report.dropped, "\n".join(report.dropped)
    assert not report.unsound, "\n".join(report.unsound)
    assert report.share >= FLOORS[name], told


# ── the judge itself must be able to say no ──


def reply(text="x", **more):
    return Reply(**({"status": "answered", "text": text} | more))


MENSTRUUM = {"what": "menstruum", "value": 224.0, "unit": "mL", "rtol": 0.005}


@pytest.mark.parametrize(
    ("value", "counts"),
    [
        (Value(quantity="menstruum", value=224.0, unit="mL"), True),
        (Value(quantity="menstruum", value=224.9, unit="mL"), True),
        (Value(quantity="menstruum", value=226.0, unit="mL"), False),
        (Value(quantity="menstruum", value=224.0, unit="g"), False),
        (Value(quantity="strength", value=22400.0, unit="percent"), False),
        (Value(quantity="menstruum", value=224.0, unit="mL", about="yarrow"), False),
        (Value(quantity="menstruum", value=224.0, unit="mL", about="nettle"), True),
        (Value(quantity="menstruum"), False),
    ],
)
def test_a_figure_counts_only_when_it_is_the_wanted_one(value, counts):
    wanted = MENSTRUUM | {"what": "nettle menstruum"}
    assert is_wanted(wanted, value, {"nettle", "yarrow"}) is counts


def test_a_figure_said_in_this_sentence_is_no_answer():
    said = Value(quantity="menstruum", value=224.0, unit="mL", origin="said")
    assert list(shortfalls({"say": "224 ml, yes?", "expect": [MENSTRUUM]}, reply(values=[said]), set()))
    assert not list(shortfalls({"say": "how much then", "expect": [MENSTRUUM]}, reply(values=[said]), set()))
    step = Step(quantity="menstruum", value=224.0, unit="mL")
    assert not list(shortfalls({"say": "224 ml, yes?", "expect": [MENSTRUUM]}, reply(steps=[step]), set()))


@pytest.mark.parametrize(
    ("demand", "good", "bad"),
    [
        ({"must_ask": True}, reply(questions=[Question(text="How much?")]), reply()),
        ({"must_refuse": True}, reply(status="refused"), reply()),
        ({"must_refuse": True}, reply(status="asking"), reply(status="asking", values=[Value(quantity="herb", value=1)])),
        ({"must_refuse": True}, reply(status="conflict"), reply(status="not_understood")),
        ({"caution_words": ["poison"]}, reply(cautions=[Caution(id="a", level="warn", text="Poisonous.")]), reply("poison")),
        ({"caution_words": ["poison"]}, reply("This is poison.", status="refused"), reply("poison", status="noted")),
    ],
)
def test_what_a_turn_demands_is_seen_and_missed(demand, good, bad):
    turn = {"say": "112 g at 1:2"} | demand
    assert not list(shortfalls(turn, good, set()))
    assert list(shortfalls(turn, bad, set()))


def test_a_number_in_no_used_piece_and_no_question_is_dropped():
    heard = "twelve jars of 112 g"
    piece = Used(text="112 g", start=15, end=20, quantity="herb")
    assert dropped(heard, reply()) == ["112", "twelve"]
    assert dropped(heard, reply(used=[piece])) == ["twelve"]
    assert dropped(heard, reply(used=[piece], questions=[Question(text="What are the twelve jars for?")])) == []
    assert dropped(heard, reply(used=[piece.model_copy(update={"start": 14, "end": 19})])) == ["112", "twelve"]


@pytest.mark.parametrize(
    ("line", "why"),
    [
        ("", "no case"),
        ('{"id": "a", "turns": []}', "no turns"),
        ('{"id": "a", "turns": [{"say": "x", "expct": []}]}', "unknown keys"),
        ('{"id": "a", "turns": [{"say": "x", "expect": [{"value": 1, "unit": "stone"}]}]}', "unknown unit"),
        ('{"id": "a", "turns": [{"say": "x", "expect": [{"value": 1, "disputed": "", "theirs": 2}]}]}', "reason"),
        ('{"id": "a", "turns": [{"say": "x"}]}\n{"id": "a", "turns": [{"say": "x"}]}', "twice"),
    ],
)
def test_a_faulty_file_of_dialogues_is_refused(tmp_path, line, why):
    path = tmp_path / "cases.jsonl"
    path.write_text(line)
    with pytest.raises(ValueError, match=why):
        read_cases(path)
