"""± from what was given to what follows."""

import pytest

from assistant.matter.functions import FUNCTIONS
from assistant.quantities.vocabulary import bracket
from assistant.relations import RELATIONS
from assistant.solving import Known, solve
from tests.solving.toys import TABLE, toys, wide


def spread(equations, **known):
    given = {key: value if isinstance(value, Known) else Known(value) for key, value in known.items()}
    solution = solve(given, toys(*equations), (), TABLE, wide)
    return {key: figure.plus_minus for key, figure in solution.figures.items()}


def off(value, plus_minus):
    return Known(value, plus_minus=plus_minus)


def test_without_any_nothing_carries_one():
    assert set(spread(("a = b * 2",), b=3).values()) == {None}


def test_it_is_carried_along_and_adds_up_like_independent_ones():
    assert spread(("a = b + c",), b=off(10.0, 3.0), c=off(20.0, 4.0))["a"] == pytest.approx(5)


def test_one_source_used_twice_counts_once():
    chain = ("water = herb * 0.8", "dry = herb - water", "whole = water + dry")
    assert spread(chain, herb=off(100.0, 5.0))["whole"] == pytest.approx(5)
    assert spread(chain, herb=off(100.0, 5.0))["dry"] == pytest.approx(1)


def test_what_was_given_keeps_its_own():
    assert spread(("a = b * 2",), b=off(3.0, 0.5))["b"] == 0.5


def test_a_group_that_hangs_together_carries_it():
    pair = ("poured = herb * 3", "held = herb * grip", "out = poured - held")
    moved = spread(pair, out=100.0, grip=off(1.0, 0.1))
    assert moved["herb"] == pytest.approx(50 / 2 * 0.1, rel=1e-6)  # herb = out / (3 - grip)


def test_a_searched_value_carries_it():
    assert spread(("a = climb(b)",), a=off(101.0 / 100, 0.103))["b"] == pytest.approx(0.1, rel=1e-6)  # slope 1.03 at 1


def test_it_agrees_with_moving_the_source_on_real_relations():
    relations = tuple(relation for relation in RELATIONS if relation.applies({"fresh", "tincture", "spirit"}))
    base = {"pressed": 250.0, "ratio": 2.0, "finished_strength": 45.0, "water_content": 80.0, "held_per_gram": 2.5}

    def found(water, plus_minus=None):
        known = {key: Known(value) for key, value in base.items()} | {"water_content": Known(water, plus_minus=plus_minus)}
        return solve(known, relations, (), FUNCTIONS, bracket).figures

    told = found(80.0, 2.0)
    for key in ("herb", "strength", "in_jar", "dried_equivalent"):
        moved = abs(found(80.01)[key].value - found(79.99)[key].value) / 0.02 * 2.0
        assert told[key].plus_minus == pytest.approx(moved, rel=1e-4), key
