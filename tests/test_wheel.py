"""The wheel carries what the program reads, and answers from a place where no checkout is near."""

import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest
from hatchling.builders.wheel import WheelBuilder

ROOT = Path(__file__).parents[1]


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    folder = tmp_path_factory.mktemp("wheel")
    built = next(WheelBuilder(str(ROOT)).build(directory=str(folder), versions=["standard"]))
    return Path(built)


def test_every_file_of_grammar_and_rules_is_inside(wheel):
    inside = {name for name in zipfile.ZipFile(wheel).namelist() if name.startswith("assistant/_data/")}
    files = [path for folder in ("grammar", "rules") for path in (ROOT / folder).rglob("*") if path.is_file()]
    shipped = {f"assistant/_data/{path.relative_to(ROOT).as_posix()}" for path in files}
    assert shipped
    assert shipped <= inside


def test_nothing_but_the_package_is_inside(wheel):
    tops = {name.split("/")[0] for name in zipfile.ZipFile(wheel).namelist()}
    assert tops == {"assistant", next(top for top in tops if top.endswith(".dist-info"))}


def test_the_unpacked_wheel_answers_away_from_the_checkout(wheel, tmp_path):
    site, elsewhere = tmp_path / "site", tmp_path / "elsewhere"
    elsewhere.mkdir()
    zipfile.ZipFile(wheel).extractall(site)
    code = "import assistant, sys; from assistant.cli import main; print(assistant.__file__, file=sys.stderr); sys.exit(main(sys.argv[1:]))"
    command = [sys.executable, "-c", code, "I picked 112 g fresh nettle, make it 1:2 at 60%"]
    surroundings = os.environ | {"PYTHONPATH": str(site)}
    done = subprocess.run(command, cwd=elsewhere, env=surroundings, capture_output=True, text=True, timeout=120, check=False)
    assert done.stderr.strip() == str(site / "assistant" / "__init__.py")
    assert done.returncode == 0, done.stdout
    assert "224 mL" in done.stdout.splitlines()[0]
