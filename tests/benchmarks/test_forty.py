"""A formula of forty ingredients beside one of three, in milliseconds.

Run by hand: pytest -s tests/benchmarks
"""

import statistics
import time

from assistant import Session
from tests.stillroom.test_recipes_hold import HERBS

ROUNDS = 15


def median(sentence: str) -> float:
    times = []
    for _ in range(ROUNDS):
        session = Session()
        start = time.perf_counter()
        session.say(sentence)
        times.append((time.perf_counter() - start) * 1e3)
    return statistics.median(times)


def test_forty_ingredients():
    median("3 parts nettle, 2 parts thyme, 1 part mint, 100 mL")
    three = median("3 parts nettle, 2 parts thyme, 1 part mint, 100 mL")
    forty = median(", ".join(f"{n % 5 + 1} parts {h}" for n, h in enumerate(HERBS)) + ", 1 litre")
    print(f"\nthree ingredients {three:6.2f} ms, forty {forty:6.2f} ms: {forty / three:4.2f} times")
    assert forty > three > 0
