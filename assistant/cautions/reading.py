"""The text of a rules file → rules; every fault told with file, line, column and the nearest known name.

The file is cut where a line begins with "rule", so that one faulty rule hides no other. The only importer of lark in this room, and only
inside a function: the shipped rules come from the ready file and need no parser.

A file of a person's own is outside input: its size, the length of its texts and the depth of its conditions are bounded, and nothing is run.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from assistant.cautions.conditions import And, Compare, Condition, Not, Or
from assistant.cautions.fault import Fault, nearest
from assistant.cautions.meaning import Meaning, Unmeant
from assistant.cautions.rules import EVIDENCE, LEVELS, Rule
from assistant.dataclass import dataclass
from assistant.places import grammar_file

if TYPE_CHECKING:
    from lark import Lark

LONGEST_FILE = 1_000_000  # characters
LONGEST_RULE = 20_000
LONGEST_TEXT = 800
DEEPEST = 12  # "not" and parentheses inside each other
NEVER_STOPS = ("keeping", "strength", "plant water", "measuring", "gathering", "vessels")
_NAME = re.compile(r"[a-z][a-z0-9]*(?:-[a-z0-9]+)*\Z")
_PLACE = re.compile(r"\{([^{}]*)\}")
_TEXT = re.compile(r'"[^"]*"?')
_SWALLOWED = re.compile(r"\n\s*(?:when|unless|say|asks|why|source|fires\s+on|silent\s+on)\b")
_HOSTILE = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]")
_MOST_HOPES = 4  # a longer list helps nobody
_LIKELY = ('"is"', '"and"', '"say"', "a text in quotation marks")
_SPOKEN = {  # what a terminal is called when it is missed
    "RULE": '"rule"', "WORD": "a word", "STRING": "a text in quotation marks", "NUMBER": "a number", "_THEME": '"theme:"', "_LEVEL": '"level:"',
    "WHEN": '"when"', "UNLESS": '"unless"', "SAY": '"say"', "ASKS": '"asks"', "WHY": '"why"', "SOURCE": '"source"', "_FIRES": '"fires on"',
    "_SILENT": '"silent on"', "IS": '"is"', "AND": '"and"', "OR": '"or"', "RPAR": '")"', "LPAR": '"("', "COMMA": "a comma",
    "LIMIT": '"under" or "over"', "_PRACTISING": '"practising:"',
}  # fmt: skip


def read_rules(text: str, file: str, meaning: Meaning) -> tuple[list[Rule], list[Fault]]:
    """The sound rules of a text, in order, and all faults. Never fails."""
    if len(text) > LONGEST_FILE:
        return [], [Fault(f"the file is longer than {LONGEST_FILE} characters", file, try_this="split it")]
    hostile = _HOSTILE.search(text)
    if hostile:
        line = text.count("\n", 0, hostile.start()) + 1
        return [], [Fault("a control character stands in the text", file, line, hostile.start() - text.rfind("\n", 0, hostile.start()))]
    rules: list[Rule] = []
    faults: list[Fault] = []
    for block, first in _blocks(text, file, faults):
        told = _Told(file, first)
        rule = _read(block, told, meaning)
        faults.extend(told.faults)
        if rule and not told.faults:
            rules.append(rule)
    return rules, faults


@dataclass
class _Told:
    """Collects the faults of one rule; lines are counted from the rule's own first line."""

    file: str
    first: int

    def __post_init__(self) -> None:
        self.faults: list[Fault] = []

    def tell(self, what: str, line: int = 1, column: int = 1, near: tuple[str, ...] = (), try_this: str = "") -> None:
        self.faults.append(Fault(what, self.file, self.first + line - 1, column, near=near, try_this=try_this))


def _blocks(text: str, file: str, faults: list[Fault]) -> Iterator[tuple[str, int]]:
    lines = text.split("\n")
    starts = [n for n, line in enumerate(lines) if re.match(r"rule\b", line)]
    for n, line in enumerate(lines[: starts[0] if starts else len(lines)]):
        if line.strip() and not line.lstrip().startswith("#"):
            faults.append(Fault("this stands before the first rule", file, n + 1, 1, try_this='begin a rule with the word "rule" at the start of a line'))
            break
    for start, end in pairwise([*starts, len(lines)]):
        block = "\n".join(lines[start:end])
        if len(block) > LONGEST_RULE:
            faults.append(Fault(f"the rule is longer than {LONGEST_RULE} characters", file, start + 1, 1))
        else:
            yield block, start + 1


@lru_cache(maxsize=1)
def _parser() -> Lark:
    from lark import Lark

    grammar = grammar_file("rules.lark").read_text(encoding="utf-8")
    return Lark(grammar, parser="lalr", propagate_positions=True, maybe_placeholders=False)


