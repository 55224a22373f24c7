"""Mutation testing of matter, relations and solving, run by hand: are the tests such that a wrong in the arithmetic is seen?

    python -m tests.mutation.run                 every mutant (hours)
    python -m tests.mutation.run 300             a sample of so many, always the same
    python -m tests.mutation.run 300 --from 120  the same sample, gone on with

First every test is run once and told which lines it reaches; then each mutant is met by the tests that reach its line, the quickest first, until
one of them fails. Each is tried in a process of its own that is forked when the libraries are loaded and the house is not.
Prints a line for every survivor, and at the end how many of each room were killed. A module's own constants are reached by all tests of it.
"""

import os
import pickle
import resource
import sys
import time
from collections import Counter, defaultdict
from importlib.abc import Loader, MetaPathFinder
from importlib.machinery import ModuleSpec
from pathlib import Path
from types import CodeType, FrameType, ModuleType
from typing import Any

import pytest

from tests.mutation.mutants import HOUSE, ROOMS, Mutant, drawn

TESTS = (
    "tests/matter", "tests/solving", "tests/quantities", "tests/published", "tests/stillroom", "assistant/matter", "assistant/relations", "assistant/solving",
)  # fmt: skip
QUIET = ["-q", "-x", "-p", "no:cacheprovider", "-p", "no:xdist", "-W", "ignore::pytest.PytestAssertRewriteWarning", "--no-header", "--hypothesis-seed=1"]
PATIENCE = 20.0  # seconds of the processor for a mutant, beside thrice what its tests took; one that goes on for ever is seen too
MOST_TESTS = 150  # of those that reach a line: the rest would say no more
ALIVE, KILLED, FAILED_BEFORE, NOT_TRIED = 0, 1, 2, 3


class _Changed(MetaPathFinder, Loader):
    """Loads one module from a changed tree."""

    def __init__(self, mutant: Mutant) -> None:
        self.path = HOUSE / mutant.module
        parts = mutant.module.removesuffix(".py").removesuffix("/__init__").split("/")
        self.name = ".".join(("assistant", *parts))
        self.code: CodeType = compile(mutant.tree, str(self.path), "exec")

    def find_spec(self, fullname: str, _path: Any, _target: ModuleType | None = None) -> ModuleSpec | None:
        if fullname != self.name:
            return None
        spec = ModuleSpec(fullname, self, origin=str(self.path), is_package=self.path.name == "__init__.py")
        if spec.submodule_search_locations is not None:
            spec.submodule_search_locations.append(str(self.path.parent))
        spec.has_location = True
        return spec

    def exec_module(self, module: ModuleType) -> None:
        exec(self.code, module.__dict__)


