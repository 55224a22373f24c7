"""What would settle a question."""

import pytest

from assistant.solving import Known, missing
from assistant.solving.ledger import Ledger
from assistant.solving.missing import _stand_in
from assistant.solving.network import network_of
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


def test_a_repetition_is_set_aside_and_the_next_equation_counts():
    equations = ("a = 2 * b", "c = 3 * b", "2 * c = 3 * a", "a + b + c = d")
    assert would_settle(["a"], {}, equations, ("d", "e")) == [("d",)]


def test_a_fact_that_is_enough_is_not_asked_for_with_one_that_is_not_needed_however_late_it_comes():
    pairs = [f"price{n} = wanted * cost{n}" for n in range(22)]
    askable = (*(f"price{n}" for n in range(22)), *(f"cost{n}" for n in range(22)), "half")
    assert would_settle(["wanted"], {}, (*pairs, "wanted = 2 * half"), askable) == [("half",)]


def test_pairs_are_told_where_no_one_fact_is_enough_eight_at_most():
    pairs = [f"price{n} = wanted * cost{n}" for n in range(22)]
    askable = tuple(key for n in range(22) for key in (f"price{n}", f"cost{n}"))
    assert would_settle(["wanted"], {}, pairs, askable) == [(f"price{n}", f"cost{n}") for n in range(8)]


def test_a_fact_counts_though_no_stand_in_has_a_value_there():
    """A bump is never higher than 25 and may be anything as far as its bracket says: told a real height, its place and then both parts follow."""
    equations = ("height = bump(place)", "place = a + b", "twice = 2 * a - b")
    assert would_settle(["a"], {"twice": 5}, equations, ("height",)) == [("height",)]


def test_two_facts_count_though_no_stand_in_has_a_value_for_either():
    equations = ("height = bump(place)", "place = a + b", "rise = bump(spot)", "spot = 2 * a - b")
    assert would_settle(["a"], {}, equations, ("height", "rise")) == [("height", "rise")]


def test_a_group_with_one_unknown_to_guess_from_counts():
    """b follows from a, and a from nothing: a is the one to be guessed."""
    assert would_settle(["a"], {"d": 5}, ("s = climb(a) + b", "d = bump(a) * b"), ("s",)) == [("s",)]


@pytest.mark.parametrize("bracket", [(0.0, 100.0), (-30.0, 50.0), (0.2, 0.9), (20.0, 80.0), (0.0, 1e7), (-40.0, 300.0), (5.0, 1e4), (3000.0, 9000.0)])
def test_stand_ins_lie_inside_the_bracket_and_differ_from_each_other(bracket):
    low, high = bracket
    keys = [f"x{n}" for n in range(60)]
    ledger = Ledger(network_of(toys(" + ".join(keys) + " = total"), (), TABLE), lambda _: bracket)
    stand_ins = [_stand_in(ledger, slot) for slot in range(60)]
    tenth = min((high - low) / 10, 10.0)
    assert all(max(low, low + tenth) <= value <= high - tenth for value in stand_ins)
    assert len({round(value / tenth, 3) for value in stand_ins}) == 60


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
