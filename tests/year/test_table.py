"""Tables: at most so wide, figures never cut, the same figures in CSV, Markdown and on the page."""

from __future__ import annotations

from html.parser import HTMLParser

from hypothesis import given
from hypothesis import strategies as st

from assistant.year.table import NOTHING, WIDTH, Cell, Table

names = st.text("abcdeghilnorstuy=|<-", min_size=1, max_size=30)
numbers = st.integers(-99999, 99999)


def made(rows, columns=5):
    heads = ("", *(f"c{n}" for n in range(columns)))
    return Table("T", heads, tuple((Cell(name), *(Cell(str(v), float(v)) for v in values)) for name, values in rows), units=("", *(["mL"] * columns)))


@given(st.lists(st.tuples(names, st.lists(numbers, min_size=5, max_size=5)), min_size=1, max_size=8))
def test_never_wider_and_no_figure_is_lost(rows):
    text = made(rows).as_text()
    assert all(len(line) <= WIDTH for line in text.split("\n"))
    words = text.split()
    for _, values in rows:
        assert all(str(v) in words for v in values)


def test_what_does_not_fit_goes_below():
    table = made([("nettle", [10**9] * 9)], 9)
    assert table.as_text().count("nettle") == 3


def test_csv_holds_plain_numbers_and_runs_no_formula():
    table = Table("T", ("", "pour"), ((Cell("=nettle"), Cell("1.2 L", 1200.0)), (Cell("elder"), NOTHING)), (Cell("in all"), Cell("1.2 L", 1200.0)), ("", "mL"))
    assert table.as_csv().split("\r\n") == [",pour [mL]", "'=nettle,1200", "elder,", "in all,1200", ""]


def test_the_page_stands_alone_and_escapes():
    page = made([("<script>", [1, 2, 3, 4, 5])]).as_page()
    seen: list[str] = []

    class Reader(HTMLParser):
        def handle_starttag(self, tag, attrs):
            seen.append(tag)

    Reader().feed(page)
    assert "script" not in seen
    assert seen.count("td") == 6
    assert "http" not in page.replace("http-equiv", "")


def test_markdown_keeps_its_columns():
    assert made([("a|b", [1, 2, 3, 4, 5])]).as_markdown().split("\n")[-2] == "| a\\|b | 1 | 2 | 3 | 4 | 5 |"