class _Reached:
    """A plugin of pytest that notes which lines of the rooms each test reaches, and how long it takes."""

    def __init__(self) -> None:
        self.lines: dict[tuple[str, int], set[str]] = defaultdict(set)
        self.modules: dict[str, set[str]] = defaultdict(set)
        self.spent: dict[str, float] = {}
        self.failed: list[str] = []

    @pytest.hookimpl(hookwrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Any:
        seen: set[tuple[str, int]] = set()
        start, rooms = time.perf_counter(), tuple(f"{HOUSE / room}{os.sep}" for room in ROOMS)

        def line(frame: FrameType, event: str, _argument: object) -> Any:
            if event == "line":
                seen.add((frame.f_code.co_filename, frame.f_lineno))
            return line

        def call(frame: FrameType, _event: str, _argument: object) -> Any:
            return line if frame.f_code.co_filename.startswith(rooms) else None

        sys.settrace(call)
        yield
        sys.settrace(None)
        self.spent[item.nodeid] = time.perf_counter() - start
        for path, number in seen:
            module = Path(path).relative_to(HOUSE).as_posix()
            self.lines[module, number].add(item.nodeid)
            self.modules[module].add(item.nodeid)

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if report.failed:
            self.failed.append(report.nodeid)

    def for_line(self, module: str, line: int) -> list[str]:
        """The tests that reach a line, quickest first; those of the whole module for what is run when it is loaded."""
        return sorted(self.lines.get((module, line)) or self.modules.get(module, ()), key=lambda test: self.spent[test])[:MOST_TESTS]


def _forked(work: Any, patience: float) -> int:
    """The exit code of some work done in a process of its own; KILLED where it takes more of the processor than that many seconds."""
    child = os.fork()
    if child == 0:
        resource.setrlimit(resource.RLIMIT_CPU, (int(patience) + 1, int(patience) + 2))
        quiet = os.open(os.devnull, os.O_WRONLY)
        os.dup2(quiet, 1)
        os.dup2(quiet, 2)
        end = KILLED  # by whatever is raised
        try:
            end = work()
        finally:  # nothing of the child may go on as the parent would
            os._exit(end)
    _, status = os.waitpid(child, 0)
    return KILLED if os.WIFSIGNALED(status) else os.waitstatus_to_exitcode(status)


def _tried(mutant: Mutant, tests: list[str]) -> int:
    """Whether a test fails with the mutant in the house."""
    changed = _Changed(mutant)
    sys.meta_path.insert(0, changed)
    __import__(changed.name)  # before pytest sets its own finder in front of this one
    if sys.modules[changed.name].__loader__ is not changed:
        return NOT_TRIED
    return ALIVE if pytest.main([*QUIET, *tests]) == pytest.ExitCode.OK else KILLED


def main(arguments: list[str]) -> int:
    numbers = [int(word) for word in arguments if word.isdigit()]
    sample, begin = (numbers[0] if numbers else 0), (numbers[1] if len(numbers) > 1 else 0)
    for library in ("hypothesis", "pint", "sympy", "CoolProp.CoolProp", "tomllib"):  # loaded once, for all that are forked
        __import__(library)
    reached = _reached_by_the_tests()
    if reached.failed:
        print(f"these fail without any change: {reached.failed[:5]}")
        return FAILED_BEFORE
    mutants = drawn(sample)
    told: Counter[tuple[str, str]] = Counter()
    for number, mutant in enumerate(mutants):
        if number < begin:
            continue
        tests = reached.for_line(mutant.module, mutant.line)
        patience = PATIENCE + 3 * sum(reached.spent[test] for test in tests)
        end = _forked(lambda mutant=mutant, tests=tests: _tried(mutant, tests), patience) if tests else ALIVE
        if end == NOT_TRIED:
            raise RuntimeError(f"could not try {mutant.name}")
        told[mutant.module.split("/")[0], "killed" if end == KILLED else "alive"] += 1
        if end == ALIVE:
            print(f"{number:5} alive: {mutant.name}   ({len(tests)} tests)", flush=True)
    rooms = sorted({room for room, _ in told})
    for room in rooms:
        dead, alive_ones = told[room, "killed"], told[room, "alive"]
        print(f"{room:10} {dead:5} killed, {alive_ones:4} alive: {dead / (dead + alive_ones):.1%}")
    dead = sum(told[room, "killed"] for room in rooms)
    print(f"{'all':10} {dead:5} of {sum(told.values())} killed: {dead / max(sum(told.values()), 1):.1%}")
    return 0


def _reached_by_the_tests() -> _Reached:
    """Which test reaches which line, found in a process of its own so that the house stays unloaded here."""
    read, write = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(read)
        quiet = os.open(os.devnull, os.O_WRONLY)
        os.dup2(quiet, 1)
        plugin = _Reached()
        pytest.main([word for word in QUIET if word != "-x"] + list(TESTS), plugins=[plugin])
        with os.fdopen(write, "wb") as pipe:
            pickle.dump((dict(plugin.lines), dict(plugin.modules), plugin.spent, plugin.failed), pipe)
        os._exit(0)
    os.close(write)
    reached = _Reached()
    with os.fdopen(read, "rb") as pipe:
        lines, modules, reached.spent, reached.failed = pickle.load(pipe)
    os.waitpid(child, 0)
    reached.lines.update(lines)
    reached.modules.update(modules)
    return reached


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
