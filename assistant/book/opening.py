"""A book opened: the file made for its owner alone, its schema brought up to date, a stranger's file refused.

A book on a disk that cannot be written is still read; every attempt to keep something in it fails with the reason.
"""

from __future__ import annotations

import os
import sqlite3
from functools import lru_cache
from pathlib import Path
from urllib.parse import quote

from assistant.book.fault import BookFault, fault_for, in_our_words
from assistant.book.schema import APPLICATION_ID, VERSION, migrate, shape, version_of

PATIENCE = 30.0  # seconds to wait for another terminal that is writing


def in_memory() -> sqlite3.Connection:
    """A book that lasts as long as its conversation."""
    connection = sqlite3.connect(":memory:", isolation_level=None, check_same_thread=False)
    _settle(connection)
    connection.execute("BEGIN")
    migrate(connection)
    connection.execute("COMMIT")
    return connection


def open_file(path: Path, *, patience: float = PATIENCE) -> tuple[sqlite3.Connection, BookFault | None]:
    """A connection to the book in that file, made where there is none, and why it cannot be written (None where it can).

    fails   BookFault, where the file cannot be used at all: corrupt, newer, no book, out of reach
    """
    where = str(path)
    if not path.exists():
        _make(path)
    else:
        _for_the_owner_alone(path)
    with in_our_words(where):
        connection = sqlite3.connect(path, timeout=patience, isolation_level=None, check_same_thread=False)
    try:
        _prepare(connection, where)
    except BookFault as fault:
        connection.close()
        if fault.reason not in ("read-only", "out of reach", "full"):
            raise
        return _only_to_read(path, fault), fault
    except BaseException:
        connection.close()
        raise
    return connection, None


def _make(path: Path) -> None:
    try:
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        os.close(os.open(path, os.O_CREAT | os.O_RDWR, 0o600))
    except OSError as fault:
        full = fault.errno is not None and os.strerror(fault.errno) == os.strerror(28)
        reason = "full" if full else "out of reach"
        words = (fault.strerror or str(fault)).lower()
        raise BookFault(f"no book can be made there: {words}", reason=reason, where=str(path), try_this="name another place with --book FILE") from fault


def _for_the_owner_alone(path: Path) -> None:
    try:
        mode = path.stat().st_mode
        if path.is_file() and mode & 0o077:
            path.chmod(mode & 0o700)
    except OSError:
        return  # somebody else's file, or a disk that cannot be written: reading it may still do


def _settle(connection: sqlite3.Connection) -> None:
    connection.row_factory = sqlite3.Row
    connection.execute("PRAGMA foreign_keys = ON")
    connection.execute("PRAGMA trusted_schema = OFF")  # a file from elsewhere runs nothing of its own
    connection.execute("PRAGMA cell_size_check = ON")
    connection.execute("PRAGMA secure_delete = ON")  # what is forgotten is overwritten


def _prepare(connection: sqlite3.Connection, where: str) -> None:
    with in_our_words(where):
        _settle(connection)
        _recognise(connection, where)
        connection.execute("PRAGMA journal_mode = WAL")
        connection.execute("PRAGMA synchronous = FULL")  # a turn that was answered outlives a flat battery
        if version_of(connection) < VERSION or not _is_ours(connection):
            connection.execute("BEGIN IMMEDIATE")  # two terminals may open a new book at once: the second finds it made
            try:
                migrate(connection)
            except BaseException:
                connection.execute("ROLLBACK")
                raise
            connection.execute("COMMIT")
        _has_our_shape(connection, where)


def _is_ours(connection: sqlite3.Connection) -> bool:
    return int(connection.execute("PRAGMA application_id").fetchone()[0]) == APPLICATION_ID


def _recognise(connection: sqlite3.Connection, where: str) -> None:
    version = version_of(connection)
    empty = not shape(connection)
    if not _is_ours(connection) and not empty:
        raise BookFault("that file is no book of gallipot", reason="not a book", where=where, try_this="name another file with --book FILE")
    if version > VERSION:
        raise BookFault(
            f"a later gallipot wrote this book (its version is {version}, this program knows {VERSION})",
            reason="newer", where=where, try_this="use that gallipot, or begin another book with --book FILE",
        )  # fmt: skip


def _has_our_shape(connection: sqlite3.Connection, where: str) -> None:
    """A table, a trigger or a view too many or too few, and the file is not trusted."""
    if shape(connection) != _our_shape():
        raise BookFault(
            "the book is not built as gallipot builds it",
            reason="corrupt",
            where=where,
            try_this="keep it aside, and go back to a backup or begin a new book with --book FILE",
        )


@lru_cache(maxsize=1)
def _our_shape() -> list[tuple[str, str, str]]:
    connection = in_memory()
    try:
        return shape(connection)
    finally:
        connection.close()


def _only_to_read(path: Path, because: BookFault) -> sqlite3.Connection:
    """A book that cannot be written, opened for reading; where even that is not to be had, its own fault is raised."""
    where = str(path)
    for way in ("mode=ro", "mode=ro&immutable=1"):
        try:
            connection = sqlite3.connect(f"file:{quote(where)}?{way}", uri=True, isolation_level=None, check_same_thread=False)
            _settle(connection)
            connection.execute("PRAGMA query_only = ON")
            _recognise(connection, where)
            if version_of(connection) != VERSION:
                raise because
            _has_our_shape(connection, where)
        except sqlite3.Error as error:
            if way != "mode=ro":
                raise because from error
            continue
        return connection
    raise fault_for(sqlite3.OperationalError("unable to open database file"), where)
