"""Every relation on its own against figures worked out on paper (by_hand.txt and by_hand_further.txt)."""

import re
from pathlib import Path

import pytest

from assistant.matter.functions import FUNCTIONS
from assistant.quantities.vocabulary import bracket
from assistant.relations import RELATIONS
from assistant.relations.craft import OIML, balance, practice
from assistant.solving import Known, solve

ROW = re.compile(r"(?P<name>[^:]+): (?P<known>.+) -> (?P<key>[\w\[\]]+) (?P<how>=|about) (?P<value>[\d.]+)")
FILES = ("by_hand.txt", "by_hand_further.txt")
BY_NAME = {relation.name: relation for relation in RELATIONS}
MEMBERS = ("a", "b")


def rows():
    for file in FILES:
        for line in Path(__file__).with_name(file).read_text(encoding="utf-8").splitlines():
            if line and not line.startswith("#"):
                row = ROW.fullmatch(line)
                assert row, line
                yield row


ROWS = list(rows())


def known_of(text):
    return {key: float(value) for key, value in (part.split(" = ") for part in text.split(", "))}


def members_of(row):
    return tuple(member for member in MEMBERS if f"[{member}]" in row["known"])


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["name"])
def test_what_follows_is_what_follows_on_paper(row):
    relation, known, value = BY_NAME[row["name"]], known_of(row["known"]), float(row["value"])
    solution = solve({key: Known(given) for key, given in known.items()}, (relation,), members_of(row), FUNCTIONS, bracket)
    assert not solution.conflicts
    assert solution.value(row["key"]) == pytest.approx(value, rel=1e-8 if row["how"] == "=" else 2e-5)


@pytest.mark.parametrize("row", [row for row in ROWS if "floor" not in BY_NAME[row["name"]].equation and "ceil" not in BY_NAME[row["name"]].equation])
def test_each_known_figure_comes_back_out_of_the_others(row):
    relation, known, value = BY_NAME[row["name"]], known_of(row["known"]), float(row["value"])
    for wanted, true in known.items():
        given = {key: other for key, other in known.items() if key != wanted} | {row["key"]: value}
        solution = solve({key: Known(other) for key, other in given.items()}, (relation,), members_of(row), FUNCTIONS, bracket)
        assert solution.value(wanted) == pytest.approx(true, rel=1e-6 if row["how"] == "=" else 2e-3)


def test_every_relation_that_reckons_stands_on_paper_once():
    reckoning = [r.name for r in RELATIONS if re.search(r" [-+*/] |\b\d", r.equation) or "(" in r.equation]
    named = [row["name"] for row in ROWS]
    assert len(named) == len(set(named))
    assert set(named) <= set(BY_NAME)
    without = ["true strength"]  # its figures are those of published tables: tests/published/test_density.py, tests/matter/test_ethanol.py
    only_sums = [r.name for r in RELATIONS if re.fullmatch(r"\w+ = sum\(\w+\[i\]\)", r.equation)]
    assert set(reckoning) - set(named) - set(without) - set(only_sums) == set()


def test_what_is_read_in_the_tables_says_so():
    assert balance("n", "a = b", "s", "x !y", OIML).evidence == "read"
    assert balance("n", "a = b", "s").evidence == "common practice"
    made = practice("n", "a = b", "s", "x !y")
    assert (made.name, made.equation, made.says, made.evidence, made.when) == ("n", "a = b", "s", "common practice", frozenset({"x", "!y"}))
    assert all(relation.evidence == ("read" if relation.source == OIML else relation.evidence) for relation in RELATIONS)


@pytest.mark.parametrize(
    ("when", "tags", "applies"),
    [
        ("", "", True),
        ("", "x", True),
        ("x", "x", True),
        ("x", "", False),
        ("x y", "x", False),
        ("x y", "x y z", True),
        ("!x", "", True),
        ("!x", "x", False),
        ("!x", "xx", True),
        ("x !y", "x", True),
        ("x !y", "x y", False),
    ],
)
def test_a_relation_applies_where_its_tags_are_and_the_others_are_not(when, tags, applies):
    assert practice("n", "a = b", "s", when).applies(set(tags.split())) is applies
