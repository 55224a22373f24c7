"""The working of every relation in every direction, worked through again from its own text."""

import pytest

from assistant.quantities.showing import caption
from assistant.quantities.vocabulary import base
from assistant.relations import RELATIONS
from assistant.solving import Known
from assistant.teaching.case import Case
from assistant.teaching.problems import directions, problem
from assistant.teaching.rearranging import moves
from assistant.teaching.recomputing import agrees, read_back
from assistant.teaching.working import as_text, why_this_number, worked
from tests.teaching.reckoning import sides

NETTLE = Case(
    {"herb": Known(112.0), "ratio": Known(2.0), "strength": Known(60.0), "water_content": Known(80.0)},
    tuple(r for r in RELATIONS if r.applies({"fresh", "spirit"})),
)


@pytest.mark.parametrize("relation", RELATIONS, ids=lambda r: r.name)
def test_the_working_of_a_relation_gives_the_answer_from_its_own_text(relation):
    looked_at = 0
    for asked in directions(relation):
        for draw in range(2):
            made = problem(relation, asked, draw)
            if made is None:
                continue
            lines = worked(made.case, asked)
            assert lines
            assert lines[-1].key == asked
            assert lines[-1].value == pytest.approx(made.answer, rel=1e-9)
            for line in lines:
                left, right = sides(line.numbers)
                assert left == pytest.approx(right, rel=1e-3, abs=1e-4), line.numbers
            looked_at += 1
    assert looked_at


@pytest.mark.parametrize("relation", RELATIONS, ids=lambda r: r.name)
def test_a_relation_is_turned_round_a_move_a_line(relation):
    for asked in directions(relation):
        told = moves(relation, asked)
        if asked == "celsius":
            assert told == ()  # nothing frees a temperature from the table: one has to try
            continue
        assert len(told) >= 2
        assert told[0].done == "The rule."
        assert told[-1].equation.partition(" = ")[0].removeprefix("its own ") == caption(base(asked))


def test_a_lesson_has_rule_equation_numbers_and_sense():
    first = worked(NETTLE, "finished_strength")[0]
    assert first.rule == "A ratio of 1 to R means R mL of menstruum for each gram of plant."
    assert first.equation == "menstruum = plant weight × ratio"
    assert first.numbers == "112 g × 2 = 224 mL"
    assert first.sense == "224 mL is twice 112 g."


def test_what_only_passes_a_figure_on_is_left_out():
    case = Case(
        {"herb": Known(67.0), "ratio": Known(3.0), "held_per_gram": Known(1.0)}, tuple(r for r in RELATIONS if r.applies({"dried", "spirit"}))
    )
    assert [line.key for line in worked(case, "pressed")] == ["menstruum", "held_back", "pressed"]


def test_just_the_numbers():
    assert as_text(worked(NETTLE, "menstruum"), slow=False) == ["112 g × 2 = 224 mL"]


def test_why_times_two():
    lines = worked(NETTLE, "menstruum")
    assert why_this_number(lines, NETTLE, 2.0) == lines[0]
    assert why_this_number(lines, NETTLE, 17.0) is None


@pytest.mark.parametrize(
    ("line", "both"),
    [
        ("112 g × 2 = 224 mL", (224, 224)),
        ("112x3=336", None),
        ("112 x 3 = 336", (336, 336)),
        ("__import__('os') = 1", None),
        ("1 ÷ 0 = 3", None),
        ("just words", None),
    ],
)
def test_a_line_is_read_back(line, both):
    assert read_back(line) == both


def test_a_wrong_sum_does_not_agree():
    assert agrees("112 g × 80 % = 89.6 g")
    assert not agrees("112 g × 80 % = 98.6 g")


def test_the_rule_of_gathering_turned_round():
    relation = next(r for r in RELATIONS if r.name == "to gather")
    assert [move.done for move in moves(relation, "herb")] == [
        "The rule.",
        "Divide both sides by (1 + margin ÷ 100).",
        "Multiply both sides by (1 − trimming loss ÷ 100).",
    ]
    assert moves(relation, "herb")[-1].equation == "plant weight = to gather ÷ (1 + margin ÷ 100) × (1 − trimming loss ÷ 100)"
