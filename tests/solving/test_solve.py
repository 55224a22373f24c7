"""From what is known to everything that follows, on toys."""

from itertools import permutations

import pytest

from assistant.faults import HouseFault
from assistant.solving import Impossible, Known, solve
from tests.solving.toys import TABLE, solved, toys, values, wide

POUR = ("menstruum = herb * ratio", "left = stock - menstruum", "bottles = floor(menstruum / size)", "rest = menstruum - bottles * size")


@pytest.mark.parametrize(
    ("said", "unknown", "value"),
    [
        ({"herb": 112, "ratio": 2}, "menstruum", 224),
        ({"herb": 112, "menstruum": 224}, "ratio", 2),
        ({"menstruum": 224, "ratio": 2}, "herb", 112),
        ({"stock": 500, "left": 276, "ratio": 2}, "herb", 112),
    ],
)
def test_whatever_is_missing_is_what_gets_solved(said, unknown, value):
    solution = solved(POUR, said)
    assert values(solution)[unknown] == value
    assert solution.figures[unknown].origin == "found"


def test_the_order_in_which_things_are_said_does_not_matter():
    said = {"herb": 112.0, "ratio": 2.0, "stock": 500.0, "size": 50.0}
    first = values(solved(POUR, said))
    for order in permutations(said):
        assert values(solved(POUR, {key: said[key] for key in order})) == first


def test_what_is_said_twice_over_and_agrees_is_no_conflict():
    solution = solved(POUR, {"herb": 112, "ratio": 2, "menstruum": 224})
    assert not solution.conflicts
    assert solution.figures["menstruum"].origin == "said"


def test_the_relation_listed_first_is_the_one_that_is_used():
    both = ("water = 3 * cups", "water = 1.5 * jugs")
    said = {"cups": 2.0, "jugs": 4.0}
    assert [step.relation for step in solved(both, said).derivation("water")] == ["water = 3 * cups"]
    assert [step.relation for step in solved(both[::-1], said).derivation("water")] == ["water = 1.5 * jugs"]


def test_a_short_way_comes_before_a_long_one():
    relations = ("a = b + 0", "b = c + 0", "c = d + 0", "a = 2 * e")
    assert [step.relation for step in solved(relations, {"d": 8.0, "e": 4.0}).derivation("a")] == ["a = 2 * e"]


def test_an_assumption_fills_a_gap_and_is_named_as_one():
    solution = solved(POUR, {"herb": 112}, assumed={"ratio": 2, "menstruum": 999})
    assert values(solution)["menstruum"] == 224
    assert [(leaf.key, leaf.origin) for leaf in solution.leaves("menstruum")] == [("herb", "said"), ("ratio", "assumed")]


def test_an_assumption_about_what_is_known_is_not_needed():
    solution = solved(POUR, {"herb": 112, "menstruum": 224}, assumed={"ratio": 5})
    assert values(solution)["ratio"] == 2
    assert solution.dropped == ()


def test_an_assumption_that_contradicts_is_dropped_and_told():
    solution = solved(("area = a * b", "edge = 2 * a + 2 * b"), {"area": 40, "edge": 26}, assumed={"a": 6, "b": 8})
    assert solution.dropped == ("a",)
    assert (values(solution)["a"], values(solution)["b"]) == (5, 8)


def test_only_what_the_answer_needs_is_derived_inputs_first():
    solution = solved(POUR, {"herb": 112, "ratio": 2, "stock": 500, "size": 50})
    assert [step.key for step in solution.derivation("rest")] == ["menstruum", "bottles", "rest"]
    assert [step.inputs for step in solution.derivation("left")] == [("herb", "ratio"), ("stock", "menstruum")]
    assert solution.derivation("herb") == ()
    assert solution.derivation("nothing of the kind") == ()
    assert [leaf.key for leaf in solution.leaves("rest")] == ["herb", "ratio", "size"]


def test_of_several_answers_each_step_and_each_leaf_is_told_once():
    solution = solved(POUR, {"herb": 112, "ratio": 2, "stock": 500, "size": 50, "price": 3})
    for asked in (("left", "rest"), ("rest", "left"), ("bottles", "menstruum", "rest"), ("price", "herb", "left"), ("left", "nothing of the kind", "price")):
        one_by_one = [(step.key, step.working) for key in asked for step in solution.derivation(key)]
        assert [(step.key, step.working) for step in solution.derivation(*asked)] == list(dict.fromkeys(one_by_one))
        assert solution.rests_on(*asked) == tuple(dict.fromkeys(leaf for key in asked for leaf in solution.rests_on(key)))
    assert [step.key for step in solution.derivation("left", "rest")] == ["menstruum", "left", "bottles", "rest"]


