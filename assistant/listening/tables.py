"""The grammar of islands made ready: its parse tables, kept beside it so that the first sentence need not wait for them.

Working out the tables of bench.lark takes some fifteen times as long as reading them back. They stand in
grammar/bench.tables.json, made by `python -m assistant.listening.tables`; a change of the grammar (or another release of
lark) is noticed by a checksum, and the tables are then worked out anew in memory, so a stale file costs time but never a
wrong reading. A test holds the file against the grammar.
"""

from __future__ import annotations

import json
import zlib
from pathlib import Path
from typing import Any

import lark
from lark import Lark
from lark.grammar import Rule
from lark.lexer import TerminalDef

from assistant.places import grammar_file, grammar_folder

START = "island"
PARTS = ("bench.lark", "numbers.lark")
TABLES = "bench.tables.json"


def bench_grammar(transformer: Any) -> Lark:
    """The parser of islands, with `transformer` as its callbacks: from the kept tables where they are fresh, else worked out.

    fails   HouseFault, naming the file, when the grammar itself is missing
    """
    place = grammar_folder() / TABLES
    if place.is_file():
        kept = json.loads(place.read_text(encoding="utf-8"))
        if kept.pop("made_of", None) == fingerprint():
            # Lark.load takes no callbacks; this is what lark's own generated parsers call. The checksum pins the release.
            made: Lark = Lark._load_from_dict(**_with_numbers_as_keys(kept), transformer=transformer)  # type: ignore[no-untyped-call]
            return made
    return build(transformer)


def build(transformer: Any = None) -> Lark:
    """The parser worked out from the grammar's text."""
    place = grammar_file(PARTS[0])
    # Words are cut by words.py and handed in one by one: the terminals have no patterns and lark's own lexer stays idle.
    return Lark(place.read_text(encoding="utf-8"), start=START, parser="lalr", lexer="basic", transformer=transformer, import_paths=[str(place.parent)])


def fingerprint() -> str:
    """What the tables are made of: the grammar's text and lark's release."""
    text = "\n".join(grammar_file(part).read_text(encoding="utf-8") for part in PARTS)
    return f"lark {lark.__version__}, {zlib.crc32(text.encode()):08x}"


def tables_text() -> str:
    """The text of the tables file for the grammar as it stands."""
    data, memo = build().memo_serialize([TerminalDef, Rule])
    data["options"]["import_paths"] = []  # a path of this machine
    data, memo = _renumbered(data, memo)
    return json.dumps({"made_of": fingerprint(), "data": data, "memo": memo}, separators=(",", ":"), sort_keys=True) + "\n"


def _renumbered(data: dict[str, Any], memo: dict[int, Any]) -> tuple[dict[str, Any], dict[int, Any]]:
    """The same tables with rules, words and states numbered in an order of their own: lark's changes from run to run."""
    by_text = sorted(memo, key=lambda number: json.dumps(memo[number], sort_keys=True))
    rules = {old: new for new, old in enumerate(by_text)}
    parser = data["parser"]["parser"]
    names, rows = parser["tokens"], parser["states"]
    words = {old: new for new, old in enumerate(sorted(names, key=lambda number: str(names[number])))}
    states: dict[int, int] = {}
    waiting = [parser["start_states"][START]]
    while waiting:
        state = waiting.pop(0)
        if state not in states:
            states[state] = len(states)
            steps = sorted(rows[state].items(), key=lambda step: words[step[0]])
            waiting += [goal for _, (reduces, goal) in steps if not reduces]

    def step(does: tuple[int, Any]) -> list[Any]:
        reduces, goal = does
        return [reduces, {"@": rules[goal["@"]]} if reduces else states[goal]]

    def numbered(listed: list[dict[str, int]]) -> list[dict[str, int]]:
        return sorted(({"@": rules[entry["@"]]} for entry in listed), key=lambda entry: entry["@"])

    parser["tokens"] = {words[old]: str(name) for old, name in names.items()}
    parser["states"] = {states[old]: {words[token]: step(does) for token, does in row.items()} for old, row in rows.items() if old in states}
    for ends in ("start_states", "end_states"):
        parser[ends] = {rule: states[state] for rule, state in parser[ends].items()}
    data["rules"] = numbered(data["rules"])
    data["parser"]["parser_conf"]["rules"] = numbered(data["parser"]["parser_conf"]["rules"])
    return data, {rules[old]: rule for old, rule in memo.items()}


def _with_numbers_as_keys(kept: dict[str, Any]) -> dict[str, Any]:
    """JSON turns the numbers that name states into text; this turns them back."""
    tables = kept["data"]["parser"]["parser"]
    tables["tokens"] = {int(number): name for number, name in tables["tokens"].items()}
    tables["states"] = {int(state): {int(token): does for token, does in row.items()} for state, row in tables["states"].items()}
    kept["memo"] = {int(number): rule for number, rule in kept["memo"].items()}
    return kept


def write(place: Path) -> None:
    """Write the tables file."""
    place.write_text(tables_text(), encoding="utf-8")


if __name__ == "__main__":
    write(grammar_folder() / TABLES)
