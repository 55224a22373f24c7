"""Whether a first-order ± can be trusted, and counts within a ±, against what is worked out on paper."""

import pytest

from assistant.solving import Known, misfit, solve
from tests.solving.toys import TABLE, toys, wide


def bend(equation, said, brackets=wide, equations=()):
    known = {key: Known(float(value), plus_minus=limit) for key, (value, limit) in said.items()}
    relations = toys(equation, *equations)
    solution = solve(known, relations, (), TABLE, brackets)
    return misfit("a", solution.value("a"), solution.moved_by("a"), known, relations, (), TABLE, brackets)


@pytest.mark.parametrize("limit", [0.1, 0.5, 2.0])
def test_the_bend_of_a_square(limit):
    """x² at 10: slope 20, second difference 2 u², so a = 2 u² / (2 · 20 u) = u / 20, and no flattening: a² = u² / 400."""
    assert bend("a = square(b)", {"b": (10, limit)}) == pytest.approx(limit**2 / 400, rel=1e-6)


def test_the_bend_and_the_flattening_of_a_curve():
    """x + x³ / 100 at 10: slope 4; a = (2 · 3 · 10 / 100 · u²) / (2 · 4 u) = 0.075 u, b = u³ / 100 / (4 u) = 0.0025 u²; at u = 2: 0.0225 + 0.03."""
    assert bend("a = climb(b)", {"b": (10, 2)}) == pytest.approx(0.075**2 * 4 + 3 * 0.0025 * 4, rel=1e-6)


def test_a_reciprocal():
    """1 / x at 10 ± 1: 1/11 and 1/9 about 0.1, first order 0.01: a = −(0.2020202 − 0.2) / 0.02, b = 0.0202020 / 0.02 − 1."""
    a, b = (1 / 11 + 1 / 9 - 0.2) / 0.02, (1 / 9 - 1 / 11) / 0.02 - 1
    assert bend("a = 1 / b", {"b": (10, 1)}) == pytest.approx(a * a + 3 * b, rel=1e-6)


def test_of_two_sources_each_counts_by_its_share_of_the_square():
    """Squares of 10 ± 1 and of 20 ± 1 added: parts 20 and 40, so a fifth and four fifths; alone they bend by 1/400 and 1/1600."""
    apart = 0.2 / 400 + 0.8 / 1600
    both = ((2 * 0.2 + 2 * 0.8) / (2 * 2000**0.5)) ** 2  # along the steepest way: b by 1/√5, c by 2/√5
    assert bend("a = square(b) + square(c)", {"b": (10, 1), "c": (20, 1)}) == pytest.approx(max(apart, both), rel=1e-5)


def test_a_product_bends_only_along_both():
    """3 × 4 with ± 1 and ± 1: parts 4 and 3, 5 in all; along 0.8 and 0.6 the second difference is 2 · 0.48, so a = 0.96 / 10."""
    assert bend("a = b * c", {"b": (3, 1), "c": (4, 1)}) == pytest.approx(0.096**2, rel=1e-6)


def test_where_there_is_no_figure_at_twice_the_limit_it_is_rough():
    assert bend("a = square(b)", {"b": (10, 4.9)}) < 0.1
    assert bend("a = square(b)", {"b": (10, 5.1)}) == 1.0  # twice 5.1 goes below nothing
    assert bend("a = bump(b)", {"b": (8, 0.9)}, lambda _: (-1e9, 1e9)) < 0.1
    assert bend("a = bump(b)", {"b": (8, 1.1)}, lambda _: (-1e9, 1e9)) == 1.0  # and above its range


def test_a_figure_that_leaves_its_bracket_is_rough():
    assert bend("a = b - 90", {"b": (99, 4)}, lambda key: (0.0, 100.0)) == pytest.approx(0, abs=1e-9)
    assert bend("a = b - 90", {"b": (99, 5)}, lambda key: (0.0, 100.0)) == 1.0


def test_without_a_limit_nothing_bends():
    assert bend("a = square(b)", {"b": (10, None)}) == 0.0
    assert bend("a = square(b) * 0 + c", {"b": (10, None), "c": (5, 1)}) == pytest.approx(0, abs=1e-9)


def test_a_source_of_next_to_no_share_bends_nothing_by_itself():
    """1 / c with next to no part in the square is left out, though it would be rough by itself."""
    assert bend("a = 1000 * b + square(c)", {"b": (10, 1), "c": (10, 4)}) < 1e-3


def counted(equations, said, key):
    known = {name: Known(float(value), plus_minus=limit) for name, (value, limit) in said.items()}
    figure = solve(known, toys(*equations), (), TABLE, wide).figures[key]
    return figure.low, figure.value, figure.high


@pytest.mark.parametrize(
    ("made", "limit", "span"),
    [
        (362, 20, (6, 7, 7)),
        (362, 11, (None, 7, None)),
        (362, 13, (6, 7, 7)),
        (362, 40, (6, 7, 8)),
        (350, 1, (6, 7, 7)),
        (349, 2, (6, 6, 7)),
        (348, 1.99, (None, 6, None)),
    ],
)
def test_a_count_between_its_neighbours(made, limit, span):
    assert counted(("n = floor(made / 50)",), {"made": (made, limit)}, "n") == span


def test_two_unsure_amounts_are_taken_at_all_four_corners():
    """360 ± 10 by 50 ± 3: from 350 / 53 = 6.6 to 370 / 47 = 7.9; 390 by 47 would be 8."""
    assert counted(("n = floor(made / size)",), {"made": (360, 10), "size": (50, 3)}, "n") == (6, 7, 7)
    assert counted(("n = floor(made / size)",), {"made": (360, 20), "size": (50, 3)}, "n") == (6, 7, 8)


def test_only_found_spreads_and_said_ones_alike_move_a_count():
    equations = ("made = 2 * jar", "n = floor(made / 50)")
    assert counted(equations, {"jar": (181, 10)}, "n") == (6, 7, 7)


def test_what_is_found_back_through_a_count_has_no_neighbours():
    low, value, high = counted(("n = floor(made / 50)",), {"n": (7, 1)}, "made")
    assert (low, value, high) == (None, 350, None)


def test_a_source_that_alone_runs_out_of_its_table_counts_by_its_share():
    """b at 1 ± 1.05 has a part of 2.1 and a fifth of the square; alone it goes below nothing, along both only to 1 − 2 · 0.447 · 1.05."""
    assert bend("a = square(b) + c", {"b": (1, 1.05), "c": (100, 4.2)}) == pytest.approx(0.2)


def test_where_more_was_said_than_is_needed_the_first_order_is_taken():
    """A double or a sum said beside holds what is shifted fast: what it comes to beside its value cannot be worked out."""
    assert bend("a = square(b)", {"b": (10, 2), "d": (20, None)}, equations=("d = 2 * b",)) == pytest.approx(0, abs=1e-12)
    assert bend("a = b * c", {"b": (3, 1), "c": (4, 1), "d": (7, None)}, equations=("d = b + c",)) == pytest.approx(0, abs=1e-12)


@pytest.mark.parametrize("bracket", [(0.0, 100.0), (-100.0, 18.0)])
def test_a_figure_may_come_to_the_very_end_of_its_bracket(bracket):
    """9 ± 4.5, and at twice that 0 and 18."""
    assert bend("a = b - 90", {"b": (99, 4.5)}, lambda key: bracket if key == "a" else (0.0, 200.0)) == pytest.approx(0, abs=1e-9)
