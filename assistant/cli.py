"""The door for one sentence and for a pipe; with neither it opens the conversation.

    gallipot                    the conversation at the bench
    gallipot "sentence"         one answer
    gallipot < file             a sentence a line, one conversation
    gallipot --export OUT.json  the book out, and in again, and copied: no conversation

Exit codes: 0 answered or noted; 1 anything else; 2 bad usage; a pipe gives the worst of its lines.
This door never imports prompt_toolkit for a sentence or a pipe, and nothing heavy before it knows what is wanted.
"""

import argparse
import os
import sys
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import BinaryIO

from assistant import __version__
from assistant.faults import BenchError

GOOD, OTHER, BAD_USAGE = 0, 1, 2
INTERRUPTED = 130  # what a shell reports of a program ended by Ctrl-C

_TAIL = """\
examples:
  gallipot "112 g fresh nettle, make it 1:2 at 60%"
  gallipot "I need 250 ml of pressed tincture 1:2, how much should I pick?"
  gallipot --book stillroom.db --export stillroom.json

the book: the conversation keeps what is said in a book of your own; one
sentence or a pipe keeps nothing unless --book FILE is given.

exit codes: 0 answered or noted, 1 anything else (asked back, a clash, a
refusal, not understood), 2 bad usage; a pipe gives the worst of its lines."""


def arguments() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="gallipot",
        description="A calculator for a herbalist's bench that you talk to. Without a sentence it opens the conversation.",
        epilog=_TAIL,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.add_argument("sentence", nargs="*", help="what you would say at the bench; several words are read as one sentence")
    parser.add_argument("--json", action="store_true", help="one reply a line, for programs")
    parser.add_argument("--plain", action="store_true", help="for a screen reader: no wrapping, no colour, signs spelt out")
    parser.add_argument("--words", action="store_true", help="print every quantity, its unit and its names, and end")
    ruling = parser.add_argument_group("rules and plants of your own")
    ruling.add_argument("--folder", metavar="FOLDER", type=Path, help="read your own rules and plants from here, after the shipped ones")
    ruling.add_argument("--rules", action="store_true", help="print how to write a rule and all that a rule can say, and end")
    ruling.add_argument("--check-rules", metavar="FOLDER", type=Path, help="tell every fault of a folder of rules and plants, speak its examples, and end")
    keeping = parser.add_argument_group("the book")
    keeping.add_argument("--book", metavar="FILE", type=Path, help="keep everything in this file instead of the usual one; a sentence or a pipe is kept too")
    keeping.add_argument("--go-on", action="store_true", help="take up the last conversation of the book")
    keeping.add_argument("--export", metavar="OUT", type=Path, help="write the whole book to OUT.json, or its tables to OUT-….csv, and end")
    keeping.add_argument("--without-turns", action="store_true", help="leave out of an export what was said")
    keeping.add_argument("--import", metavar="IN.json", type=Path, dest="bring_in", help="read an export into an empty book, and end")
    keeping.add_argument("--backup", metavar="OUT", type=Path, help="copy the book to a new file, and end")
    keeping.add_argument(
        "--sheet", metavar=("WHAT", "OUT"), nargs=2,
        help="write “labels 24-07”, “batch 24-07”, “gathering 3” or “year” to OUT.html, OUT.md or OUT.txt, the year to OUT.csv too, and end",
    )
    keeping.add_argument("--paper", choices=("a4", "letter"), default="a4", help="of a printed page (a4)")
    keeping.add_argument("--line", action="append", default=[], metavar="WORDS", help="a line of your own on every label; may be given again")
    teaching = parser.add_argument_group("lessons")
    teaching.add_argument(
        "--worksheet", metavar=("WHAT", "OUT"), nargs=2, help="write “ten on dilution, easy” to OUT.html, OUT.md or OUT.txt, without answers, and end"
    )
    teaching.add_argument("--key", metavar="OUT", type=Path, help="write the answers to that worksheet to a file of their own")
    parser.add_argument("--replace", action="store_true", help="let --sheet, --worksheet and --key write over a file that is there")
    parser.add_argument("--version", action="version", version=f"gallipot {__version__}")
    return parser


