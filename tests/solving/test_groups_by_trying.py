"""Groups against trying every set of equations: the smallest sets with no more unknowns than equations are what can be solved next."""

from itertools import combinations

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from assistant.solving.structure import Group, groups

EQUATIONS = st.lists(st.sets(st.integers(0, 7), min_size=1, max_size=4).map(sorted).map(tuple), min_size=1, max_size=7)


def unknowns(equations, numbers):
    return {slot for number in numbers for slot in equations[number]}


def sets_of(equations):
    return [set(some) for size in range(1, len(equations) + 1) for some in combinations(range(len(equations)), size)]


@given(EQUATIONS)
def test_the_smallest_full_sets_are_the_groups(equations):
    every = sets_of(equations)
    assume(all(len(unknowns(equations, some)) >= len(some) for some in every))  # none too many: each can have an unknown of its own
    full = [some for some in every if len(unknowns(equations, some)) == len(some)]
    smallest = [some for some in full if not any(other < some for other in full)]
    found = groups(dict(enumerate(equations)))
    assert sorted(map(sorted, smallest)) == sorted(sorted(group.equations) for group in found)
    for group in found:
        assert set(group.slots) == unknowns(equations, group.equations)


@given(EQUATIONS)
def test_of_too_many_equations_the_earlier_are_taken(equations):
    """An equation is left out where with the earlier ones that were kept it would have more equations than unknowns somewhere."""
    kept = []
    for number in range(len(equations)):
        trial = [*kept, number]
        if all(len(unknowns(equations, some)) >= len(some) for size in range(1, len(trial) + 1) for some in combinations(trial, size)):
            kept = trial
    alone = groups({number: equations[number] for number in kept})
    assert {group.equations for group in groups(dict(enumerate(equations)))} == {group.equations for group in alone}


def test_groups_come_in_the_order_of_their_equations_and_each_equation_gives_the_slot_beside_it():
    (group,) = groups({3: (7, 8), 5: (7, 8)})
    assert group.equations == (3, 5)
    assert sorted(group.slots) == [7, 8]
    assert group.key == (7, 8)


@pytest.mark.parametrize(("slots", "key"), [((9, 2, 5), (2, 5, 9)), ((1,), (1,))])
def test_a_group_is_the_same_however_its_equations_were_handed_out(slots, key):
    assert Group(tuple(range(len(slots))), slots).key == key
