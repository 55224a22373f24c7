"""The difference between two states of a conversation, as small as what was said.

A state is a tree of dicts with texts as keys; what hangs in it (texts, numbers, lists) is exchanged whole. Under “facts” the order
of the keys counts, since a batch tells its figures in the order they were said.

    cut    keys that are gone
    set    keys that are new or hold something else: they come last
    into   keys whose tree changed: a delta each
    order  the keys in order, only where it does not follow from the rest

>>> patched({"a": 1, "b": {"c": 2}}, difference({"a": 1, "b": {"c": 2}}, {"b": {"c": 3}, "d": 4}))
{'b': {'c': 3}, 'd': 4}
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from assistant.faults import FileFault

State = dict[str, Any]
DEEPEST = 12
ORDERED = "facts"


def difference(old: Mapping[str, Any], new: Mapping[str, Any], under: str = "") -> State:
    """What turns `old` into `new`; empty where they are the same."""
    delta: State = {}
    cut = [key for key in old if key not in new]
    into: State = {}
    fresh: State = {}
    for key, value in new.items():
        if key not in old:
            fresh[key] = value
        elif old[key] is value:
            continue
        elif isinstance(value, dict) and isinstance(old[key], dict):
            inner = difference(old[key], value, key)
            if inner:
                into[key] = inner
        elif not _same(old[key], value):
            fresh[key] = value
    if cut:
        delta["cut"] = cut
    if fresh:
        delta["set"] = fresh
    if into:
        delta["into"] = into
    order = [key for key in old if key not in fresh and key not in cut] + list(fresh)
    if under == ORDERED and order != list(new):
        delta["order"] = list(new)
    return delta


def _same(one: Any, other: Any) -> bool:
    """Equal, and of one kind, inside a list too: 1 is not True, 2 is not 2.0, 0.0 is not -0.0."""
    return one == other and repr(one) == repr(other)


def patched(old: Mapping[str, Any], delta: Mapping[str, Any], depth: int = 0) -> State:
    """`old` with a difference laid over it.

    fails   FileFault, where the difference does not fit: a book that was tampered with
    """
    if depth > DEEPEST or not isinstance(delta, dict) or delta.keys() - {"cut", "set", "into", "order"}:
        raise FileFault("a turn of the conversation cannot be read", try_this="begin a new conversation")
    cut, fresh, into, order = delta.get("cut", []), delta.get("set", {}), delta.get("into", {}), delta.get("order")
    if not isinstance(cut, list) or not isinstance(fresh, dict) or not isinstance(into, dict) or not isinstance(order, list | None):
        raise FileFault("a turn of the conversation cannot be read", try_this="begin a new conversation")
    new = {key: value for key, value in old.items() if key not in cut and key not in fresh}
    for key, inner in into.items():
        before = new.get(key)
        if not isinstance(before, dict):
            raise FileFault("a turn of the conversation does not fit the one before it", try_this="begin a new conversation")
        new[key] = patched(before, inner, depth + 1)
    new.update(fresh)
    if order is not None:
        if sorted(order, key=str) != sorted(new, key=str):
            raise FileFault("a turn of the conversation does not fit the one before it", try_this="begin a new conversation")
        new = {key: new[key] for key in order}
    return new
