"""Trying a mutant without loading the house anew: all tests are collected once, and in a forked process the changed code is put where it belongs.

Done so where the change lies in the body of a function (its code is exchanged) or in the text of a relation (its equation is). What was worked out
while the house was loaded stays as it was, so that a survivor of this has still to be met the long way (run.py).
"""

from __future__ import annotations

import ast
import functools
import gc
import os
import pickle
import sys
import time
from collections import Counter
from collections.abc import Callable, Sequence
from types import CodeType, FunctionType
from typing import Any

import pytest
from _pytest.main import pytest_runtestloop

from tests.mutation.mutants import HOUSE, Mutant
from tests.mutation.reached import QUIET, TESTS, in_a_function

ALIVE, KILLED, NOT_TRIED = 0, 1, 3
Try = Callable[[Callable[[], int], float], int]  # work, patience → its end


def can_be_put_in_place(mutant: Mutant) -> bool:
    return in_a_function(mutant.module, mutant.line) or _equations(mutant) is not None


def tried_in_place(mutants: Sequence[tuple[Mutant, Sequence[str], float]], forked: Try) -> list[int]:
    """How each ended that can be put in place; with it its tests, and how many seconds of the processor it may have."""
    read, write = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(read)
        os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
        try:
            loop = _Loop(mutants, forked)
            pytest.main([*QUIET, "-x", "-s", *TESTS], plugins=[loop])
            with os.fdopen(write, "wb") as pipe:
                pickle.dump(loop.ends, pipe)
        finally:  # nothing of the child may go on as the parent would
            os._exit(0)
    os.close(write)
    with os.fdopen(read, "rb") as pipe:
        ends: list[int] = pickle.load(pipe)
    os.waitpid(child, 0)
    return ends


class _Loop:
    """A plugin of pytest that, in place of running the tests, runs them for each mutant."""

    def __init__(self, mutants: Sequence[tuple[Mutant, Sequence[str], float]], forked: Try) -> None:
        self.mutants, self.forked = mutants, forked
        self.ends: list[int] = []

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        from tests.conftest import draw_a_text

        draw_a_text()  # what it works out once is then there for all
        items = {item.nodeid: item for item in session.items}
        for number, (mutant, tests, patience) in enumerate(self.mutants):
            if number % 20 == 0:
                print(f"{time.strftime('%X')} {number} of {len(self.mutants)} put in place", file=sys.stderr, flush=True)
            there = [items[test] for test in tests if test in items]
            self.ends.append(self.forked(lambda mutant=mutant, there=there: _run(session, mutant, there), patience))  # type: ignore[misc]
            if self.ends[-1] != KILLED:
                print(f"in place not killed: {mutant.name}", file=sys.stderr, flush=True)
        return True


def _run(session: pytest.Session, mutant: Mutant, items: list[pytest.Item]) -> int:
    if not _put_in_place(mutant):
        return NOT_TRIED
    session.items[:] = items
    try:
        pytest_runtestloop(session)
    except session.Failed:
        return KILLED
    return KILLED if session.testsfailed else ALIVE


def _put_in_place(mutant: Mutant) -> bool:
    for thing in gc.get_objects():
        if isinstance(thing, functools._lru_cache_wrapper) and str(getattr(thing, "__module__", "")).startswith("assistant."):
            thing.cache_clear()
    texts = _equations(mutant)
    if texts is not None:
        return _equation_put(*texts)
    path = str(HOUSE / mutant.module)
    every = _codes(compile(mutant.tree, path, "exec"))
    often = Counter((code.co_qualname, code.co_firstlineno) for code in every)
    codes = {name: code for code in every if often[name := (code.co_qualname, code.co_firstlineno)] == 1}
    put = False
    for thing in gc.get_objects():
        if isinstance(thing, FunctionType) and thing.__code__.co_filename == path:
            code = codes.get((thing.__code__.co_qualname, thing.__code__.co_firstlineno))
            if code is not None and code != thing.__code__:
                thing.__code__ = code
                put = True
    return put


def _equation_put(before: str, after: str) -> bool:
    from assistant.relations.relation import Relation

    found: list[Any] = [thing for thing in gc.get_objects() if isinstance(thing, Relation) and thing.equation == before]
    for relation in found:
        object.__setattr__(relation, "equation", after)
    return bool(found)


def _codes(code: CodeType) -> list[CodeType]:
    inner = [const for const in code.co_consts if isinstance(const, CodeType)]
    return [code, *(deeper for const in inner for deeper in _codes(const))]


def _equations(mutant: Mutant) -> tuple[str, str] | None:
    """The text of a relation before and after, where that is what the mutant changes."""
    if not mutant.module.startswith("relations/"):
        return None
    before = ast.parse((HOUSE / mutant.module).read_text(encoding="utf-8"))
    pairs = zip(ast.walk(before), ast.walk(mutant.tree), strict=False)
    changed = [(a.value, b.value) for a, b in pairs if isinstance(a, ast.Constant) and isinstance(b, ast.Constant) and a.value != b.value]
    return changed[0] if len(changed) == 1 and all(isinstance(text, str) for text in changed[0]) else None
