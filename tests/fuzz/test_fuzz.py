"""A short run of every target with drawn texts; the long ones, guided by coverage, are run by hand: see run.py."""

import json
import random
import time

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.fuzz import targets
from tests.fuzz.starts import starts, words
from tests.fuzz.watching import Offence, watched

SHORT = settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def mixed(target: str) -> st.SearchStrategy[str]:
    """A known text with a piece of it replaced by words or by anything at all."""
    piece = st.one_of(st.sampled_from(words()), st.text(max_size=20), st.lists(st.sampled_from(words()), max_size=12).map(" ".join))
    return st.builds(put_in, st.sampled_from(starts(target)), piece, st.floats(0, 1), st.floats(0, 1))


def put_in(text: str, piece: str, begin: float, length: float) -> str:
    at = int(len(text) * begin)
    return text[:at] + piece + text[at + int((len(text) - at) * length * 0.3) :]


@SHORT
@given(st.one_of(mixed("sentences"), st.lists(st.sampled_from(words()), max_size=40).map(" ".join), st.text(max_size=120)))
def test_any_sentence(text):
    targets.sentences(text)


@SHORT
@given(mixed("rules"))
def test_any_rule(text):
    targets.rules(text)


@SHORT
@given(mixed("plants"))
def test_any_plant(text):
    targets.plants(text)


@settings(SHORT, max_examples=20)
@given(st.one_of(mixed("imports"), st.integers().map(lambda number: changed(starts("imports")[0], number))))
def test_any_import(text):
    targets.imports(text)


@SHORT
@given(st.one_of(mixed("screen"), st.text()))
def test_any_page(text):
    targets.screen(text)


def changed(text: str, number: int) -> str:
    """The same export with a value or two replaced by others of the same kind or another: sound JSON all the same."""
    chance = random.Random(number)
    tree = json.loads(text)
    for _ in range(chance.randint(1, 3)):
        place = tree
        while True:
            keys = list(place) if isinstance(place, dict) else list(range(len(place)))
            if not keys:
                break
            key = chance.choice(keys)
            if isinstance(place[key], dict | list) and chance.random() < 0.8:
                place = place[key]
                continue
            place[key] = chance.choice([None, 0, -1, 1e300, 10**30, "", "2031-01-01", "../../x", "\u202e", "<script>", "=1+1", True, [], {}, place[key]])
            break
    return json.dumps(tree)


def test_the_watch_sees_what_it_is_there_for(tmp_path):
    import subprocess

    offences = [
        lambda: eval("1 + 1"),
        lambda: (tmp_path.parent / "x").write_text("x"),
        lambda: subprocess.run(["true"], check=True),
        lambda: idle(1.1),
    ]
    for done in offences:
        with pytest.raises(Offence), watched(tmp_path):
            done()
    with watched(tmp_path):
        (tmp_path / "x").write_text("x")


def idle(seconds: float) -> None:
    end = time.thread_time() + seconds
    while time.thread_time() < end:
        pass