def _read(block: str, told: _Told, meaning: Meaning) -> Rule | None:
    from lark import UnexpectedInput

    try:
        tree: Any = _parser().parse(block)
    except UnexpectedInput as error:
        _tell_stuck(error, block, told)
        return None
    return _Reader(told, meaning).rule(tree)


def _tell_stuck(error: Any, block: str, told: _Told) -> None:
    for text in _TEXT.finditer(block):
        if _SWALLOWED.search(text[0]):  # a closing mark was forgotten, and the text runs on into the next line's
            line = block.count("\n", 0, text.start()) + 1
            told.tell("a text is not closed", line, text.start() - block.rfind("\n", 0, text.start()), try_this='end it with a quotation mark "')
            return
    token = getattr(error, "token", None)
    wanted = sorted({_SPOKEN[name] for name in (getattr(error, "expected", None) or getattr(error, "allowed", None) or ()) if name in _SPOKEN})
    wanted = wanted if len(wanted) <= _MOST_HOPES else [hope for hope in wanted if hope in _LIKELY] or wanted[:_MOST_HOPES]
    hoped = f"expected {', '.join(wanted[:-1])} or {wanted[-1]}" if len(wanted) > 1 else f"expected {wanted[0]}" if wanted else "cannot be read"
    if token is not None and token.type == "$END":
        last = block.rstrip().split("\n")
        told.tell(f"the rule ends too early: {hoped}", len(last), len(last[-1]) + 1)
        return
    line, column = max(error.line, 1), max(error.column, 1)
    if token is not None:
        told.tell(f'{hoped} before "{str(token)[:40]}"', line, column)
        return
    piece = block.split("\n")[line - 1][column - 1 :].split(" ")[0][:40]
    if piece.startswith('"'):
        told.tell("a text is not closed", line, column, try_this='end it with a quotation mark "')
    else:
        told.tell(f'"{piece}" cannot stand here: {hoped}', line, column)


