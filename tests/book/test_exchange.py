"""Out and in again: byte for byte the same, and nothing a stranger wrote changes the book."""

import csv
import io
import json
import stat

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from assistant.book import Book, BookFault, belongings, exchange, spreadsheets
from assistant.book.backup import backup
from assistant.faults import BenchError, FileFault
from tests.book.kit import filled, told


@pytest.fixture(scope="module")
def whole(tmp_path_factory):
    """The export of a book that holds something of everything."""
    place = tmp_path_factory.mktemp("book") / "book.db"
    told(place, "112 g fresh nettle, 1:2 at 60 %", "what if 1:3", "keep this as lot 24-01", "press in six weeks", "undo", "imperial measures")
    with Book(place) as book:
        filled(book)
        belongings.put(book, "scale", "kitchen", {"step": 1.0, "to": 5000})
        return exchange.book_as_text(book)


def test_out_in_and_out_again_is_the_same_to_the_byte(whole, tmp_path):
    with Book(tmp_path / "new.db") as book:
        assert exchange.bring_in_text(book, whole) is True
        assert exchange.book_as_text(book) == whole
        assert exchange.bring_in_text(book, whole) is False  # and once more changes nothing
        assert exchange.book_as_text(book) == whole
        assert not book.rows("PRAGMA foreign_key_check")
    tree = json.loads(whole)
    assert all(tree[name] for name in ("conversations", "gatherings", "batches", "items", "movements", "measured", "belongings"))
    assert tree["conversations"][0]["turns"][0]["heard"] == "112 g fresh nettle, 1:2 at 60 %"


def test_the_file_is_its_owners_alone_and_replaced_only_when_whole(whole, tmp_path):
    out = tmp_path / "out.json"
    out.write_text("an older one")
    with Book() as book:
        exchange.bring_in_text(book, whole)
        exchange.export(book, out)
        assert out.read_text(encoding="utf-8") == whole
        assert stat.S_IMODE(out.stat().st_mode) == 0o600
        with pytest.raises(FileFault):
            exchange.export(book, tmp_path / "nowhere" / "out.json")
        exchange.export(book, out, turns=False)
    bare = json.loads(out.read_text(encoding="utf-8"))
    assert bare["conversations"] == []
    assert "what if" not in out.read_text(encoding="utf-8")
    with Book() as book:
        assert exchange.bring_in_text(book, out.read_text(encoding="utf-8"))
    assert sorted(p.name for p in tmp_path.iterdir()) == ["out.json"]


def test_a_book_that_holds_something_takes_no_other_in(whole):
    with Book() as book:
        filled(book)
        before = exchange.book_as_text(book)
        with pytest.raises(BookFault) as fault:
            exchange.bring_in_text(book, whole)
        assert fault.value.reason == "refused"
        assert exchange.book_as_text(book) == before


def at_random(tree, data):
    """One thing in the tree changed: gone, renamed, put twice over, or something else in its place."""
    spot, key = tree, None
    parent = None
    for _ in range(data.draw(st.integers(1, 7))):
        keys = sorted(spot) if isinstance(spot, dict) else list(range(len(spot))) if isinstance(spot, list) else []
        if not keys:
            break
        parent, key = spot, data.draw(st.sampled_from(keys))
        spot = parent[key]
    how = data.draw(st.sampled_from(("gone", "added", "other", "twice")))
    if how == "gone":
        del parent[key]
    elif how == "added" and isinstance(parent, dict):
        parent["unknown"] = 1
    elif how == "twice" and isinstance(parent, list):
        parent.append(spot)
    else:
        odd = (
            st.none()
            | st.booleans()
            | st.integers(-(10**20), 10**20)
            | st.floats()
            | st.sampled_from(["", "=1+1", "x" * 30000, "\ud800", "2031-13-40", "\x00"])
            | st.just([])
            | st.just({})
        )
        parent[key] = data.draw(odd)


