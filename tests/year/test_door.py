"""The year's table as a file of its own: text, CSV, Markdown and a page, taken from where the last conversation ended."""

from __future__ import annotations

import pytest

from assistant import cli
from tests.year.bench import talk

PLANS = "Used 4.2 L nettle and 3 L elder last year; all fresh 1:2 at 75 %, 80 % water, from 95 %"


@pytest.fixture
def place(tmp_path):
    talk(PLANS, book=tmp_path / "book.db")
    return tmp_path / "book.db"


@pytest.mark.parametrize(
    ("ending", "words"), [("txt", "The working year"), ("csv", "nettle,4200,0,"), ("md", "| nettle |"), ("html", "<td>nettle</td>")]
)
def test_the_table_in_each_form(place, tmp_path, capsys, ending, words):
    out = tmp_path / f"year.{ending}"
    assert cli.main(["--book", str(place), "--sheet", "year", str(out)]) == 0
    assert words in out.read_text(encoding="utf-8")
    assert f"{out}: written" in capsys.readouterr().out


def test_no_table_is_said_with_what_to_do(tmp_path, capsys):
    talk("112 g fresh nettle, 1:2 at 60 %", book=tmp_path / "book.db")
    assert cli.main(["--book", str(tmp_path / "book.db"), "--sheet", "year", str(tmp_path / "year.csv")]) == 1
    assert "ended without a table" in capsys.readouterr().err
    assert not (tmp_path / "year.csv").exists()
