"""What can go wrong with a book, in words a person can act on; every error of SQLite becomes one of these.

read-only     the file or its folder cannot be written
full          no room is left where the book lies
corrupt       the file is damaged
not a book    the file is something else
newer         a later gallipot wrote it
busy          another program holds it
out of reach  the folder is missing, or nobody may open the file
refused       what was to be kept breaks a rule of the book
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from assistant.faults import FileFault


class BookFault(FileFault):
    """The book cannot be read or written; `reason` is one of the words above."""

    def __init__(self, what: str, *, reason: str, **fields: Any) -> None:
        super().__init__(what, **fields)
        self.reason = reason


# name of SQLite's error, without what follows the first "_" behind SQLITE_ → reason, what happened, what to do
_MEANINGS = {
    "READONLY": ("read-only", "the book cannot be written: it, or its folder, is read-only", "make the file writable, or name another with --book FILE"),
    "PERM": ("read-only", "the book cannot be written: its permissions forbid it", "make the file writable, or name another with --book FILE"),
    "AUTH": ("read-only", "the book cannot be written: its permissions forbid it", "make the file writable, or name another with --book FILE"),
    "FULL": ("full", "the book cannot be written: no room is left on the disk", "make room on that disk, or name a book elsewhere with --book FILE"),
    "IOERR": ("full", "the book cannot be written: the disk gave an error", "see whether the disk is full or failing, or name another with --book FILE"),
    "CORRUPT": ("corrupt", "the book is damaged", "keep that file aside, and go back to a backup or begin a new book with --book FILE"),
    "FORMAT": ("corrupt", "the book is damaged", "keep that file aside, and go back to a backup or begin a new book with --book FILE"),
    "NOTADB": ("not a book", "that file is no book of gallipot", "name another file with --book FILE"),
    "BUSY": ("busy", "the book is held by another program", "wait until that is done, and say it again"),
    "LOCKED": ("busy", "the book is held by another program", "wait until that is done, and say it again"),
    "CANTOPEN": ("out of reach", "the book cannot be opened", "see whether its folder is there and yours, or name another with --book FILE"),
    "CONSTRAINT": ("refused", "what was to be kept does not fit the book", "say it another way"),
    "TOOBIG": ("refused", "what was to be kept is too long for the book", "say it in fewer words"),
    "MISMATCH": ("corrupt", "the book holds something that does not belong there", "keep that file aside, and go back to a backup"),
}


def fault_for(error: sqlite3.Error, where: str) -> BookFault:
    """The fault that an error of SQLite means; `where` is the file."""
    name = getattr(error, "sqlite_errorname", None) or ""
    parts = name.split("_")
    kind = parts[1] if len(parts) > 1 else ""
    if kind not in _MEANINGS:
        kind = "CORRUPT" if "malformed" in str(error) else kind
    reason, what, try_this = _MEANINGS.get(kind, ("corrupt", f"the book cannot be used ({str(error)[:80]})", "name another with --book FILE"))
    return BookFault(what, reason=reason, where=where, try_this=try_this)


@contextmanager
def in_our_words(where: str) -> Iterator[None]:
    """Errors of SQLite inside come out as BookFault."""
    try:
        yield
    except sqlite3.Error as error:
        raise fault_for(error, where) from error
    except UnicodeError as error:
        raise BookFault("the book holds text that cannot be read", reason="corrupt", where=where, try_this="go back to a backup") from error
