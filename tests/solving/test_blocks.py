"""Unknowns that hang together."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.solving.toys import solved, values


def test_a_straight_pair():
    solution = solved(("sum = a + b", "double = 2 * a - b"), {"sum": 10, "double": 5})
    assert (values(solution)["a"], values(solution)["b"]) == (5, 5)
    assert solution.derivation("a")[-1].together == ("a", "b")


@given(st.floats(-50, 50), st.floats(-50, 50))
def test_a_straight_pair_has_its_answer_outside_the_brackets_too(a, b):
    solution = solved(("sum = a + b", "double = 2 * a - b"), {"sum": a + b, "double": 2 * a - b})
    assert (solution.value("a"), solution.value("b")) == (pytest.approx(a, abs=1e-9), pytest.approx(b, abs=1e-9))
    assert {wrong.key for wrong in solution.impossible} <= {"a", "b"}
    assert bool(solution.impossible) == (min(solution.value("a"), solution.value("b")) < 1e-6 - 1e-9)


def test_a_pair_whose_sides_never_have_the_same_sign_is_no_contradiction():
    solution = solved(("out = poured - held", "poured = herb * ratio", "held = herb * grip"), {"out": 100, "ratio": 3, "grip": 5})
    assert not solution.conflicts
    assert values(solution)["herb"] == -50


def test_a_curved_pair():
    solution = solved(("area = a * b", "edge = 2 * a + 2 * b", "a = b + more", "more = 1 * 3"), {"area": 40, "edge": 26})
    assert (values(solution)["a"], values(solution)["b"]) == (8, 5)


def test_the_group_is_told_in_the_order_it_is_found():
    solution = solved(("out = poured - held", "poured = herb * ratio", "held = herb * grip"), {"out": 100, "ratio": 3, "grip": 1})
    assert values(solution)["herb"] == 50
    assert [step.key for step in solution.derivation("poured")][-1] == "poured"
    assert {step.key for step in solution.derivation("poured")} == {"herb", "poured", "held"}
    assert all(set(step.together) == {"herb", "poured", "held"} for step in solution.derivation("poured"))


def test_two_possible_answers_are_both_told_and_none_is_taken():
    solution = solved(("area = a * b", "edge = 2 * a + 2 * b"), {"area": 40, "edge": 26})
    assert solution.value("a") is None
    (both,) = solution.unreached
    assert sorted(round(one["a"], 9) for one in both.several) == [5, 8]


def test_a_function_that_cannot_be_turned_round_is_searched():
    solution = solved(("a = climb(b)",), {"a": 1 + 1 / 100})
    assert values(solution)["b"] == 1
    assert solution.derivation("b")[0].working == "1, found so that 1.01 = climb at 1 (1.01)"


def test_a_hump_has_two_sides():
    solution = solved(("a = bump(b)",), {"a": 21}, brackets=lambda _: (0.0, 10.0))
    assert [round(one["b"], 9) for one in solution.unreached[0].several] == [3, 7]
    assert values(solved(("a = bump(b)",), {"a": 21}, brackets=lambda _: (0.0, 5.0)))["b"] == 3


def test_no_possible_answer_is_told():
    solution = solved(("area = a * b", "edge = 2 * a + 2 * b"), {"area": 40, "edge": 10})
    assert solution.unreached[0].keys == ("a", "b")
    assert solution.unreached[0].several == ()


def test_an_equation_that_repeats_the_others_settles_nothing():
    solution = solved(("a = 2 * b", "c = 3 * b", "2 * c = 3 * a"), {}, assumed={})
    assert solution.figures == {}
    assert not solution.unreached
    assert values(solved(("a = 2 * b", "c = 3 * b", "2 * c = 3 * a"), {"a": 4})) == {"a": 4, "b": 2, "c": 6}


def test_behind_a_repetition_the_next_equation_is_used():
    solution = solved(("a = 2 * b", "c = 3 * b", "2 * c = 3 * a", "a + b + c = d"), {"d": 12})
    assert values(solution) == {"a": 4, "b": 2, "c": 6, "d": 12}


def test_a_first_guess_that_leads_nowhere_gives_way_to_the_next():
    # With c at nothing its amount cannot be had from the first equation, whatever the percent is guessed to be.
    relations = ("a * 50 + b * percent_b = total * percent_all", "a + b = total")
    solution = solved(relations, {"a": 100, "percent_b": 0, "total": 250})
    assert (values(solution)["b"], values(solution)["percent_all"]) == (150, 20)
    assert values(solved(relations, {"a": 100, "percent_b": 0, "percent_all": 20}))["total"] == 250


def test_two_guesses_one_inside_the_other():
    # No single guess gives the rest: each equation holds three of the four.
    relations = ("a + b + square(c) = s1", "a * b + d = s2", "b + c + square(d) = s3", "square(a) + c + d = s4")
    a, b, c, d = 2.0, 3.0, 4.0, 5.0
    said = {"s1": a + b + c**2, "s2": a * b + d, "s3": b + c + d**2, "s4": a**2 + c + d}
    solution = solved(relations, said, brackets=lambda _: (0.0, 10.0))
    assert [values(solution)[key] for key in "abcd"] == [pytest.approx(x) for x in (a, b, c, d)]


@given(st.lists(st.floats(1, 50), min_size=3, max_size=12))
def test_a_ring_of_sums_of_any_length(numbers):
    size = len(numbers)
    weight = [1 + n for n in range(size)]  # different weights keep an even ring from repeating itself
    relations = [f"s{n} = {weight[n]} * x{n} + x{(n + 1) % size}" for n in range(size)]
    said = {f"s{n}": weight[n] * numbers[n] + numbers[(n + 1) % size] for n in range(size)}
    solution = solved(relations, said)
    assert [solution.value(f"x{n}") for n in range(size)] == [pytest.approx(number, rel=1e-6) for number in numbers]
