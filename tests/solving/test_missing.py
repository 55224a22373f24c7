"""What would settle a question."""

import pytest

from assistant.solving import Known, missing
from tests.solving.toys import TABLE, toys, wide

POUR = ("menstruum = herb * ratio", "held = herb * grip", "out = menstruum - held", "left = stock - menstruum", "price = 2 * cost")
ASKABLE = ("herb", "ratio", "grip", "stock", "menstruum", "held")


def would_settle(wanted, said, equations=POUR, askable=ASKABLE, members=(), assumed=None):
    known = {key: Known(value) for key, value in said.items()} | {key: Known(value, "assumed") for key, value in (assumed or {}).items()}
    return missing(wanted, known, toys(*equations), members, TABLE, wide, askable)


def test_one_fact_where_one_is_enough():
    assert would_settle(["menstruum"], {"herb": 112}) == [("ratio",)]


def test_the_preferred_fact_comes_first():
    sets = would_settle(["left"], {"herb": 112, "stock": 500})
    assert sets == [("ratio",), ("menstruum",)]
    assert would_settle(["left"], {"herb": 112, "stock": 500}, askable=("menstruum", "ratio")) == [("menstruum",), ("ratio",)]


def test_two_facts_where_one_will_not_do():
    assert would_settle(["menstruum"], {})[0] == ("herb", "ratio")


def test_three_facts_at_most():
    assert would_settle(["out"], {}, askable=("herb", "ratio", "grip"))[0] == ("herb", "ratio", "grip")
    assert would_settle(["out"], {}, askable=("ratio", "grip")) == []


def test_the_last_fact_of_a_group_that_hangs_together_is_seen():
    assert ("grip",) in would_settle(["herb"], {"out": 100, "ratio": 3}, askable=("grip", "stock"))
    assert would_settle(["herb"], {"out": 100}, askable=("ratio", "grip")) == [("ratio", "grip")]


def test_all_that_is_wanted_has_to_follow():
    assert would_settle(["menstruum", "left"], {"herb": 112}) == [("ratio", "stock")]


def test_what_is_settled_needs_nothing():
    assert would_settle(["menstruum"], {"herb": 112, "ratio": 2}) == [()]
    assert would_settle(["menstruum"], {"herb": 112}, assumed={"ratio": 2}) == [()]


def test_what_stands_in_no_relation_cannot_be_settled():
    assert would_settle(["moonlight"], {"herb": 112}) == []


def test_what_contradicts_itself_has_to_be_mended_first():
    assert would_settle(["left"], {"herb": 112, "ratio": 2, "menstruum": 300}) == []


def test_equations_that_repeat_each_other_do_not_count():
    recipe = ("total = sum(amount[i])", "amount[i] * parts = total * part[i]", "parts = sum(part[i])")
    parts = {"part[a]": 2.0, "part[b]": 3.0}
    sets = would_settle(["amount[a]"], parts, recipe, ("parts", "total", "amount[b]"), members=("a", "b"))
    assert sets == [("total",), ("amount[b]",)]


@pytest.mark.parametrize("said", [{"herb": 112.0}, {"out": 100.0}, {"stock": 500.0, "ratio": 2.0}, {}])
@pytest.mark.parametrize("wanted", ["menstruum", "left", "herb", "held", "out"])
def test_what_is_asked_for_does_settle_it_and_nothing_less(wanted, said):
    true = {"herb": 112.0, "ratio": 2.0, "grip": 0.5, "stock": 500.0, "menstruum": 224.0, "held": 56.0, "out": 168.0, "left": 276.0}
    said = {key: true[key] for key in said}
    for facts in would_settle([wanted], said):
        told = said | {key: true[key] for key in facts}
        assert would_settle([wanted], told) == [()]
        for fact in facts:
            assert would_settle([wanted], {key: value for key, value in told.items() if key != fact}) != [()]
