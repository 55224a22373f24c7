"""One solve, in milliseconds and as a share of what a turn may take.

Run by hand: pytest -s tests/benchmarks
"""

import statistics
import time

from assistant.matter import FUNCTIONS
from assistant.quantities.vocabulary import bracket
from assistant.relations import RELATIONS
from assistant.solving import Known, missing, solve

TURN = 3.0  # ms of a turn that finding the figures may take
ASKED = 15.0  # ms for finding out what to ask: such a turn gives no figures
TINCTURE = "fresh tincture spirit gathering"
SALVE = "recipe by_parts"
JARS = tuple(f"jar {n}" for n in range(1, 41))
COMMON = {"water_content": 82.0, "held_per_gram": 3.0, "margin": 15.0, "trim_loss": 0.0, "dried_water": 10.0}  # assumed


def relations_for(tags):
    return tuple(relation for relation in RELATIONS if relation.applies(set(tags.split())))


def known(said, assumed=()):
    return {key: Known(value) for key, value in said.items()} | {key: Known(value, "assumed") for key, value in dict(assumed).items()}


def timed(name, limit, call):
    call()
    times = []
    for _ in range(200):
        start = time.perf_counter()
        call()
        times.append((time.perf_counter() - start) * 1e3)
    median = statistics.median(times)
    print(f"\n{name:45} median {median:6.2f} ms ({median / limit:4.2f} of {limit:g} ms)", end="")
    return median


def test_a_solve_takes_a_small_part_of_a_turn():
    tincture, salve = relations_for(TINCTURE), relations_for(SALVE)
    forward = known({"herb": 112.0, "ratio": 2.0, "strength": 60.0, "stock_strength": 95.0}, COMMON)
    backward = known({"pressed": 250.0, "ratio": 2.0, "finished_strength": 50.0, "stock_strength": 95.0}, COMMON)
    conflict = known({"herb": 112.0, "ratio": 2.0, "menstruum": 300.0, "strength": 60.0, "stock_strength": 95.0})
    parts = known({f"part[{jar}]": float(n) for n, jar in enumerate(JARS, 1)} | {"batch": 8200.0})
    askable = ("herb", "ratio", "strength", "stock_strength", "water_content", "held_per_gram", "pressed", "bottle_size")

    assert timed("112 g at 1:2, one pair found together", TURN, lambda: solve(forward, tincture, (), FUNCTIONS, bracket)) < TURN
    assert timed("250 mL pressed, eight found together", TURN, lambda: solve(backward, tincture, (), FUNCTIONS, bracket)) < TURN
    assert timed("a conflict of three", TURN, lambda: solve(conflict, tincture, (), FUNCTIONS, bracket)) < TURN
    assert timed("forty parts", TURN * 2, lambda: solve(parts, salve, JARS, FUNCTIONS, bracket)) < TURN * 2
    ask = known({"herb": 112.0})
    assert timed("what to ask for the water", ASKED, lambda: missing(["water"], ask, tincture, (), FUNCTIONS, bracket, askable)) < ASKED
