"""What reaches the screen: nothing that commands a terminal, nothing wider than it, nothing lost."""

import io
import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.render import Look, aloud, clean, columns, look_of, on_screen, speakable, wrap
from assistant.reply import Caution, Question, Reply

BIDI = "\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"
NARROW = Look(width=60)
COLOUR = Look(width=60, colour=True)


class Terminal(io.StringIO):
    def isatty(self):
        return True


def reply(text, **more):
    return Reply(status="answered", text=text, **more)


@given(st.text(st.characters()))
def test_no_control_or_override_character_comes_through(text):
    shown = on_screen(reply(text), NARROW)
    assert not [c for c in shown if (unicodedata.category(c) in ("Cc", "Cs") and c != "\n") or c in BIDI]


@given(st.text(), st.integers(20, 100))
def test_no_line_is_wider_than_the_terminal(text, width):
    assert all(columns(line) <= width for line in on_screen(reply(text), Look(width=width)).split("\n"))


@given(st.lists(st.text(st.characters(categories=["L", "N", "P", "S"]), min_size=1), min_size=1), st.integers(20, 100))
def test_wrapping_loses_nothing(words, width):
    line = clean(" ".join(words)).strip()
    assert "".join("".join(wrap(line, width)).split()) == "".join(line.split())


@pytest.mark.parametrize(
    ("dirty", "shown"),
    [
        ("a\x1b[31mred\x1b[0m", "ared"),
        ("\x1b]0;title\x07after", "after"),
        ("\x9b2Jb", "2Jb"),
        ("one\ttwo", "one    two"),
        ("one\r\ntwo\rthree", "one\ntwo\nthree"),
        ("gnp.\u202egnp", "gnp.gnp"),
        ("zero\u200bwidth\ufeff", "zerowidth"),
        ("half \ud800 pair", "half  pair"),
        ("½ cup — 60 % ± 2", "½ cup — 60 % ± 2"),
    ],
)
def test_cleaning(dirty, shown):
    assert clean(dirty) == shown


def test_a_long_line_hangs_and_keeps_figures_with_their_units():
    line = "Pour 224 mL of spirit at 60 %, which is 141 mL of 95 % and 88 mL of water, made up to 224 mL."
    assert wrap(line, 40) == [
        "Pour 224 mL of spirit at 60 %, which is",
        "  141 mL of 95 % and 88 mL of water,",
        "  made up to 224 mL.",
    ]


def test_a_listed_line_hangs_under_its_text_and_an_indent_is_kept():
    assert wrap("- one two three four five six seven", 20) == ["- one two three four", "  five six seven"]
    assert wrap("  1. one two three four five six", 20) == ["  1. one two three", "     four five six"]


def test_a_line_that_fits_is_left_alone():
    drawing = "  |====      |   43 %"
    assert wrap(drawing, 60) == [drawing]


def test_wide_and_combining_characters_are_counted_as_they_are_shown():
    assert columns("abc") == 3
    assert columns("薬草") == 4
    assert columns("e\u0301") == 1


def test_the_first_line_stands_out_and_cautions_are_coloured_by_level():
    stop = Caution(id="a", level="stop", text="Never over a flame.")
    warn = Caution(id="b", level="warn", text="It will not keep.")
    note = Caution(id="c", level="note", text="Label it.")
    text = "Pour 224 mL.\nIt becomes 43 %.\nNever over a flame.\nIt will not keep.\nLabel it.\nWhich plant?"
    lines = on_screen(reply(text, cautions=[stop, warn, note], questions=[Question(text="Which plant?")]), COLOUR).split("\n")
    assert lines[0] == "\x1b[1mPour 224 mL.\x1b[0m"
    assert lines[1] == "It becomes 43 %."
    assert lines[2].startswith("\x1b[1;31m")
    assert lines[3].startswith("\x1b[33m")
    assert lines[4] == "Label it."
    assert lines[5].startswith("\x1b[36m")
    assert all(line.count("\x1b") in (0, 2) for line in lines)


def test_every_piece_of_a_wrapped_answer_is_bold():
    lines = on_screen(reply("word " * 30), COLOUR).split("\n")
    assert len(lines) > 1
    assert all(line.startswith("\x1b[1m") and line.endswith("\x1b[0m") for line in lines)


def test_plain_is_one_line_a_statement_with_signs_spelt_out():
    text = "Pour 112 g × 2 = 224 mL at 60 %, ± 2 mL, from 75–85 % water and so on well past the sixtieth column."
    shown = on_screen(reply(text), Look(plain=True))
    assert shown == (
        "Pour 112 g times 2 equals 224 mL at 60 percent, plus or minus 2 mL, from 75 to 85 percent water and so on well past the sixtieth column."
    )
    assert aloud("95 %→60 %") == "95 percent gives 60 percent"
    assert aloud("1:2.5 is 0.4 g/mL") == "1 to 2.5 is 0.4 g per mL"


@pytest.mark.parametrize(
    ("stream", "environment", "plain", "look"),
    [
        (io.StringIO(), {"TERM": "xterm"}, False, Look()),
        (Terminal(), {"TERM": "xterm"}, False, Look(width=60, colour=True)),
        (Terminal(), {"TERM": "xterm", "NO_COLOR": "1"}, False, Look(width=60)),
        (Terminal(), {"TERM": "xterm", "NO_COLOR": ""}, False, Look(width=60, colour=True)),
        (Terminal(), {"TERM": "dumb"}, False, Look(width=60)),
        (Terminal(), {}, False, Look(width=60)),
        (Terminal(), {"TERM": "xterm"}, True, Look(plain=True)),
    ],
)
def test_the_look_follows_the_terminal(stream, environment, plain, look, monkeypatch):
    monkeypatch.setenv("COLUMNS", "60")
    assert look_of(stream, environment, plain=plain) == look


@pytest.mark.parametrize(("asked", "got"), [("5", 20), ("300", 100), ("60", 60)])
def test_the_width_stays_readable(asked, got, monkeypatch):
    monkeypatch.setenv("COLUMNS", asked)
    assert look_of(Terminal(), {"TERM": "xterm"}).width == got


def test_a_closed_stream_gets_the_look_of_a_pipe():
    stream = io.StringIO()
    stream.close()
    assert look_of(stream, {}) == Look()


def test_an_ascii_terminal_gets_the_signs_spelt_plainly():
    stream = io.TextIOWrapper(io.BytesIO(), encoding="ascii")
    assert speakable("½ × 60 % ± 2 – 薬", stream) == "1/2 x 60 % +/- 2 - ?"
    assert speakable("½", io.TextIOWrapper(io.BytesIO(), encoding="utf-8")) == "½"
