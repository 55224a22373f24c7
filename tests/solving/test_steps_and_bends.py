"""Whole numbers within a ±, and whether a first-order ± can be trusted."""

import pytest

from assistant.matter.function import Function
from assistant.solving import Known, misfit, solve
from assistant.solving.network import network_of
from tests.solving.toys import TABLE, toys, wide


def solved(*equations, **known):
    return solve({k: v if isinstance(v, Known) else Known(v) for k, v in known.items()}, toys(*equations), (), TABLE, wide)


def test_a_count_has_no_plus_minus_but_both_neighbours():
    figure = solved("bottles = floor(made / size)", made=Known(362.0, plus_minus=20.0), size=50.0).figures["bottles"]
    assert (figure.value, figure.low, figure.high) == (7.0, 6.0, 7.0)
    assert figure.plus_minus is None


def test_a_count_that_is_sure_has_no_neighbours():
    figure = solved("bottles = floor(made / size)", made=Known(370.0, plus_minus=5.0), size=50.0).figures["bottles"]
    assert (figure.low, figure.high) == (None, None)


@pytest.mark.parametrize("plus_minus", [24.9, 24.99])
def test_a_count_is_sure_to_the_very_end_of_its_plus_minus(plus_minus):
    """375 mL fills seven bottles of 50 and a half: 350.01 and 399.99 fill seven too."""
    figure = solved("bottles = floor(made / size)", made=Known(375.0, plus_minus=plus_minus), size=50.0).figures["bottles"]
    assert (figure.low, figure.high) == (None, None)


def test_what_is_found_together_has_a_plus_minus_and_no_neighbours():
    """Two rows of bottles, six in all beside the floor of what is poured, and two more in one row than in the other."""
    solution = solved("six = floor(poured) + a + b", "d = a - b", six=6.0, poured=Known(1.9, plus_minus=0.5), d=2.0)
    assert (solution.figures["a"].value, solution.figures["b"].value) == (3.5, 1.5)
    assert [(solution.figures[key].low, solution.figures[key].high) for key in "ab"] == [(None, None)] * 2


def test_a_count_on_the_very_edge_is_no_cliff():
    """600 mL fills twelve of 50: the slope over the edge is no slope, and what rests on the count gets none of it."""
    solution = solved("bottles = floor(made / size)", "cost = 30 / bottles", made=Known(600.0, plus_minus=1.0), size=50.0)
    assert (solution.figures["bottles"].low, solution.figures["bottles"].high) == (11.0, 12.0)
    assert solution.figures["cost"].plus_minus is None


def test_a_count_that_has_to_be_searched_for_has_no_neighbours():
    """There is no way back through climb: n + n³/100 = 10 is closed in on."""
    figure = solved("floor(made) = climb(n)", made=Known(10.2, plus_minus=0.5)).figures["n"]
    assert figure.value == pytest.approx(6.823, abs=1e-3)
    assert (figure.low, figure.high) == (None, None)


def test_a_count_with_something_added_has_its_neighbours():
    figure = solved("all = floor(made) + spare", made=Known(10.2, plus_minus=0.5), spare=3.0).figures["all"]
    assert (figure.value, figure.low, figure.high) == (13.0, 12.0, 13.0)


def test_what_is_left_over_moves_with_what_was_made():
    solution = solved("bottles = floor(made / size)", "rest = made - bottles * size", made=Known(370.0, plus_minus=5.0), size=50.0)
    assert solution.figures["rest"].plus_minus == pytest.approx(5.0)


def test_each_source_is_told_with_its_slope():
    solution = solved("a = b * c", b=3.0, c=Known(5.0, plus_minus=1.0))
    assert solution.moved_by("a") == pytest.approx({"b": 5.0, "c": 3.0})
    assert solution.moved_by("nothing") == {}


def test_what_is_not_worked_out_moves_with_nothing():
    assert solved("a = b * c", b=Known(3.0, plus_minus=1.0)).moved_by("a") == {}


def test_a_figure_that_stands_alone_in_its_table_has_no_slope():
    """The table holds 5 and nothing beside it."""
    made = TABLE | {"spot": Function("spot", ("1",), "1", 5.0, 5.0, lambda x: 2 * x, None, None, "a toy", "common practice")}
    known = {"b": Known(5.0, plus_minus=1.0), "c": Known(3.0, plus_minus=0.5)}
    solution = solve(known, toys("a = spot(b) + c"), (), made, wide)
    assert solution.value("a") == 13
    assert solution.moved_by("a") == pytest.approx({"c": 1.0})
    assert solution.figures["a"].plus_minus == pytest.approx(0.5)


def bend(equation, key, **known):
    known = {k: v if isinstance(v, Known) else Known(v) for k, v in known.items()}
    solution = solve(known, toys(equation), (), TABLE, wide)
    return misfit(key, solution.value(key), solution.moved_by(key), known, toys(equation), (), TABLE, wide)


def test_a_straight_line_bends_nowhere():
    assert bend("a = 3 * b - c", "a", b=Known(10.0, plus_minus=4.0), c=Known(5.0, plus_minus=2.0)) == pytest.approx(0, abs=1e-9)


def test_a_wide_source_below_a_line_bends():
    assert bend("a = 1 / b", "a", b=Known(10.0, plus_minus=0.1)) < 0.001
    assert bend("a = 1 / b", "a", b=Known(10.0, plus_minus=3.0)) > 0.05


def test_two_sources_that_bend_only_together_are_seen():
    alone = [bend("a = 100 / (10 - b - c)", "a", b=Known(3.0, plus_minus=0.6), c=Known(3.0)), 0.0]
    both = bend("a = 100 / (10 - b - c)", "a", b=Known(3.0, plus_minus=0.6), c=Known(3.0, plus_minus=0.6))
    assert both > max(alone) > 0


def test_a_source_that_runs_out_of_range_is_rough():
    assert bend("a = square(b)", "a", b=Known(1.0, plus_minus=0.9)) == 1.0


def test_without_any_source_there_is_nothing_to_miss():
    assert bend("a = 1 / b", "a", b=10.0) == 0.0


@pytest.mark.parametrize("equation", ["n = floor(h) + b", "n = b - floor(h)", "n = floor(h / b)", "n = b * floor(2 * h + 1)"])
def test_what_stands_inside_a_step_is_seen_wherever_the_step_stands(equation):
    network = network_of(toys(equation), (), TABLE)
    (instance,) = network.instances
    assert instance.stands_in_steps(network.slot_of["h"])
    assert not instance.stands_in_steps(network.slot_of["n"])
    assert bool(instance.stands_in_steps(network.slot_of["b"])) == ("/ b" in equation)
