"""Lines of working in their less usual shapes."""

import pytest

from assistant.solving import Known, solve
from tests.solving.toys import TABLE, toys, wide


def shown(key, value):
    return f"{value:.6g} %" if key.startswith(("percent", "share")) else f"{value:.6g}"


def line(equation, key, said, members=()):
    solution = solve({k: Known(float(v)) for k, v in said.items()}, toys(equation), members, TABLE, wide, (), shown)
    return solution.derivation(key)[-1].working


@pytest.mark.parametrize(
    ("equation", "key", "said", "told"),
    [
        ("a = b - (c + d)", "a", {"b": 9, "c": 2, "d": 3}, "9 − (2 + 3) = 4"),
        ("a = b - (c - d)", "a", {"b": 9, "c": 5, "d": 3}, "9 − (5 − 3) = 7"),
        ("a = b + (c - d)", "a", {"b": 9, "c": 5, "d": 3}, "9 + 5 − 3 = 11"),
        ("a = b - c * d", "a", {"b": 9, "c": 2, "d": 3}, "9 − 2 × 3 = 3"),
        ("a = b / (c * d)", "a", {"b": 12, "c": 2, "d": 3}, "12 ÷ 2 ÷ 3 = 2"),
        ("a = b / (c / d)", "a", {"b": 12, "c": 2, "d": 3}, "12 ÷ 2 × 3 = 18"),
        ("a = b * (c / d)", "a", {"b": 12, "c": 2, "d": 3}, "12 × 2 ÷ 3 = 8"),
        ("a = (b + c) * (d - e)", "a", {"b": 1, "c": 2, "d": 9, "e": 4}, "(1 + 2) × (9 − 4) = 15"),
        ("a = 1 / b", "a", {"b": 4}, "1 ÷ 4 = 0.25"),
        ("a = -b", "a", {"b": 4}, "−4 = -4"),
        # the hundreds of a percent
        ("a = b * percent / 100", "a", {"b": 50, "percent": 30}, "50 × 30 % = 15"),
        ("a = b / percent * 100", "a", {"b": 15, "percent": 30}, "15 ÷ 30 % = 50"),
        ("percent = a / b * 100", "percent", {"a": 15, "b": 50}, "15 ÷ 50 = 30 %"),
        ("percent = a / b * 100 * 100", "percent", {"a": 3, "b": 50}, "3 ÷ 50 × 100 = 600 %"),
        ("a = b * 100 / c", "a", {"b": 15, "c": 50}, "15 × 100 ÷ 50 = 30"),
        ("a = b / 100", "a", {"b": 15}, "15 ÷ 100 = 0.15"),
        ("a = b * percent_b / 100 * percent_c / 100", "a", {"b": 80, "percent_b": 50, "percent_c": 25}, "80 × 50 % × 25 % = 10"),
        ("a = b * percent_b / percent_c", "a", {"b": 80, "percent_b": 50, "percent_c": 25}, "80 × 50 % ÷ 25 % = 160"),
        ("a = b * (100 - percent) / 100", "a", {"b": 50, "percent": 30}, "50 × (100 % − 30 %) = 35"),
        ("a = b * (1 + percent / 100)", "a", {"b": 50, "percent": 30}, "50 × (1 + 30 %) = 65"),
        ("percent = 100 - share", "percent", {"share": 30}, "100 % − 30 % = 70 %"),
        ("a = 100 - b", "a", {"b": 30}, "100 − 30 = 70"),
        ("percent_a = percent_b * c / 100", "percent_a", {"percent_b": 30, "c": 50}, "30 % × 50 = 15 %"),
        # functions
        ("a = square(b + c)", "a", {"b": 1, "c": 2}, "square at 1 + 2 (9) = 9"),
        ("a = 2 * square(b)", "a", {"b": 3}, "2 × square at 3 (9) = 18"),
        ("a = square(b)", "b", {"a": 9}, "the value whose square is 9 = 3"),
        ("n = floor(a / b)", "n", {"a": 17, "b": 5}, "17 ÷ 5, rounded down = 3"),
        ("n = floor(a / b)", "a", {"n": 3, "b": 5}, "3 × 5 = 15"),
    ],
)  # fmt: skip
def test_each_shape_is_told_as_one_writes_it(equation, key, said, told):
    assert line(equation, key, said) == told


@pytest.mark.parametrize(("count", "told"), [(1, "1 = 1"), (6, "1 + 2 + 3 + 4 + 5 + 6 = 21"), (7, "1 + 2 + 3 + … + 7 (7 in all) = 28")])
def test_a_sum_is_told_whole_up_to_six(count, told):
    members = tuple(f"m{n}" for n in range(1, count + 1))
    assert line("t = sum(x[i])", "t", {f"x[{member}]": n for n, member in enumerate(members, 1)}, members) == told


def test_a_sum_of_products_and_what_is_left_of_it():
    said = {"x[p]": 2, "y[p]": 3, "x[q]": 4, "y[q]": 5}
    assert line("t = sum(x[i] * y[i])", "t", said, ("p", "q")) == "2 × 3 + 4 × 5 = 26"
    less = {key: value for key, value in said.items() if key != "x[q]"} | {"t": 26}
    assert line("t = sum(x[i] * y[i])", "x[q]", less, ("p", "q")) == "(26 − 2 × 3) ÷ 5 = 4"


def test_the_rest_of_one_is_the_whole():
    assert line("t = sum(x[i])", "x[p]", {"t": 7}, ("p",)) == "7 − 0 = 7"


def test_an_indexed_line_speaks_of_its_own_ingredient():
    said = {"whole": 50, "part[p]": 3, "part[q]": 7, "parts": 10}
    assert line("x[i] = whole * part[i] / parts", "x[q]", said, ("p", "q")) == "50 × 7 ÷ 10 = 35"
