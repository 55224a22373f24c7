"""The door for one sentence and for a pipe."""

import io
import json
import subprocess
import sys

import pytest

from assistant import __version__, cli
from assistant.listening.lengths import LONGEST_SENTENCE
from tests.doors.conftest import ANSWER


class Pipe:
    """Standard input as a pipe of these bytes."""

    def __init__(self, content):
        self.buffer = io.BytesIO(content)

    def isatty(self):
        return False


def run(monkeypatch, capsys, *given, content=b""):
    monkeypatch.setattr(sys, "stdin", Pipe(content))
    code = cli.main(list(given))
    shown = capsys.readouterr()
    return code, shown.out, shown.err


@pytest.fixture
def door(parrot, monkeypatch, capsys):
    return lambda *given, content=b"": run(monkeypatch, capsys, *given, content=content)


def test_one_sentence_is_answered_first_line_first(door, parrot):
    assert door("112 g fresh nettle, 1:2 at 60%") == (0, ANSWER + "\n", "")
    assert parrot[0].heard == ["112 g fresh nettle, 1:2 at 60%"]


def test_words_without_quotes_are_one_sentence(door, parrot):
    assert door("112", "g", "fresh", "nettle")[0] == 0
    assert parrot[0].heard == ["112 g fresh nettle"]


def test_a_pipe_is_one_conversation_with_a_blank_line_between(door, parrot):
    code, out, _ = door(content=b"first\n\n  \nsecond")
    assert (code, out) == (0, f"{ANSWER}\n\n{ANSWER}\n")
    assert [p.heard for p in parrot] == [["first", "second"]]


@pytest.mark.parametrize(
    ("content", "code"),
    [(b"", 0), (b"fine\n", 0), (b"how much\nfine\n", 1), (b"fine\nspill\nfine\n", 1), (b"upside down\n", 1)],
)
def test_a_pipe_gives_the_worst_exit_code(door, content, code):
    assert door(content=content)[0] == code


def test_json_is_one_reply_a_line(door):
    code, out, _ = door("--json", content="112 g\nhow much \u202e½\n".encode())
    replies = [json.loads(line) for line in out.splitlines()]
    assert code == 1
    assert [r["status"] for r in replies] == ["answered", "asking"]
    assert replies[1]["heard"] == "how much \u202e½"
    assert out.isascii()


def test_a_fault_and_a_bug_are_one_clear_refusal_and_the_pipe_goes_on(door):
    code, out, err = door(content=b"spill it\nupside down\nfine\n")
    assert code == 1
    assert "fault of the program itself (KeyError: 'menstruum" in out
    assert "upside down: a jar has no such side. Try: the right way up" in out
    assert out.endswith(ANSWER + "\n")
    assert "\x1b" not in out
    assert "Traceback" not in out + err


def test_a_bug_is_a_refusal_with_a_question_in_json_too(door):
    reply = json.loads(door("--json", "spill")[1])
    assert reply["status"] == "refused"
    assert reply["questions"]


def test_bytes_that_are_no_utf8_are_read_as_far_as_they_can_be(door, parrot):
    assert door(content=b"112 g \xff nettle\n")[0] == 0
    assert door("112 g \udcff nettle")[0] == 0
    assert [p.heard for p in parrot] == [["112 g \ufffd nettle"]] * 2


def test_a_byte_order_mark_is_no_part_of_the_sentence(door, parrot):
    door(content=b"\xef\xbb\xbf112 g\r\n")
    assert parrot[0].heard == ["112 g"]


@pytest.mark.parametrize("character", ["a", "½", "薬"])
def test_a_line_too_long_is_refused_whole_and_the_next_is_answered(door, parrot, character):
    code, out, _ = door(content=f"{character * (LONGEST_SENTENCE * 5)}\nfine\n".encode())
    assert code == 1
    assert f"longer than {LONGEST_SENTENCE:,} characters" in out
    assert parrot[0].heard == ["fine"]


def test_the_longest_sentence_allowed_is_answered(door, parrot):
    assert door(content="½".encode() * LONGEST_SENTENCE)[0] == 0
    assert len(parrot[0].heard[0]) == LONGEST_SENTENCE


def test_bad_usage_is_two_and_names_what_was_wrong(door):
    code, out, err = door("--colour")
    assert (code, out) == (2, "")
    assert "--colour" in err


def test_version_and_help_end_well(door):
    assert door("--version") == (0, f"gallipot {__version__}\n", "")
    code, out, _ = door("--help")
    assert code == 0
    assert "exit codes: 0 answered" in out


def test_plain_spells_the_signs_out(door):
    assert door("--plain", "112 g")[1].startswith("Pour 224 mL of 60 percent over")


def test_a_reader_that_goes_away_is_no_traceback():
    # A head of one line on an endless pipe; the real door, since the signal is between processes.
    feeder = subprocess.Popen(["yes", "hello"], stdout=subprocess.PIPE)
    door = subprocess.Popen([sys.executable, "-m", "assistant"], stdin=feeder.stdout, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    try:
        assert door.stdout.readline()
        door.stdout.close()
        assert "Traceback" not in door.stderr.read()
        assert door.wait(30) == 1
    finally:
        door.kill()
        feeder.kill()
        door.stderr.close()
        feeder.stdout.close()
        door.wait()
        feeder.wait()


def test_one_sentence_never_loads_the_prompt():
    code = (
        "import sys; from assistant.cli import main; end = main(['112 g fresh nettle, 1:2 at 60%']);"
        "sys.exit(end or any(m.split('.')[0] in ('prompt_toolkit', 'sympy') for m in sys.modules))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, timeout=60, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    assert "224 mL" in done.stdout.splitlines()[0]


def test_plain_tells_a_drawing_in_words(monkeypatch, capsys):
    code, out, _ = run(monkeypatch, capsys, "--plain", content=b"112 g fresh nettle, 1:2 at 60 %\ndraw it\n")
    assert code == 0
    assert "From the bottle to the jar: poured 60 percent, finished 43.2 percent." in out
    assert "|" not in out
