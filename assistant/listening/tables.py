"""Works out the tables of the grammar of islands with lark, and writes them down: `python -m assistant.listening.tables`.

The only place of this room that asks lark, and only when there is something to work out; the reader walks what is written here (walking.py).
"""

from __future__ import annotations

import json
import zlib
from pathlib import Path
from typing import TYPE_CHECKING, Any

from assistant.places import grammar_file, grammar_folder

if TYPE_CHECKING:
    from lark import Lark

START = "island"
PARTS = ("bench.lark", "numbers.lark")
TABLES = "bench.tables.json"


def fingerprint() -> str:
    """What the tables are made of: the grammar's text."""
    text = "\n".join(grammar_file(part).read_text(encoding="utf-8") for part in PARTS)
    return f"{zlib.crc32(text.encode()):08x}"


def build(**choices: Any) -> Lark:
    """lark's own parser of the grammar's text; the choices are lark's."""
    from lark import Lark

    place = grammar_file(PARTS[0])
    # Words are cut by words.py and handed in one by one: the terminals have no patterns and lark's own lexer stays idle.
    return Lark(place.read_text(encoding="utf-8"), start=START, parser="lalr", lexer="basic", import_paths=[str(place.parent)], **choices)


def worked_out() -> dict[str, Any]:
    """The tables as walking.py reads them.

    Rules and states are numbered in an order of their own, since lark's changes from run to run: rules by what they say, states as they
    are reached from the first.
    """
    parser: Any = build().parser.parser
    found = parser._parse_table
    rows, start = found.states, found.start_states[START]
    rules = sorted({does for row in rows.values() for _, does in row.values() if not isinstance(does, int)}, key=_written)
    numbers, states, waiting = {rule: number for number, rule in enumerate(rules)}, {start: 0}, [start]
    for state in waiting:  # grows while it is gone through
        for _, (_, goal) in sorted(rows[state].items()):
            if isinstance(goal, int) and goal not in states:
                states[goal] = len(states)
                waiting.append(goal)
    written = [{word: _step(does, numbers, states) for word, (_, does) in sorted(rows[state].items())} for state in waiting]
    return {"made_of": fingerprint(), "goal": states[found.end_states[START]], "rules": [_as_kept(rule) for rule in rules], "rows": written}


def _step(does: Any, numbers: dict[Any, int], states: dict[int, int]) -> int:
    return states[does] if isinstance(does, int) else -1 - numbers[does]


def _written(rule: Any) -> str:
    return json.dumps([rule.origin.name, rule.alias, [part.name for part in rule.expansion]])


def _as_kept(rule: Any) -> list[Any]:
    """What lark's builder of trees does with the parts of a rule: drops unnamed words, opens what is named with a leading _."""
    assert rule.expansion, "a rule of nothing has no place in the grammar of islands"
    assert not any(rule.options.empty_indices), "nor has [what may be left out]"
    kept = [
        [number, not part.is_term and part.name.startswith("_")]
        for number, part in enumerate(rule.expansion)
        if rule.options.keep_all_tokens or not (part.is_term and part.filter_out)
    ]
    as_they_are = kept == [[number, False] for number in range(len(rule.expansion))]
    name = rule.alias or rule.options.template_source or rule.origin.name
    return [rule.origin.name, len(rule.expansion), str(name), None if as_they_are else kept, bool(rule.options.expand1 and not rule.alias)]


def tables_text() -> str:
    """The text of the tables file for the grammar as it stands."""
    return json.dumps(worked_out(), separators=(",", ":"), sort_keys=True) + "\n"


def write(place: Path) -> None:
    """Write the tables file."""
    place.write_text(tables_text(), encoding="utf-8")


if __name__ == "__main__":
    write(grammar_folder() / TABLES)
