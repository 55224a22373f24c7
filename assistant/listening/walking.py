"""The grammar of islands as the reader walks it: ready tables of shifts and reductions, and a step for each word.

They are walked here in plain Python, so that the first sentence waits neither for lark to load nor for the tables to be worked out.
A test holds this walk against lark's own. Where the tables come from: kept_tables.py.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, NamedTuple

from assistant.listening.tokens import Token

END = "$END"

Callbacks = Mapping[str, Callable[[list[Any]], Any]]


class Node:
    """A stretch of words that a rule was found in: the rule's name, and its parts in order."""

    __slots__ = ("children", "data")

    def __init__(self, data: str, children: list[Any]) -> None:
        self.data = data
        self.children = children


class Rule(NamedTuple):
    """A rule that was found: whose part it is, how many parts it has, and what becomes of them.

    kept    the parts handed on, each with whether its own parts take its place; None: all as they are
    single  a lone part stands for the whole
    """

    origin: str
    size: int
    make: Callable[[list[Any]], Any]
    kept: list[tuple[int, bool]] | None
    single: bool


class Tables:
    """What to do in each state at each word: a number from 0 is the state to go to, below it the rule to take (-1 is the first)."""

    def __init__(self, kept: Mapping[str, Any], callbacks: Callbacks) -> None:
        self.rows: list[dict[str, int]] = kept["rows"]
        self.goal: int = kept["goal"]  # the state in which a whole island stands behind the walker
        self.first_words = frozenset(name for name in self.rows[0] if name.isupper())
        self.rules = [_rule(callbacks, *fields) for fields in kept["rules"]]

    def walk(self) -> Walk:
        return Walk(self, [0], [])


class Walk:
    """One way through the tables, a word at a time."""

    __slots__ = ("parts", "states", "tables")

    def __init__(self, tables: Tables, states: list[int], parts: list[Any]) -> None:
        self.tables = tables
        self.states = states
        self.parts = parts

    def copy(self) -> Walk:
        return Walk(self.tables, self.states[:], self.parts[:])

    def may_take(self, word: str) -> bool:
        """Whether the tables have a way on at this word; it may yet be lost when parts are put together."""
        return word in self.tables.rows[self.states[-1]]

    def take(self, token: Token) -> bool:
        """Go over a word; False where there is no way on, and this walk has then ended."""
        rows = self.tables.rows
        while (step := rows[self.states[-1]].get(token.type)) is not None:
            if step >= 0:
                self.states.append(step)
                self.parts.append(token)
                return True
            self._reduce(step)
        return False

    def finish(self) -> Any:
        """What the words so far are together, or None where they are no whole island."""
        rows, goal = self.tables.rows, self.tables.goal
        while (step := rows[self.states[-1]].get(END)) is not None and step < 0:
            self._reduce(step)
            if self.states[-1] == goal:
                return self.parts[-1]
        return None

    def _reduce(self, step: int) -> None:
        origin, size, make, kept, single = self.tables.rules[-1 - step]
        states, parts = self.states, self.parts
        children = parts[-size:]
        del states[-size:], parts[-size:]
        if kept is not None:
            handed: list[Any] = []
            for number, inside in kept:
                if inside:
                    handed += children[number].children
                else:
                    handed.append(children[number])
            children = handed
        parts.append(children[0] if single and len(children) == 1 else make(children))
        states.append(self.tables.rows[states[-1]][origin])


def _rule(callbacks: Callbacks, origin: str, size: int, name: str, kept: list[tuple[int, bool]] | None, single: bool) -> Rule:
    make = callbacks.get(name) or (lambda children: Node(name, children))
    return Rule(origin, size, make, kept, single)
