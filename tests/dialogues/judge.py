"""Whether a conversation went as its author expected: one JSON object a line in the *.jsonl files beside this one.

    {"id", "theme", "turns": [{"say", "expect": [{"what", "value", "unit", "rtol"}], "must_ask", "must_refuse", "caution_words"}], "note"}

A turn holds when every expected figure is among the values or steps of its reply, a question came where one must, no figure was found
where one must be refused, and one of the caution words stands in a caution. Three kinds of figure do not count: one that was only said
in this very sentence, one of another kind (a percent is never a plain number), one `about` another ingredient of the conversation.

An expected figure with which this project disagrees carries `"disputed": "the reason"` and `"theirs": the author's figure`; `value` is then ours.

    python -m tests.dialogues.judge [--show N] [--theme WORD] [--only ID] [file ...]
"""

import argparse
import json
import re
import sys
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from assistant.reply import LONGEST_PIECE, Reply, Step, Value, breaches

FOLDER = Path(__file__).parent
DIGITS = re.compile(r"\d+(?:\.\d+)?")
SPELT = re.compile(
    r"\b(?:two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|(?:thir|four|fif|six|seven|eigh|nine)teen|twenty|thirty|forty|fifty|sixty"
    r"|seventy|eighty|ninety|hundred|thousand|half|dozen)\b",
    re.I,
)
# Words in "what" that name no ingredient, so that they tell no two figures apart.
NO_INGREDIENT = frozenset(
    "herb plant water spirit stock menstruum oil wax tincture dried fresh dry bottle jar tin dose part"
    " strength volume weight and of the in to".split()
)
# unit: (what it is in base terms, kind)
UNITS: Mapping[str, tuple[float, str]] = {
    "1": (1.0, "plain"), "drop": (1.0, "plain"), "%": (0.01, "percent"), "percent": (0.01, "percent"), "g": (1.0, "mass"), "kg": (1e3, "mass"),
    "mL": (1.0, "volume"), "L": (1e3, "volume"), "g/mL": (1.0, "mass per volume"), "mL/g": (1.0, "volume per mass"), "day": (1.0, "time"),
    "degC": (1.0, "temperature"),
}  # fmt: skip
CASE_KEYS = {"id", "theme", "turns", "note"}
TURN_KEYS = {"say", "expect", "must_ask", "must_refuse", "caution_words"}
EXPECT_KEYS = {"what", "value", "unit", "rtol"}

Talk = Callable[[str], Reply]


@dataclass(slots=True)
class Report:
    """What came of one file."""

    cases: int = 0
    held: int = 0
    turns: int = 0
    turns_held: int = 0
    crashes: list[str] = field(default_factory=list)
    dropped: list[str] = field(default_factory=list)
    unsound: list[str] = field(default_factory=list)
    misses: list[str] = field(default_factory=list)
    themes: dict[str, list[int]] = field(default_factory=dict)

    @property
    def share(self) -> float:
        return self.held / self.cases if self.cases else 0.0

    def __str__(self) -> str:
        return (
            f"{self.held}/{self.cases} dialogues hold ({self.share:.1%}), {self.turns_held}/{self.turns} turns, "
            f"{len(self.crashes)} crashes, {len(self.dropped)} numbers dropped, {len(self.unsound)} breaches of the contract"
        )


def read_cases(path: Path) -> list[dict[str, Any]]:
    """The cases of a file; fails on an empty file, an unknown key or unit, a dispute without reason, an id used twice."""
    cases = []
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        if not line.strip():
            continue
        case = json.loads(line)
        for fault in _faults(case):
            raise ValueError(f"{path.name}, line {number}: {fault}")
        cases.append(case)
    ids = [case["id"] for case in cases]
    if not cases or len(set(ids)) != len(ids):
        raise ValueError(f"{path.name}: " + ("an id is used twice" if cases else "no case in it"))
    return cases


def _faults(case: Mapping[str, Any]) -> Iterator[str]:
    if set(case) - CASE_KEYS or not case.get("turns"):
        yield f"unknown keys {sorted(set(case) - CASE_KEYS)} or no turns"
    for turn in case.get("turns", ()):
        if set(turn) - TURN_KEYS or not turn.get("say"):
            yield f"unknown keys {sorted(set(turn) - TURN_KEYS)} in a turn, or nothing said"
        for wanted in turn.get("expect") or ():
            if wanted.get("unit", "1") not in UNITS:
                yield f"unknown unit {wanted['unit']!r}"
            extra = set(wanted) - EXPECT_KEYS
            if extra and (extra != {"disputed", "theirs"} or not wanted["disputed"].strip() or wanted["theirs"] == wanted["value"]):
                yield "a disputed figure needs a reason and the author's own figure, and nothing else"


