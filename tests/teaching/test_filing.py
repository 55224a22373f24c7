"""A worksheet and its key in files: from the prompt by a plain name, from the door, and never over what is there."""

import pytest

from assistant import Session, cli
from assistant.faults import FileFault
from assistant.newfile import named_in, write_here, write_new
from tests.book.test_print import CHROMIUM, printed_pages, stands_alone


@pytest.fixture
def bench(tmp_path, monkeypatch):
    """A session whose door may write, in an empty folder."""
    monkeypatch.chdir(tmp_path)
    session = Session()
    session.writer = write_here
    return session


def names(folder):
    return sorted(path.name for path in folder.iterdir())


def test_a_sheet_and_its_key_from_the_prompt(bench, tmp_path):
    shown = bench.say("ten on dilution, easy").text
    assert bench.say("write the worksheet to sheet.txt").status == "noted"
    assert bench.say("write the answers to key.md").status == "noted"
    sheet, key = ((tmp_path / name).read_text(encoding="utf-8") for name in ("sheet.txt", "key.md"))
    assert sheet.strip() in shown
    assert "Answers" not in sheet
    assert key.startswith("# Answers to worksheet 1\n")
    assert key.count("\n10. ") == 1
    assert names(tmp_path) == ["key.md", "sheet.txt"]


@pytest.mark.parametrize("said", ["save it as page.html", "put the sheet in page.html", "print that to page.html", "the worksheet into page.html please"])
def test_in_many_words_as_a_page_to_print(bench, tmp_path, said):
    bench.say("five on drying")
    assert bench.say(said).status == "noted"
    page = (tmp_path / "page.html").read_text(encoding="utf-8")
    assert page.startswith("<!doctype html>")
    assert page.count("<li>") == 5


def test_set_and_written_in_one_breath_with_the_answers_behind(bench, tmp_path):
    assert "3 problems with their answers" in bench.say("three on drying with the answers to all.md").text
    assert "## Answers to worksheet 1" in (tmp_path / "all.md").read_text(encoding="utf-8")


def test_nothing_is_written_over(bench, tmp_path):
    (tmp_path / "sheet.md").write_text("mine", encoding="utf-8")
    bench.say("five on drying")
    reply = bench.say("write the worksheet to sheet.md")
    assert reply.status == "asking"
    assert "already" in reply.text
    assert (tmp_path / "sheet.md").read_text(encoding="utf-8") == "mine"
    assert bench.say(reply.questions[0].choices[0]).status == "noted"
    assert names(tmp_path) == ["sheet-1.html", "sheet.md"]


@pytest.mark.parametrize("path", ["../sheet.md", "/tmp/none/sheet.md", "a/b.html", "~/sheet.txt", ".sheet.md", "c:\\sheet.md"])
def test_a_sentence_reaches_no_other_folder(bench, tmp_path, path):
    bench.say("five on drying")
    assert bench.say(f"write the worksheet to {path}").status == "asking"
    assert names(tmp_path) == []


def test_without_a_name_it_is_asked_for(bench, tmp_path):
    bench.say("five on drying")
    assert bench.say("save the worksheet to a file").text == "Under which name?"
    assert names(tmp_path) == []


def test_where_the_door_may_not_write_that_is_said_and_the_sheet_told(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    session = Session()
    reply = session.say("five on drying to sheet.txt")
    assert reply.text.startswith("Nothing was written")
    assert "5. " in reply.text
    assert names(tmp_path) == []


def test_a_figure_after_a_sheet_on_paper_is_no_answer(bench):
    bench.say("five on drying to sheet.txt")
    assert bench.say("112 g fresh nettle, 1:2 at 60 %").status == "answered"


def run(capsys, *given):
    code = cli.main([str(one) for one in given])
    out, err = capsys.readouterr()
    return code, out, err


def test_from_the_door(capsys, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert run(capsys, "--worksheet", "ten on dilution, easy", "sheet.html", "--key", "key.txt")[0] == 0
    assert (tmp_path / "sheet.html").read_text(encoding="utf-8").count("<li>") == 10
    assert (tmp_path / "key.txt").read_text(encoding="utf-8").startswith("Answers to worksheet 1\n\n1. ")
    before = (tmp_path / "sheet.html").read_bytes()
    code, out, err = run(capsys, "--worksheet", "five on drying", "sheet.html")
    assert (code, out) == (1, "")
    assert "already" in err
    assert (tmp_path / "sheet.html").read_bytes() == before
    assert run(capsys, "--worksheet", "five on drying", "sheet.html", "--replace")[0] == 0
    assert (tmp_path / "sheet.html").read_bytes() != before
    assert names(tmp_path) == ["key.txt", "sheet.html"]


def test_the_same_number_is_the_same_sheet_at_the_door(capsys, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    for out in ("one.md", "two.md"):
        assert run(capsys, "--worksheet", "sheet number 7, three on drying", out)[0] == 0
    assert (tmp_path / "one.md").read_bytes() == (tmp_path / "two.md").read_bytes()
    assert (tmp_path / "one.md").read_text(encoding="utf-8").startswith("# Worksheet 7\n")


def test_what_is_no_worksheet_writes_nothing(capsys, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    code, out, err = run(capsys, "--worksheet", "a song", "sheet.html")
    assert (code, out) == (1, "")
    assert "ten on dilution" in err
    assert names(tmp_path) == []


def test_a_key_without_a_sheet_is_bad_usage(capsys, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    code, out, err = run(capsys, "--key", "key.txt")
    assert (code, out) == (2, "")
    assert "--worksheet" in err
    assert names(tmp_path) == []


def test_a_file_is_whole_or_not_there(tmp_path):
    with pytest.raises(FileFault):
        write_new(tmp_path / "none" / "sheet.md", "text")
    write_new(tmp_path / "sheet.md", "one")
    with pytest.raises(FileFault):
        write_new(tmp_path / "sheet.md", "two")
    assert (tmp_path / "sheet.md").read_text(encoding="utf-8") == "one"
    write_new(tmp_path / "sheet.md", "two", replace=True)
    assert (tmp_path / "sheet.md").read_text(encoding="utf-8") == "two"
    assert names(tmp_path) == ["sheet.md"]


@pytest.mark.parametrize(("sentence", "name"), [("save it as a.md", "a.md"), ("1.5 g of it", ""), ("to the end.", ""), ("in ../up.html now", "../up.html")])
def test_a_name_in_a_sentence(sentence, name):
    assert named_in(sentence)[0] == name


def test_a_sheet_with_its_key_is_drawn_by_a_browser_where_there_is_one(bench, tmp_path):
    """The page needs nothing beside it, and in headless Chromium its key begins a new sheet of paper; where there is none, the page is only read."""
    bench.say("five on drying with the answers to all.html")
    page = tmp_path / "all.html"
    stands_alone(page.read_text(encoding="utf-8"))
    if CHROMIUM is not None:
        assert printed_pages(page, tmp_path / "all.pdf") == 2
