"""Unknowns that hang together, at the edges: the ends of brackets, sides that are nothing, steep and shallow lines, guesses that are few or far off."""

import pytest

from assistant.solving import solve
from assistant.solving.blocks import Search
from tests.solving.test_blocks_closely import PARTS, SHARES, open_group
from tests.solving.toys import TABLE, _function, solved, toys, values


def within(low, high):
    return lambda _: (low, high)


def solved_with(functions, equations, brackets):
    """The solution of equations in which nothing is said and these functions stand."""
    made = TABLE | {name: _function(name, call, None, low, high) for name, (call, low, high) in functions.items()}
    return solve({}, toys(*equations), (), made, brackets)


def is_repetition(call, equations, brackets, low=-1e9, high=1e9):
    """Whether a group in which "shape" stands is one only by count."""
    made = {"shape": _function("shape", call, None, low, high)}
    ledger, (group,) = open_group(equations, {}, brackets, TABLE | made)
    return Search(ledger, group).repeats()


def test_an_equation_that_alone_has_two_answers_waits_for_the_pair_beside_it():
    """A bump is 21 high at 3 and at 7; of sum 10 and difference −1 only 3 is left, and of sum 10 and difference 2 neither."""
    pair = ("h = bump(x)", "t = x + y", "d = 2 * x - y")
    found = values(solved(pair, {"h": 21, "t": 10, "d": -1}, brackets=within(0.0, 50.0)))
    assert (found["x"], found["y"]) == (3, 7)
    (conflict,) = solved(pair, {"h": 21, "t": 10, "d": 2}, brackets=within(0.0, 50.0)).conflicts
    assert conflict.said == ("h", "t", "d")


@pytest.mark.parametrize("edge", [10, 26])
@pytest.mark.parametrize("pair", [("area = a * b", "edge = 2 * a + 2 * b"), ("edge = 2 * a + 2 * b", "area = a * b")])
def test_the_equation_that_no_one_answer_meets_is_the_one_stated_last(pair, edge):
    """An area of 40 has no edge of 10, and one of 26 in two ways."""
    (lost,) = solved(pair, {"area": 40, "edge": edge}).unreached
    assert lost.relation == pair[1]


def test_what_hangs_on_an_answer_that_was_chosen_follows():
    equations = ("area = a * b", "edge = 2 * a + 2 * b", "more = floor(a / 2)", "sum = a + c", "less = a - 2 * c + d", "d = c + 1")
    found = values(solved(equations, {"area": 40, "edge": 26, "more": 4, "sum": 11}))
    assert [found[key] for key in ("a", "b", "c", "d", "less")] == [8, 5, 3, 4, 6]


def test_of_a_group_that_no_two_guesses_open_the_first_equation_is_told():
    three = [f"s{n} = climb(a) * {n} + climb(b) + climb(c) / {n}" for n in (1, 2, 3)]
    (lost,) = solved(three, {"s1": 10, "s2": 20, "s3": 30}).unreached
    assert set(lost.keys) == {"a", "b", "c"}
    assert lost.relation == three[0]


def test_of_a_pair_with_one_unknown_to_guess_from_the_other_equation_is_told():
    """A bump is never higher than 25, nor a share of it 1000."""
    pair = ("s = climb(a) + b", "d = bump(a) * b")
    (lost,) = solved(pair, {"s": 1, "d": 1000}, brackets=within(0.0, 10.0)).unreached
    assert lost.relation == pair[1]


def test_what_was_guessed_is_told_as_found_so_that_an_equation_holds():
    pair = solved(("sum = a + b", "double = 2 * a - b"), {"sum": 10, "double": 5})
    assert [step.working for step in pair.derivation("a") if step.key == "a"] == ["5, found so that 5 = 2 × 5 − 5"]
    chosen = solved(("area = a * b", "edge = 2 * a + 2 * b", "more = floor(a / 2)"), {"area": 40, "edge": 26, "more": 4})
    assert [step.working for step in chosen.derivation("a") if step.key == "a"] == ["8, found so that 26 = 2 × 8 + 2 × 5"]


def test_of_equations_that_repeat_each_other_the_one_stated_last_is_set_aside():
    solution = solved(("a = 2 * b", "c = 3 * b", "2 * c = 3 * a", "a + b + c = d"), {"d": 12})
    assert {step.relation for step in solution.derivation("c")} == {"a = 2 * b", "c = 3 * b", "a + b + c = d"}
    ledger, (group,) = open_group(("a = 2 * b", "c = 3 * b", "2 * c = 4 * a"), {})
    assert Search(ledger, group).solve()
    assert ledger.clashes == [2]


