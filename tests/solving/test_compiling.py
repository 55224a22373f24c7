"""Trees as functions of the list of values: every sign in every shape, functions within their range, sums with and without the unknown's own."""

import pytest

from assistant.faults import HouseFault
from assistant.solving.compiling import NO_VALUE, Compiler, OutOfReach
from assistant.solving.expression import (
    Name,
    Total,
    functions_of,
    holds_a_difference,
    names_in_sums,
    names_outside_sums,
    read_equation,
    read_expression,
    to_text,
)
from tests.solving.toys import TABLE

VALUES = {"a": 7.0, "b": 2.0, "x[p]": 3.0, "x[q]": 5.0, "y[p]": 10.0, "y[q]": 100.0}
KEYS = list(VALUES)


def value(text, own="p", unknown="q"):
    def slot(name, member):
        return KEYS.index(f"{name}[{member}]" if member else name)

    return Compiler(slot, ("p", "q"), TABLE, own, unknown).compiled(read_expression(text))(list(VALUES.values()))


@pytest.mark.parametrize(
    ("text", "result"),
    [
        ("a", 7.0),
        ("2.5", 2.5),
        ("a + b", 9.0),
        ("a - b", 5.0),
        ("a * b", 14.0),
        ("a / b", 3.5),
        ("a + 3", 10.0),
        ("a - 3", 4.0),
        ("a * 3", 21.0),
        ("a / 4", 1.75),
        ("3 + a", 10.0),
        ("3 - a", -4.0),
        ("3 * a", 21.0),
        ("14 / a", 2.0),
        ("(a + 1) + (b + 1)", 11.0),
        ("(a + 1) - (b + 1)", 5.0),
        ("(a + 1) * (b + 1)", 24.0),
        ("(a + 1) / (b + 2)", 2.0),
        ("-a", -7.0),
        ("x[i] + a", 10.0),  # of the ingredient the equation is written for
        ("x[j] + a", 12.0),  # of the unknown's own
        ("sum(x[i])", 8.0),
        ("sum(x[i] * y[i])", 530.0),
        ("sum(x[i] * a)", 56.0),
        ("others(x[i])", 3.0),
        ("others(x[i] * y[i])", 30.0),
        ("square(a)", 49.0),
        ("square(a - b)", 25.0),
        ("inverse_square(a + b)", 3.0),
        ("floor(a / b)", 3.0),
    ],
)
def test_each_shape(text, result):
    assert value(text) == result


@pytest.mark.parametrize(("text", "there"), [("square(0)", 0.0), ("square(10000)", 1e8), ("bump(10)", 0.0)])
def test_a_function_is_answered_at_both_ends_of_its_range(text, there):
    assert value(text) == there


@pytest.mark.parametrize("text", ["square(0 - 0.1)", "square(10000.1)", "bump(10.1)"])
def test_outside_its_range_a_function_has_no_value(text):
    with pytest.raises(OutOfReach):
        value(text)


@pytest.mark.parametrize("text", ["a / (b - 2)", "inverse_square(b - a)"])
def test_no_value_is_told_by_one_family_of_errors(text):
    with pytest.raises(NO_VALUE):
        value(text)


@pytest.mark.parametrize(
    ("text", "fault"), [("inverse_bump(a)", "turned round"), ("sqare(a)", "no function"), ("square(a, b)", "takes 1 values, not 2")]
)
def test_what_the_table_does_not_have_is_a_fault_of_the_house(text, fault):
    with pytest.raises(HouseFault, match=fault):
        value(text)


def test_which_functions_a_tree_calls():
    assert functions_of(read_expression("a + square(floor(b)) * sum(inverse_climb(x[i]))")) == {"square", "floor", "climb"}
    assert functions_of(read_expression("a + 2")) == frozenset()


@pytest.mark.parametrize(
    ("text", "holds"),
    [("a + b", False), ("a - b", True), ("a * (b - 1)", True), ("(a - 1) * b", True), ("square(a - b)", True), ("sum(x[i] - y[i])", True), ("sum(x[i])", False),
     ("a / b", False), ("square(a)", False), ("2", False)],
)  # fmt: skip
def test_whether_something_is_taken_off_something(text, holds):
    assert holds_a_difference(read_expression(text)) is holds


def test_what_is_summed_over_and_what_is_not():
    tree = read_expression("a * sum(x[i] * b) + square(y[i]) - square(sum(y[i]))")
    assert [(name.name, name.index) for name in names_in_sums(tree)] == [("x", "i"), ("y", "i")]
    assert [(name.name, name.index) for name in names_outside_sums(tree)] == [("a", ""), ("y", "i")]
    assert [name.name for name in read_equation("a = b * sum(x[i]) + b").names] == ["a", "b", "x"]
    assert {name.name for name in read_equation("a = b * sum(x[i]) + b").in_sums} == {"x"}


def test_a_sum_is_over_all_unless_it_leaves_one_out():
    assert to_text(Total(Name("x", "i"))) == "sum(x[i])"
    assert to_text(Total(Name("x", "i"), others=True)) == "others(x[i])"
