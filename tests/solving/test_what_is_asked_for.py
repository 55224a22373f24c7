"""What would settle a question, looked at closely: in which order, how many, and through groups, whole numbers and functions without a way back."""

from assistant.solving import Known, missing
from tests.solving.toys import TABLE, toys, wide


def asked(wanted, said, equations, askable, members=(), brackets=wide):
    return missing(wanted, {key: Known(float(value)) for key, value in said.items()}, toys(*equations), members, TABLE, brackets, askable)


def names(prefix, count):
    return [f"{prefix}{n}" for n in range(count)]


def test_pairs_are_told_with_the_preferred_first():
    """Both of a sum of three: each pair settles it, and the pair of the two that are asked for first comes first."""
    sets = asked(["a"], {}, ("a = p * q", "a = q * r", "a = p * s"), ("p", "q", "r", "s"))
    assert sets == [("p", "q"), ("p", "s"), ("q", "r")]


def test_of_equal_preference_the_pair_with_the_earliest_comes_first():
    equations = ("a = p * s", "a = q * r")
    assert asked(["a"], {}, equations, ("p", "q", "r", "s")) == [("p", "s"), ("q", "r")]
    assert asked(["a"], {}, equations, ("q", "p", "s", "r")) == [("q", "r"), ("p", "s")]


def test_at_most_eight_sets_are_told():
    facts = names("x", 20)
    assert asked(["a"], {}, [f"a = 2 * {x}" for x in facts], facts) == [(x,) for x in facts[:8]]


def test_single_facts_are_looked_for_among_the_first_forty():
    others = names("y", 60)
    near = [f"z = {' + '.join([*others, 'a', 'x'])}", "a = 2 * x"]
    assert asked(["a"], {}, near, [*others[:39], "x"]) == [("x",)]


def test_three_facts_are_looked_for_among_the_first_twelve():
    others = names("y", 20)
    near = [f"z = {' + '.join([*others, 'a', 'p', 'q', 'r'])}", "a = p + q + r"]
    assert asked(["a"], {}, near, [*others[:9], "p", "q", "r"]) == [("p", "q", "r")]
    assert asked(["a"], {}, near, [*others[:10], "p", "q", "r"]) == []


def test_a_pair_is_found_further_down_than_three_are():
    others = names("y", 30)
    near = [f"z = {' + '.join([*others, 'a', 'p', 'q'])}", "a = p + q"]
    assert asked(["a"], {}, near, [*others, "p", "q"]) == [("p", "q")]


def test_what_does_not_hang_together_with_it_is_never_asked():
    equations = ("a = b * c", "d = e * f")
    assert asked(["a"], {"b": 2}, equations, ("e", "f", "d", "c")) == [("c",)]
    assert asked(["a"], {"b": 2, "c": 3, "e": 1}, equations, ("f",)) == [()]


def test_what_is_known_and_what_is_wanted_is_never_asked():
    assert asked(["a"], {"b": 2}, ("a = b * c",), ("a", "b", "c")) == [("c",)]


def test_a_fact_asked_for_twice_counts_once():
    assert asked(["a"], {"b": 2}, ("a = b * c",), ("c", "c")) == [("c",)]


def test_a_key_without_a_relation_is_settled_where_it_was_said():
    assert asked(["moon", "a"], {"moon": 1, "b": 2}, ("a = b * c",), ("c",)) == [("c",)]
    assert asked(["moon"], {"moon": 1}, ("a = b * c",), ("c",)) == [()]


def test_through_a_whole_number_there_is_no_sure_way_back_yet_the_least_is_an_answer():
    assert asked(["n"], {}, ("n = floor(x)",), ("x",)) == [("x",)]
    assert asked(["x"], {}, ("n = floor(x)",), ("n",)) == [("n",)]
    assert asked(["y"], {}, ("n = floor(x)", "y = 2 * x"), ("n",)) == [("n",)]


def test_two_facts_one_of_them_through_a_whole_number():
    assert asked(["y"], {}, ("n = floor(x)", "y = k * x"), ("n", "k")) == [("n", "k")]


def test_a_function_with_no_way_back_settles_it_all_the_same():
    assert asked(["x"], {}, ("h = climb(x)",), ("h",)) == [("h",)]
    assert asked(["y"], {}, ("h = bump(x)", "y = 2 * x"), ("h",), brackets=lambda _: (0.0, 10.0)) == [("h",)]


def test_a_group_that_hangs_together_is_settled_by_its_last_fact():
    equations = ("s = a + b", "d = 2 * a - b", "y = a * k")
    assert asked(["a"], {"s": 10}, equations, ("d", "k")) == [("d",)]
    assert asked(["y"], {"s": 10}, equations, ("d", "k")) == [("d", "k")]


def test_a_group_that_repeats_itself_is_settled_by_nothing_of_its_own():
    equations = ("a = 2 * b", "c = 3 * b", "2 * c = 3 * a", "e = a + f")
    assert asked(["b"], {}, equations, ("f", "e")) == [("f", "e")]
    assert asked(["b"], {"e": 4}, equations, ("f",)) == [("f",)]


def test_a_contradiction_has_to_be_mended_before_anything_is_asked():
    assert asked(["d"], {"a": 1, "b": 2, "c": 9}, ("a = b * c", "d = a * e"), ("e",)) == []


def test_everything_wanted_has_to_follow_from_one_set():
    equations = ("a = 2 * x", "b = 3 * y")
    assert asked(["a"], {}, equations, ("x", "y")) == [("x",)]
    assert asked(["a", "b"], {}, equations, ("x", "y")) == [("x", "y")]
    assert asked(["a", "b"], {"x": 1}, equations, ("x", "y")) == [("y",)]


def test_percents_are_tried_inside_their_bracket():
    """A stand-in of a hundred or more would leave the whole without a rest."""
    assert asked(["rest"], {"whole": 50}, ("rest = whole / (100 - percent)",), ("percent",)) == [("percent",)]
    assert asked(["x"], {"whole": 50}, ("whole = square(x) + percent", "y = x * percent"), ("percent",)) == [("percent",)]