def main(given: Sequence[str] | None = None) -> int:
    """Run one door and return the exit code."""
    try:
        parser = arguments()
        asked = parser.parse_args(given)
        if asked.key and not asked.worksheet:
            parser.error("--key writes the answers to a worksheet: give --worksheet WHAT OUT with it")
    except SystemExit as end:  # argparse has printed help, the version or what is wrong
        return end.code if isinstance(end.code, int) else BAD_USAGE
    try:
        return _open(asked)
    except BrokenPipeError:
        # The reader has gone. Python would complain once more when it flushes at exit; there is nobody to tell.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return OTHER
    except KeyboardInterrupt:
        return INTERRUPTED
    except BenchError as fault:
        print(f"gallipot: {fault}", file=sys.stderr)
        return OTHER


def _open(asked: argparse.Namespace) -> int:
    if asked.words:
        return _words(asked)
    if asked.rules or asked.check_rules:
        return _rules(asked)
    if asked.worksheet:
        from assistant import sheetdoor

        return sheetdoor.run(asked)
    if asked.export or asked.bring_in or asked.backup or asked.sheet:
        from assistant import bookdoor

        return bookdoor.run(asked)
    if asked.sentence:
        return _converse([_decoded(" ".join(asked.sentence))], asked)
    if asked.json or not (sys.stdin.isatty() and sys.stdout.isatty()):
        return _converse(sentences(sys.stdin.buffer), asked)
    from assistant import repl

    if asked.folder is not None:
        from assistant.cautions.folder import check_folder

        _tell_faults(check_folder(asked.folder))
    return repl.converse(plain=asked.plain, book=asked.book, go_on=asked.go_on, folder=asked.folder)


def _rules(asked: argparse.Namespace) -> int:
    from assistant import ruledoor
    from assistant.render import say

    if asked.rules:
        say(ruledoor.page())
    if asked.check_rules is None:
        return GOOD
    checked = ruledoor.check(asked.check_rules)
    for line in checked.lines:
        say(line)
    return GOOD if checked.is_good else OTHER


def _tell_faults(faults: Iterable[BenchError]) -> None:
    """What of a person's own folder was left out; the conversation goes on without it."""
    for fault in faults:
        print(f"gallipot: left out: {fault}", file=sys.stderr)


def _words(asked: argparse.Namespace) -> int:
    from assistant import wordlist
    from assistant.render import look_of, say

    look = look_of(sys.stdout, os.environ, plain=asked.plain)
    say(wordlist.page(look.width if look.width or asked.plain else 76))
    return GOOD


def _converse(said: Iterator[str] | list[str], asked: argparse.Namespace) -> int:
    from assistant.render import look_of, on_screen, say
    from assistant.session import Session
    from assistant.turns import answer

    session = Session(book=asked.book, folder=asked.folder)
    session.plain = getattr(session, "plain", False) or asked.plain  # a drawing is told in words
    if asked.folder is not None:
        _tell_faults(session.faults)
    if asked.go_on:
        session.memory.go_on(session)
    worst = GOOD
    for number, sentence in enumerate(said):
        reply = answer(session, sentence)
        worst = max(worst, GOOD if reply.is_good else OTHER)
        if asked.json:
            # Escaped to ASCII: what was heard is given back whole, yet no control or bidirectional sign reaches a screen.
            import json

            say(json.dumps(reply.model_dump(mode="json"), separators=(",", ":")))
        else:
            say(("\n" if number else "") + on_screen(reply, look_of(sys.stdout, os.environ, plain=asked.plain or getattr(session, "plain", False))))
    return worst


def sentences(stream: BinaryIO) -> Iterator[str]:
    """The sentences of a pipe, one a line; blank lines are passed over, bytes that are no UTF-8 become U+FFFD.

    A line is never read whole into memory beyond what a sentence may have: the rest of it is skipped, and what comes through
    is still too long, so that it is refused rather than cut.
    """
    from assistant.listening.lengths import LONGEST_SENTENCE

    most = 4 * LONGEST_SENTENCE + 4  # bytes; a character takes four at most
    first = True
    while line := stream.readline(most):
        rest = line
        while not rest.endswith(b"\n") and (rest := stream.readline(most)):
            pass
        text = line.decode("utf-8-sig" if first else "utf-8", "replace").rstrip("\r\n")
        first = False
        if text.strip():
            yield text


def _decoded(argument: str) -> str:
    """An argument whose bytes were no UTF-8 comes with lone surrogates in it; they become U+FFFD."""
    return argument.encode("utf-8", "surrogateescape").decode("utf-8", "replace")
