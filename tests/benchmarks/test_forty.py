"""A formula of forty ingredients beside the middle turn of the dialogues: what a long list costs.

Two figures: where each dialogue is spoken once, as a person does, and once more when every phrase has been met before.
Run by hand: pytest -s tests/benchmarks
"""

import statistics
import time

from assistant import Session
from tests.dialogues.judge import FOLDER, read_cases
from tests.stillroom.test_recipes_hold import HERBS

MOST_TIMES_A_TURN = 3.0
EVERY = 6  # dialogues between two formulas, so that both are timed in the same minutes
FORMULA = ", ".join(f"{n % 5 + 1} parts {h}" for n, h in enumerate(HERBS)) + ", 1 litre"


def milliseconds(session: Session, sentence: str) -> float:
    start = time.thread_time()
    session.say(sentence)
    return (time.thread_time() - start) * 1e3


def times_a_turn(cases: list[dict]) -> float:
    turns, formulas = [], []
    for number, case in enumerate(cases):
        session = Session()
        turns += [milliseconds(session, turn["say"]) for turn in case["turns"]]
        if number % EVERY == 0:
            formulas.append(milliseconds(Session(), FORMULA))
    turn, forty = statistics.median(turns), statistics.median(formulas)
    print(f"\na turn {turn:6.2f} ms, a formula of forty {forty:6.2f} ms: {forty / turn:4.2f} times (limit {MOST_TIMES_A_TURN:g})", end="")
    return forty / turn


def test_forty_ingredients():
    assert len(HERBS) == 40
    cases = [case for path in sorted(FOLDER.glob("author_*.jsonl")) for case in read_cases(path)]
    Session().say(FORMULA)
    spoken_once, spoken_before = times_a_turn(cases), times_a_turn(cases)
    assert spoken_once < MOST_TIMES_A_TURN
    assert spoken_before < MOST_TIMES_A_TURN