def run(cases: Iterable[Mapping[str, Any]], open_session: Callable[[], Any]) -> Report:
    """Speak every case to a fresh session."""
    report = Report()
    for case in cases:
        session, fine = open_session(), True
        words = set(re.findall(r"[a-z]+", " ".join(t["say"] for t in case["turns"]).lower()))
        for number, turn in enumerate(case["turns"], 1):
            at = f"{case['id']}.{number} {turn['say']!r}"
            report.turns += 1
            try:
                reply = session.say(turn["say"])
            except Exception as bug:  # noqa: BLE001 - counted apart, and a miss
                report.crashes.append(f"{at}\n      {type(bug).__name__}: {bug}")
                short = ["crashed"]
            else:
                short = list(shortfalls(turn, reply, words))
                report.dropped += [f"{at}\n      {number}" for number in dropped(turn["say"], reply)]
                report.unsound += [f"{at}\n      {breach}" for breach in breaches(reply)]
            report.turns_held += not short
            if short:
                fine = False
                report.misses.append(f"{at}\n      {'; '.join(short)}")
        report.cases += 1
        report.held += fine
        tally = report.themes.setdefault(case.get("theme", "?"), [0, 0])
        tally[0] += fine
        tally[1] += 1
    return report


def shortfalls(turn: Mapping[str, Any], reply: Reply, words: set[str]) -> Iterator[str]:
    """Why the turn falls short, a reason each; `words` are all words of the conversation."""
    just_said = set(DIGITS.findall(turn["say"].replace(",", "")))
    told = [v for v in reply.values if v.origin != "said" or f"{v.value or 0:g}" not in just_said]
    figures: list[Value | Step] = [*told, *reply.steps]
    for wanted in turn.get("expect") or ():
        if not any(is_wanted(wanted, figure, words) for figure in figures):
            yield f"no {wanted['value']:.6g} {wanted.get('unit', '')} ({wanted.get('what', '')})"
    if turn.get("must_ask") and not (reply.questions or reply.status in ("asking", "conflict")):
        yield "should ask"
    if turn.get("must_refuse"):
        if any(v.origin == "found" for v in reply.values):
            yield "should give no figure"
        has_number = DIGITS.search(turn["say"]) or SPELT.search(turn["say"])
        if reply.is_good or (reply.status == "not_understood" and has_number):
            yield "should refuse or ask"
    wished = turn.get("caution_words") or ()
    if wished:
        spoken = " ".join(c.text for c in reply.cautions) + (" " + reply.text if reply.status in ("refused", "asking", "conflict") else "")
        if not any(word.lower() in spoken.lower() for word in wished):
            yield f"no caution about {'/'.join(wished)}"


def is_wanted(wanted: Mapping[str, Any], figure: Value | Step, words: set[str]) -> bool:
    """Is this the wanted figure: same kind, near enough, and of no other ingredient of the conversation?"""
    if figure.value is None or figure.unit not in UNITS:
        return False
    whose = (set(re.findall(r"[a-z]+", wanted.get("what", "").lower())) & words) - NO_INGREDIENT
    about = set(re.findall(r"[a-z]+", figure.about.lower())) - NO_INGREDIENT
    if whose and about and about <= words and not whose & about:
        return False
    factor, kind = UNITS[wanted.get("unit", "1")]
    our_factor, our_kind = UNITS[figure.unit]
    aim = float(wanted["value"]) * factor
    return kind == our_kind and abs(aim - figure.value * our_factor) <= wanted.get("rtol", 0.005) * max(abs(aim), 1e-12) + 1e-9


def dropped(heard: str, reply: Reply) -> list[str]:
    """The numbers, in digits or spelt, passed over in silence: in no used piece, and not named in a question or a refusal."""
    spans = [(u.start, u.end) for u in reply.used if heard[u.start : u.end] == u.text and len(u.text) <= LONGEST_PIECE]
    spoken = " ".join(q.text for q in reply.questions).lower()
    if reply.status in ("refused", "not_understood", "conflict"):
        spoken += " " + reply.text.lower()
    numbers = [found for pattern in (DIGITS, SPELT) for found in pattern.finditer(heard)]
    return [n.group() for n in numbers if not any(a < n.end() and n.start() < b for a, b in spans) and n.group().lower() not in spoken]


def main() -> int:
    parser = argparse.ArgumentParser(description="Speak the dialogues and tell which hold.")
    parser.add_argument("files", nargs="*", type=Path)
    parser.add_argument("--show", type=int, default=15, help="how many misses to print")
    parser.add_argument("--theme", default="")
    parser.add_argument("--only", default="", help="the id of one case")
    asked = parser.parse_args()
    from assistant import Session

    for path in asked.files or sorted(FOLDER.glob("*.jsonl")):
        cases = [c for c in read_cases(path) if asked.theme in c.get("theme", "") and asked.only in ("", c["id"])]
        report = run(cases, Session)
        print("\n".join([*report.crashes, *report.dropped, *report.unsound, *report.misses][: asked.show]))
        print("\n".join(f"{held:4}/{all_:<4} {theme}" for theme, (held, all_) in sorted(report.themes.items())))
        print(f"{path.name}: {report}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
