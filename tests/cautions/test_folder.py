"""A person's own folder: read after the shipped one, never instead of its stops, and every fault of it told."""

import pytest

from assistant.cautions import check_folder, read_folder, shipped
from assistant.cautions.folder import MOST_BYTES
from tests.cautions.kit import facts, rule_text

PLANT = """
[[plant]]
latin = "Malva moschata"
names = ["musk mallow"]
family = "Malvaceae"
[[plant.part]]
kind = "leaf"
name = "leaf"
water = [78, 86, "my own drying, 2024", "common practice"]
[plant.flags]
mucilaginous = ["slimy", "my own bench", "common practice"]
"""


@pytest.fixture
def folder(tmp_path):
    return tmp_path


def test_own_rules_and_plants_speak_beside_the_shipped_ones(folder):
    (folder / "own.rules").write_text(rule_text("my-mallow", "the plant is musk mallow and the herb is fresh", say="{plant}: chop it."), encoding="utf-8")
    (folder / "plants.toml").write_text(PLANT, encoding="utf-8")
    (folder / "plant_names.txt").write_text("moonwort\n", encoding="utf-8")
    pack = read_folder(folder)
    assert not pack.faults
    assert len(pack.book) == len(shipped().book) + 1
    assert [(rule.id, rule.fires_on) for rule in pack.own] == [("my-mallow", ("a",))]
    mallow = pack.plants.called("musk mallow").plant
    assert mallow.water_range().middle == 82
    assert pack.plants.called("moonwort") is not None
    assert pack.plants.called("nettle").plant == shipped().plants.called("nettle").plant
    spoken = pack.book.all_firing(facts(tags="fresh")._replace(plants=(mallow,)))
    assert "Musk mallow: chop it." in [caution.text for caution in spoken]


def test_the_shipped_pack_is_left_as_it_was(folder):
    (folder / "plants.toml").write_text(PLANT.replace("Malva moschata", "Urtica dioica").replace("musk mallow", "burn weed"), encoding="utf-8")
    pack = read_folder(folder)
    assert pack.plants.called("burn weed").plant.latin == "Urtica dioica"
    assert shipped().plants.called("burn weed") is None


def test_a_warning_may_be_reworded_and_a_stop_may_not(folder):
    (folder / "own.rules").write_text(
        rule_text("weak-to-keep", "finished strength is under 22 %", say="Mine.") + rule_text("deadly-plant", "the herb is fresh"), encoding="utf-8"
    )
    pack = read_folder(folder)
    assert [str(fault) for fault in pack.faults] == [
        "own.rules, line 8, column 1: deadly-plant is a shipped stop and cannot be replaced. Try: give your rule a name of its own"
    ]
    assert pack.book.called("weak-to-keep").say == "Mine."
    assert pack.book.called("deadly-plant").level == "stop"


def test_a_danger_of_a_plant_cannot_be_taken_away(folder):
    (folder / "plants.toml").write_text(PLANT.replace("Malva moschata", "Digitalis purpurea").replace("musk mallow", "foxglove"), encoding="utf-8")
    plant = read_folder(folder).plants.called("foxglove").plant
    assert plant.flag("deadly")
    assert plant.flag("mucilaginous")


@pytest.mark.parametrize(
    ("name", "text", "told"),
    [
        ("plants.toml", PLANT.replace("latin =", "latn ="), "plants.toml, line 3, column 1: 'latn' is not known in a plant. Nearest: latin."),
        ("plants.toml", PLANT.replace('kind = "leaf"', 'kind = "laef"'), "plants.toml, line 7, column 9: 'laef' is no kind of part. Nearest: leaf."),
        ("plants.toml", PLANT.replace("[78, 86", "[86, 78"), "plants.toml, line 9, column 1: water must lie between 0 and 99, the lower figure first."),
        (
            "plants.toml",
            PLANT.replace("mucilaginous", "mucilagenous"),
            "plants.toml, line 11, column 1: 'mucilagenous' is not known as a flag. Nearest: mucilaginous.",
        ),
        (
            "plants.toml",
            PLANT.replace('"my own bench", "common practice"', '"my own bench", "sure"'),
            "plants.toml, line 11, column 1: the flag mucilaginous needs a source and an evidence. Try: evidence is one of read, memory, common practice",
        ),
        (
            "plants.toml",
            "[[plant]\n",
            "plants.toml, line 1, column 8: Expected ']]' at the end of an array declaration. Try: every [ has its ], every text its quotation marks",
        ),
        ("plants.toml", "[[plants]]\n", "plants.toml, line 1, column 1: 'plants' is not known here. Nearest: plant."),
        ("sources.toml", "mine = 3\n", "sources.toml: the source 'mine' needs a title. Try: my-teacher = \"notes of a course, 2024\""),
        ("own.rules", rule_text() + rule_text(), "own.rules, line 8, column 1: a-rule stands already in own.rules, line 1. Try: name it otherwise"),
    ],
)
def test_a_fault_is_told_with_its_place(folder, name, text, told):
    (folder / name).write_text(text, encoding="utf-8")
    assert told in [str(fault) for fault in check_folder(folder)]


def test_files_that_are_no_texts_are_told(folder):
    (folder / "a.rules").write_bytes(b"rule caf\xe9\n")
    (folder / "b.rules").write_text("#" * (MOST_BYTES + 1), encoding="utf-8")
    (folder / "c.rules").mkdir()
    assert [fault.what for fault in check_folder(folder)] == [
        "this is not written in UTF-8",
        "this is no plain file of at most 2 MB",
        "this is no plain file of at most 2 MB",
    ]
    assert check_folder(folder / "nowhere")[0].what == "there is no such folder"


def test_an_empty_folder_changes_nothing(folder):
    (folder / "own.rules").write_text("# nothing yet\n", encoding="utf-8")
    pack = read_folder(folder)
    assert not pack.faults
    assert len(pack.book) == len(shipped().book)
