"""Unknowns that hang together, looked at closely: repetition and contradiction, straight lines and curves, holes, and which of several answers."""

import pytest

from assistant.solving.blocks import Search, open_groups
from assistant.solving.ledger import Ledger
from assistant.solving.network import network_of
from tests.solving.toys import TABLE, solved, toys, values, wide

SHARES = ("amount[i] = total * share[i] / 100", "amount[i] * parts = total * part[i]", "parts = sum(part[i])", "total = sum(amount[i])")
PARTS = {"part[a]": 3.0, "part[b]": 5.0}  # 37.5 and 62.5 in a hundred


@pytest.mark.parametrize(("share", "clashes"), [(37.5, False), (37.65, False), (37.35, False), (37.73, True), (37.27, True), (75.0, True), (1.0, True)])
def test_what_repeats_the_others_may_be_half_a_percent_out(share, clashes):
    assert bool(solved(SHARES, PARTS | {"share[a]": share}, members=("a", "b")).conflicts) == clashes


def open_group(equations, said, brackets=wide, functions=TABLE):
    network = network_of(toys(*equations), (), functions)
    ledger = Ledger(network, brackets)
    for key, value in said.items():
        ledger.give(network.slot_of[key], float(value), 0.0)
    ledger.settle()
    return ledger, open_groups(ledger)


def test_a_group_is_seen_by_what_is_known_not_by_its_value():
    ledger, (group,) = open_group(("s = a + b", "d = 2 * a - b"), {"s": 10, "d": 5})
    assert {ledger.network.keys[slot] for slot in group.slots} == {"a", "b"}
    assert not Search(ledger, group).repeats()
    assert Search(ledger, group).solve()
    assert open_groups(ledger) == []


def test_a_single_unknown_is_no_group():
    assert open_group(("h = bump(x)",), {"h": 21})[1] == []


def test_nothing_is_guessed_through_a_whole_number():
    assert open_group(("n = floor(a + b)", "d = a - b"), {"n": 7, "d": 1})[1] == []
    assert len(open_group(("n = floor(h) + a + b", "d = a - b"), {"n": 7, "h": 1, "d": 1})[1]) == 1


def test_a_group_that_repeats_itself_says_so_and_sets_one_aside():
    ledger, (group,) = open_group(("a = 2 * b", "c = 3 * b", "2 * c = 3 * a"), {})
    before = set(ledger.idle)
    assert Search(ledger, group).repeats()
    assert len(ledger.idle - before) == 1
    assert not ledger.clashes


def test_a_group_that_contradicts_itself_clashes():
    ledger, (group,) = open_group(("a = 2 * b", "c = 3 * b", "2 * c = 4 * a"), {})
    assert Search(ledger, group).solve()
    assert len(ledger.clashes) == 1


def test_a_pair_without_an_answer_is_stuck_on_the_equation_that_cannot_be_met():
    ledger, (group,) = open_group(("area = a * b", "edge = 2 * a + 2 * b"), {"area": 40, "edge": 10})
    assert not Search(ledger, group).solve()
    assert list(ledger.stuck) == [group.key]
    assert not ledger.several
    assert ledger.stuck[group.key] in (0, 1)


def test_a_pair_with_two_answers_tells_both():
    ledger, (group,) = open_group(("area = a * b", "edge = 2 * a + 2 * b"), {"area": 40, "edge": 26})
    assert not Search(ledger, group).solve()
    keys = ledger.network.keys
    (several,) = ledger.several.values()
    assert [{keys[slot]: round(value, 9) for slot, value in one.items()} for one in several] in (
        [{"a": 5, "b": 8}, {"a": 8, "b": 5}],
        [{"a": 8, "b": 5}, {"a": 5, "b": 8}],
    )


def test_the_bracket_chooses_between_two_answers():
    narrow = {"a": (6.0, 50.0), "b": (1e-6, 50.0), "area": (0.0, 1e4), "edge": (0.0, 1e4)}
    found = values(solved(("area = a * b", "edge = 2 * a + 2 * b"), {"area": 40, "edge": 26}, brackets=narrow.__getitem__))
    assert (found["a"], found["b"]) == (8, 5)


