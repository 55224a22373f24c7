"""Two programs timed in turn in fresh processes, so that a busy machine slows both: what the benchmarks of starting share."""

import os
import resource
import statistics
import subprocess
import sys
import time
from collections.abc import Mapping


def installed() -> dict[str, str]:
    """The environment of a program that was installed: its compiled files may be kept, as pip keeps them."""
    return {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}


def seconds(code: str) -> tuple[float, float]:
    """A fresh process: seconds on the clock, and seconds of a processor."""
    before, start = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    subprocess.run([sys.executable, "-c", code], check=True, stdout=subprocess.DEVNULL, env=installed())
    clock, after = time.perf_counter() - start, resource.getrusage(resource.RUSAGE_CHILDREN)
    return clock, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def compared(programs: Mapping[str, str], rounds: int) -> dict[str, tuple[float, float]]:
    """Each program's median time as a share of the first one's: by the clock, and by the processor. Prints a line for each."""
    for code in programs.values():  # once, so that every file is compiled and in the disk's memory
        seconds(code)
    taken: dict[str, list[tuple[float, float]]] = {name: [] for name in programs}
    for _ in range(rounds):
        for name, code in programs.items():
            taken[name].append(seconds(code))
    middle = {name: [statistics.median(column) for column in zip(*times, strict=True)] for name, times in taken.items()}
    first = middle[next(iter(programs))]
    shares = {}
    for name, (clock, processor) in middle.items():
        shares[name] = clock / first[0], processor / first[1]
        print(f"\n{name:28} {clock * 1e3:6.0f} ms, {shares[name][0]:5.2f} of the first; processor {processor * 1e3:6.0f} ms, {shares[name][1]:5.2f}", end="")
    return shares