@settings(max_examples=80, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.data())
def test_a_malformed_import_never_changes_the_book(whole, data):
    """It comes in whole and goes out equal, or it does not come in at all."""
    tree = json.loads(whole)
    at_random(tree, data)
    text = json.dumps(tree)
    with Book() as book:
        try:
            exchange.bring_in_text(book, text)
        except BenchError:
            assert book.is_empty
            assert not book.connection.in_transaction
        else:
            assert not book.rows("PRAGMA foreign_key_check")
            again = exchange.book_as_text(book)
            with Book() as other:
                exchange.bring_in_text(other, again)
                assert exchange.book_as_text(other) == again


@settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.data())
def test_bytes_at_random_never_change_the_book(whole, tmp_path, data):
    raw = bytearray(whole.encode())
    for _ in range(data.draw(st.integers(1, 4))):
        at = data.draw(st.integers(0, len(raw) - 1))
        raw[at : at + data.draw(st.integers(0, 30))] = data.draw(st.binary(max_size=8))
    place = tmp_path / "in.json"
    place.write_bytes(bytes(raw))
    with Book() as book:
        try:
            exchange.bring_in(book, place)
        except BenchError:
            assert book.is_empty


@pytest.mark.parametrize(
    "text",
    [
        "",
        "null",
        "[]",
        "{}",
        "[" * 100_000,
        '{"a":' * 3000,
        '{"format": "gallipot book", "format": "x"}',
        '{"format": NaN}',
        "1e999",
        "9" * 5000,
        '"\\ud800"',
        '{"version": 2}',
    ],
)
def test_what_is_no_export_is_refused_in_words(text):
    with Book() as book, pytest.raises(FileFault) as fault:
        exchange.bring_in_text(book, text, "in.json")
    assert fault.value.where.startswith("in.json")


def test_an_import_that_cannot_be_read(tmp_path):
    with Book() as book:
        for place in (tmp_path / "none.json", tmp_path):
            with pytest.raises(FileFault):
                exchange.bring_in(book, place)


# ── spreadsheets ─────────────────────────────────────────────────────────────────────────────────────────────────────────


@given(
    st.text(max_size=12)
    | st.builds(lambda a, b: a + b, st.sampled_from(["=", "+", "-", "@", "\t=", " =", "\r", "＝", "\ufeff=", "\x00="]), st.text(max_size=6))
)
def test_no_cell_can_run(text):
    cell = spreadsheets.safe(text)
    assert not cell.lstrip(" \ufeff\xa0").startswith(("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠"))
    [[_], [read]] = list(csv.reader(io.StringIO(spreadsheets.as_csv(["words"], [[text]]), newline=""))) or [[""], [""]]
    assert read == cell


def table(place):
    return list(csv.DictReader(io.StringIO(place.read_bytes().decode("utf-8"), newline="")))


def test_tables_for_a_spreadsheet(whole, tmp_path):
    with Book() as book:
        assert exchange.bring_in_text(book, whole)
        with book.writing():
            book.run("UPDATE gatherings SET place = '=HYPERLINK(\"http://x\")' WHERE id = 1")
        files = spreadsheets.export(book, tmp_path / "year.csv")
    assert {f.name for f in files} == {f"year-{t}.csv" for t in ("batches", "components", "bottles", "gatherings", "stock", "own_numbers", "turns")}
    rows = table(tmp_path / "year-gatherings.csv")
    assert rows[0]["place"].startswith("'=")
    assert rows[0]["weight_g"] == "640.0"
    assert [r["lot"] for r in table(tmp_path / "year-batches.csv")] == ["24-01", "24-07", "F-1"]
    movements = table(tmp_path / "year-stock.csv")
    assert movements[-1]["amount"] == "-141.5"  # a number of ours stays one
    assert all(stat.S_IMODE(f.stat().st_mode) == 0o600 for f in files)


# ── a copy ───────────────────────────────────────────────────────────────────────────────────────────────────────────────


def test_a_backup_is_an_equal_book_made_while_the_other_is_in_use(whole, tmp_path):
    copy = tmp_path / "copy.db"
    with Book(tmp_path / "book.db") as book:
        exchange.bring_in_text(book, whole)
        backup(book, copy)
        assert stat.S_IMODE(copy.stat().st_mode) == 0o600
        with pytest.raises(FileFault):
            backup(book, copy)
        with Book(copy) as other:
            assert exchange.book_as_text(other) == whole
        with pytest.raises(FileFault):
            backup(book, tmp_path / "nowhere" / "copy.db")
