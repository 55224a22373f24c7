"""README and DEVELOPERS say what is so: their replies are told again, their commands and folders exist."""

import json
import re

import pytest

from assistant.cli import arguments
from assistant.reply import Reply
from tests.retell import AS_JSON, PAGES, ROOT, SPOKEN, difference, retold_page

README, DEVELOPERS = (page.read_text(encoding="utf-8") for page in PAGES)


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_every_reply_shown_comes_out_to_the_letter(page):
    shown = page.read_text(encoding="utf-8")
    told = retold_page(shown)
    assert told == shown, difference(page, shown, told)


def test_readme_shows_a_real_conversation():
    block = SPOKEN.search(README).group()
    assert block.count("\n> ") >= 2
    assert "mL" in block


def test_developers_shows_one_json_reply_of_each_status():
    blocks = [match.group().split("```json\n")[1] for match in AS_JSON.finditer(DEVELOPERS)]
    replies = [Reply.model_validate(json.loads(block)) for block in blocks]
    assert sorted(reply.status for reply in replies) == sorted(["answered", "noted", "asking", "conflict", "refused", "not_understood"])


def test_readme_names_every_option_and_no_other():
    said = set(re.findall(r"(?<![-|])--[a-z-]+", README))
    known = {option for action in arguments()._actions for option in action.option_strings if option.startswith("--")}
    assert said <= known
    assert known - said <= {"--help", "--version"}


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_every_file_named_in_a_page_is_there(page):
    named = re.findall(r"`((?:assistant|grammar|rules|tests|transcripts_demo|\.ci)/[\w./-]*)`", page.read_text(encoding="utf-8"))
    missing = [name for name in named if not (ROOT / name).exists()]
    assert not missing
