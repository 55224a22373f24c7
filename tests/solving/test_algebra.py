"""Rearranging by algebra, and by hand: each form as it is told, and each refused that is not one quotient."""

import pytest

from assistant.solving.algebra import agrees, gathered, same, solved_for
from assistant.solving.expression import Call, Name, Number, Pair, Total, read_equation, read_expression, to_text
from assistant.solving.forms import worked_out
from assistant.solving.isolating import isolated, mentions, opened
from tests.solving.toys import TABLE


def form(equation, unknown):
    found = solved_for(read_equation(equation), unknown, TABLE)
    return None if found is None else to_text(found)


@pytest.mark.parametrize(
    ("equation", "unknown", "told"),
    [
        ("a = b * c", "b", "a / c"),
        ("a = b - c", "c", "b - a"),
        ("a = b * (1 - c / 100)", "c", "(b - a) * 100 / b"),
        ("w * (j + m) = a * j + s * m", "j", "m * (s - w) / (w - a)"),
        ("a * x + b * x = c", "x", "c / (a + b)"),
        ("a / x + b / x = c", "x", "(a + b) / c"),
        ("a = x + x / 2", "x", "a * 2 / 3"),
        ("a * b * b * x + x = c", "x", "c / (a * b * b + 1)"),
        ("x * b * b * b + x = c", "x", "c / (b * b * b + 1)"),
        ("a = b * b * b + x + x", "x", "(a - b * b * b) / 2"),
    ],
)
def test_what_stands_more_than_once_is_gathered_into_one_quotient(equation, unknown, told):
    found = form(equation, Name(unknown))
    assert same(read_expression(found), read_expression(told))
    assert agrees(read_equation(equation), Name(unknown), read_expression(found))


@pytest.mark.parametrize(
    ("equation", "unknown"),
    [
        ("a = x * x", "x"),
        ("a = x * x + x", "x"),
        ("a = 1 / x + x", "x"),
        ("a = square(x) + x", "x"),  # inside and outside a function
        ("a = square(x) + bump(x)", "x"),  # inside two
        ("a = square(x) + floor(x)", "x"),  # though each has a way back
        ("a = bump(x)", "x"),  # no way back
        ("a = square(2 * x)", "x"),  # the argument is more than the unknown
        ("a = square(x) * square(x)", "x"),
        ("x * b * b * b * b + x = c", "x"),  # a fourth power is not written
        ("0 * x = a", "x"),
    ],
)
def test_what_is_no_single_quotient_is_left_to_the_search(equation, unknown):
    assert form(equation, Name(unknown)) is None


def test_a_function_is_freed_first_and_then_turned_round():
    assert same(read_expression(form("a = 2 * square(x) + b", Name("x"))), read_expression("inverse_square((a - b) / 2)"))
    assert form("a * square(x) = square(x) + b", Name("x")) == "inverse_square(b / (a - 1))"


def test_the_ingredient_of_the_unknown_is_taken_out_of_its_sum():
    assert form("t = sum(w[i])", Name("w", "j")) == "t - others(w[i])"
    share = form("s[i] = w[i] / sum(w[i]) * 100", Name("w", "i"))
    assert same(read_expression(share), read_expression("s[i] * others(w[i]) / (100 - s[i])"))


@pytest.mark.parametrize(
    ("equation", "with_it", "without"),
    [
        ("a * x = b", "a", "b"),
        ("b = a * x", "a", "b"),
        ("a * x + b * x = c", "a + b", "c"),
        ("w * (j + x) = a * j + s * x", "s - w", "j * w - a * j"),
        ("a = b / x", "a", "b"),
        ("c - x = a", "1", "c - a"),
    ],
)
def test_what_stands_with_the_unknown_and_what_without(equation, with_it, without):
    first, second = gathered(read_equation(equation), Name("x"))
    assert same(Pair("/", second, first), Pair("/", read_expression(without), read_expression(with_it)))
    assert same(first, read_expression(with_it)) or same(first, Pair("-", Number("0"), read_expression(with_it)))
    assert not to_text(first).startswith("0 - ")


@pytest.mark.parametrize("equation", ["a = x * x", "a = square(x)", "a = square(x) + x", "a = x / x", "x * b * b * b * b = c"])
def test_nothing_is_gathered_where_the_unknown_is_no_one_factor(equation):
    assert gathered(read_equation(equation), Name("x")) is None


