"""The first sentence in a fresh process against a bare `import sympy`, taken in turn so that a busy machine slows both.

Run by hand: pytest -s tests/benchmarks
"""

import statistics
import subprocess
import sys
import time

ROUNDS = 9
MOST = 1.6
SENTENCE = "I picked 112 g fresh nettle, make it 1:2 at 60%"
PROGRAMS = {
    "import sympy": "import sympy",
    "one sentence": f"from assistant.cli import main; main([{SENTENCE!r}])",
    "bare python": "pass",
    "import assistant.reply": "import assistant.reply",
}


def seconds(code: str) -> float:
    start = time.perf_counter()
    subprocess.run([sys.executable, "-c", code], check=True, stdout=subprocess.DEVNULL)
    return time.perf_counter() - start


def test_the_first_sentence_against_importing_sympy():
    for code in PROGRAMS.values():  # once, so that every file is in the disk's memory and compiled
        seconds(code)
    taken = {name: [] for name in PROGRAMS}
    for _ in range(ROUNDS):
        for name, code in PROGRAMS.items():
            taken[name].append(seconds(code))
    yardstick = statistics.median(taken["import sympy"])
    for name, times in taken.items():
        print(f"\n{name:24} {statistics.median(times) * 1e3:7.0f} ms   {statistics.median(times) / yardstick:5.2f} of importing sympy", end="")
    assert statistics.median(taken["one sentence"]) / yardstick < MOST
