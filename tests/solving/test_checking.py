"""When an equation that is known throughout counts as broken: whole numbers beside a step, and what no said value can mend."""

import pytest

from assistant.solving.attempt import attempt
from assistant.solving.checking import holds
from assistant.solving.network import network_of
from tests.solving.toys import TABLE, solved, toys, wide


def entered(equations, said=()):
    network = network_of(toys(*equations), (), TABLE)
    return attempt(network, wide, [(network.slot_of[key], value, 0.0) for key, value in dict(said).items()])


def test_what_nothing_said_can_mend_is_broken_however_small_the_gap():
    """Nothing times nothing is never a half: the product does not move with either factor, so no slack of theirs excuses it."""
    ledger = entered(["b * c = 0.5"], {"b": 0, "c": 0})
    assert ledger.clashes == [0]
    assert not holds(ledger, 0)
    assert not entered(["b * c = 0 * 1"], {"b": 0, "c": 0}).clashes


def test_a_found_value_rests_on_the_slack_of_what_it_was_found_from():
    """2 × 10 against 21: 5 % apart, while each of the two may be off by half a percent; 20.1 is within it."""
    assert entered(["twice = 2 * x"], {"x": 10, "twice": 21}).clashes == [0]
    assert entered(["twice = 2 * x"], {"x": 10, "twice": 20.1}).clashes == []
    assert entered(["twice = 2 * x"], {"x": 10, "twice": 20.101}).clashes == [0]  # half a percent of 20.101 is 0.1005


@pytest.mark.parametrize("size", [1e-5, 1e-3, 1.0, 1e6])
def test_what_contradicts_contradicts_at_any_size_and_what_holds_holds(size):
    """Three thirds and two; the floor of a third of a large amount beside what is no floor of it."""
    assert entered(["whole = a + b + c"], {"whole": 2 * size, "a": size / 3, "b": size / 3, "c": size / 3}).clashes == [0]
    assert entered(["whole = a + b + c"], {"whole": size, "a": size / 3, "b": size / 3, "c": size / 3}).clashes == []
    assert entered([f"part = floor(a) * {size:.6f}"], {"part": 5 * size, "a": 4.99}).clashes == []
    assert entered([f"part = floor(a) * {size:.6f}"], {"part": 5.03 * size, "a": 4.99}).clashes == [0]


@pytest.mark.parametrize(
    ("amount", "count", "clashes"),
    [
        (4.99, 5, False),  # half a percent more than was said fills the fifth
        (4.97, 5, True),
        (5.01, 4, False),  # half a percent less leaves it unfilled
        (5.03, 4, True),
        (5.5, 5, False),
        (5.5, 4, True),
        (5.5, 6, True),
    ],
)
def test_a_whole_number_may_be_one_step_off_where_the_amount_is_said_within_half_a_percent(amount, count, clashes):
    assert bool(solved(("count = floor(amount)",), {"amount": amount, "count": count}).conflicts) == clashes


def test_what_is_tried_beside_a_value_is_put_back():
    for amount, count in ((4.99, 5), (5.01, 4), (5.5, 5), (5.5, 4)):
        ledger = entered(["count = floor(amount)"], {"amount": amount, "count": count})
        assert sorted(ledger.values) == sorted([amount, count])


def test_an_equation_without_a_value_says_nothing_against_anything():
    """A division by nothing: no value, so no contradiction either."""
    ledger = entered(["a = b / c"], {"a": 3, "b": 6, "c": 0})
    assert holds(ledger, 0)
    assert not ledger.clashes
