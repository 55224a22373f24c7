"""How soon the prompt stands, against a bare prompt of the same library; and what a keystroke costs on a long line.

Both programs are started in a pseudo-terminal, in turn, and timed until the prompt's sign is on the screen.

Run by hand: pytest -s tests/benchmarks
"""

import os
import pty
import select
import signal
import statistics
import sys
import time

import pytest

from assistant import Session
from assistant.completing import offers
from tests.benchmarks.side_by_side import installed

ROUNDS = 9
MOST = 1.2  # of the bare prompt
KEYSTROKE = 16.0  # ms: one frame of a screen
LINE = 300  # characters
BARE = "from prompt_toolkit import prompt; prompt('> ')"
OURS = "from assistant.cli import main; main([])"
SIGN = b"\x1b[0m>"  # as the library draws it: colours off, then the prompt


def until_the_sign(code: str, home: str) -> float:
    """Seconds from the start of a fresh process until its prompt is on the screen."""
    start = time.perf_counter()
    child, terminal = pty.fork()
    if child == 0:
        about = {"TERM": "xterm", "HOME": home, "XDG_DATA_HOME": f"{home}/.local/share", "COLUMNS": "80", "LINES": "24"}
        os.execve(sys.executable, [sys.executable, "-c", code], installed() | about)
    seen = b""
    try:
        while SIGN not in seen:
            ready, _, _ = select.select([terminal], [], [], 30)
            assert ready, f"no prompt within 30 s; seen: {seen[-400:]!r}"
            seen += os.read(terminal, 4096)
        return time.perf_counter() - start
    finally:
        os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)
        os.close(terminal)


@pytest.mark.parametrize("before", ["", "112 g fresh nettle, 1:2 at 60 %"], ids=["no book yet", "a conversation to take up"])
def test_the_prompt_against_a_bare_one(before, tmp_path):
    if before:
        (tmp_path / ".local/share/gallipot").mkdir(parents=True)
        Session(book=tmp_path / ".local/share/gallipot/book.db").say(before)
    programs = {"a bare prompt": BARE, "gallipot's": OURS}
    for code in programs.values():
        until_the_sign(code, str(tmp_path))
    taken = {name: [] for name in programs}
    for _ in range(ROUNDS):
        for name, code in programs.items():
            taken[name].append(until_the_sign(code, str(tmp_path)))
    bare = statistics.median(taken["a bare prompt"])
    for name, times in taken.items():
        print(f"\n{name:14} {statistics.median(times) * 1e3:6.0f} ms   {statistics.median(times) / bare:5.2f} of the bare one", end="")
    assert statistics.median(taken["gallipot's"]) < MOST * bare


@pytest.mark.parametrize("start", ["112 g fresh nettle, 1:2 at 60 %, ", "30 g dried yarrow and 20 g dried thyme and "])
def test_a_keystroke_on_a_long_line(start):
    line = (start * (LINE // len(start) + 1))[:LINE]
    session = Session()
    session.say("112 g fresh nettle, 1:2 at 60 %")
    offers(line, session.next_words(line))
    times = []
    for end in range(1, LINE + 1):
        typed = line[:end]
        begun = time.perf_counter()
        offers(typed, session.next_words(typed))
        session.bench_line()
        times.append((time.perf_counter() - begun) * 1e3)
    last = times[-50:]
    print(f"\na keystroke  median {statistics.median(times):5.2f} ms, of the last fifty {statistics.median(last):5.2f}, slowest {max(times):5.2f}", end="")
    assert max(sorted(times)[: int(len(times) * 0.95)]) < KEYSTROKE
