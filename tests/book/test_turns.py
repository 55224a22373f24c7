"""Conversations: kept turn by turn, taken up again, forgotten for good."""

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.book import Book, conversations
from assistant.book.delta import difference, patched
from assistant.faults import FileFault
from assistant.session.remembering import FORGET
from assistant.session.standing import IN_THE_MARK, KEPT, KEPT_APART, PASSING, as_tree, stand
from tests.book.kit import session, told

TALK = (
    "112 g fresh nettle, 1:2 at 60 %", "my stock is 95", "what if 1:3", "undo", "why", "put it again", "300 g dried yarrow, 1:5 at 45 %", "back to the nettle",
    "112 g at 1:2 with 300 ml", "undo", "imperial measures", "a pint of 40 % from 95",
    "call it red", "start afresh", "salve: 20 g wax and 100 g oil", "double it",
)  # fmt: skip


def same_bench(one, other):
    return as_tree(one) == as_tree(other) and [m.figures for m in one.journal.before] == [m.figures for m in other.journal.before]


def test_a_conversation_is_taken_up_wherever_it_broke_off(tmp_path):
    """After every turn another terminal could go on: same plans, same undo, same answers."""
    place = tmp_path / "book.db"
    first = session(place)
    for sentence in TALK:
        first.say(sentence)
        second = session(place)
        conversation = second.memory.last_conversation()
        second.memory.take_up(second, conversation)
        assert same_bench(first, second), sentence
        assert second.turn == first.turn
    third = session(place)
    third.memory.go_on(third)
    plain = session()
    for sentence in TALK:
        plain.say(sentence)
    for sentence in ("undo", "undo", "undo", "why", "what do you know so far"):
        assert third.say(sentence).text == plain.say(sentence).text, sentence


def test_every_part_of_a_session_is_kept_or_named_as_passing():
    names = set(vars(session()))
    known = IN_THE_MARK | set(KEPT) | KEPT_APART | PASSING
    assert names <= known, f"session/standing.py does not say whether the book keeps {sorted(names - known)}: name it in KEPT or in PASSING"
    assert known <= names | {"turn"}


def test_a_turn_keeps_the_sentence_as_heard_and_only_what_changed(tmp_path):
    one = told(tmp_path / "book.db", "112 g fresh nettle, 1:2 at 60 %", "what if 1:3", "why")
    rows = one.memory.book.rows("SELECT * FROM turns ORDER BY n")
    assert [r["heard"] for r in rows] == ["112 g fresh nettle, 1:2 at 60 %", "what if 1:3", "why"]
    assert [r["said_on"] for r in rows] == ["2031-06-12"] * 3
    change = json.loads(rows[1]["delta"])
    assert change["into"]["batches"]["into"]["0"]["into"]["facts"]["into"]["ratio"]["set"]["value"] == 3.0
    assert "nettle" not in rows[1]["delta"]
    assert len(rows[2]["delta"]) < 60


