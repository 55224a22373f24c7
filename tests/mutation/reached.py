"""Which test reaches what: every test is run once and told which lines, and which relations, of the rooms it went through.

What was found is kept in the folder for temporary files, under the state of the house; a later run goes only through those files of tests that
have changed since.
"""

from __future__ import annotations

import ast
import hashlib
import os
import pickle
import sys
import tempfile
import time
from collections import defaultdict
from collections.abc import Iterable
from functools import lru_cache
from pathlib import Path
from types import FrameType
from typing import Any

import pytest

from tests.mutation.mutants import HOUSE, ROOMS, Mutant

ROOT = HOUSE.parent
TESTS = (
    "tests/matter", "tests/relations", "tests/solving", "tests/quantities", "tests/published", "tests/stillroom", "tests/teaching", "tests/session",
    "tests/year", "assistant/matter", "assistant/relations", "assistant/solving",
)  # fmt: skip
# Files that hold a written table against what the house would write now: any other letter in a relation fails them, right or wrong.
COMPARE_TEXTS = {"relations": ("tests/solving/test_rearranged.py", "tests/teaching/test_turned.py")}
TIMED = ("tests/matter/test_cost.py",)  # a slow moment of the machine would look like a wrong that was seen
# Tried beside: the first two always, the others for a line that nobody can be seen to reach because it runs while the house is loaded.
BESIDE = {
    "matter": ("assistant/matter", "tests/matter", "tests/published", "tests/solving"),
    "relations": ("tests/relations", "assistant/relations", "tests/published", "tests/stillroom", "tests/year", "tests/teaching", "tests/session"),
    "solving": ("assistant/solving", "tests/solving", "tests/published", "tests/teaching"),
}
MOST_TESTS = 150  # the quickest that reach a line
SECONDS = 15.0  # what they may take together, and as long again those that are only beside; watched they take thrice what they take alone
QUIET = ["-q", "-p", "no:cacheprovider", "-p", "no:xdist", "-W", "ignore::pytest.PytestAssertRewriteWarning", "--no-header", "--hypothesis-seed=1",
         "--tb=no"]  # fmt: skip


class Reached:
    """For each test what it went through, how long it took and whether it failed without any change."""

    def __init__(self) -> None:
        self.by_test: dict[str, frozenset[tuple[str, int | str]]] = {}
        self.spent: dict[str, float] = {}
        self.failed: list[str] = []

    def turned_round(self) -> None:
        """Make the ways back: from a line, a relation or a module to its tests."""
        self._of: dict[tuple[str, int | str], list[str]] = defaultdict(list)
        for test, seen in self.by_test.items():
            for place in seen:
                self._of[place].append(test)
            for module in {module for module, _ in seen}:
                self._of[module, ""].append(test)

    def for_mutant(self, mutant: Mutant) -> list[str]:
        """The tests to try it with, the likeliest first.

        Those that reach the line, or put the relation to use; then, where a cache or the loading of the house may have hidden the way there, the
        quickest of the room's own and of what is published.
        """
        room = mutant.module.split("/")[0]
        where = _inside(mutant.module, mutant.line)
        near = self._of.get((mutant.module, where), []) if where else self._of.get((mutant.module, ""), [])
        tests = self._quickest(near, SECONDS)[:MOST_TESTS]
        if not (near and isinstance(where, str)):
            folders = tuple(f"{folder}/" for folder in (BESIDE[room][:2] if near and where else BESIDE[room]))
            tests += self._quickest((test for test in self.spent if test.startswith(folders)), SECONDS)
        left_out = (*TIMED, *COMPARE_TEXTS.get(room, ()))
        return [test for test in dict.fromkeys(tests) if not test.startswith(left_out)]


    def _quickest(self, tests: Iterable[str], seconds: float) -> list[str]:
        taken: list[str] = []
        for test in sorted(tests, key=self.spent.__getitem__):
            seconds -= self.spent[test]
            if seconds < 0:
                break
            taken.append(test)
        return taken


def own_first(mutant: Mutant, tests: list[str]) -> list[list[str]]:
    """The tests of the room itself, which are few files to load, and then the others."""
    folders = tuple(f"{folder}/" for folder in BESIDE[mutant.module.split("/")[0]][:2])
    own = [test for test in tests if test.startswith(folders)]
    return [some for some in (own, [test for test in tests if test not in set(own)]) if some]


@lru_cache(maxsize=512)
def _tree(module: str) -> ast.Module:
    return ast.parse((HOUSE / module).read_text(encoding="utf-8"))


def in_a_function(module: str, line: int) -> bool:
    """Whether a line lies in the body of a function, so that it runs when that is called and not when the house is loaded."""
    return isinstance(_inside(module, line), int) and _inside(module, line) != 0


def _inside(module: str, line: int) -> int | str:
    """The line itself where it lies in the body of a function; the name of the relation written there; 0 for what runs when it is loaded."""
    named = ""
    for node in ast.walk(_tree(module)):
        if isinstance(node, ast.FunctionDef) and node.body[0].lineno <= line <= (node.end_lineno or 0):
            return line
        if module.startswith("relations/") and isinstance(node, ast.Call) and node.lineno <= line <= (node.end_lineno or 0):
            first = node.args[0] if node.args else None
            if isinstance(first, ast.Constant) and isinstance(first.value, str):
                named = first.value
    return named or 0