def test_what_stays_unknown_is_told():
    solution = solved(POUR, {"herb": 112}, wanted=("herb", "menstruum", "left"))
    assert solution.unsettled == ("menstruum", "left")
    assert solution.value("menstruum") is None


def test_a_key_of_no_relation_is_kept_as_it_was_said():
    solution = solved(POUR, {"price": 3})
    assert solution.value("price") == 3
    assert [leaf.key for leaf in solution.leaves("price")] == ["price"]


def test_nothing_is_found_by_dividing_by_zero():
    solution = solved(POUR, {"menstruum": 224, "ratio": 0})
    assert solution.value("herb") is None
    assert not solution.conflicts


def test_what_rounding_leaves_of_a_difference_of_equals_is_no_value():
    # Equal strengths meet: how much of the one went in cannot be told from the strength of the whole.
    mix = ("wanted * (jar + more) = was * jar + stock * more",)
    even = (3.38 * 1 + 3.38 * 2) / 3
    assert even != 3.38
    assert solved(mix, {"more": 2, "was": 3.38, "stock": 3.38, "wanted": even}).value("jar") is None
    assert values(solved(mix, {"more": 2, "was": 3.0, "stock": 6.0, "wanted": 5.0}))["jar"] == 1
    assert values(solved(("left = stock - poured",), {"stock": 500.1, "poured": 500.1}))["left"] == 0


def test_a_function_outside_its_range_gives_no_value():
    assert solved(("a = square(b)",), {"b": -3}).value("a") is None
    assert solved(("a = square(b)",), {"a": -9}).value("b") is None


def test_an_amount_below_nothing_is_found_and_marked_once():
    solution = solved(("water = made - spirit", "jugs = water / 100", "made = 300 + 0 * spirit"), {"spirit": 400})
    assert values(solution)["water"] == -100
    assert values(solution)["jugs"] == -1
    assert solution.impossible == (Impossible("water", -100, 1e-6, 1e7, "water = made - spirit"),)


class TestWholeNumbers:
    def test_bottles_are_filled_and_the_rest_is_told(self):
        solution = solved(POUR, {"menstruum": 224, "size": 50})
        assert (values(solution)["bottles"], values(solution)["rest"]) == (4, 24)

    def test_so_many_bottles_need_at_least_so_much(self):
        solution = solved(POUR, {"bottles": 10, "size": 50, "ratio": 2})
        assert (values(solution)["menstruum"], values(solution)["herb"]) == (500, 250)

    def test_what_tells_more_than_a_whole_number_is_used_first(self):
        assert values(solved(POUR, {"bottles": 4, "size": 50, "rest": 24}))["menstruum"] == 224

    def test_the_least_is_forgone_where_it_contradicts(self):
        relations = ("bottles = floor(made / 50)", "full = made - 24", "twice = 2 * full", "made = other + x", "x = y + z", "other = y + z + y")
        solution = solved(relations, {"bottles": 4.0, "full": 200.0})
        assert values(solution)["made"] == 224
        assert not solution.conflicts

    def test_a_rest_alone_does_not_tell_how_many(self):
        solution = solved(POUR, {"rest": 24, "size": 50})
        assert solution.value("menstruum") is None


MEMBERS = tuple(f"herb no {n}" for n in range(1, 41))
RECIPE = ("total = sum(amount[i])", "amount[i] * parts = total * part[i]", "parts = sum(part[i])")
PARTS = {f"part[{member}]": float(n) for n, member in enumerate(MEMBERS, 1)}


