"""One loader for checkout and wheel: the package's own copy first, then the folder beside it, else a fault that names the place."""

import pytest

from assistant import places
from assistant.faults import HouseFault


@pytest.fixture
def house(tmp_path, monkeypatch):
    """An empty place to put a package in."""
    package = tmp_path / "assistant"
    package.mkdir()
    monkeypatch.setattr(places, "_PACKAGE", package)
    return tmp_path


def put(folder, text):
    folder.mkdir(parents=True)
    (folder / "bench.lark").write_text(text)


def test_the_checkout_has_both_folders():
    assert places.grammar_folder().is_dir()
    assert places.rules_folder().is_dir()


def test_a_checkout_is_read_from_beside_the_package(house):
    put(house / "grammar", "beside")
    assert places.grammar_file("bench.lark").read_text() == "beside"


def test_a_wheel_reads_its_own_copy_before_a_strangers_folder(house):
    put(house / "grammar", "a stranger's")
    put(house / "assistant" / "_data" / "grammar", "our own")
    assert places.grammar_file("bench.lark").read_text() == "our own"


def test_what_is_missing_is_named(house):
    with pytest.raises(HouseFault, match="folder rules/ is missing"):
        places.rules_folder()
    put(house / "grammar", "")
    with pytest.raises(HouseFault, match=r"grammar/none\.lark is missing"):
        places.grammar_file("none.lark")