class _Reader:
    """One parsed rule → Rule; tells what is missing or means nothing."""

    def __init__(self, told: _Told, meaning: Meaning) -> None:
        self.told = told
        self.meaning = meaning

    def rule(self, tree: Any) -> Rule | None:
        name = tree.children[0]
        got: dict[str, Any] = {}
        for item in tree.children[1:]:
            if item.data in got:
                self.told.tell(f'"{self._spoken(item.data)}" stands twice', item.meta.line, item.meta.column)
            got[item.data] = item
        ident = str(name.children[0])
        if not _NAME.match(ident) or len(ident) > 60:
            self.told.tell(f'"{ident}" cannot be the name of a rule', name.meta.line, name.meta.column, try_this="small letters and hyphens: weak-to-keep")
        for piece in ("theme", "level", "when", "say", "why", "source", "fires", "silent"):
            if piece not in got:
                self.told.tell(f'"{self._spoken(piece)}" is missing in the rule {ident}', 1, 1)
        if self.told.faults:
            return None
        theme = self._words(got["theme"].children[0])
        level, practising = self._level(got["level"])
        if level == "stop" and theme in NEVER_STOPS:
            self.told.tell(f"a {theme} rule is never a stop", got["level"].meta.line, got["level"].meta.column, try_this="level: warn")
        when = self._condition(got["when"].children[0], 0)
        unless = self._condition(got["unless"].children[0], 0) if "unless" in got else None
        rule = Rule(
            id=ident,
            theme=theme,
            level=level,
            when=when,
            unless=unless,
            say=self._text(got["say"], places=True),
            asks=self._text(got["asks"], places=True) if "asks" in got else "",
            why=self._text(got["why"]),
            sources=tuple(s for origin in got["source"].children if (s := self._origin(origin))),
            fires_on=tuple(self._string(s) for s in got["fires"].children),
            silent_on=tuple(self._string(s) for s in got["silent"].children),
            practising=practising,
            file=self.told.file,
            line=self.told.first,
        )
        if rule.asks and not isinstance(when, And):
            self.told.tell("a rule that asks needs two claims joined by and", got["asks"].meta.line, got["asks"].meta.column)
        impossible = never_holds(when)
        if impossible:
            self.told.tell(f"the rule can never speak: {impossible}", got["when"].meta.line, got["when"].meta.column)
        if not self.told.faults and not _PLACE.sub("", rule.say).strip():
            self.told.tell("nothing is said", got["say"].meta.line, got["say"].meta.column)
        return None if self.told.faults else rule

    def _level(self, node: Any) -> tuple[str, str]:
        level = self._words(node.children[0])
        practising = self._words(node.children[1].children[0]) if len(node.children) > 1 else ""
        for word in (level, practising):
            if word and word not in LEVELS:
                self.told.tell(f'"{word}" is not a level', node.meta.line, node.meta.column, nearest(word, LEVELS), "one of stop, warn, note")
        return level, practising

    def _condition(self, node: Any, depth: int) -> Condition:
        if depth > DEEPEST:
            self.told.tell("the condition is nested too deep", node.meta.line, node.meta.column, try_this="write two rules")
            return Or(())
        if node.data in ("every", "either"):
            parts: list[Condition] = []
            for child in node.children:
                part = self._condition(child, depth + 1)
                # "a and (b and c)" is one row of claims.
                parts.extend(part.parts if isinstance(part, And) and node.data == "every" else (part,))
            return And(tuple(parts)) if node.data == "every" else Or(tuple(parts))
        if node.data == "opposite":
            return Not(self._condition(node.children[0], depth + 1))
        try:
            return self._claim(node)
        except Unmeant as unmeant:
            self.told.tell(unmeant.what, node.meta.line, node.meta.column, unmeant.near, unmeant.try_this)
            return Or(())

    def _claim(self, node: Any) -> Condition:
        first = self._words(node.children[0])
        if node.data == "plain":
            return self.meaning.plain(first)
        if node.data == "is_so":
            return self.meaning.is_so(first, self._words(node.children[1]))
        if node.data == "one_of":
            return self.meaning.one_of(first, [self._words(child) for child in node.children[1:]])
        if node.data == "stronger":
            how = "under" if str(node.children[1]).startswith("stronger") else "over"
            return self.meaning.compared(first, how, float(node.children[2]), "")
        how = " ".join(str(node.children[1]).split())
        if node.data == "against":
            return self.meaning.against(first, how, self._words(node.children[2]))
        measure = node.children[2]
        unit = measure.children[1].children[0] if len(measure.children) > 1 else ""
        return self.meaning.compared(first, how, float(measure.children[0]), unit if isinstance(unit, str) else self._words(unit))

    def _origin(self, node: Any) -> tuple[str, str, str] | None:
        words, string, evidence = "", "", ""
        for child in node.children:
            if getattr(child, "data", "") == "words":
                words = self._words(child)
            elif getattr(child, "data", "") == "evidence":
                evidence = self._words(child.children[0])
            else:
                string = self._string(child)
        if words == "common practice":
            evidence = evidence or "common practice"
        if evidence not in EVIDENCE:
            what = f'"{evidence}" is no evidence' if evidence else "a source needs its evidence"
            self.told.tell(what, node.meta.line, node.meta.column, nearest(evidence, EVIDENCE), "(read), (memory) or (common practice) after it")
            return None
        if words and words != "common practice":
            try:
                self.meaning.source(words)
            except Unmeant as unmeant:
                self.told.tell(unmeant.what, node.meta.line, node.meta.column, unmeant.near, unmeant.try_this)
                return None
        return (words, string, evidence) if words else (string, "", evidence)

    def _text(self, node: Any, places: bool = False) -> str:
        token = node.children[0]
        text = self._string(token)
        if not places:
            return text
        for words in {hit[1] for hit in _PLACE.finditer(text)}:
            try:
                text = text.replace(f"{{{words}}}", f"{{{self.meaning.place(words)}}}")
            except Unmeant as unmeant:
                self.told.tell(unmeant.what, token.line, token.column, unmeant.near)
        return text

    def _string(self, token: Any) -> str:
        text = " ".join(str(token)[1:-1].split())
        if not text or len(text) > LONGEST_TEXT:
            self.told.tell(f"a text must hold 1 to {LONGEST_TEXT} characters", token.line, token.column)
        return text

    @staticmethod
    def _words(node: Any) -> str:
        return " ".join(str(token) for token in node.children)

    @staticmethod
    def _spoken(item: str) -> str:
        return {"fires": "fires on", "silent": "silent on"}.get(item, item)


def never_holds(condition: Condition) -> str:
    """Why no batch can meet a condition (a figure under 20 and over 25 at once); empty where one may."""
    if isinstance(condition, Or):
        reasons = [never_holds(part) for part in condition.parts]
        return reasons[0] if reasons and all(reasons) else ""
    if not isinstance(condition, And):
        return ""
    low: dict[str, float] = {}
    high: dict[str, float] = {}
    for part in condition.parts:
        if isinstance(part, Compare):
            if part.how in ("over", "at least"):
                low[part.name] = max(low.get(part.name, part.limit), part.limit)
            elif part.how in ("under", "at most"):
                high[part.name] = min(high.get(part.name, part.limit), part.limit)
    for name in low.keys() & high.keys():
        if low[name] >= high[name]:
            return f"{name.replace('_', ' ')} cannot be over {low[name]:g} and under {high[name]:g}"
    opposites = {part.part for part in condition.parts if isinstance(part, Not)}
    for part in condition.parts:
        if part in opposites:
            return "a claim stands beside its own opposite"
        reason = never_holds(part)
        if reason:
            return reason
    return ""
