"""The door for a worksheet and its answer key on paper. No book is opened, and the same words give the same sheet."""

from __future__ import annotations

import argparse
from pathlib import Path

from assistant.faults import SentenceFault
from assistant.newfile import form_of, write_new
from assistant.render import say

GOOD = 0


def run(asked: argparse.Namespace) -> int:
    """Write the sheet, and the key where one is wanted. Fails with BenchError, which the caller prints."""
    from assistant.session import Session
    from assistant.teaching.sheets import answer_key, worksheet

    what, out = asked.worksheet
    session = Session()
    session.say(what)
    problems = session.lesson.problems if session.at_school else ()
    if not problems:
        raise SentenceFault("no worksheet goes by that name", where=what, try_this="--worksheet “ten on dilution, easy” OUT.html")
    draw = session.lesson.draw
    write_new(Path(out), worksheet(problems, draw, form_of(out), key=False), replace=asked.replace)
    say(f"{out}: written")
    if asked.key:
        write_new(asked.key, answer_key(problems, draw, form_of(asked.key.name)), replace=asked.replace)
        say(f"{asked.key}: written")
    return GOOD
