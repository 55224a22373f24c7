"""The conversation at the bench, typed into a pipe instead of a keyboard."""

import stat
import subprocess
import sys

import pytest
from prompt_toolkit.application import create_app_session
from prompt_toolkit.completion import CompleteEvent
from prompt_toolkit.document import Document
from prompt_toolkit.history import InMemoryHistory
from prompt_toolkit.input import create_pipe_input
from prompt_toolkit.output import DummyOutput

from assistant import repl
from tests.doors.conftest import ANSWER, Parrot

CTRL_C, CTRL_D = "\x03", "\x04"


@pytest.fixture
def bench():
    bench = repl.Bench(Parrot, lambda: None)
    bench.warm()
    bench.talker()
    return bench


@pytest.fixture
def typing(bench, monkeypatch, tmp_path):
    """Types keys into the real prompt; gives the exit code and the sentences that reached the session."""
    monkeypatch.setattr(repl, "is_dumb", lambda: False)
    kept = InMemoryHistory()
    monkeypatch.setattr(repl, "history", lambda: kept)

    def type_keys(keys):
        type_keys.kept = kept
        with create_pipe_input() as keyboard, create_app_session(input=keyboard, output=DummyOutput()):
            keyboard.send_text(keys)
            code = repl.converse(bench=bench)
        return code, bench.talker().heard

    return type_keys


def test_a_sentence_is_answered_and_ctrl_d_ends(typing, capsys):
    assert typing("112 g nettle\r" + CTRL_D) == (0, ["112 g nettle"])
    assert ANSWER in capsys.readouterr().out


def test_ctrl_c_clears_the_line_and_the_bench_goes_on(typing):
    assert typing("999 g" + CTRL_C + "112 g\r" + CTRL_D) == (0, ["112 g"])


def test_ctrl_d_in_a_line_deletes_and_does_not_end(typing):
    assert typing("112 gx\x1b[D" + CTRL_D + "\r" + CTRL_D) == (0, ["112 g"])


@pytest.mark.parametrize("word", ["bye", "Quit.", "exit", "leave!"])
def test_a_word_of_leaving_ends(typing, word):
    assert typing(f"112 g\r{word}\r") == (0, ["112 g"])


def test_blank_lines_are_passed_over_and_pasted_lines_are_said_one_by_one(typing):
    assert typing("  \r\x1b[200~first\nsecond\x1b[201~\r" + CTRL_D) == (0, ["first", "second"])


def test_what_was_said_is_in_the_history_and_what_was_cleared_is_not(typing):
    typing("112 g\r999 g" + CTRL_C + "120 g\r" + CTRL_D)
    assert typing.kept.get_strings() == ["112 g", "120 g"]


@pytest.mark.parametrize(
    ("typed", "on_tab", "offered"),
    [
        ("112 g fresh net", False, [("nettle", -3)]),
        ("112 g lemon b", True, [("lemon balm", -7)]),
        ("112 g fresh ", False, []),  # nothing pops up unasked between two words
        ("112 g fresh ", True, [("nettle", 0), ("menstruum", 0), ("lemon balm", 0)]),
        ("spill", False, []),
    ],
)
def test_what_the_prompt_offers(bench, typed, on_tab, offered):
    event = CompleteEvent(text_inserted=not on_tab, completion_requested=on_tab)
    found = repl.completer(bench).get_completions(Document(typed), event)
    assert [(completion.text, completion.start_position) for completion in found] == offered


def test_a_bug_in_a_turn_is_one_clear_line_and_the_bench_goes_on(typing, capsys):
    assert typing("spill\rfine\r" + CTRL_D)[0] == 0
    out = capsys.readouterr().out
    assert "fault of the program itself (KeyError" in out
    assert ANSWER in out
    assert "\x1b" not in out


def test_a_bug_in_completion_is_told_once_and_the_bench_goes_on(typing, bench, capsys):
    for _ in range(3):
        bench.next_words("spill")
    assert typing("first\rsecond\r" + CTRL_D)[1] == ["first", "second"]
    assert capsys.readouterr().out.count("(completion met a fault of the program itself: ValueError: no words)") == 1


