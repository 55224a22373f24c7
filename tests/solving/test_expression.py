"""Equations as text and as trees."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.faults import HouseFault
from assistant.relations import RELATIONS
from assistant.solving.expression import Call, Name, Number, Pair, Total, read_equation, read_expression, to_text

NAMES = st.sampled_from(["herb", "strength", "plant_water"]).map(Name)
MEMBERS = st.sampled_from(["weight", "volume"]).map(lambda name: Name(name, "i"))
NUMBERS = st.sampled_from(["0.78924", "100", "1.50", "2"]).map(Number)


def grown(leaves):
    return st.recursive(
        leaves,
        lambda inner: st.builds(Pair, st.sampled_from("+-*/"), inner, inner) | st.builds(lambda x: Call("density", (x,)), inner),
        max_leaves=12,
    )


TREES = grown(NAMES | NUMBERS | MEMBERS | grown(MEMBERS | NUMBERS | NAMES).map(Total))


@given(TREES)
def test_what_is_printed_reads_back_to_the_same_tree(tree):
    assert read_expression(to_text(tree)) == tree


@pytest.mark.parametrize("relation", RELATIONS, ids=lambda relation: relation.equation)
def test_every_equation_of_the_house_prints_as_it_was_written(relation):
    equation = read_equation(relation.equation)
    assert f"{to_text(equation.left)} = {to_text(equation.right)}" == relation.equation


@pytest.mark.parametrize(
    "text",
    [
        "a = b = c",
        "a + b",
        "a = b ** 2",
        "a = b % 2",
        "a = b if c else d",
        "a = (lambda: 1)()",
        "a = b.real",
        "a = __import__('os').getcwd()",
        "a = 'text'",
        "a = True",
        "a = x[0]",
        "a = x[k]",
        "a = sum(sum(x[i]))",
        "a = f()",
        "a = f(x=1)",
        "a = f(*x)",
        "a = [1, 2]",
        "a = b +",
        "a = " + " + ".join(["b"] * 400),
        "a = " + "(" * 250 + "b" + ")" * 250,
        "a = ((b)",
    ],
    ids=lambda text: text[:30],
)
def test_anything_but_an_equation_is_refused_by_name(text):
    with pytest.raises(HouseFault) as fault:
        read_equation(text)
    assert fault.value.where


def test_indexed_outside_a_sum_means_one_for_each_ingredient():
    assert read_equation("weight[i] * parts = batch * part[i]").is_indexed
    assert read_equation("share[i] = weight[i] / sum(weight[i])").is_indexed
    assert not read_equation("batch = sum(weight[i])").is_indexed


def test_an_expression_of_four_hundred_characters_is_read_and_one_of_more_is_not():
    long = " + ".join(["herb"] * 57) + " "
    assert len(long) == 397
    assert read_expression(f"{long}* 2")
    with pytest.raises(HouseFault, match="more than 400 characters"):
        read_expression(f"{long}* 23")