class TestManyIngredients:
    def test_forty_amounts_from_a_total(self):
        solution = solved(RECIPE, PARTS | {"total": 8200.0}, members=MEMBERS)
        assert values(solution)["amount[herb no 7]"] == 70
        assert len(solution.figures) == 82
        assert [step.key for step in solution.derivation("amount[herb no 7]")] == ["parts", "amount[herb no 7]"]

    def test_the_total_and_all_the_others_from_one_amount(self):
        solution = solved(RECIPE, PARTS | {"amount[herb no 40]": 400.0}, members=MEMBERS)
        assert (values(solution)["total"], values(solution)["amount[herb no 1]"]) == (8200, 10)

    def test_one_amount_from_the_total_and_the_others(self):
        amounts = {f"amount[{member}]": 10.0 for member in MEMBERS[1:]}
        solution = solved(("total = sum(amount[i])",), amounts | {"total": 500.0}, members=MEMBERS)
        assert values(solution)["amount[herb no 1]"] == 110

    def test_parts_alone_settle_no_amount_though_there_are_equations_enough(self):
        solution = solved(RECIPE, PARTS, members=MEMBERS)
        assert solution.value("total") is None
        assert not solution.unreached
        assert not solution.conflicts

    def test_with_no_ingredient_a_sum_tells_nothing(self):
        assert solved(RECIPE, {}, members=()).figures == {}

    def test_a_share_of_a_sum_in_every_direction(self):
        relations = ("share[i] = weight[i] / sum(weight[i]) * 100",)
        weights = {"weight[a]": 10.0, "weight[b]": 30.0}
        assert values(solved(relations, weights, members=("a", "b")))["share[b]"] == 75
        assert values(solved(relations, {"weight[a]": 10.0, "share[b]": 75.0}, members=("a", "b")))["weight[b]"] == pytest.approx(30)
        assert values(solved(relations, {"weight[a]": 10.0, "share[a]": 25.0}, members=("a", "b")))["weight[b]"] == pytest.approx(30)


def test_an_unknown_function_is_a_fault_of_the_house():
    with pytest.raises(HouseFault, match="sqare"):
        solved(("a = sqare(b)",), {"b": 3})


def test_a_function_with_too_many_values_is_a_fault_of_the_house():
    with pytest.raises(HouseFault, match="takes 1"):
        solved(("a = square(b, c)",), {"b": 3, "c": 2})


def test_relations_and_values_are_left_as_they_were():
    relations = toys(*POUR)
    known = {"herb": Known(112.0), "ratio": Known(2.0, "assumed")}
    before = dict(known)
    first = solve(known, relations, (), TABLE, wide)
    assert known == before
    assert values(solve(known, relations, (), TABLE, wide)) == values(first)


def test_an_assumption_that_contradicts_is_no_figure_though_nothing_else_gives_its_quantity():
    """The sides are 5 and 8, either way round, and not 6."""
    solution = solved(("area = a * b", "edge = 2 * a + 2 * b"), {"area": 40, "edge": 26}, assumed={"a": 6})
    assert solution.dropped == ("a",)
    assert set(solution.figures) == {"area", "edge"}


def outside(value, low, high):
    """Whether a found value is told to lie outside its bracket."""
    found = solved(("y = x + 0",), {"x": value}, brackets=lambda key: (low, high) if key == "y" else (-1e9, 1e9))
    return [wrong.key for wrong in found.impossible] == ["y"]


@pytest.mark.parametrize(("low", "high"), [(2.0, 10.0), (0.0, 100.0), (-40.0, 60.0), (1e-6, 1e7), (1e-6, 1e-3)])
def test_both_ends_of_a_bracket_are_possible_and_what_lies_a_millionth_beyond_is_not(low, high):
    for end, beyond in ((low, low - 1e-6), (high, high * 1.000001)):
        assert not outside(end, low, high)
        assert outside(beyond, low, high)


def test_what_rounding_leaves_beyond_a_bracket_is_possible():
    assert not outside(1e7 * (1 + 1e-10), 1e-6, 1e7)
    assert not outside(2 - 1e-10, 2.0, 10.0)
    assert not outside(-1e-10, 0.0, 100.0)


def test_of_two_figures_that_cannot_be_each_is_told_and_what_rests_on_one_is_not():
    solution = solved(("a = b - c", "d = e - f", "g = 2 * a"), {"b": 1, "c": 3, "e": 2, "f": 9})
    assert {wrong.key for wrong in solution.impossible} == {"a", "d"}


def test_a_figure_that_one_equation_gave_was_found_with_no_other():
    (step,) = solved(("a = 2 * b",), {"b": 3}).derivation("a")
    assert step.together == ()