def test_one_sentence_without_a_book_keeps_nothing(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    monkeypatch.setenv("HOME", str(tmp_path))
    one = told(None, "112 g fresh nettle, 1:2 at 60 %", "keep this as lot 24-07, press in six weeks", "what went into lot 24-07")
    assert list(tmp_path.rglob("*")) == []
    assert "for this conversation" in one.say("keep this as lot 24-08").text


def test_two_terminals_in_one_conversation_lose_nothing(tmp_path):
    place = tmp_path / "book.db"
    one = told(place, "112 g fresh nettle, 1:2 at 60 %")
    other = session(place)
    other.memory.go_on(other)
    one.say("what if 1:3")
    assert "448 mL" in other.say("what if 1:4").text  # it goes on by itself from where both were
    one.say("what if 1:5")
    assert "100 g" in other.say("100 g instead").text
    with Book(place) as book:
        talks = [conversations.read(book, row["id"]) for row in book.rows("SELECT id FROM conversations ORDER BY id")]
    assert [[t.heard for t in talk.turns] for talk in talks] == [
        ["112 g fresh nettle, 1:2 at 60 %", "what if 1:3", "what if 1:5"],
        ["what if 1:4", "100 g instead"],
    ]
    third = session(place)
    third.memory.take_up(third, talks[1])
    assert as_tree(third) == as_tree(other)  # undo ends where the two went apart


def test_habits_are_said_once_and_kept(tmp_path):
    place = tmp_path / "book.db"
    told(place, "imperial measures")
    assert session(place).measures == "imperial"
    assert session(tmp_path / "other.db").measures == "us"


# ── forgetting ───────────────────────────────────────────────────────────────────────────────────────────────────────────


def in_the_files(place, words: str) -> bool:
    return any(words.encode() in file.read_bytes() for file in place.parent.iterdir())


def test_what_is_forgotten_is_nowhere_any_more(tmp_path):
    place = tmp_path / "book.db"
    one = told(place, "112 g fresh nettle, 1:2 at 60 %")
    one.say("for Ottoline with the bad hip, make it 137 g")
    one.say("why")
    assert in_the_files(place, "Ottoline")
    reply = one.say("forget that, about Ottoline")
    assert reply.status == "noted"
    assert "for good" in reply.text
    assert not in_the_files(place, "Ottoline")
    assert not in_the_files(place, "137")
    assert "224 mL" in one.say("what do I pour").text
    assert "137" not in one.say("undo").text + one.say("put it again").text
    assert one.memory.forgotten == ["for Ottoline with the bad hip, make it 137 g"]
    heard = [row["heard"] for row in one.memory.book.rows("SELECT heard FROM turns ORDER BY n")]
    assert heard[:3] == ["112 g fresh nettle, 1:2 at 60 %", "why", FORGET]
    other = session(place)
    other.memory.go_on(other)
    assert same_bench(one, other)


def test_forgetting_takes_back_what_was_kept_by_it(tmp_path):
    one = told(tmp_path / "book.db", "brought in 5 L of 95 % spirit", "112 g fresh nettle, 1:2 at 60 %, my stock is 95", "keep this as lot 24-07")
    assert "4859 mL left" in one.say("what's in stock").text
    one.say("forget that")
    assert "5000 mL left" in one.say("what's in stock").text
    assert one.say("what went into lot 24-07").status == "asking"
    one.say("forget that")  # the plan it was made of
    one.say("forget that")  # the spirit
    assert "Nothing is kept in stock" in one.say("what's in stock").text
    assert one.memory.book.is_empty is False  # the talk itself is still there


def test_forgetting_what_was_undone_already_leaves_the_bench(tmp_path):
    one = told(tmp_path / "book.db", "112 g fresh nettle, 1:2 at 60 %", "137 g instead", "undo", "forget that")
    assert "224 mL" in one.say("what do I pour").text
    assert not in_the_files(tmp_path / "book.db", "137")


# ── deltas ───────────────────────────────────────────────────────────────────────────────────────────────────────────────

leaves = st.none() | st.booleans() | st.integers(-5, 5) | st.floats(allow_nan=False, allow_infinity=False, width=32) | st.text("ab", max_size=2)
trees = st.recursive(
    st.dictionaries(st.sampled_from("abcd"), leaves, max_size=4),
    lambda t: st.dictionaries(st.sampled_from(["a", "b", "facts"]), t | leaves, max_size=4),
    max_leaves=12,
)


@settings(max_examples=80, deadline=None)
@given(trees, trees)
def test_a_difference_laid_over_gives_the_other(old, new):
    there = json.loads(json.dumps(difference(old, new)))
    assert repr_sorted(patched(old, there)) == repr_sorted(new)
    assert difference(new, new) == {}


def repr_sorted(tree, under=""):
    """As text, the order of keys counting under "facts" alone; 1, 1.0 and True apart."""
    if not isinstance(tree, dict):
        return repr(tree)
    keys = list(tree) if under == "facts" else sorted(tree)
    return "{" + ", ".join(f"{k}: {repr_sorted(tree[k], k)}" for k in keys) + "}"


@settings(max_examples=80, deadline=None)
@given(trees, trees | st.lists(leaves, max_size=2) | leaves)
def test_a_difference_that_was_tampered_with_is_a_fault_and_no_crash(old, delta):
    try:
        assert isinstance(patched(old, delta), dict)
    except FileFault:
        return


@settings(max_examples=40, deadline=None)
@given(st.data())
def test_a_state_that_was_tampered_with_leaves_the_bench_as_it_was(data):
    one = session()
    one.say("112 g fresh nettle, 1:2 at 60 %")
    one.say("112 g at 1:2 with 300 ml")
    tree = json.loads(json.dumps(as_tree(one)))
    before = as_tree(one)
    spot, name = tree, ""
    for _ in range(data.draw(st.integers(1, 5))):
        if not isinstance(spot, dict) or not spot:
            break
        name = data.draw(st.sampled_from(sorted(spot)))
        parent, spot = spot, spot[name]
    parent[name] = data.draw(
        st.none()
        | st.booleans()
        | st.integers()
        | st.text(max_size=3)
        | st.lists(st.integers(), max_size=2)
        | st.dictionaries(st.text(max_size=2), st.integers())
    )
    try:
        stand(one, tree)
    except FileFault:
        assert as_tree(one) == before
    one.say("why")


def test_a_text_no_encoding_can_bear_is_kept_all_the_same(tmp_path):
    one = session(tmp_path / "book.db")
    assert "ot kept" not in one.say("112 g fresh nettle \ud800\x00 1:2").text
    assert one.memory.book.row("SELECT count(*) FROM turns")[0] == 1


@pytest.mark.parametrize("damage", ["{", "[]", '{"set": 1}', '{"into": {"nothing": {"set": {}}}}'])
def test_a_conversation_that_cannot_be_read_is_told_and_a_new_one_begun(tmp_path, damage):
    place = tmp_path / "book.db"
    told(place, "112 g fresh nettle, 1:2 at 60 %")
    with Book(place) as book, book.writing():
        book.run("UPDATE turns SET delta = ?", damage)
    one = session(place)
    assert one.memory.go_on(one) is None
    assert "begin a new" in one.say("100 g fresh nettle, 1:2 at 60 %").text
    assert "begin a new" not in one.say("why").text
    assert one.memory.book.row("SELECT count(*) FROM conversations")[0] == 2
