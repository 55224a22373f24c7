"""The doors to the book: kept with --book, offered at the prompt, out and in, and forgotten everywhere."""

import json
from pathlib import Path

import pytest
from prompt_toolkit.history import FileHistory

from assistant import cli, repl, taking_up
from assistant.book import Book
from tests.book.kit import filled, session, told


def run(capsys, *given):
    code = cli.main([str(g) for g in given])
    out = capsys.readouterr()
    return code, out.out, out.err


@pytest.fixture(autouse=True)
def nowhere_else(monkeypatch, tmp_path):
    """Whatever a test leaves out, the person's own folder is not touched."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "own"))
    monkeypatch.setenv("HOME", str(tmp_path / "home"))


def test_a_sentence_is_kept_only_with_a_book_and_gone_on_with_when_asked(capsys, tmp_path):
    place = tmp_path / "book.db"
    assert run(capsys, "112 g fresh nettle, 1:2 at 60 %")[0] == 0
    assert list(tmp_path.iterdir()) == []
    assert run(capsys, "--book", place, "112 g fresh nettle, 1:2 at 60 %")[0] == 0
    code, out, _ = run(capsys, "--book", place, "--go-on", "what if 1:3")
    assert (code, "336 mL" in out) == (0, True)
    assert "336 mL" not in run(capsys, "--book", place, "what do I pour")[1]
    with Book(place) as book:
        assert [tuple(r) for r in book.rows("SELECT conversation, n FROM turns ORDER BY id")] == [(1, 1), (1, 2), (2, 1)]


def test_out_and_in_and_a_copy_and_a_sheet(capsys, tmp_path):
    place, other = tmp_path / "book.db", tmp_path / "other.db"
    told(place, "112 g fresh nettle, 1:2 at 60 %", "keep this as lot 24-01")
    with Book(place) as book:
        filled(book)
    out, again, copy = tmp_path / "out.json", tmp_path / "again.json", tmp_path / "copy.db"
    assert run(capsys, "--book", place, "--export", out, "--backup", copy)[0] == 0
    assert run(capsys, "--book", other, "--import", out)[0] == 0
    assert "already" in run(capsys, "--book", other, "--import", out)[1]
    assert run(capsys, "--book", other, "--export", again)[0] == 0
    assert again.read_bytes() == out.read_bytes()
    assert run(capsys, "--book", copy, "--export", tmp_path / "year.csv", "--without-turns")[0] == 0
    assert (tmp_path / "year-gatherings.csv").exists()
    assert not (tmp_path / "year-turns.csv").exists()
    for what, ending, words in (
        ("labels 24-07", "html", "Larkmere"),
        ("batch 24-07", "md", "# Batch sheet"),
        ("gathering 1", "txt", "Mill Lane"),
        ("labels 24-07 × 30", "html", "Lot 24-07"),
    ):
        sheet = tmp_path / f"{len(words)}{what.split()[-1]}.{ending}"
        assert run(capsys, "--book", place, "--sheet", what, sheet, "--line", "Larkmere stillroom", "--paper", "letter")[0] == 0
        assert words in sheet.read_text(encoding="utf-8")
    assert sheet.read_text(encoding="utf-8").count('class="label"') == 30


@pytest.mark.parametrize(
    "given",
    [
        ("--export", "out.json"), ("--book", "none.db", "--export", "out.json"),
        ("--book", "book.db", "--import", "none.json"), ("--book", "book.db", "--backup", "book.db"),
        ("--book", "book.db", "--sheet", "batch 99", "out.html"),
        ("--book", "book.db", "--sheet", "a song", "out.html"), ("--book", "book.db", "--sheet", "gathering ²", "out.html"),
        ("--book", "book.db", "--export", "no/where/out.json"),
    ],
)  # fmt: skip
def test_what_cannot_be_done_is_one_line_on_the_side(capsys, tmp_path, monkeypatch, given):
    monkeypatch.chdir(tmp_path)
    with Book(Path("book.db")) as book:
        filled(book)
    code, out, err = run(capsys, *given)
    assert code == 1
    assert out == ""
    assert err.startswith("gallipot: ")
    assert err.count("\n") == 1
    assert sorted(p.name for p in tmp_path.iterdir() if not p.name.startswith("book.db")) == []


def test_the_last_conversation_is_offered_and_taken_up(tmp_path):
    place = tmp_path / "book.db"
    assert taking_up.offer(place) == ""
    told(place, "112 g fresh nettle, 1:2 at 60 %", "what if 1:3")
    offer = taking_up.offer(place)
    assert "12 June 2031" in offer
    assert "“what if 1:3”" in offer
    one = session(place)
    assert taking_up.is_yes("Go on.")
    assert not taking_up.is_yes("what if 1:4")
    assert "336 mL" in taking_up.taken_up(one)
    assert "nothing to pick up" in taking_up.taken_up(one)  # it is going on already
    assert "448 mL" in one.say("what if 1:4").text
    (tmp_path / "soup.db").write_bytes(b"soup" * 3000)
    assert "Nothing will be kept" in taking_up.offer(tmp_path / "soup.db")


def test_at_the_prompt(tmp_path, monkeypatch, capsys):
    """Offered, taken up, and gone on with; a line of JSON would be no different."""
    place = tmp_path / "book.db"
    told(place, "112 g fresh nettle, 1:2 at 60 %")
    typed = iter(["go on", "what if 1:3", "bye"])
    monkeypatch.setattr(repl, "is_dumb", lambda: True)
    monkeypatch.setattr(repl, "_plain_line", lambda: next(typed))
    assert repl.converse(book=place) == 0
    out = capsys.readouterr().out
    assert out.index("Last time") < out.index("We go on: nettle tincture") < out.index("336 mL")
    with Book(place) as book:
        assert [r["n"] for r in book.rows("SELECT n FROM turns WHERE conversation = 1 ORDER BY n")] == [1, 2]


def test_what_is_forgotten_leaves_the_history_of_the_prompt(tmp_path):
    kept = FileHistory(str(tmp_path / "history"))
    for line in ("112 g fresh nettle", "for Ottoline, 137 g", "why\nand how", "forget that about Ottoline"):
        kept.append_string(line)
    one = told(tmp_path / "book.db", "112 g fresh nettle, 1:2 at 60 %", "for Ottoline, 137 g", "forget that about Ottoline")
    repl.erase(kept, taking_up.forgotten(one), "forget that about Ottoline")
    assert "Ottoline" not in (tmp_path / "history").read_text(encoding="utf-8")
    assert list(FileHistory(str(tmp_path / "history")).load_history_strings()) == ["why\nand how", "112 g fresh nettle"]
    assert "Ottoline" not in json.dumps(kept.get_strings())
    assert taking_up.forgotten(one) == ()
