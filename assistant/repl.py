"""The conversation at the bench: the only room that imports prompt_toolkit, and that only where a terminal can bear it.

Ctrl-C clears the line, Ctrl-D ends, as a shell has them. The heavy rooms are loaded by a thread while the first sentence is being typed, and
not before the prompt stands: two things loading at once hold each other up.
A bug in a completion, in the line of key figures or in a turn is told in one line, and the bench goes on.
"""

import os
import sys
import threading
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

from assistant import taking_up
from assistant.completing import offers
from assistant.places import usual_book
from assistant.render import clean, columns, laid, look_of, on_screen, say
from assistant.turns import Talker, answer

if TYPE_CHECKING:
    from prompt_toolkit import PromptSession
    from prompt_toolkit.completion import Completer
    from prompt_toolkit.history import History

GREETING = 'gallipot: say what is on the bench. "what can I say" shows the way, Ctrl-D ends.'
PROMPT = "> "
EMPTY_BENCH = "nothing on the bench yet"
LEAVING = frozenset({"bye", "goodbye", "quit", "exit", "leave"})
FIRST_WORDS = "112 g fresh nettle, 1:2 at 60 %"  # said to a session that is thrown away, so that the first real answer finds every table read


class Bench:
    """The session, opened when first needed, and what has gone wrong beside the conversation.

    open_session   gives the person's session; called once, in the thread of the conversation, since a book may belong to one thread
    warm_up        loads what is heavy; called once, in a thread of its own
    """

    def __init__(self, open_session: Callable[[], Talker], warm_up: Callable[[], object]) -> None:
        self._open = open_session
        self._warm_up = warm_up
        self._talker: Talker | None = None
        self._loading: threading.Thread | None = None
        self._warm = threading.Event()
        self._complaints: dict[str, bool] = {}

    def warm(self) -> None:
        """Start loading, once, in a thread that never holds up leaving."""
        if self._loading is None:
            self._loading = threading.Thread(target=self._load, name="warming", daemon=True)
            self._loading.start()

    def _load(self) -> None:
        with self._unharmed("warming up"):
            self._warm_up()
        self._warm.set()

    def talker(self) -> Talker:
        """The session; waits until the loading is done, in short spells so that Ctrl-C is heard meanwhile."""
        self.warm()
        while not self._warm.wait(0.1):
            pass
        if self._talker is None:
            self._talker = self._open()
        return self._talker

    def next_words(self, typed: str) -> list[str]:
        """Words that could come next; none while the rooms are still loading, and none where finding them fails."""
        if self._warm.is_set():
            with self._unharmed("completion"):
                return self.talker().next_words(typed)
        return []

    def line(self) -> str:
        """The batch's key figures in one line; empty while there are none."""
        if self._warm.is_set():
            with self._unharmed("the line of key figures"):
                return " ".join(clean(self.talker().bench_line()).split())
        return ""

    @contextmanager
    def _unharmed(self, doing: str) -> Iterator[None]:
        """Keep a fault in something that is not a turn for later; each is told once."""
        try:
            yield
        except Exception as fault:  # noqa: BLE001 - the bench goes on without it
            words = " ".join(clean(str(fault)).split())[:120]
            self._complaints.setdefault(f"({doing} met a fault of the program itself: {type(fault).__name__}: {words})", False)

    def fresh_complaints(self) -> list[str]:
        """Faults not told yet, a line each."""
        fresh = [complaint for complaint, told in list(self._complaints.items()) if not told]
        self._complaints.update(dict.fromkeys(fresh, True))
        return fresh


def converse(*, plain: bool = False, bench: Bench | None = None, book: Path | None = None, go_on: bool = False, folder: Path | None = None) -> int:
    """Talk until the person leaves; the exit code is 0. What is said is kept in `book`, or where a book usually lies.

    folder   rules and plants of the person's own, read after the shipped ones
    """
    offered = ""
    if bench is None:
        place = book or usual_book()
        bench = Bench(lambda: _own_session(place, folder, plain=plain), _read_every_table)
        offered = taking_up.offer(place)
    tell(GREETING, plain)
    if offered and not go_on:
        tell(offered, plain)
    kept = None if is_dumb() else history()
    if kept is None:
        bench.warm()
    ask = _plain_line if kept is None else _prompting(bench, plain, kept)
    if go_on:
        tell(taking_up.taken_up(bench.talker()), plain)
    first = bool(offered) and not go_on
    while True:
        try:
            typed = ask()
        except KeyboardInterrupt:
            continue
        except EOFError:
            return 0
        for sentence in typed.splitlines():
            if sentence.strip().lower().rstrip(".!") in LEAVING:
                return 0
            if first and taking_up.is_yes(sentence):
                tell(taking_up.taken_up(bench.talker()), plain)
            elif sentence.strip():
                _turn(bench, sentence, plain)
                erase(kept, taking_up.forgotten(bench.talker()), sentence)
            first = first and not sentence.strip()
        for complaint in bench.fresh_complaints():
            tell(complaint, plain)


def _turn(bench: Bench, sentence: str, plain: bool) -> None:
    try:
        reply = answer(bench.talker(), sentence)
        say(on_screen(reply, look_of(sys.stdout, os.environ, plain=plain or getattr(bench.talker(), "plain", False))) + "\n")
    except KeyboardInterrupt:
        tell("Stopped; nothing of that sentence was taken in.\n", plain)


