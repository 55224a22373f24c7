"""Monte Carlo: 10,000 normal draws of each source, its limit taken as one standard deviation, against the first-order ± of every relation.

JCGM 101:2008 is the method. Within 5 % wherever the relation is in its linear range; where it is not, the program says that its ± is rough.
"""

import random
from functools import lru_cache
from math import sqrt
from statistics import pstdev

import pytest

from assistant.matter.functions import FUNCTIONS
from assistant.quantities.vocabulary import bracket
from assistant.relations import RELATIONS
from assistant.session.exactness import LIMIT
from assistant.solving import Known, misfit, solve
from assistant.solving.compiling import NO_VALUE
from tests.solving.spreads import MEMBERS, base_values, directions, instance_of, with_values
from tests.solving.toys import TABLE, toys, wide

DRAWS = 10_000
MOST_SOURCES = 12
NARROW, WIDE = 0.01, 0.12  # of the value


@lru_cache(maxsize=1)
def normals():
    """Standard normal draws for each source, the same for every relation; their own scatter about 0 and 1 is taken off."""
    draw = random.Random(2031)
    rows = []
    for _ in range(MOST_SOURCES):
        row = [draw.gauss(0, 1) for _ in range(DRAWS)]
        mean, spread = sum(row) / DRAWS, pstdev(row)
        rows.append([(x - mean) / spread for x in row])
    return rows


def drawn(instance, slot, values, spreads):
    """The spread of the figure in a slot over the draws; None where more than a hundredth of them has no figure."""
    evaluate = instance.towards(slot).evaluate
    sources = [s for s in spreads if spreads[s]][:MOST_SOURCES]
    assert len(sources) == sum(bool(u) for u in spreads.values())
    rows = normals()
    given, found = values.copy(), []
    for n in range(DRAWS):
        for row, source in zip(rows, sources, strict=False):
            given[source] = values[source] + spreads[source] * row[n]
        try:
            found.append(evaluate(given))
        except NO_VALUE:
            continue
    return pstdev(found) if len(found) > 0.99 * DRAWS else None


def rough(instance, slot, values, spreads, figure):
    """Whether the program would call the ± of this figure rough."""
    keys = instance.network.keys
    known = {keys[s]: Known(values[s], plus_minus=spreads.get(s)) for s in instance.slots if s != slot}
    moved = solve(known, (instance.relation,), MEMBERS, FUNCTIONS, bracket).moved_by(keys[slot])
    return misfit(keys[slot], figure.value, moved, known, (instance.relation,), MEMBERS, FUNCTIONS, bracket) > LIMIT


@pytest.mark.parametrize("relation", RELATIONS, ids=lambda relation: relation.name)
def test_draws_agree_with_the_first_order(relation):
    tried = 0
    for instance, slot, keys in directions(relation):
        values = base_values(instance)
        if values is None:
            continue
        spreads = {s: NARROW * abs(values[s]) for s in instance.slots if s != slot}
        figure = with_values(instance, slot, values, spreads)
        if figure is None or not figure.plus_minus:
            continue
        if rough(instance, slot, values, spreads, figure):
            continue  # outside the linear range, and said to be
        spread = drawn(instance, slot, values, spreads)
        assert spread is not None
        assert figure.plus_minus == pytest.approx(spread, rel=0.05), f"{keys[slot]} of {relation.equation}"
        tried += 1
    assert tried or instance_of(relation).has_steps, f"no direction of {relation.equation} was in its linear range"


def test_where_draws_disagree_the_program_says_that_it_is_rough():
    """Wide errors, on every direction that bends: never further off than 5 % without a word."""
    silent = honest = 0
    for relation in RELATIONS:
        for instance, slot, keys in directions(relation):
            values = base_values(instance)
            bends = len([s for s in instance.slots if s != slot]) <= 3 and ("/" in relation.equation or "(" in relation.equation)
            if values is None or not bends:
                continue
            spreads = {s: WIDE * abs(values[s]) for s in instance.slots if s != slot}
            figure = with_values(instance, slot, values, spreads)
            if figure is None or not figure.plus_minus:
                continue
            said = rough(instance, slot, values, spreads, figure)
            spread = None if said else drawn(instance, slot, values, spreads)
            honest += said
            if not said:
                # two sources that bend at once add cross terms; twice the limit is where it would mislead
                assert spread is not None, f"{keys[slot]} of {relation.equation} has no figure over its ±, and nothing is said"
                assert figure.plus_minus == pytest.approx(spread, rel=0.10), f"{keys[slot]} of {relation.equation}"
                silent += 1
    assert silent > 50
    assert honest > 10


def test_the_misfit_is_what_the_series_has_it():
    """y = x² at 10 ± 2: the spread of the draws is 2·10·2·√(1 + u²/(2·x²)) by the moments of a normal."""
    known = {"b": Known(10.0, plus_minus=2.0)}
    relations = toys("a = square(b)")
    solution = solve(known, relations, (), TABLE, wide)
    off = misfit("a", 100.0, solution.moved_by("a"), known, relations, (), TABLE, wide)
    assert off == pytest.approx(sqrt(1 + 4 / (2 * 100)) - 1, abs=2e-3)
