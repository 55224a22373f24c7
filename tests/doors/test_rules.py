"""The flags for rules: --rules, --check-rules FOLDER, --folder FOLDER."""

import pytest

from assistant import Session, cli

RULE = """rule {name}  theme: handling   level: note
  when the plant is musk mallow and the herb is {state}
  say "{{plant}}: chop it small."
  why "It is slimy."
  source "my own bench" (memory)
  fires on "100 g {fires} musk mallow, 1:2 at 50 %"
  silent on "100 g {silent} musk mallow, 1:5 at 50 %"
"""
PLANT = """[[plant]]
latin = "Malva moschata"
names = ["musk mallow"]
family = "Malvaceae"
[[plant.part]]
kind = "leaf"
name = "leaf"
water = [78, 86, "my own drying", "common practice"]
"""


@pytest.fixture
def folder(tmp_path):
    (tmp_path / "plants.toml").write_text(PLANT, encoding="utf-8")
    (tmp_path / "mine.rules").write_text(RULE.format(name="my-mallow", state="fresh", fires="fresh", silent="dried"), encoding="utf-8")
    return tmp_path


def test_the_page_for_rule_writers_is_printed(capsys):
    assert cli.main(["--rules"]) == 0
    page = capsys.readouterr().out
    for word in ("A rule is a note pinned over the bench", "fires on", "silent on", "finished strength", "pyrrolizidine", "for internal use"):
        assert word in page


def test_a_sound_folder_is_well(folder, capsys):
    assert cli.main(["--check-rules", str(folder)]) == 0
    assert capsys.readouterr().out.startswith("All is well: 1 rule of your own")


def test_every_fault_is_told_with_its_place_and_the_nearest_name(folder, capsys):
    text = (folder / "mine.rules").read_text(encoding="utf-8")
    (folder / "mine.rules").write_text(text.replace("the herb is fresh", "finished strenght is under 20 %"), encoding="utf-8")
    assert cli.main(["--check-rules", str(folder)]) == 1
    told = capsys.readouterr().out
    assert "mine.rules, line 2, column" in told
    assert "Nearest: finished strength" in told


@pytest.mark.parametrize(("fires", "silent", "told"), [("dried", "dried", "is silent on “100 g dried"), ("fresh", "fresh", "speaks on “100 g fresh")])
def test_both_examples_are_spoken_to_the_whole_program(folder, capsys, fires, silent, told):
    (folder / "mine.rules").write_text(RULE.format(name="my-mallow", state="fresh", fires=fires, silent=silent), encoding="utf-8")
    assert cli.main(["--check-rules", str(folder)]) == 1
    printed = capsys.readouterr().out
    assert f"mine.rules, line 1: my-mallow {told}" in printed
    assert "1 example that does not hold" in printed


def test_a_folder_that_is_not_there_is_told(tmp_path, capsys):
    assert cli.main(["--check-rules", str(tmp_path / "nowhere")]) == 1
    assert "there is no such folder" in capsys.readouterr().out


def test_own_plants_and_rules_speak_in_a_conversation(folder, capsys):
    assert cli.main(["--folder", str(folder), "100 g fresh musk mallow leaf, 1:2 at 60 %"]) == 0
    told = capsys.readouterr()
    assert "Musk mallow: chop it small." in told.out
    assert "musk mallow taken at 82 % water" in told.out
    assert not told.err


def test_what_is_left_out_of_a_folder_is_told_and_the_rest_speaks(folder, capsys):
    (folder / "bad.rules").write_text("rule nothing\n", encoding="utf-8")
    assert cli.main(["--folder", str(folder), "100 g fresh musk mallow leaf, 1:2 at 60 %"]) == 0
    told = capsys.readouterr()
    assert "Musk mallow: chop it small." in told.out
    assert "left out: bad.rules" in told.err


def test_two_conversations_side_by_side_keep_their_own_rules(folder):
    own, plain = Session(folder=folder), Session()
    ask = "100 g fresh musk mallow leaf, 1:2 at 60 %"
    for _ in range(2):
        assert "my-mallow" in [c.id for c in Session(folder=folder).say(ask).cautions]
        assert "my-mallow" not in [c.id for c in Session().say(ask).cautions]
    assert own.say(ask).values != plain.say(ask).values
