"""How much each found value moves with each given one, against slopes taken on paper."""

import pytest

from assistant.solving import Known, solve
from assistant.solving.attempt import attempt
from assistant.solving.network import network_of
from assistant.solving.sensitivity import Sensitivities
from tests.solving.toys import TABLE, solved, toys, wide


def moved(key, equations, said, **more):
    return solved(equations, said, **more).moved_by(key)


def test_a_product_a_quotient_a_difference():
    assert moved("a", ("a = b * c",), {"b": 3, "c": 5}) == pytest.approx({"b": 5, "c": 3})
    assert moved("a", ("a = b / c",), {"b": 3, "c": 5}) == pytest.approx({"b": 0.2, "c": -0.12})
    assert moved("a", ("a = b - c",), {"b": 3, "c": 5}) == pytest.approx({"b": 1, "c": -1})


def test_a_value_used_twice_counts_once():
    assert moved("e", ("d = 2 * b", "e = b + d"), {"b": 3}) == pytest.approx({"b": 3})
    assert moved("e", ("d = 2 * b", "e = d - b - b"), {"b": 3}).get("b", 0.0) == pytest.approx(0, abs=1e-8)


def test_a_given_value_moves_with_itself_alone():
    assert moved("b", ("a = b * c",), {"b": 3, "c": 5}) == {"b": 1.0}


def test_a_pair_found_together():
    """a = (s + d) / 3 and b = s − a, from s = a + b and d = 2 a − b."""
    equations = ("s = a + b", "d = 2 * a - b")
    assert moved("a", equations, {"s": 10, "d": 5}) == pytest.approx({"s": 1 / 3, "d": 1 / 3})
    assert moved("b", equations, {"s": 10, "d": 5}) == pytest.approx({"s": 2 / 3, "d": -1 / 3})


def test_a_ring_of_three_found_together():
    """x + y = p, y + 2 z = q, z + 3 x = r: solved on paper, x = (p − q + 2 r) / 7."""
    equations = ("p = x + y", "q = y + 2 * z", "r = z + 3 * x")
    x, y, z = 2.0, 3.0, 4.0
    said = {"p": x + y, "q": y + 2 * z, "r": z + 3 * x}
    assert moved("x", equations, said) == pytest.approx({"p": 1 / 7, "q": -1 / 7, "r": 2 / 7})
    assert moved("y", equations, said) == pytest.approx({"p": 6 / 7, "q": 1 / 7, "r": -2 / 7})
    assert moved("z", equations, said) == pytest.approx({"p": -3 / 7, "q": 3 / 7, "r": 1 / 7})


def test_a_value_found_by_searching():
    """a = b + b³ / 100 at b = 2: a moves by 1 + 3 b² / 100 = 1.12 for one of b."""
    assert moved("b", ("a = climb(b)",), {"a": 2.08}) == pytest.approx({"a": 1 / 1.12})


def test_a_slope_at_nothing():
    assert moved("a", ("a = b * c + b",), {"b": 0, "c": 5}) == pytest.approx({"b": 6})


def test_at_the_end_of_a_range_the_slope_is_taken_on_the_side_that_is_there():
    assert moved("a", ("a = bump(b)",), {"b": 10}) == pytest.approx({"b": -10}, rel=1e-4)
    assert moved("a", ("a = bump(b)",), {"b": 0}) == pytest.approx({"b": 10}, rel=1e-4)


def test_a_whole_number_moves_with_nothing():
    assert moved("n", ("n = floor(made / size)",), {"made": 370, "size": 50}) == {}


def test_beside_a_whole_number_a_smooth_function_keeps_its_slope():
    """square(b) = 9: b moves by a sixth for one of n, and not at all with the amount that is rounded down."""
    solution = solved(("n = floor(a) + square(b)",), {"n": 12, "a": 3.4})
    assert solution.value("b") == 3
    assert solution.moved_by("b") == pytest.approx({"n": 1 / 6})


def test_what_moves_the_gap_of_an_equation():
    network = network_of(toys("a = 2 * b + c", "c = 3 * d"), (), TABLE)
    slot = network.slot_of
    ledger = attempt(network, wide, [(slot[key], value, 0.0) for key, value in {"d": 1.0, "b": 2.0, "a": 7.0}.items()])
    gap = Sensitivities(ledger).of_gap(1)  # c was found from a and b
    assert {network.keys[s]: change for s, change in gap.items()} == pytest.approx({"a": 1, "b": -2, "d": -3})


@pytest.mark.parametrize(
    ("equations", "said", "key", "spread"),
    [
        (("a = b + c",), {"b": (10, 3), "c": (20, 4)}, "a", 5.0),  # the sides of a right triangle
        (("a = b - c",), {"b": (10, 3), "c": (20, 4)}, "a", 5.0),
        (("a = b * c",), {"b": (10, 1), "c": (20, 0)}, "a", 20.0),
        (("d = 2 * b", "e = b + d"), {"b": (10, 1)}, "e", 3.0),
        (("s = a + b", "d = 2 * a - b"), {"s": (10, 3), "d": (5, 3)}, "a", 2**0.5),
    ],
)
def test_the_spread_of_a_found_value_from_those_of_what_was_said(equations, said, key, spread):
    known = {name: Known(float(value), plus_minus=limit or None) for name, (value, limit) in said.items()}
    figures = solve(known, toys(*equations), (), TABLE, wide).figures
    assert figures[key].plus_minus == pytest.approx(spread)


def test_what_was_said_keeps_its_own_spread_and_what_is_sure_has_none():
    figures = solve({"b": Known(10.0, plus_minus=3.0), "c": Known(2.0)}, toys("a = b * c", "d = 2 * c"), (), TABLE, wide).figures
    assert (figures["b"].plus_minus, figures["c"].plus_minus, figures["d"].plus_minus) == (3.0, None, None)
    assert figures["a"].plus_minus == pytest.approx(6.0)
