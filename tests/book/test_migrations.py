"""A book of every version there ever was opens, and holds what it held.

schemas/N.sql is a book as version N wrote it, and is never changed. A new version: add it with `python -m tests.book.test_migrations`.
"""

import sqlite3
import sys
from pathlib import Path

import pytest

from assistant.book import Book, batches, tracing
from assistant.book.exchange import book_as_tree
from assistant.book.opening import _settle, in_memory
from assistant.book.schema import APPLICATION_ID, MIGRATIONS, VERSION, migrate, shape
from tests.book.kit import TODAY, filled

FOLDER = Path(__file__).parent / "schemas"


def old_book(place: Path, version: int) -> None:
    connection = sqlite3.connect(place)
    connection.executescript((FOLDER / f"{version}.sql").read_text(encoding="utf-8"))
    connection.execute(f"PRAGMA user_version = {version}")
    connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")
    connection.close()


def test_there_is_a_book_of_every_version():
    assert sorted(int(p.stem) for p in FOLDER.glob("*.sql")) == list(range(1, VERSION + 1))


@pytest.mark.parametrize("version", range(1, VERSION + 1))
def test_an_old_book_opens_and_holds_what_it_held(tmp_path, version):
    place = tmp_path / "book.db"
    old_book(place, version)
    before = sqlite3.connect(place)
    tables = [row[0] for row in before.execute("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite%'")]
    held = {table: before.execute(f"SELECT * FROM {table} ORDER BY id").fetchall() for table in tables}
    before.close()
    assert sum(len(rows) for rows in held.values()) > 10
    with Book(place) as book:
        assert book.row("PRAGMA user_version")[0] == VERSION
        assert shape(book.connection) == shape(in_memory())
        for table, rows in held.items():
            now = [tuple(row)[: len(rows[0])] for row in book.rows(f"SELECT * FROM {table} ORDER BY id")] if rows else []
            assert now == rows
        kept = batches.named(book, "24-07")
        assert kept is not None
        assert kept.figure("ratio") == 2.0
        assert [b.lot for b in tracing.this_week(book, TODAY)] == ["24-07"]
        assert book.row("PRAGMA integrity_check")[0] == "ok"
        assert not book.rows("PRAGMA foreign_key_check")
        assert len(book_as_tree(book)["batches"]) == 2
        batches.check(book, kept.id, "h", TODAY, "clear")  # and it can be written


@pytest.mark.parametrize("version", range(1, VERSION + 1))
def test_a_migration_makes_what_the_kept_book_shows(version):
    """What was released is not changed afterwards."""
    made = sqlite3.connect(":memory:", isolation_level=None)
    migrate(made, version)
    kept = sqlite3.connect(":memory:")
    kept.executescript((FOLDER / f"{version}.sql").read_text(encoding="utf-8"))
    assert shape(made) == shape(kept)


@pytest.mark.parametrize("at", range(len(MIGRATIONS)))
def test_a_migration_that_fails_changes_nothing(tmp_path, monkeypatch, at):
    place = tmp_path / "book.db"
    old_book(place, max(at, 1))
    before = sqlite3.connect(place).execute("SELECT count(*) FROM batches").fetchone()
    broken = [*MIGRATIONS[:VERSION], MIGRATIONS[0]]
    monkeypatch.setattr("assistant.book.schema.MIGRATIONS", tuple(broken))
    monkeypatch.setattr("assistant.book.schema.VERSION", VERSION + 1)
    monkeypatch.setattr("assistant.book.opening.VERSION", VERSION + 1)
    monkeypatch.setattr("assistant.book.opening.migrate", lambda connection: migrate(connection, VERSION + 1))
    from assistant.book import BookFault

    with pytest.raises(BookFault):
        Book(place)
    after = sqlite3.connect(place)
    assert after.execute("SELECT count(*) FROM batches").fetchone() == before
    assert after.execute("PRAGMA user_version").fetchone()[0] == max(at, 1)


def write(version: int) -> None:
    """The kept book of a version, as that version writes it; what it has no table for is left out."""
    full = Book()
    filled(full)
    full.run("INSERT INTO conversations (id, begun) VALUES (1, '2031-06-12')")
    full.add("turns", conversation=1, n=1, said_on="2031-06-12", heard="112 g fresh nettle", status="noted", delta="{}")
    made = sqlite3.connect(":memory:", isolation_level=None)
    _settle(made)
    migrate(made, version)
    tables = [row["name"] for row in made.execute("SELECT name FROM sqlite_schema WHERE type = 'table'")]
    made.execute("PRAGMA foreign_keys = OFF")
    for table in tables:
        for row in full.rows(f"SELECT * FROM {table}"):
            made.execute(f"INSERT INTO {table} VALUES ({', '.join('?' * len(tuple(row)))})", tuple(row))
    (FOLDER / f"{version}.sql").write_text("\n".join(made.iterdump()) + "\n", encoding="utf-8")


if __name__ == "__main__":
    for one in range(1, VERSION + 1):
        if not (FOLDER / f"{one}.sql").exists() or "--all" in sys.argv:
            write(one)
