"""Whatever else is a person's own: instruments, habits of speech, and what later rooms keep. A kind, a name, and a tree of data."""

from __future__ import annotations

import json
from typing import Any

from assistant.book.book import Book
from assistant.book.fault import BookFault


def put(book: Book, kind: str, name: str, data: dict[str, Any], turn: int | None = None) -> None:
    """Keep it, in place of what was kept under that name before."""
    text = json.dumps(data, ensure_ascii=False, sort_keys=True, allow_nan=False)
    with book.writing():
        book.run("DELETE FROM belongings WHERE kind = ? AND name = ?", kind, name)
        book.add("belongings", kind=kind, name=name, data=text, turn=turn)


def drop(book: Book, kind: str, name: str) -> bool:
    with book.writing():
        return book.run("DELETE FROM belongings WHERE kind = ? AND name = ?", kind, name) > 0


def of_kind(book: Book, kind: str) -> dict[str, dict[str, Any]]:
    """Everything of a kind, by name, in the order it was kept."""
    return {row["name"]: _data(row["data"]) for row in book.rows("SELECT name, data FROM belongings WHERE kind = ? ORDER BY id", kind)}


def get(book: Book, kind: str, name: str) -> dict[str, Any] | None:
    row = book.row("SELECT data FROM belongings WHERE kind = ? AND name = ?", kind, name)
    return None if row is None else _data(row["data"])


def _data(text: str) -> dict[str, Any]:
    try:
        data = json.loads(text)
    except ValueError as fault:
        raise BookFault("something in the book cannot be read", reason="corrupt", try_this="go back to a backup") from fault
    return data if isinstance(data, dict) else {}
