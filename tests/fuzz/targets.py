"""What a stranger's text is given to, and what must hold afterwards. Each target takes text and raises where something does not hold.

    sentences   one conversation, a sentence a line
    rules       a file of rules of one's own, then a sentence that meets them
    plants      a file of plants of one's own, then a sentence that names one
    imports     an export to be read into an empty book, then the book told and printed
    screen      a reply with that text in every place, laid out for every reader
"""

import importlib
import json
import math
import pkgutil
import re
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import assistant
from assistant import Session
from assistant.book import Book, batches, exchange, spreadsheets
from assistant.bookdoor import printed
from assistant.faults import BenchError
from assistant.render import Look, laid, on_screen
from assistant.reply import Assumption, Caution, Question, Reply, Step, Used, Value, breaches
from tests.fuzz.watching import watched

# Whatever is loaded only when it is first needed is loaded now: loading a library may run code that it writes itself.
for _module in pkgutil.walk_packages(assistant.__path__, "assistant."):
    if _module.name != "assistant.__main__":
        importlib.import_module(_module.name)
for _library in ("lark", "difflib", "pydantic", "pydantic.main", "csv", "tomllib", "scipy.optimize"):
    importlib.import_module(_library)

MOST_SENTENCES = 6
SAID_OVER_A_BOOK = ("go on", "what do I have on the shelf", "what is to press", "why", "undo", "112 g dried nettle 1:5")
LOOKS = [Look(), Look(width=20), Look(width=80, colour=True), Look(plain=True)]
OWN_COLOUR = re.compile(r"\x1b\[(?:0|1|33|36|1;31)m")
# Control signs but the end of a line, marks of direction, and what is no sign at all.
NEVER_PRINTED = re.compile(
    r"[\x00-\x09\x0b-\x1f\x7f-\x9f\u061c\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb\ud800-\udfff\U000e0000-\U000e007f]"
)


def sentences(text: str) -> None:
    session = Session()
    for line in text.split("\n")[:MOST_SENTENCES]:
        with watched():
            reply = session.say(line)
            session.next_words(line)
            shown = session.bench_line()
        sound(reply, line)
        fit_to_print(laid(shown, Look()))


def rules(text: str) -> None:
    _with_own_files({"own.rules": text}, "112 g fresh comfrey leaf, 1:2 at 60 %, for a child, internal use")


def plants(text: str) -> None:
    named = re.findall(r'names\s*=\s*\[\s*"([^"\n]{1,40})"', text)
    _with_own_files({"plants.toml": text}, f"112 g fresh {named[0] if named else 'nettle'}, 1:2 at 60 %")


def _with_own_files(files: dict[str, str], sentence: str) -> None:
    with tempfile.TemporaryDirectory() as home:
        for name, text in files.items():
            (Path(home) / name).write_text(text, encoding="utf-8", errors="surrogatepass")
        with watched(Path(home)):
            session = Session(folder=Path(home))
        for fault in session.faults:
            fit_to_print(laid(str(fault), Look()))
        with watched():
            reply = session.say(sentence)
        sound(reply, sentence)


def imports(text: str) -> None:
    """Either a fault in one message and the book as it was, or a book that goes out again, talks and prints."""
    with tempfile.TemporaryDirectory() as home:
        place = Path(home) / "book.db"
        with Book(place) as book:
            before = exchange.book_as_text(book)
            with watched(Path(home)):
                try:
                    exchange.bring_in_text(book, text)
                except BenchError as fault:
                    fit_to_print(laid(str(fault), Look()))
                    assert exchange.book_as_text(book) == before, "a refused import changed the book"
                    return
            out = exchange.book_as_text(book)
            finite(json.loads(out))
            with watched(Path(home)):
                _printed(book, Path(home))
        with watched(Path(home)):
            session = Session(book=place)
            replies = [(said, session.say(said)) for said in SAID_OVER_A_BOOK]
        for said, reply in replies:
            sound(reply, said)


def _printed(book: Book, home: Path) -> None:
    spreadsheets.export(book, home / "tables.csv", turns=True)
    for row in book.rows("SELECT lot FROM batches LIMIT 3"):
        for what in ("labels", "batch"):
            for suffix in (".txt", ".md", ".html"):
                try:
                    sheet = printed(book, f"{what} {row['lot']}", suffix, "a4", [])
                except BenchError:
                    continue
                if suffix == ".txt":
                    fit_to_print(laid(sheet, Look()))
                if suffix == ".html":
                    assert "<script" not in sheet.lower(), "a sheet bears a script"
    batches.latest(book, "")


def screen(text: str) -> None:
    halves = text[: len(text) // 2], text[len(text) // 2 :]
    safe = text.encode("utf-8", "replace").decode("utf-8")
    one, two = (half.encode("utf-8", "replace").decode("utf-8") for half in halves)
    reply = Reply(
        heard=safe, status="conflict", batch=one, text=safe, values=(Value(quantity="herb", value=1.0, unit="g", text=two),),
        steps=(Step(quantity="herb", value=1.0, unit="g", says=one, working=two),), assumptions=(Assumption(text=one, change_by=two),),
        questions=(Question(text=one or "?", choices=(two,)),), cautions=(Caution(id="x", level="warn", text=two),),
        used=(Used(text="", start=0, end=0, quantity=one),),
    )  # fmt: skip
    with watched():
        shown = [on_screen(reply, look) for look in LOOKS] + [laid(text, look) for look in LOOKS]
    for page in shown:
        fit_to_print(page)


def sound(reply: Reply, said: str) -> None:
    """The contract, finite numbers, JSON there and back, and nothing on the screen that could command it."""
    assert list(breaches(reply)) == [], list(breaches(reply))
    assert reply.heard == said or len(said) > len(reply.heard), "another sentence was heard"
    tree = reply.model_dump(mode="json")
    finite(tree)
    assert json.loads(json.dumps(tree, allow_nan=False)) == tree
    assert Reply.model_validate(tree) == reply
    for look in LOOKS:
        fit_to_print(on_screen(reply, look))
    assert "fault of the program" not in reply.text
    assert not re.search(r"(?<![\w.])(?:nan|inf)(?![\w.])", reply.text) or re.search(r"nan|inf", said, re.IGNORECASE), reply.text


def finite(tree: Any) -> None:
    for number in _numbers(tree):
        assert math.isfinite(number), "a number that is none"


def _numbers(tree: Any) -> Iterator[float]:
    if isinstance(tree, float):
        yield tree
    elif isinstance(tree, dict | list):
        for inner in tree.values() if isinstance(tree, dict) else tree:
            yield from _numbers(inner)


def fit_to_print(page: str) -> None:
    found = NEVER_PRINTED.search(OWN_COLOUR.sub("", page))
    assert found is None, f"{found.group()!r} would be printed" if found else ""


TARGETS: dict[str, Callable[[str], None]] = {"sentences": sentences, "rules": rules, "plants": plants, "imports": imports, "screen": screen}
