"""The table of named functions keeps the promises that the solver builds on."""

import inspect

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.faults import FigureFault
from assistant.matter import FUNCTIONS
from assistant.relations import Relation
from assistant.solving import Known, solve

#: A second argument to try where a function takes one.
REST = {"true_strength": (27.0,)}
#: Where the first argument is tried: the table's own bracket, narrowed where the second argument narrows it, and counts of a bench.
TRIED = {"true_strength": (5.0, 100.0), "floor": (0.0, 1000.0), "ceil": (0.0, 1000.0)}

SMOOTH = [name for name, function in FUNCTIONS.items() if not function.in_steps]
STEPPED = [name for name, function in FUNCTIONS.items() if function.in_steps]


def tried(name, share):
    low, high = TRIED.get(name, (FUNCTIONS[name].low, FUNCTIONS[name].high))
    return low + share * (high - low)


def test_the_table_is_keyed_by_name_and_cannot_be_changed():
    assert set(FUNCTIONS) >= {"density", "mass_percent", "true_strength", "syrup_density", "glycerine_density", "floor", "ceil"}
    assert all(name == function.name for name, function in FUNCTIONS.items())
    with pytest.raises(TypeError):
        FUNCTIONS["other"] = FUNCTIONS["floor"]


@pytest.mark.parametrize("name", FUNCTIONS)
def test_each_says_its_units_range_and_source(name):
    function = FUNCTIONS[name]
    assert function.arity == len(inspect.signature(function.call).parameters) == len(function.takes)
    assert function.unit in {"g/mL", "percent", "1"}
    assert function.low < function.high
    assert function.source
    assert function.evidence in {"read", "memory", "computed", "common practice"}


@pytest.mark.parametrize("name", SMOOTH)
@given(st.floats(0, 1))
def test_the_inverse_gives_back_what_was_put_in(name, share):
    function, rest, x = FUNCTIONS[name], REST.get(name, ()), tried(name, share)
    assert function.inverse(function.call(x, *rest), *rest) == pytest.approx(x, abs=1e-8)


@pytest.mark.parametrize("name", SMOOTH)
@given(st.floats(0.001, 0.999))
def test_the_derivative_is_the_slope_of_the_function(name, share):
    function, rest, x = FUNCTIONS[name], REST.get(name, ()), tried(name, share)
    step = 1e-6 * (function.high - function.low)
    before, after = function.derivative(x - step, *rest), function.derivative(x + step, *rest)
    if before != pytest.approx(after, rel=1e-3):  # a row of a table lies between: the slope has two values there
        return
    measured = (function.call(x + step, *rest) - function.call(x - step, *rest)) / (2 * step)
    assert function.derivative(x, *rest) == pytest.approx(measured, rel=1e-4)


@pytest.mark.parametrize("name", STEPPED)
@given(st.integers(0, 1000))
def test_a_stepped_function_has_no_slope_and_gives_a_whole_number_back(name, whole):
    function = FUNCTIONS[name]
    assert function.derivative is None
    assert function.call(function.inverse(float(whole))) == whole


@pytest.mark.parametrize("name", SMOOTH)
def test_outside_its_bracket_it_refuses(name):
    function, rest = FUNCTIONS[name], REST.get(name, ())
    for outside in (function.low - 1, function.high + 1):
        with pytest.raises(FigureFault):
            function.call(outside, *rest)


#: The range each source covers: percents from 0 to 100, sugar to the last row of its table, and counts up to a thousand million.
RANGES = {"syrup_density": (0, 84), "floor": (0, 1e9), "ceil": (0, 1e9)}


@pytest.mark.parametrize("name", FUNCTIONS)
def test_the_solver_is_answered_at_both_ends_of_the_range_and_not_beyond(name):
    """At 20 °C, where a hydrometer shows the strength itself."""
    low, high = RANGES.get(name, (0, 100))
    rest = ", t" if name == "true_strength" else ""
    relation = Relation("toy", f"y = {name}(x{rest})", "A toy.", "a toy", "common practice")

    def answer(x):
        return solve({"x": Known(x), "t": Known(20.0)}, (relation,), (), FUNCTIONS, lambda _: (-1e12, 1e12)).value("y")

    assert (FUNCTIONS[name].low, FUNCTIONS[name].high) == (low, high)
    assert answer(low) is not None
    assert answer(high) is not None
    assert answer(low - 0.005 * high) is None
    assert answer(high * 1.005) is None