class _Watch:
    """A plugin of pytest that fills a Reached."""

    def __init__(self, reached: Reached) -> None:
        self.reached = reached

    @pytest.hookimpl(hookwrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Any:
        seen: set[tuple[str, int | str]] = set()
        rooms, ledger = tuple(f"{HOUSE / room}{os.sep}" for room in ROOMS), str(HOUSE / "solving" / "ledger.py")
        origin = _relations()

        def line(frame: FrameType, event: str, _argument: object) -> Any:
            if event == "line":
                seen.add((frame.f_code.co_filename, frame.f_lineno))
            return line

        def call(frame: FrameType, _event: str, _argument: object) -> Any:
            if not frame.f_code.co_filename.startswith(rooms):
                return None
            if frame.f_code.co_filename == ledger and frame.f_code.co_name == "found":
                network, way = frame.f_locals["self"].network, frame.f_locals["way"]
                for number in way.leading:
                    name = network.instances[number].relation.name
                    seen.update((module, name) for module in origin.get(name, ()))
            return line

        start = time.perf_counter()
        sys.settrace(call)
        yield
        sys.settrace(None)
        self.reached.spent[item.nodeid] = time.perf_counter() - start
        self.reached.by_test[item.nodeid] = frozenset(
            (Path(place).relative_to(HOUSE).as_posix() if os.sep in place and place.startswith(str(HOUSE)) else place, what) for place, what in seen
        )

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if report.failed:
            self.reached.failed.append(report.nodeid)


@lru_cache(maxsize=1)
def _relations() -> dict[str, list[str]]:
    """Where each relation is written down: its name → modules."""
    found: dict[str, list[str]] = defaultdict(list)
    for path in (HOUSE / "relations").glob("*.py"):
        module = path.relative_to(HOUSE).as_posix()
        for node in ast.walk(_tree(module)):
            if isinstance(node, ast.Call) and node.args and isinstance(node.args[0], ast.Constant) and isinstance(node.args[0].value, str):
                found[node.args[0].value].append(module)
    return dict(found)


def reached_by_the_tests() -> Reached:
    """What every test goes through: from what is kept, and for the rest found in processes of their own so that the house stays unloaded here."""
    house = _digest(path for folder in ("assistant", "grammar", "rules") for path in (ROOT / folder).rglob("*") if path.suffix != ".pyc")
    kept = Path(tempfile.gettempdir()) / f"gallipot-reached-{house}.pickle"
    parts: dict[str, tuple[str, Reached]] = pickle.loads(kept.read_bytes()) if kept.is_file() else {}
    current = {name: state for folder in TESTS for name, state in _files(folder)}
    parts = {name: part for name, part in parts.items() if current.get(name) == part[0]}
    by_folder: dict[str, list[str]] = defaultdict(list)
    for name in current:
        if name not in parts:
            by_folder[str(Path(name).parent)].append(name)
    for folder, names in by_folder.items():
        print(f"going through {folder}: {len(names)} file(s)", flush=True)
        parts.update((name, (current[name], part)) for name, part in _watched(names).items())
        kept.write_bytes(pickle.dumps(parts))
    whole = Reached()
    for _, part in parts.values():
        whole.by_test.update(part.by_test)
        whole.spent.update(part.spent)
        whole.failed.extend(part.failed)
    whole.turned_round()
    return whole


def _digest(paths: Iterable[Path]) -> str:
    told = hashlib.sha256()
    for path in sorted(paths):
        if path.is_file():
            told.update(str(path.relative_to(ROOT)).encode() + b"\0" + path.read_bytes())
    return told.hexdigest()[:16]


def _files(folder: str) -> list[tuple[str, str]]:
    """The files of tests in a folder, each with its state: its own text and that of whatever lies beside it and is no test."""
    paths = [path for path in (ROOT / folder).rglob("*") if path.is_file() and path.suffix != ".pyc"]
    tests = [path for path in paths if path.suffix == ".py" and (path.name.startswith("test_") or folder.startswith("assistant"))]
    beside = [path for path in paths if path not in tests]
    return [(path.relative_to(ROOT).as_posix(), _digest([path, *beside])) for path in tests]


def _watched(names: list[str]) -> dict[str, Reached]:
    read, write = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(read)
        os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
        reached = Reached()
        try:
            pytest.main([*QUIET, *names], plugins=[_Watch(reached)])
            with os.fdopen(write, "wb") as pipe:
                pickle.dump((reached.by_test, reached.spent, reached.failed), pipe)
        finally:  # nothing of the child may go on as the parent would
            os._exit(0)
    os.close(write)
    with os.fdopen(read, "rb") as pipe:
        by_test, spent, failed = pickle.load(pipe)
    os.waitpid(child, 0)
    parts = {name: Reached() for name in names}
    for test, seen in by_test.items():
        part = parts[test.split("::")[0]]
        part.by_test[test], part.spent[test] = seen, spent[test]
    for test in failed:
        parts[test.split("::")[0]].failed.append(test)
    return parts