def tell(text: str, plain: bool = False) -> None:
    """Print a line of the door's own."""
    say(laid(text, look_of(sys.stdout, os.environ, plain=plain)))


def _own_session(book: Path | None, folder: Path | None = None, *, plain: bool = False) -> Talker:
    from assistant.newfile import write_here
    from assistant.session import Session

    session = Session(book=book, folder=folder)
    session.writer = write_here
    session.plain = session.plain or plain  # a drawing is told in words
    return session


def _read_every_table() -> None:
    """What the first answer and the first offered word would else wait for."""
    thrown_away = _own_session(None)
    thrown_away.say(FIRST_WORDS)
    thrown_away.next_words(FIRST_WORDS)


def is_dumb() -> bool:
    """Whether this terminal can do no more than print lines."""
    return os.environ.get("TERM", "") in ("dumb", "") or not (sys.stdin.isatty() and sys.stdout.isatty())


def _plain_line() -> str:
    # A stray byte must not end the conversation.
    if hasattr(sys.stdin, "reconfigure"):
        sys.stdin.reconfigure(errors="replace")
    try:
        return input(PROMPT)
    except (KeyboardInterrupt, EOFError):
        say("")
        raise


def _prompting(bench: Bench, plain: bool, kept: "History") -> Callable[[], str]:
    session = prompt_session(bench, plain=plain, history=kept)
    session.app.after_render += lambda _: bench.warm()
    return lambda: session.prompt(PROMPT)


def prompt_session(bench: Bench, *, plain: bool = False, **ends: Any) -> "PromptSession[str]":
    """The prompt itself. `ends` may hold input, output and history for a test.

    For a screen reader nothing appears unasked: words only on Tab, and no line below the prompt.
    """
    from prompt_toolkit import PromptSession
    from prompt_toolkit.filters import Condition
    from prompt_toolkit.shortcuts import CompleteStyle

    ends.setdefault("history", history())
    return PromptSession(
        completer=completer(bench),
        complete_while_typing=Condition(lambda: not plain),
        complete_style=CompleteStyle.READLINE_LIKE if plain else CompleteStyle.COLUMN,
        reserve_space_for_menu=0 if plain else 6,
        bottom_toolbar=None if plain else lambda: below(bench, _columns()),
        **ends,
    )


def below(bench: Bench, width: int) -> str:
    """The line below the prompt, no wider than the terminal."""
    line = bench.line() or EMPTY_BENCH
    while columns(line) > max(width - 1, 1):
        line = line.rstrip("… ")[:-1].rstrip() + "…"
    return line


def _columns() -> int:
    from prompt_toolkit.application import get_app

    return get_app().output.get_size().columns


def completer(bench: Bench) -> "Completer":
    """Words the sentence could go on with: while a word is being typed, and on Tab after a space."""
    from prompt_toolkit.completion import CompleteEvent, Completer, Completion
    from prompt_toolkit.document import Document

    class Words(Completer):
        def get_completions(self, document: Document, complete_event: CompleteEvent) -> Iterable[Completion]:
            typed = document.text_before_cursor
            if complete_event.completion_requested or (typed and not typed[-1].isspace()):
                for offer in offers(typed, bench.next_words(typed)):
                    yield Completion(clean(offer.text), start_position=-offer.replaces)

    return Words()


def erase(kept: "History | None", sentences: Sequence[str], asking: str) -> None:
    """Take sentences that were forgotten, and the one that asked for it, out of what the prompt remembers."""
    if kept is None or not sentences:
        return
    gone = {*sentences, asking}
    kept._loaded_strings = [line for line in kept._loaded_strings if line not in gone]
    place = getattr(kept, "filename", None)
    if place is None:
        return
    try:
        entries = Path(place).read_text(encoding="utf-8", errors="replace").split("\n# ")
        left = [e for e in entries if "\n".join(line[1:] for line in e.splitlines() if line.startswith("+")) not in gone]
        Path(place).write_text("\n# ".join(left), encoding="utf-8")
    except OSError as fault:
        tell(f"(it is still in the history of the prompt, {place}: {fault.strerror})")


def history(folder: Path | None = None) -> "History":
    """Sentences of earlier runs, in a file only its owner may read; in memory alone where none can be kept (and says so).

    A line that begins with a space is not kept.
    """
    from prompt_toolkit.history import FileHistory, InMemoryHistory

    class Kept(FileHistory):
        def store_string(self, string: str) -> None:
            if string.startswith(" "):
                return
            try:
                super().store_string(string)
            except OSError as fault:
                tell(f"(that sentence is not kept for the next run: {fault.strerror})")

    if folder is None:
        import platformdirs

        folder = Path(platformdirs.user_data_path("gallipot", appauthor=False))
    place = folder / "history"
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        os.close(os.open(place, os.O_CREAT | os.O_APPEND | os.O_RDWR, 0o600))
        if place.stat().st_mode & 0o077:
            place.chmod(0o600)
    except OSError as fault:
        tell(f"(no sentence is kept for the next run: {place}: {fault.strerror})")
        return InMemoryHistory()
    return Kept(str(place))