@pytest.mark.parametrize(("out", "clashes"), [(1.0049, False), (1.00504, True), (0.99512, False), (0.99498, True)])
def test_half_a_percent_between_two_sides_is_just_allowed(out, clashes):
    """Half a percent of what lies midway between the two: 1.005012 beside 1."""
    assert bool(solved(SHARES, PARTS | {"share[a]": 37.5 * out}, members=("a", "b")).conflicts) == clashes


def test_a_small_part_beside_a_large_whole_is_no_repetition():
    """Six grams and four beside a tonne of a thousand kilograms: whatever is guessed, the sides differ by less than a hundred-millionth."""
    found = solved(("whole = big + a + b", "d = a - b"), {"whole": 1e9 + 10, "big": 1e9, "d": 2}, brackets=within(0.0, 10.0))
    assert (found.value("a"), found.value("b")) == (pytest.approx(6, abs=1e-6), pytest.approx(4, abs=1e-6))


@pytest.mark.parametrize("equations", [("y = shape(x)", "y = 1 * x"), ("shape(x) = y", "y = 1 * x")])
def test_what_holds_for_all_guesses_but_one_is_no_repetition(equations):
    """Of nine guesses from 0 to 8 one is greater than 7: it is the one for which the sides differ."""
    assert not is_repetition(lambda x: x if x <= 7 else x + 3, equations, within(0.0, 8.0))
    assert is_repetition(lambda x: x if x <= 8 else x + 3, equations, within(0.0, 8.0))


@pytest.mark.parametrize("equations", [("y = shape(x)", "y = 1 * x"), ("shape(x) = y", "y = 1 * x")])
def test_rounding_at_a_quarter_of_the_guesses_hides_no_repetition(equations):
    """Of nine guesses from 0 to 8 two are greater than 6 and three greater than 5; there the sides are out by a hundred-millionth."""
    assert is_repetition(lambda x: x if x <= 6 else x * (1 + 1e-8), equations, within(0.0, 8.0))
    assert not is_repetition(lambda x: x if x <= 5 else x * (1 + 1e-8), equations, within(0.0, 8.0))


def test_three_guesses_that_have_a_value_tell_a_repetition_and_two_may_agree_by_chance():
    """Of nine guesses from 0 to 8 the shape is there for 3, 4 and 5, or for 3 and 4."""
    twice = ("y = shape(x)", "2 * y = 2 * shape(x)")
    assert is_repetition(lambda x: x * x, twice, within(0.0, 8.0), 2.5, 5.5)
    assert not is_repetition(lambda x: x * x, twice, within(0.0, 8.0), 2.5, 4.5)


def test_lines_side_by_side_never_meet():
    solution = solved(("y = 1 * x", "y = x + five"), {"five": 5})
    assert values(solution) == {"five": 5}
    assert [set(lost.keys) for lost in solution.unreached] == [{"x", "y"}]


@pytest.mark.parametrize("rise", [2, 4, 0.5])
def test_lines_that_cross_below_the_brackets_have_their_answer_there(rise):
    """rise · x = x − 5 at x = −5 / (rise − 1); with a rise of 2 the gap has a slope of just one."""
    solution = solved(("y = rise * x", "y = x - five"), {"five": 5, "rise": rise}, brackets=within(20.0, 100.0))
    assert solution.value("x") == pytest.approx(-5 / (rise - 1))
    assert {wrong.key for wrong in solution.impossible} == {"x", "y"}


@pytest.mark.parametrize("steep", [1e-6, 1 / 3, 12345.678, 1e7 / 3])
def test_a_steep_line_and_a_shallow_one_are_straight_all_the_same(steep):
    """With a = −3 and b = −4, which no bracket has, the sum is −steep · 3 − steep · 4."""
    pair = ("s = steep * a + steep * b", "d = a - b")
    solution = solved(pair, {"s": -7 * steep, "d": 1, "steep": steep}, brackets=lambda key: (-1e9, 1e9) if key == "s" else (0.0, 1e9))
    assert (solution.value("a"), solution.value("b")) == (pytest.approx(-3), pytest.approx(-4))


@pytest.mark.parametrize("small", [1e-6, 1.0, 1e6])
def test_a_curve_is_not_taken_for_a_line_however_small_it_is_written(small):
    """climb(3) is 3.27, at any scale; the line through the middle of the bracket would give something else."""
    pair = ("s = small * climb(b) + small * a", "d = a - b")
    solution = solved(pair, {"s": (3.27 + 4) * small, "d": 1, "small": small}, brackets=within(1e-9, 100.0))
    assert solution.value("b") == pytest.approx(3, rel=1e-9)


