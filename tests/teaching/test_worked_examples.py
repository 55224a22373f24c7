"""The schoolroom on the books' own worked examples: each figure that the bench shares with a book has a working that comes to it and is called
right as it is printed; and what a book gets by leaving something out is named by just that.

The figures, their sources and tolerances are those of tests/published; nothing is stated twice here.
"""

from importlib import import_module

import pytest

from assistant.relations import RELATIONS
from assistant.solving import Known
from assistant.teaching.case import Case
from assistant.teaching.mistakes import diagnose, is_right
from assistant.teaching.working import worked
from tests.published import bench
from tests.published.reading import FOLDER, read
from tests.teaching.reckoning import sides

TOPICS = ("alligation", "arithmetic", "children", "dilution", "drops", "drying", "fresh_plant", "gathering", "proof", "syrup", "tinctures")
BENCH = 0.5  # percent: what a figure may lie off and be right at the bench


def case_of(tags, known, members):
    relations = tuple(r for r in RELATIONS if r.applies(frozenset(tags.split())))
    return Case({key: Known(float(value)) for key, value in known.items()}, relations, members)


def taught():
    """(topic, check, key, case) of every worked example that is one figure of the relations."""
    for topic in TOPICS:
        room = import_module(f"tests.published.test_{topic}")
        for check in read(FOLDER / f"{topic}.toml"):
            seen = []

            def heard(wanted, tags, known, members=(), seen=seen):
                seen.append((wanted, case_of(tags, known, members)))
                return bench.found(wanted, tags, known, members)

            if "found" not in vars(room) or check.asks not in room.ANSWERS or check.kind != "each" or len(check.printed) != 1:
                continue
            plain, room.found = room.found, heard
            try:
                answer = room.ANSWERS[check.asks](*check.given)
            finally:
                room.found = plain
            if len(seen) == 1 and isinstance(answer, float | int):
                key, case = seen[0]
                if abs(case.solved((key,)).value(key) - answer) < 1e-9:
                    yield topic, check, key, case


TAUGHT = list(taught())
SHARED = [t for t in TAUGHT if abs(t[3].solved((t[2],)).value(t[2]) - t[1].printed[0]) <= BENCH / 100 * abs(t[1].printed[0])]


def test_there_are_many_of_many_kinds():
    assert len(TAUGHT) >= 60
    assert len(SHARED) >= 40
    assert len({t[0] for t in SHARED}) >= 8


@pytest.mark.parametrize(("topic", "check", "key", "case"), TAUGHT, ids=[f"{t[0]}: {t[1].says} {t[1].given}" for t in TAUGHT])
def test_a_worked_example_has_its_working(topic, check, key, case):
    lines = worked(case, key)
    assert lines, f"{topic}: {check.source}"
    assert lines[-1].value == pytest.approx(case.solved((key,)).value(key), rel=1e-9)
    for line in lines:
        left, right = sides(line.numbers)
        assert left == pytest.approx(right, rel=1e-3, abs=1e-4), line.numbers


@pytest.mark.parametrize(("topic", "check", "key", "case"), SHARED, ids=[f"{t[0]}: {t[1].says} {t[1].given}" for t in SHARED])
def test_the_books_figure_is_called_right(topic, check, key, case):
    right = case.solved((key,)).value(key)
    assert is_right(key, check.printed[0], right), f"{topic}: {check.source} prints {check.printed[0]}, the bench has {right}"
    assert diagnose(case, key, check.printed[0]) == ()


@pytest.mark.parametrize(
    ("tags", "known", "key", "printed", "move"),
    [
        # US Army subcourse MD0802 (question read, alligation.toml): 300 mL of 70 % brought to 40 % by simple parts.
        ("spirit", {"stock": 300, "stock_strength": 70, "strength": 40}, "water", 225, "water by subtraction"),
        # Pharmacy technician study page (problem read, alligation.toml): 1000 mL of 25 % from 70 % and water by simple parts.
        ("spirit", {"menstruum": 1000, "stock_strength": 70, "strength": 25}, "water", 642.9, "water by subtraction"),
        # Clark's rule goes by pounds (children.toml); kilograms put in its place, as the handbooks warn. From memory that they do.
        ("child child_rule", {"adult_dose": 10, "child_weight": 30000}, "clark_dose", 2.0, "kilograms for pounds"),
    ],
)
def test_what_a_book_or_an_apprentice_leaves_out_is_named(tags, known, key, printed, move):
    assert move in {f.move for f in diagnose(case_of(tags, known, ()), key, printed)}