@pytest.mark.parametrize(
    ("equation", "right", "wrong"),
    [
        ("a = b * x", "a / b", "b / a"),
        ("a = b - x", "b - a", "a - b"),
        ("a = square(x) * 2", "inverse_square(a / 2)", "inverse_square(a * 2)"),
        ("a = square(x + b)", "inverse_square(a) - b", "inverse_square(a - b)"),
        ("a = square(x + b)", "inverse_square(a) - b", "inverse_climb(a) - b"),
        ("a = square(x)", "inverse_square(a)", "a"),
        ("a = square(climb(x))", "inverse_climb(inverse_square(a))", "inverse_square(inverse_climb(a))"),
    ],
)
def test_a_form_is_proved_and_its_slip_is_not(equation, right, wrong):
    assert agrees(read_equation(equation), Name("x"), read_expression(right))
    assert not agrees(read_equation(equation), Name("x"), read_expression(wrong))


def test_a_form_with_the_unknown_inside_two_functions_cannot_be_proved():
    assert not agrees(read_equation("a = square(x) + climb(x)"), Name("x"), read_expression("inverse_square(a)"))
    assert not agrees(read_equation("a = square(x) + x"), Name("x"), read_expression("inverse_square(a)"))


def test_two_right_sides_are_the_same_for_all_values_or_not():
    assert same(read_expression("a * (b + c)"), read_expression("a * b + a * c"))
    assert not same(read_expression("a * b + c"), read_expression("a * b - c"))
    assert same(read_expression("square(a + b)"), read_expression("square(b + a)"))
    assert not same(read_expression("square(a + b)"), read_expression("square(a - b)"))
    assert not same(read_expression("square(a)"), read_expression("climb(a)"))
    assert not same(read_expression("a / 4 + a / 4"), read_expression("a * 0.5"))  # a written decimal stands for itself


# ── by hand ──


@pytest.mark.parametrize(
    ("equation", "told"),
    [
        ("a = x + b", "a - b"),
        ("a = b + x", "a - b"),
        ("a = x - b", "a + b"),
        ("a = b - x", "b - a"),
        ("0 = x - b", "b"),
        ("a = x * b", "a / b"),
        ("a = b * x", "a / b"),
        ("a = x / b", "a * b"),
        ("1 = x / b", "b"),
        ("a = b / x", "b / a"),
        ("1 = b / x", "b"),
        ("a = b * (x / 100)", "a / b * 100"),
        ("a = x * (b / 100)", "a / b * 100"),
        ("a = x * (b / c)", "a / (b / c)"),
        ("a = square(x)", "inverse_square(a)"),
        ("b + square(x - c) = a", "inverse_square(a - b) + c"),
        ("a * x = b", "b / a"),
    ],
)
def test_freed_step_by_step(equation, told):
    assert to_text(isolated(read_equation(equation), Name("x"), TABLE)) == told


@pytest.mark.parametrize("equation", ["a = x + x", "a = b", "a = bump(x)", "a = unheard(x)", "a = x * x"])
def test_not_freed(equation):
    assert isolated(read_equation(equation), Name("x"), TABLE) is None


def test_how_often_an_unknown_stands():
    for equation, times in [("a = x + x * square(x)", 3), ("x = a", 1), ("a = b", 0), ("a = square(b)", 0)]:
        assert mentions(read_equation(equation), Name("x")) == times
    assert mentions(read_equation("s[i] = w[i] / sum(w[i])"), Name("w", "i")) == 2
    assert mentions(read_equation("t = sum(w[i] * d[i])"), Name("w", "j")) == 1


def test_a_sum_is_opened_for_its_own_ingredient_alone():
    total = read_expression("sum(w[i] * d[i])")
    assert to_text(opened(total, Name("w", "j"))) == "w[j] * d[j] + others(w[i] * d[i])"
    assert to_text(opened(total, Name("w", "i"))) == "w[i] * d[i] + others(w[i] * d[i])"
    assert opened(total, Name("v", "j")) == total
    assert opened(total, Name("w")) == total
    assert opened(read_expression("sum(w * d[i])"), Name("w", "j")) == read_expression("sum(w * d[i])")
    once = Total(Name("w", "i"), others=True)
    assert opened(once, Name("w", "j")) == once
    assert opened(Call("square", (total,)), Name("w", "j")).arguments[0].sign == "+"


def test_fractions_stay_exact():
    """A third and a seventh are ten twenty-firsts, and no 0.476."""
    assert same(read_expression(form("a = x / 3 + x / 7", Name("x"))), read_expression("a * 21 / 10"))


def test_what_stands_once_is_freed_or_searched_for_and_algebra_is_not_asked(monkeypatch):
    """It takes its time to load, and knows no way back through a table that has none."""
    monkeypatch.setattr("assistant.solving.algebra.solved_for", lambda *_: pytest.fail("algebra was asked"))
    functions = tuple(TABLE.values())
    assert worked_out("tall = 3 * bump(deep)", Name("deep"), functions) is None
    assert to_text(worked_out("tall = 3 * square(deep)", Name("deep"), functions)) == "inverse_square(tall / 3)"