def test_a_third_equation_chooses_between_two_answers():
    equations = ("area = a * b", "edge = 2 * a + 2 * b", "more = floor(a / 2)")
    found = values(solved(equations, {"area": 40, "edge": 26, "more": 4}))
    assert (found["a"], found["b"]) == (8, 5)


def test_where_the_others_bear_out_neither_answer_both_are_told():
    """The sides are 5 and 8, and neither half of one is rounded down to 1."""
    solution = solved(("area = a * b", "edge = 2 * a + 2 * b", "more = floor(a / 2)"), {"area": 40, "edge": 26, "more": 1})
    assert solution.value("a") is None
    (both,) = solution.unreached
    assert sorted(round(one["a"], 9) for one in both.several) == [5, 8]


def test_a_curve_has_its_answer_beyond_the_bracket_where_there_is_none_inside():
    """a · b = 12 and a − b = 1 give 4 and 3, though b was to be no less than 100."""
    narrow = {"a": (1e-6, 5.0), "b": (100.0, 200.0), "p": (0.0, 1e4), "d": (0.0, 1e4)}
    solution = solved(("p = a * b", "d = a - b"), {"p": 12, "d": 1}, brackets=narrow.__getitem__)
    found = values(solution)
    assert (found["a"], found["b"]) == (4, 3)
    assert [wrong.key for wrong in solution.impossible] == ["b"]


@pytest.mark.parametrize("size", [1e-3, 1.0, 1e3, 1e6])
def test_a_straight_pair_of_any_size_is_found_to_the_last_digits(size):
    solution = solved(("s = a + b", "d = 3 * a - 2 * b"), {"s": 7 * size, "d": 1 * size})
    assert solution.value("a") == pytest.approx(3 * size, rel=1e-13)
    assert solution.value("b") == pytest.approx(4 * size, rel=1e-13)


def test_a_nearly_straight_pair_is_not_taken_for_a_straight_one():
    """b bends by a thousandth: the straight line through the middle would miss by far more than the digits allow."""
    solution = solved(("s = a + climb(b) / 10", "d = a - b"), {"s": 4 + (3 + 0.27) / 10, "d": 1})
    assert values(solution)["b"] == pytest.approx(3, rel=1e-9)


def test_a_jump_is_no_answer():
    """1 / (a − b) and the same with the other sign change order at the pole and never meet."""
    solution = solved(("x = 1 / (a - 3.3)", "y = x + a", "y = 0 - 5 * x + a + 0.001"), {})
    assert solution.value("a") is None or solution.value("x") == pytest.approx(1 / 6000)


def test_what_a_function_leaps_over_is_no_answer():
    """leap(a) + a is just under 10 below 5 and 13 from there up: 11.5 lies between and is reached by nothing, 14 by a = 5.5."""
    equations = ("s = leap(a) + b", "d = a - b")
    assert solved(equations, {"s": 10.5, "d": 1}).value("a") is None
    assert solved(equations, {"s": 13, "d": 1}).value("a") == pytest.approx(5.5)


def test_an_answer_at_the_very_end_of_its_bracket_counts():
    ends = {"a": (0.0, 10.0), "b": (0.0, 5.0), "p": (0.0, 1e4), "s": (0.0, 1e4)}
    solution = solved(("p = a * a * b", "s = a + b"), {"p": 500, "s": 15}, brackets=ends.__getitem__)
    assert solution.value("a") == pytest.approx(10)
    assert solution.value("b") == pytest.approx(5)


def test_conflicts_are_told_three_at_most():
    relations = [f"m{n} = p{n} * q{n}" for n in range(5)]
    said = {key: value for n in range(5) for key, value in ((f"m{n}", 10.0), (f"p{n}", 2.0), (f"q{n}", 3.0))}
    assert len(solved(relations, said).conflicts) == 3


def test_two_sums_of_the_same_that_differ_are_a_conflict():
    (conflict,) = solved(("ten = b + c", "twelve = b + c"), {"ten": 10, "twelve": 12}).conflicts
    assert conflict.said == ("ten", "twelve")
