"""Every conversation of transcripts_demo/ is told again and must come out to the letter. `python -m tests.retell` rewrites them."""

import pytest

from assistant.render import columns
from tests.retell import FOLDER, WIDTH, difference, retold

PATHS = sorted(FOLDER.glob("*.txt"))


def test_there_are_conversations_to_tell():
    assert len(PATHS) >= 8


@pytest.mark.parametrize("path", PATHS, ids=lambda path: path.stem)
def test_a_conversation_comes_out_to_the_letter(path):
    kept = path.read_text(encoding="utf-8")
    told = retold(kept)
    assert kept.count("\n> ") + kept.startswith("> ") >= 2
    assert told == kept, difference(path, kept, told)


@pytest.mark.parametrize("path", PATHS, ids=lambda path: path.stem)
def test_a_conversation_fits_the_screen(path):
    printed = [line for line in path.read_text(encoding="utf-8").splitlines() if not line.startswith(("> ", "# "))]
    assert all(columns(line) <= WIDTH for line in printed)
    assert not any("fault of the program" in line for line in printed)


def test_a_changed_line_is_noticed():
    kept = PATHS[0].read_text(encoding="utf-8")
    assert retold(kept.rstrip() + " and a spoonful of luck\n") != kept.rstrip() + " and a spoonful of luck\n"
