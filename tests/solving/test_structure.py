"""Which unknowns belong together."""

from hypothesis import given
from hypothesis import strategies as st

from assistant.solving.structure import groups


def found(equations):
    return [(set(group.equations), set(group.slots)) for group in groups(dict(enumerate(equations)))]


def test_two_equations_in_the_same_two_unknowns():
    assert found([(1, 2), (1, 2)]) == [({0, 1}, {1, 2})]


def test_what_hangs_on_a_free_unknown_is_left_out():
    assert found([(1, 2), (1, 2), (2, 3, 4)]) == [({0, 1}, {1, 2})]
    assert found([(1, 2, 3), (1, 2, 3)]) == []


def test_a_group_that_waits_for_another_is_not_ready():
    assert found([(1, 2), (1, 2), (2, 3, 4), (3, 4)]) == [({0, 1}, {1, 2})]


def test_of_too_many_equations_the_earlier_are_taken():
    assert found([(1, 2), (1, 2), (1, 2)]) == [({0, 1}, {1, 2})]


def test_independent_groups_are_all_ready():
    assert found([(1, 2), (3, 4), (1, 2), (3, 4)]) == [({0, 2}, {1, 2}), ({1, 3}, {3, 4})]


def test_a_long_ring_is_one_group():
    ring = [(n, (n + 1) % 500) for n in range(500)]
    assert found(ring) == [(set(range(500)), set(range(500)))]


@given(st.lists(st.sets(st.integers(0, 8), min_size=1, max_size=4).map(sorted), max_size=10))
def test_a_group_has_as_many_equations_as_unknowns_and_knows_all_of_them(equations):
    taken: set[int] = set()
    for numbers, slots in found(equations):
        assert len(numbers) == len(slots)
        assert slots == {slot for number in numbers for slot in equations[number]}
        assert not taken & slots
        taken |= slots
