"""Patterns compiled when they are first looked with, not when their room is loaded: a sentence needs about one in seven, and compiling is dear."""

from __future__ import annotations

import re
from typing import Any, cast

METHODS = ("search", "match", "fullmatch", "finditer", "findall", "split", "sub", "subn", "pattern", "groups", "groupindex")


class _Pattern:
    """Stands for a compiled pattern until one of its methods is asked for; from then on it has them all."""

    def __init__(self, source: str, flags: int) -> None:
        self.source, self.flags = source, flags

    def __getattr__(self, name: str) -> Any:
        if name not in METHODS:
            raise AttributeError(name)
        made = re.compile(self.source, self.flags)
        for method in METHODS:
            setattr(self, method, getattr(made, method))
        return getattr(made, name)


def looked_for(source: str, flags: int = 0) -> re.Pattern[str]:
    """As `re.compile` of a text, later; a source that is no pattern fails when it is first looked with.

    >>> looked_for(r"a+").search("caat").group()
    'aa'
    """
    return cast("re.Pattern[str]", _Pattern(source, flags))
