"""What was answered is there afterwards: killed at any moment, and with two terminals writing at once.

GALLIPOT_KILLS=300 and GALLIPOT_TURNS=500 run these in full; a plain run takes fewer of each.
"""

import os
import random
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from assistant.book import Book, conversations
from assistant.book.exchange import book_as_text
from assistant.session.standing import as_tree
from tests.book.kit import session

KILLS = int(os.environ.get("GALLIPOT_KILLS", "8"))
TURNS = int(os.environ.get("GALLIPOT_TURNS", "24"))
ROOT = Path(__file__).parents[2]


@pytest.mark.skipif(not hasattr(os, "fork"), reason="killing needs a system that forks")
def test_killed_at_any_moment_no_answered_turn_is_lost(tmp_path):
    place = tmp_path / "book.db"
    chance = random.Random(20310612)
    expected = 0
    with subprocess.Popen(
        [sys.executable, "-m", "tests.book.talking", "--stable", str(place)], cwd=ROOT, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, bufsize=1
    ) as stable:
        once = float(stable.stdout.readline())
        for number in range(KILLS):
            stable.stdin.write("go\n")
            child = int(stable.stdout.readline())
            time.sleep(chance.uniform(0.0, 1.5 * once))
            os.kill(child, signal.SIGKILL)
            answered = int(stable.stdout.readline())
            with Book(place) as book:
                if number % 10 == 0:
                    assert book.row("PRAGMA integrity_check")[0] == "ok"
                    assert not book.rows("PRAGMA foreign_key_check")
                last = conversations.last(book)
                if answered == 0:
                    continue
                talk = conversations.read(book, last)
                # of twelve sentences one is "forget that", which takes one turn away; one more may be in the book than was answered
                gone = sum(1 for turn in talk.turns if turn.heard == "forget that")
                assert answered <= len(talk.turns) + gone <= answered + 1
                expected += answered
                talk.states()
        stable.stdin.close()
    assert expected > KILLS  # it was not only killed before it had said a word
    one = session(place)
    assert one.memory.go_on(one) is not None
    assert as_tree(one)["batches"]


def test_two_terminals_writing_at_once_lose_nothing(tmp_path):
    place = tmp_path / "book.db"
    command = [sys.executable, "-m", "tests.book.talking", str(place), str(TURNS)]
    both = [subprocess.Popen([*command, name], cwd=ROOT, stdout=subprocess.PIPE) for name in ("one", "other")]
    told = [process.communicate(timeout=600)[0] for process in both]
    assert [process.returncode for process in both] == [0, 0]
    assert [text.count(b"\n") for text in told] == [TURNS, TURNS]
    with Book(place) as book:
        rows = book.rows("SELECT conversation, count(*) AS said, max(n) AS last FROM turns GROUP BY conversation")
        assert [row["last"] for row in rows] == [TURNS, TURNS]
        gone = TURNS // 12
        assert [row["said"] for row in rows] == [TURNS - gone, TURNS - gone]
        assert book.row("SELECT count(*) FROM batches")[0] == 2 * ((TURNS + 7) // 12)
        assert book.row("PRAGMA integrity_check")[0] == "ok"
        assert book_as_text(book) == book_as_text(book)
