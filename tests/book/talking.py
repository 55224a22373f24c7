"""A program that talks to a book and says which turns were answered; for the tests that kill it and for those that run it twice.

    python -m tests.book.talking BOOK TURNS NAME     TURNS sentences of NAME's, then the end
    python -m tests.book.talking --stable BOOK       prints how long it takes to say the script once; then for every line read
                                                     from its input forks a talker that talks until it is killed

A talker prints the number of a turn once its reply is there.
"""

import os
import sys
import time
from pathlib import Path

from tests.book.kit import session

SCRIPT = (
    "112 g fresh nettle, 1:2 at 60 %, my stock is 95", "what if 1:3", "undo", "why", "keep this as lot {n}", "press in six weeks", "lot {n} gave 205 mL",
    "log a gathering: 640 g nettle leaf at Mill Lane, a fifth of the stand",
    "what presses this week", "brought in 5 L of 95 % spirit", "300 g dried yarrow 1:5 at 45 %",
    "forget that",
)  # fmt: skip


def talk(book: Path, name: str, turns: int | None, out: int) -> None:
    one = session(book)
    count = 0
    while turns is None or count < turns:
        sentence = SCRIPT[count % len(SCRIPT)].format(n=f"{name}-{count // len(SCRIPT)}")
        reply = one.say(sentence)
        assert "ot kept" not in reply.text, reply.text
        count += 1
        os.write(out, f"{one.turn}\n".encode())  # the door prints the reply here


def stable(book: Path) -> None:
    with Path(os.devnull).open("wb") as nowhere:  # everything is loaded before the first fork, and it is known how long a talk takes today
        talk(book.with_name("trial.db"), "trial", len(SCRIPT), nowhere.fileno())
        began = time.perf_counter()
        talk(book.with_name("trial.db"), "second", len(SCRIPT), nowhere.fileno())
    print(time.perf_counter() - began, flush=True)
    for number, _ in enumerate(sys.stdin):
        read, write = os.pipe()
        child = os.fork()
        if child == 0:
            os.close(read)
            talk(book, f"{os.getpid()}-{number}", None, write)
            os._exit(0)
        os.close(write)
        print(child, flush=True)
        heard = b""
        while piece := os.read(read, 65536):
            heard += piece
        os.close(read)
        os.waitpid(child, 0)
        print(heard.count(b"\n"), flush=True)


if __name__ == "__main__":
    if sys.argv[1] == "--stable":
        stable(Path(sys.argv[2]))
    else:
        talk(Path(sys.argv[1]), sys.argv[3], int(sys.argv[2]), 1)
