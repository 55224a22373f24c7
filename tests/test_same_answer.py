"""The same sentences give the same replies, to the last byte: in another process, and whatever order a set happens to be walked in."""

import os
import subprocess
import sys

from tests.dialogues.judge import FOLDER, read_cases

SPEAK = """
import sys
from assistant import Session
from pathlib import Path
from tests.dialogues.judge import read_cases
for case in read_cases(Path(sys.argv[1]))[:15]:
    session = Session()
    for turn in case["turns"]:
        print(session.say(turn["say"]).model_dump_json())
"""


def told(path, order):
    done = subprocess.run(
        [sys.executable, "-c", SPEAK, str(path)],
        env=os.environ | {"PYTHONHASHSEED": order}, cwd=FOLDER.parents[1], capture_output=True, text=True, timeout=120, check=True,
    )  # fmt: skip
    return done.stdout.splitlines()


def test_replies_do_not_hang_on_the_order_of_a_set():
    for path in sorted(FOLDER.glob("*.jsonl")):
        first, second = told(path, "1"), told(path, "2")
        assert len(first) >= min(15, len(read_cases(path)))
        assert [pair for pair in zip(first, second, strict=True) if pair[0] != pair[1]][:1] == []