def test_a_straight_pair_within_brackets_of_one_decade_has_its_answer_outside_them():
    solution = solved(("s = a + b", "d = 3 * a - 2 * b"), {"s": 110, "d": 30}, brackets=within(100.0, 1000.0))
    assert (solution.value("a"), solution.value("b")) == (pytest.approx(50), pytest.approx(60))


def test_where_a_straight_line_leads_out_of_a_table_there_is_no_answer():
    """Half of x is x − 10 at 20, and the table of halves ends at 10."""
    solution = solved_with({"half": (lambda x: x / 2, 0.0, 10.0)}, ("y = half(x)", "y = x - 10"), within(0.0, 10.0))
    assert not solution.figures
    assert [set(lost.keys) for lost in solution.unreached] == [{"x", "y"}]


def test_a_line_that_bends_before_it_comes_to_its_answer_has_another():
    """Above 20 the shape is x itself, and x = 2 x − 1 at 1; but there it has bent to x + (20 − x)², which is 2 x − 1 where x² − 41 x + 401 = 0."""
    shape = {"shape": (lambda x: x if x > 20 else x + (20 - x) ** 2, -1e9, 1e9)}
    found = solved_with(shape, ("shape(x) = y", "y = 2 * x - 1"), within(0.0, 100.0))
    assert found.value("x") == pytest.approx((41 - 77**0.5) / 2)


def test_a_bend_among_far_off_guesses_hides_no_line():
    """x = 2 x + 5 at −5, whatever becomes of the shape from 80 on."""
    shape = {"shape": (lambda x: x if x < 80 else x + 1, -1e9, 1e9)}
    assert solved_with(shape, ("shape(x) = y", "y = 2 * x + 5"), within(0.0, 100.0)).value("x") == pytest.approx(-5)


def test_a_product_of_nothing_has_an_answer_where_both_sides_are_nothing():
    """a · b = 0 and a − b = 2: of a = 0, b = −2 and a = 2, b = 0 only the second is in the brackets, at the very end of one."""
    ends = {"a": (0.0, 16.0), "b": (0.0, 100.0), "p": (0.0, 100.0), "d": (0.0, 100.0)}
    found = values(solved(("d = a - b", "p = a * b"), {"p": 0, "d": 2}, brackets=ends.__getitem__))
    assert (found["a"], found["b"]) == (2, 0)


@pytest.mark.parametrize("top", [2.0, 6.0, 9.9])
def test_an_answer_up_to_the_top_of_a_bracket_counts_and_one_above_it_does_not(top):
    """a · b = 20 and a + b = 12: 10 and 2, or 2 and 10."""
    ends = {"a": (0.0, 20.0), "b": (-98.0, top), "p": (0.0, 100.0), "s": (0.0, 100.0)}
    found = values(solved(("p = a * b", "s = a + b"), {"p": 20, "s": 12}, brackets=ends.__getitem__))
    assert (found["a"], found["b"]) == (10, 2)


@pytest.mark.parametrize("bottom", [10.0, 6.0, -1.9])
def test_an_answer_down_to_the_bottom_of_a_bracket_counts_and_one_below_it_does_not(bottom):
    """a · b = 20 and b − a = 8: 2 and 10, or −10 and −2."""
    ends = {"a": (-20.0, 20.0), "b": (bottom, 200.0), "p": (0.0, 100.0), "d": (0.0, 100.0)}
    found = values(solved(("p = a * b", "d = b - a"), {"p": 20, "d": 8}, brackets=ends.__getitem__))
    assert (found["a"], found["b"]) == (2, 10)


@pytest.mark.parametrize("size", [1e-3, 1.0, 1e3, 1e6])
def test_a_curved_pair_of_any_size_is_found(size):
    """Sides of 8 and 5 thirds, written in any unit."""
    a, b = 8 / 3 * size, 5 / 3 * size
    solution = solved(("area = a * b", "a = b + more"), {"area": a * b, "more": a - b}, brackets=within(1e-9, 1e9))
    assert (solution.value("a"), solution.value("b")) == (pytest.approx(a, rel=1e-9), pytest.approx(b, rel=1e-9))


@pytest.mark.parametrize("size", ["1000000", "1", "1 / 1000000"])
def test_what_a_function_leaps_over_is_no_answer_at_any_size(size):
    """leap(a) + b is just under 9 below a = 5 and 12 from there up, with b = a − 1; 10.5 lies between."""
    scale = eval(size)  # "1 / 1000000" as it stands in the equation
    solution = solved((f"s = leap(a) * {size} + b * {size}", "d = a - b"), {"s": 10.5 * scale, "d": 1})
    assert solution.value("a") is None
