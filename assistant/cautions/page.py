"""The page for people who write rules: rules/how_to.txt, and below it everything a rule can say."""

from __future__ import annotations

import re
from collections.abc import Iterable

from assistant.cautions.meaning import UNITS, quantity_names
from assistant.cautions.plant_reading import FLAGS, KINDS
from assistant.places import rules_file
from assistant.tagtable import tag_table

WIDTH = 100
_SAYABLE = re.compile(r"(?!.*\b(?:and|or|not|is)\b)[a-z][a-z' -]*[a-z]")  # the words that join claims cannot stand inside a name


def page() -> str:
    """How to write a rule, and the lists of claims, flags, parts, units and figures."""
    from assistant.quantities.vocabulary import VOCABULARY

    text = rules_file("how_to.txt").read_text(encoding="utf-8").split("\n", 1)[1].strip()
    claims = sorted(tag.phrase for tag in tag_table().tags.values())
    lists = (
        ("What can be said of a batch", claims),
        ("Flags of plants", FLAGS),
        ("Parts", KINDS),
        ("Units", [unit for unit in UNITS if unit]),
        ("Figures", sorted(name for name in quantity_names(VOCABULARY) if _SAYABLE.fullmatch(name))),
    )
    return "\n\n".join([text, *(f"{title}\n{_columns(words)}" for title, words in lists)])


def _columns(words: Iterable[str]) -> str:
    """The words separated by semicolons, in lines of WIDTH characters at most."""
    lines = ["  "]
    for word in words:
        piece = word + ";  "
        if len(lines[-1]) + len(piece) > WIDTH and lines[-1].strip():
            lines.append("  ")
        lines[-1] += piece
    return "\n".join(line.rstrip() for line in lines).rstrip(";")
