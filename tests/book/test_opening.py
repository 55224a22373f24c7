"""The file: whose it is, how it is built, and what is refused."""

import sqlite3
import stat

import pytest

from assistant.book import Book, BookFault
from assistant.book.fault import fault_for
from assistant.book.opening import in_memory
from assistant.book.schema import APPLICATION_ID, VERSION, shape
from tests.book.kit import filled, session


def test_a_book_is_its_owners_alone_and_outlives_a_flat_battery(tmp_path):
    place = tmp_path / "folder" / "book.db"
    with Book(place) as book:
        filled(book)
        assert book.row("PRAGMA journal_mode")[0] == "wal"
        assert book.row("PRAGMA synchronous")[0] == 2  # FULL
        assert book.row("PRAGMA foreign_keys")[0] == 1
        for file in place.parent.iterdir():
            assert stat.S_IMODE(file.stat().st_mode) == 0o600, file
    assert stat.S_IMODE(place.parent.stat().st_mode) == 0o700


def test_a_book_left_open_to_others_is_closed_to_them(tmp_path):
    place = tmp_path / "book.db"
    Book(place).close()
    place.chmod(0o644)
    Book(place).close()
    assert stat.S_IMODE(place.stat().st_mode) == 0o600


def test_what_points_nowhere_is_refused(tmp_path):
    with Book(tmp_path / "book.db") as book, pytest.raises(BookFault) as fault, book.writing():
        book.add("components", batch=7, place=1, what="nettle", unit="g")
    assert fault.value.reason == "refused"


def filled_and_failed(book):
    with book.writing():
        filled(book)
        raise RuntimeError


def test_all_of_a_transaction_or_nothing(tmp_path):
    with Book(tmp_path / "book.db") as book:
        with pytest.raises(RuntimeError):
            filled_and_failed(book)
        assert book.is_empty
        filled(book)
        assert not book.is_empty


def broken(place, how):
    with Book(place) as book:
        filled(book)
    if how == "another file":
        place.write_bytes(b"nettle, 112 g\n" * 500)
    elif how == "another database":
        place.unlink()
        other = sqlite3.connect(place)
        other.execute("CREATE TABLE recipes (name)")
        other.commit()
        other.close()
    elif how == "a later one":
        later = sqlite3.connect(place)
        later.execute(f"PRAGMA user_version = {VERSION + 1}")
        later.close()
    elif how == "a trigger in it":
        planted = sqlite3.connect(place)
        planted.execute("CREATE TRIGGER t AFTER INSERT ON turns BEGIN DELETE FROM batches; END")
        planted.commit()
        planted.close()
    elif how == "cut short":
        place.write_bytes(place.read_bytes()[:5000])
    elif how == "scribbled over":
        data = bytearray(place.read_bytes())
        data[4096:] = b"\x55" * (len(data) - 4096)
        place.write_bytes(bytes(data))
    elif how == "a folder":
        place.unlink()
        place.mkdir()


@pytest.mark.parametrize(
    ("how", "reasons"),
    [
        ("another file", {"not a book"}), ("another database", {"not a book"}), ("a later one", {"newer"}), ("a trigger in it", {"corrupt"}),
        ("cut short", {"corrupt"}), ("scribbled over", {"corrupt"}), ("a folder", {"out of reach"}),
    ],
)  # fmt: skip
def test_a_file_that_will_not_do_is_told_and_the_talk_goes_on_unkept(tmp_path, how, reasons):
    place = tmp_path / "book.db"
    broken(place, how)
    before = place.read_bytes() if place.is_file() else None
    with pytest.raises(BookFault) as fault:
        Book(place).rows("SELECT * FROM batches")
    assert fault.value.reason in reasons
    assert fault.value.where
    assert fault.value.try_this
    one = session(place)
    first, second = one.say("112 g fresh nettle, 1:2 at 60 %"), one.say("what if 1:3")
    assert "224 mL" in first.text
    assert "not kept" in first.text
    assert "--book" in first.text
    assert "336 mL" in second.text
    assert "Not kept either" in second.text
    kept = one.say("keep this as lot 24-07")
    assert kept.status == "refused"
    assert kept.questions
    assert (place.read_bytes() if place.is_file() else None) == before


def test_every_error_of_sqlite_has_words():
    for name in (
        "READONLY_DIRECTORY",
        "FULL",
        "IOERR_WRITE",
        "CORRUPT_VTAB",
        "NOTADB",
        "BUSY_SNAPSHOT",
        "LOCKED",
        "CANTOPEN_ISDIR",
        "CONSTRAINT_UNIQUE",
        "PERM",
        "SCHEMA",
    ):
        error = sqlite3.OperationalError("…")
        error.sqlite_errorname = "SQLITE_" + name
        fault = fault_for(error, "book.db")
        assert fault.reason
        assert fault.try_this
        assert "book.db" in str(fault)


def test_a_full_disk(tmp_path):
    """SQLite's own word for it: no page may be added any more."""
    place = tmp_path / "book.db"
    one = session(place)
    assert one.say("112 g fresh nettle, 1:2 at 60 %").is_good
    book = one.memory.book
    pages = book.row("PRAGMA page_count")[0]
    book.rows(f"PRAGMA max_page_count = {pages}")
    texts = [one.say(f"{n} g dried yarrow, 1:5 at 45 %, " + "and a long-winded-old-hedgerow-tale " * 97).text for n in range(100, 112)]
    assert "no room is left" in texts[-1] or "Not kept either" in texts[-1]
    assert any("no room is left" in text for text in texts)
    assert "595" not in texts[-1]
    book.rows("PRAGMA max_page_count = 1000000")
    assert "ot kept" not in one.say("why").text
    heard = [row["heard"] for row in book.rows("SELECT heard FROM turns ORDER BY n")]
    assert len(heard) == 14  # those that waited are in it too, each once
    assert heard[-1] == "why"


def test_a_book_that_cannot_be_written_is_read_all_the_same(tmp_path, monkeypatch):
    place = tmp_path / "book.db"
    with Book(place) as book:
        filled(book)

    def read_only(connection, where):
        raise fault_for(_readonly(), where)

    def _readonly():
        error = sqlite3.OperationalError("attempt to write a readonly database")
        error.sqlite_errorname = "SQLITE_READONLY"
        return error

    monkeypatch.setattr("assistant.book.opening._prepare", read_only)
    one = session(place)
    first = one.say("112 g fresh nettle, 1:2 at 60 %")
    assert "read-only" in first.text
    assert "24-07" in one.say("what presses this week").text
    refused = one.say("keep this as lot X-1")
    assert refused.status == "refused"
    assert "read-only" in refused.text


def test_our_shape_is_the_shape_of_a_file(tmp_path):
    with Book(tmp_path / "book.db") as book:
        assert shape(book.connection) == shape(in_memory())
        assert book.row("PRAGMA application_id")[0] == APPLICATION_ID
