"""Texts to begin from, and the words to put into them: what a coverage-guided fuzzer grows and what hypothesis draws on."""

import json
import tempfile
from functools import cache
from pathlib import Path

from assistant import Session
from assistant.book import Book, exchange
from assistant.cautions.plants import plants
from assistant.listening.phrases import phrase_book
from assistant.places import rules_folder
from tests.dialogues.judge import FOLDER

ODD = (
    "\u202e", "\x1b[31m", "\x00", "½", "１２", "٣", "1e999", "-0", "nan", "inf",
    "9" * 400, "1:0", "0:1", "1:1e-300", "0 g", "-5 g", "1/0", "0.0000001", "100 %",
    "101 %", "proof", "{}", "%s", "__import__('os')", "..",
    "../../x", "\ufeff", "\ud800", "°", "±", "×", "–", "1–2", "'", '"', "`", "<b>", "$", "#", "\\", "\t",
)  # fmt: skip


@cache
def words() -> tuple[str, ...]:
    """Words of the bench, plants, figures, and oddities."""
    figures = [f"{n} {unit}" for n in (0, 1, 2, 5, 60, 95, 112, 1e6) for unit in ("g", "ml", "%", "oz", "drops", "days", "", "bottles", "parts", "proof")]
    known = sorted(w.replace("_", " ") for w in phrase_book().words)
    return (*known, *plants().names()[::3], *figures, "1:2", "1:5", ",", ".", "?", "why", "undo", "not", "what if", *ODD)


@cache
def starts(target: str) -> tuple[str, ...]:
    if target == "sentences":
        cases = [json.loads(line) for path in sorted(FOLDER.glob("*.jsonl")) for line in path.read_text(encoding="utf-8").splitlines()]
        return tuple("\n".join(turn["say"] for turn in case["turns"]) for case in cases)
    if target == "rules":
        whole = [path.read_text(encoding="utf-8") for path in sorted(rules_folder().glob("*.rules"))]
        return tuple(f"rule {block}" for text in whole for block in ("\n" + text).split("\nrule ")[1:])
    if target == "plants":
        blocks = (rules_folder() / "plants.toml").read_text(encoding="utf-8").split("[[plant]]")[1:]
        return tuple(f"[[plant]]{block}" for block in blocks[:60])
    if target == "imports":
        return (kept_book(),)
    return ("Pour 224 mL at 60 % on 112 g.\n- 1 × 2 = 2", "\u202e\x1b[2J\x9b31m", "a" * 200 + "\n" + "薬" * 60)


@cache
def kept_book() -> str:
    """The export of a book in which something of everything was kept."""
    said = (
        "112 g fresh nettle, 1:2 at 60 %", "keep this as lot 24-01", "press in six weeks", "I gathered 300 g nettle at the mill today",
        "I have 2 litres of 95 % spirit", "undo", "imperial measures", "what if 1:3",
    )  # fmt: skip
    with tempfile.TemporaryDirectory() as home:
        session = Session(book=Path(home) / "book.db")
        for sentence in said:
            session.say(sentence)
        with Book(Path(home) / "book.db") as book:
            return exchange.book_as_text(book)
