"""A warm turn over all dialogues, in milliseconds and as a share of a frame of a screen.

Run by hand: pytest -s tests/benchmarks
"""

import statistics
import time

from assistant import Session
from tests.dialogues.judge import FOLDER, read_cases

FRAME = 16.0  # ms: one frame of a screen
HALF_A_FRAME = 8.0


def percentile(times: list[float], share: float) -> float:
    return sorted(times)[min(int(len(times) * share), len(times) - 1)]


def told(name: str, times: list[float], limit: float) -> None:
    median, high = statistics.median(times), percentile(times, 0.95)
    print(f"\n{name:32} median {median:6.2f} ms ({median / limit:4.2f} of {limit:g} ms)", end="")
    print(f"   95th {high:6.2f} ({high / limit:4.2f})   slowest {max(times):6.2f}", end="")


def spoken(cases: list[dict]) -> tuple[list[float], list[float]]:
    """Milliseconds of a processor (others may share this machine) for every turn, and for a keystroke in the middle of it."""
    turns, keys = [], []
    for case in cases:
        session = Session()
        for turn in case["turns"]:
            half_typed = turn["say"][: len(turn["say"]) // 2]
            start = time.thread_time()
            session.next_words(half_typed)
            keys.append((time.thread_time() - start) * 1e3)
            start = time.thread_time()
            session.say(turn["say"])
            turns.append((time.thread_time() - start) * 1e3)
    return turns, keys


def test_turns_and_keystrokes():
    cases = [case for path in sorted(FOLDER.glob("*.jsonl")) for case in read_cases(path)]
    cold, _ = spoken(cases)  # a phrase is made into an expression when a sentence first calls for it
    turns, keys = spoken(cases)
    told("a turn, said for the first time", cold, FRAME)
    told("a turn", turns, FRAME)
    told("a keystroke", keys, FRAME)
    assert statistics.median(turns) < HALF_A_FRAME
    assert percentile(turns, 0.95) < FRAME
    assert percentile(keys, 0.95) < FRAME
