"""Cases of tests/listening/items/*.txt: a sentence, and below it, indented, every island it holds, in order.

    two pints and 3 oz of dried sage
        two pints | amount | 946.353 mL | said 2 pint
        3 oz      | amount | 85.0486 g  | said 3 oz, or 88.7206

Fields after the value: `low..high`, `± x`, `said N unit` or `said unit`, `or x` (the other reading), `sides 1 5`, `word x`; a value that is
not one number is `-`. Lines before the islands may set the scene:

    as imperial            whose measures the person uses
    with decimal comma
    knowing menstruum sage the words known beforehand
    heard metruum → menstruum     the notes to expect
    words in a jar , …     the words and signs to expect besides the islands

A line that begins with "#" is a remark. An unknown line is an error with file and line.
"""

import re
from dataclasses import dataclass, field
from pathlib import Path

from assistant.listening.islands import Item, read
from assistant.listening.spelling import Lexicon
from assistant.listening.words import Habits

FOLDER = Path(__file__).with_name("items")
SLACK = 1e-5  # the files give six digits


@dataclass
class Case:
    place: str
    sentence: str
    habits: Habits = field(default_factory=Habits)
    notes: list[str] = field(default_factory=list)
    words: str | None = None
    islands: list[str] = field(default_factory=list)


def cases() -> list[Case]:
    """Every case of every file."""
    files = sorted(FOLDER.glob("*.txt"))
    if not files:
        raise AssertionError(f"no cases in {FOLDER}")
    return [case for file in files for case in read_cases(file.name, file.read_text(encoding="utf-8"))]


def read_cases(name: str, text: str) -> list[Case]:
    found: list[Case] = []
    for number, line in enumerate(text.splitlines(), 1):
        if not line.strip() or line.startswith("#"):
            continue
        if not line.startswith(" "):
            found.append(Case(f"{name}:{number}", line))
            continue
        case, said = found[-1], line.strip()
        opening = said.split(" ", 1)[0]
        if " | " in said:
            case.islands.append(said)
        elif opening == "as":
            case.habits = Habits(said[3:], case.habits.decimal_comma, case.habits.lexicon)
        elif said == "with decimal comma":
            case.habits = Habits(case.habits.measures, True, case.habits.lexicon)
        elif opening == "knowing":
            case.habits = Habits(case.habits.measures, case.habits.decimal_comma, Lexicon(said.split()[1:]))
        elif opening == "heard":
            case.notes.append(said[6:])
        elif opening == "words":
            case.words = said[6:]
        else:
            raise AssertionError(f"{name}, line {number}: cannot read {said!r}")
    return found


def islands_of(case: Case) -> list[Item]:
    return [item for item in read(case.sentence, case.habits).items if item.kind not in ("word", "punct")]


def misread(line: str, item: Item) -> list[str]:
    """What an item gets wrong of an island as written in a case; empty when all is right."""
    text, kind, value, *more = (piece.strip() for piece in line.split(" | "))
    wrong = [] if item.text == text else [f"text {item.text!r}, not {text!r}"]
    if item.kind != kind:
        wrong.append(f"kind {item.kind}, not {kind}")
    size, _, unit = value.partition(" ")
    if not _same(item.value, None if size == "-" else float(size)):
        wrong.append(f"value {item.value}, not {size}")
    if item.unit != unit:
        wrong.append(f"unit {item.unit!r}, not {unit!r}")
    expected = {"low": None, "high": None, "plus_minus": None, "alt": None, "word": ""}
    for extra in (piece.strip() for piece in ",".join(more).split(",") if piece.strip()):
        if ends := re.fullmatch(r"(\S+)\.\.(\S+)", extra):
            expected["low"], expected["high"] = float(ends[1]), float(ends[2])
        elif extra.startswith("± "):
            expected["plus_minus"] = float(extra[2:])
        elif said := re.fullmatch(r"said (-?[\d.]+(?:e\+\d+)?) ?(.*)", extra):
            if not _same(item.said, float(said[1])) or item.said_unit != said[2]:
                wrong.append(f"said {item.said} {item.said_unit!r}, not {extra!r}")
        elif extra.startswith("said "):
            if item.said_unit != extra[5:]:
                wrong.append(f"said_unit {item.said_unit!r}, not {extra[5:]!r}")
        elif extra.startswith("or "):
            expected["alt"] = float(extra[3:])
        elif extra.startswith("sides "):
            expected["alt"] = tuple(float(side) for side in extra[6:].split())
        elif extra.startswith("word "):
            expected["word"] = extra[5:]
        else:
            raise AssertionError(f"cannot read {extra!r} in {line!r}")
    for name, wanted in expected.items():
        got = getattr(item, name)
        if name == "alt" and item.kind == "per":
            continue
        if not _same(got, wanted):
            wrong.append(f"{name} {got}, not {wanted}")
    return wrong


def _same(got: object, wanted: object) -> bool:
    if isinstance(got, tuple) and isinstance(wanted, tuple):
        return len(got) == len(wanted) and all(_same(one, other) for one, other in zip(got, wanted, strict=True))
    if isinstance(got, (int, float)) and isinstance(wanted, (int, float)):
        return abs(got - wanted) <= SLACK * max(abs(got), abs(wanted))
    return got == wanted
