"""Mutation testing of matter, relations and solving, run by hand: are the tests such that a wrong in the arithmetic is seen?

    python -m tests.mutation.run                       every mutant (hours)
    python -m tests.mutation.run 300                   a sample of so many, always the same
    python -m tests.mutation.run 300 --draw 7          another sample
    python -m tests.mutation.run 300 --from 120        the same sample, gone on with
    python -m tests.mutation.run --of solving/checking.py --of matter/oils.py
    python -m tests.mutation.run --again FILE          those named in what an earlier run printed

First every test is run once and told what it reaches (reached.py); then each mutant is met by the tests that reach its line, the quickest first,
until one of them fails. Each is tried in a process of its own that is forked when the libraries are loaded and the house is not.
Prints a line for every survivor, and at the end how many of each room were killed. Killed means that a test failed, that the house could not be
loaded, or that it went on for ever; a test that is no longer there under its name does not count.
"""

import argparse
import os
import resource
import sys
from collections import Counter
from collections.abc import Callable, Sequence
from importlib.abc import Loader, MetaPathFinder
from importlib.machinery import ModuleSpec
from pathlib import Path
from types import CodeType, ModuleType
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, settings

from tests.mutation.in_place import ALIVE, KILLED, NOT_TRIED, can_be_put_in_place, tried_in_place
from tests.mutation.mutants import HOUSE, Mutant, drawn, modules, mutants_of
from tests.mutation.reached import QUIET, own_first, reached_by_the_tests

PATIENCE = 8.0  # seconds of the processor for a mutant, beside a third of what its tests took when watched; one that goes on for ever is seen too
FAILED_BEFORE = 2
# What pytest ends with where a test failed, or where a file of tests could not be loaded because the house could not.
SEEN = (pytest.ExitCode.TESTS_FAILED, pytest.ExitCode.INTERRUPTED, pytest.ExitCode.INTERNAL_ERROR)


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


class _Only:
    """A plugin of pytest that keeps these tests, in this order."""

    def __init__(self, tests: Sequence[str]) -> None:
        self.place = {test: place for place, test in enumerate(tests)}

    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        items[:] = sorted((item for item in items if item.nodeid in self.place), key=lambda item: self.place[item.nodeid])


def _forked(work: Callable[[], int], patience: float) -> int:
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
    files = dict.fromkeys(test.split("::")[0] for test in tests)
    end = pytest.main([*QUIET, "-x", *files], plugins=[_Only(tests)])
    if end == pytest.ExitCode.USAGE_ERROR:
        return NOT_TRIED
    return KILLED if end in SEEN else ALIVE


def _asked_for(asked: argparse.Namespace) -> list[Mutant]:
    if asked.again:
        text = asked.again.read_text(encoding="utf-8")
        return [mutant for module in modules() if module in text for mutant in mutants_of(module) if f" {mutant.name}   (" in text]
    if asked.of:
        return [mutant for module in asked.of for mutant in mutants_of(module)]
    return drawn(asked.count, asked.draw)


def _is_settled(mutant: Mutant) -> bool:
    """Whether nothing of the module is worked out while the house is loaded, so that a survivor in place survives the long way too."""
    return mutant.module.startswith("solving/")


def main(arguments: list[str]) -> int:
    reader = argparse.ArgumentParser(prog="python -m tests.mutation.run", description="Try the tests with small wrongs in the house.")
    reader.add_argument("count", nargs="?", type=int, default=0, help="how many to draw; all there are without")
    reader.add_argument("--draw", type=int, default=1, metavar="N", help="another number draws others")
    reader.add_argument("--from", type=int, default=0, dest="begin", metavar="N", help="go on from this one of them")
    reader.add_argument("--of", action="append", metavar="MODULE", help="those of one module: matter/oils.py")
    reader.add_argument("--again", type=Path, metavar="FILE", help="those named in what an earlier run printed")
    asked = reader.parse_args(arguments)
    for library in ("hypothesis", "pint", "sympy", "CoolProp.CoolProp", "tomllib"):  # loaded once, for all that are forked
        __import__(library)
    # A slow machine kills no mutant; and that something fails is enough, nobody needs the smallest case of it.
    phases = (Phase.explicit, Phase.generate)
    settings.register_profile("mutation", deadline=None, suppress_health_check=list(HealthCheck), phases=phases, database=None)
    settings.load_profile("mutation")
    reached = reached_by_the_tests()
    if reached.failed:
        print(f"these fail without any change: {reached.failed[:5]}")
        return FAILED_BEFORE
    mutants = _asked_for(asked)[asked.begin :]
    told: Counter[tuple[str, bool]] = Counter()
    begun = [(mutant, tests, PATIENCE + sum(reached.spent[test] for test in tests) / 3) for mutant in mutants for tests in [reached.for_mutant(mutant)]]
    quick = [place for place, (mutant, _, _) in enumerate(begun) if can_be_put_in_place(mutant)]
    ends = tried_in_place([begun[place] for place in quick], _forked)
    settled = {place: end for place, end in zip(quick, ends, strict=True) if end == KILLED or (end == ALIVE and _is_settled(begun[place][0]))}
    print(f"{len(mutants)} mutants; {len(settled)} of {len(quick)} put in place are settled, the others are met the long way", flush=True)
    for place, (mutant, tests, patience) in enumerate(begun):
        end = settled.get(place, ALIVE)
        for some in () if place in settled else own_first(mutant, tests):
            end = _forked(lambda mutant=mutant, some=some: _tried(mutant, some), patience)  # type: ignore[misc]
            if end != ALIVE:
                break
        if end == NOT_TRIED:
            raise RuntimeError(f"could not try {mutant.name}")
        told[mutant.module.split("/")[0], end != ALIVE] += 1
        if end == ALIVE:
            print(f"{place + asked.begin:5} alive: {mutant.name}   ({len(tests)} tests)", flush=True)
    for room in sorted({room for room, _ in told}):
        dead, alive = told[room, True], told[room, False]
        print(f"{room:10} {dead:5} killed, {alive:4} alive: {dead / (dead + alive):.1%}")
    dead = sum(count for (_, killed), count in told.items() if killed)
    print(f"{'all':10} {dead:5} of {sum(told.values())} killed: {dead / max(sum(told.values()), 1):.1%}")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
