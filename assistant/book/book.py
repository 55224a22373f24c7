"""The book itself: a connection, transactions, and rows asked for in plain SQL by the modules beside this one."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from assistant.book.fault import BookFault, in_our_words
from assistant.book.opening import PATIENCE, in_memory, open_file


class Book:
    """One book, open. `Book()` lives in memory; `Book(path)` is a file, made where there is none.

    trouble   why nothing can be kept in it, None where it can: a read-only disk, for one

    fails   BookFault, where the file cannot be used at all

    >>> with Book() as book:
    ...     book.is_empty
    True
    """

    def __init__(self, path: Path | None = None, *, patience: float = PATIENCE) -> None:
        self.path = path
        self.where = str(path) if path is not None else "the book in memory"
        self.trouble: BookFault | None = None
        self._depth = 0
        if path is None:
            self._connection = in_memory()
        else:
            self._connection, self.trouble = open_file(path, patience=patience)

    def __enter__(self) -> Book:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def close(self) -> None:
        self._connection.close()

    @property
    def is_file(self) -> bool:
        return self.path is not None

    @property
    def connection(self) -> sqlite3.Connection:
        """For backups and for measuring; what is kept goes through `writing`."""
        return self._connection

    # ── reading ──────────────────────────────────────────────────────────────────────────────────────────────────────

    def rows(self, sql: str, *values: Any) -> list[sqlite3.Row]:
        with in_our_words(self.where):
            return self._connection.execute(sql, values).fetchall()

    def row(self, sql: str, *values: Any) -> sqlite3.Row | None:
        with in_our_words(self.where):
            found: sqlite3.Row | None = self._connection.execute(sql, values).fetchone()
            return found

    @property
    def is_empty(self) -> bool:
        kept = ("conversations", "gatherings", "batches", "items", "measured", "belongings")
        return all(self.row(f"SELECT 1 FROM {table} LIMIT 1") is None for table in kept)

    # ── writing ──────────────────────────────────────────────────────────────────────────────────────────────────────

    @contextmanager
    def writing(self) -> Iterator[None]:
        """All of it or nothing of it. What stands inside another `writing` belongs to that one.

        fails   BookFault; then the book is as it was before
        """
        if self.trouble is not None:
            raise self.trouble
        if self._depth:
            self._depth += 1
            try:
                yield
            finally:
                self._depth -= 1
            return
        with in_our_words(self.where):
            self._connection.execute("BEGIN IMMEDIATE")
        self._depth = 1
        try:
            yield
            with in_our_words(self.where):
                self._connection.execute("COMMIT")
        except BaseException:
            if self._connection.in_transaction:
                self._connection.execute("ROLLBACK")
            raise
        finally:
            self._depth = 0

    def run(self, sql: str, *values: Any) -> int:
        """One statement that changes the book; the number of rows it changed."""
        with in_our_words(self.where):
            return self._connection.execute(sql, values).rowcount

    def add(self, table: str, **fields: Any) -> int:
        """A new row; its id. Field names are those of schema.py, never words from outside."""
        names = ", ".join(f'"{name}"' for name in fields)
        marks = ", ".join("?" * len(fields))
        with in_our_words(self.where):
            return int(self._connection.execute(f"INSERT INTO {table} ({names}) VALUES ({marks})", tuple(fields.values())).lastrowid or 0)

    def alter(self, table: str, key: int, **fields: Any) -> None:
        names = ", ".join(f'"{name}" = ?' for name in fields)
        self.run(f"UPDATE {table} SET {names} WHERE id = ?", *fields.values(), key)

    def wipe_traces(self) -> None:
        """See to it that what was deleted is nowhere in the file any more: deleted cells are overwritten, the log is emptied."""
        with in_our_words(self.where):
            self._connection.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchall()


def told(rows: Sequence[sqlite3.Row]) -> list[dict[str, Any]]:
    return [dict(row) for row in rows]
