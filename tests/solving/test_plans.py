"""How a group is searched: which unknown is guessed, what follows from it, and which equation has to hold in the end."""

import pytest

from assistant.solving.courses import courses
from assistant.solving.network import network_of
from assistant.solving.structure import Group
from assistant.solving.tearing import plans
from tests.solving.toys import TABLE, solved, toys, values


def planned(equations, unknown, spreads=None):
    network = network_of(toys(*equations), (), TABLE)
    slots = tuple(network.slot_of[key] for key in unknown)
    group = Group(tuple(range(len(equations))), slots)
    keys = network.keys
    made = plans(network, group, spreads or [1.0] * len(slots))
    return [[(keys[stage.guess], [(number, keys[slot]) for number, slot in stage.then], stage.must_hold) for stage in plan] for plan in made]


PAIR = ("s = a + b", "d = 2 * a - b")


def test_each_unknown_of_a_pair_may_be_guessed_and_the_narrowest_is_first():
    assert planned(PAIR, "ab") == [[("a", [(0, "b")], 1)], [("b", [(0, "a")], 1)]]
    assert planned(PAIR, "ab", [5.0, 1.0])[0] == [("b", [(0, "a")], 1)]


def test_a_bracket_must_be_told_for_each_unknown():
    with pytest.raises(ValueError, match="shorter"):
        planned(PAIR, "ab", [5.0])


def test_what_cannot_be_turned_round_is_guessed_itself():
    """h = bump(x) gives h from x and nothing from h."""
    assert planned(("h = bump(x)", "s = h + x"), "hx") == [
        [("h", [(1, "x")], 0)],
        [("x", [(0, "h")], 1)],
    ]
    assert planned(("h = bump(x)", "s = climb(h) + x"), "hx") == [
        [("h", [(1, "x")], 0)],
        [("x", [(0, "h")], 1)],
    ]


def test_of_more_than_eight_the_first_guess_that_works_is_enough():
    def ring(size):
        return [f"s{n} = {n + 1} * x{n} + x{(n + 1) % size}" for n in range(size)], [f"x{n}" for n in range(size)]

    assert len(planned(*ring(8))) == 8
    assert len(planned(*ring(9))) == 1


def test_of_more_than_eight_the_one_that_most_equations_mention_is_guessed():
    parts = [f"x{n}" for n in range(1, 9)]
    star = [f"{part} = hub * c{n}" for n, part in enumerate(parts)]
    ((stage,),) = planned([*star, f"whole = {' + '.join(parts)}"], [*parts, "hub"])
    assert stage == ("hub", [(n, part) for n, part in enumerate(parts)], 8)


def test_one_guess_inside_another_where_one_is_not_enough():
    equations = ("a + b + square(c) = s1", "a * b + d = s2", "b + c + square(d) = s3", "square(a) + c + d = s4")
    ((outer, inner),) = planned(equations, "abcd")
    assert outer[1] == []
    known = {outer[0], inner[0], *(key for _, key in inner[1])}
    assert known == set("abcd")
    used = [number for number, _ in inner[1]]
    assert sorted([*used, outer[2], inner[2]]) == [0, 1, 2, 3]


def test_there_is_no_plan_where_two_guesses_are_not_enough():
    equations = [f"s{n} = climb(a) + climb(b) + climb(c) + climb(d) * {n + 1}" for n in range(4)]
    assert planned(equations, "abcd") == []


def test_a_course_lists_what_is_guessed_before_what_follows():
    network = network_of(toys(*PAIR), (), TABLE)
    slots = tuple(network.slot_of[key] for key in "ab")
    first = courses(network, Group((0, 1), slots), [1.0, 1.0])[0]
    assert ([network.keys[slot] for slot in first.slots], first.leading) == (["a", "b"], (1, 0))


def test_curves_that_hang_together_in_fours():
    equations = ("a + b + square(c) = s1", "a * b + d = s2", "b + c + square(d) = s3", "square(a) + c + d = s4")
    a, b, c, d = 1.5, 2.5, 3.5, 4.5
    said = {"s1": a + b + c**2, "s2": a * b + d, "s3": b + c + d**2, "s4": a**2 + c + d}
    found = values(solved(equations, said, brackets=lambda _: (0.0, 9.0)))
    assert [round(found[key], 6) for key in "abcd"] == [a, b, c, d]