def test_a_bug_in_the_line_of_key_figures_leaves_it_empty(bench):
    bench.talker().say("tip")
    assert bench.line() == ""
    assert bench.fresh_complaints() == ["(the line of key figures met a fault of the program itself: ZeroDivisionError: no line)"]
    assert bench.fresh_complaints() == []


def test_a_bug_in_warming_up_does_not_keep_the_session_away():
    def broken():
        raise ImportError("no such room")

    bench = repl.Bench(Parrot, broken)
    bench.warm()
    assert bench.talker().say("x").status == "answered"
    assert bench.fresh_complaints() == ["(warming up met a fault of the program itself: ImportError: no such room)"]


def test_the_prompt_stands_before_anything_heavy_is_loaded():
    heavy = "('pydantic', 'lark', 'sympy', 'pint', 'assistant.session', 'assistant.quantities')"
    code = (
        "import sys; from assistant import repl; from prompt_toolkit.history import InMemoryHistory;"
        "bench = repl.Bench(None, None); repl.prompt_session(bench, history=InMemoryHistory());"
        f"print([name for name in {heavy} if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, timeout=60, check=False)
    assert done.stdout.strip() == "[]", done.stdout + done.stderr


def test_nothing_is_offered_before_the_rooms_are_loaded():
    bench = repl.Bench(Parrot, lambda: None)
    assert bench.next_words("112 g ") == []
    assert bench.line() == ""


def test_the_line_below_fits_the_terminal(bench):
    assert repl.below(bench, 80) == "nettle tincture · 112 g · 1:2 · 0 said"
    assert repl.below(bench, 20) == "nettle tincture ·…"
    assert repl.below(repl.Bench(Parrot, lambda: None), 80) == repl.EMPTY_BENCH


def test_a_dumb_terminal_is_asked_line_by_line(bench, monkeypatch, capsys):
    lines = iter(["112 g", KeyboardInterrupt, "second", EOFError])

    def give(prompt):
        line = next(lines)
        if isinstance(line, str):
            return line
        raise line

    monkeypatch.setattr("builtins.input", give)
    assert repl.is_dumb()  # under pytest neither end is a terminal
    assert repl.converse(bench=bench) == 0
    assert bench.talker().heard == ["112 g", "second"]
    assert "\x1b" not in capsys.readouterr().out


def test_a_dumb_terminal_never_loads_the_prompt(bench, monkeypatch):
    monkeypatch.setitem(sys.modules, "prompt_toolkit", None)
    monkeypatch.setattr("builtins.input", lambda prompt: "bye")
    assert repl.converse(bench=bench) == 0


# ── what is kept between runs ──


def test_history_is_kept_for_its_owner_alone(tmp_path):
    folder = tmp_path / "a" / "gallipot"
    repl.history(folder).append_string("112 g nettle")
    repl.history(folder).append_string(" for one client only")
    assert list(repl.history(folder).load_history_strings()) == ["112 g nettle"]
    assert stat.S_IMODE((folder / "history").stat().st_mode) == 0o600
    assert stat.S_IMODE(folder.stat().st_mode) == 0o700


def test_a_history_open_to_others_is_closed_again(tmp_path):
    (tmp_path / "history").write_text("")
    (tmp_path / "history").chmod(0o644)
    repl.history(tmp_path)
    assert stat.S_IMODE((tmp_path / "history").stat().st_mode) == 0o600


def test_where_no_history_can_be_kept_it_is_said_and_the_bench_goes_on(tmp_path, capsys):
    (tmp_path / "file").write_text("in the way")
    assert isinstance(repl.history(tmp_path / "file"), InMemoryHistory)
    assert "no sentence is kept for the next run" in capsys.readouterr().out


def test_a_full_disk_loses_the_line_and_says_so(tmp_path, capsys):
    kept = repl.history(tmp_path)
    (tmp_path / "history").unlink()
    (tmp_path / "history").mkdir()
    kept.append_string("112 g")
    assert "not kept for the next run" in capsys.readouterr().out
