"""A second copy of the book, made by SQLite's own backup while the book may be in use; looked through before it counts."""

from __future__ import annotations

import os
import sqlite3
from pathlib import Path

from assistant.book.book import Book
from assistant.book.fault import BookFault, in_our_words
from assistant.faults import FileFault


def backup(book: Book, place: Path) -> None:
    """Copy the book to a new file of mode 0600.

    fails   FileFault, where that file is there already or cannot be made; BookFault, where the book is damaged: then no copy is left
    """
    try:
        os.close(os.open(place, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
    except FileExistsError as fault:
        raise FileFault("that file is there already", where=str(place), try_this="name a new file for the backup") from fault
    except OSError as fault:
        raise FileFault(f"no backup can be made there: {(fault.strerror or str(fault)).lower()}", where=str(place), try_this="name another file") from fault
    try:
        with in_our_words(str(place)):
            copy = sqlite3.connect(place, isolation_level=None)
            try:
                book.connection.backup(copy)
                copy.execute("PRAGMA journal_mode = DELETE")  # one file, nothing beside it
                sound = copy.execute("PRAGMA integrity_check(1)").fetchone()[0]
            finally:
                copy.close()
    except BaseException:
        place.unlink(missing_ok=True)
        raise
    if sound != "ok":
        place.unlink(missing_ok=True)
        raise BookFault("the book is damaged, and its copy with it", reason="corrupt", where=book.where, try_this="go back to an earlier backup")
