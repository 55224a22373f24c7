"""How a step is told."""

import pytest

from assistant.matter.function import Function
from assistant.matter.functions import FUNCTIONS
from assistant.quantities.vocabulary import bracket, quantity
from assistant.relations import RELATIONS
from assistant.solving import Known, solve
from tests.solving.toys import solved, toys, wide

SIGN = {"percent": " %", "1": ""}


def shown(key, value):
    unit = quantity(key).unit
    return f"{value:.4g}" + SIGN.get(unit, f" {unit}")


def told(tags, key, members=(), **known):
    relations = tuple(relation for relation in RELATIONS if relation.applies(set(tags.split())))
    solution = solve({k.replace("__", "[") + "]" * ("__" in k): Known(v) for k, v in known.items()}, relations, members, FUNCTIONS, bracket, (), shown)
    return [step.working for step in solution.derivation(key)]


@pytest.mark.parametrize(
    ("tags", "key", "known", "working"),
    [
        ("", "menstruum", {"herb": 112, "ratio": 2}, ["112 g × 2 = 224 mL"]),
        ("", "ratio", {"herb": 112, "menstruum": 224}, ["224 mL ÷ 112 g = 2"]),
        ("fresh", "plant_water", {"herb": 112, "water_content": 80}, ["112 g × 80 % = 89.6 g"]),
        ("fresh", "dry_matter", {"herb": 112, "water_content": 80}, ["112 g × (1 − 80 %) = 22.4 g"]),
        ("fresh", "water_content", {"herb": 112, "plant_water": 89.6}, ["89.6 g ÷ 112 g = 80 %"]),
        ("spirit", "alcohol", {"menstruum": 224, "strength": 60}, ["224 mL × 60 % = 134.4 mL"]),
        ("spirit", "stock", {"menstruum": 224, "strength": 60, "stock_strength": 95}, ["224 mL × 60 % ÷ 95 % = 141.5 mL"]),
        ("gathering", "to_gather", {"herb": 112, "trim_loss": 10, "margin": 15}, ["112 g ÷ (1 − 10 %) × (1 + 15 %) = 143.1 g"]),
        ("", "picked", {"gross": 150, "tare": 20}, ["150 g − 20 g = 130 g"]),
        ("bottling", "bottles", {"to_bottle": 224, "bottle_size": 50}, ["224 mL ÷ 50 mL, rounded down = 4"]),
        ("spirit", "menstruum_density", {"strength": 60}, ["density at 60 % (0.90911) = 0.9091 g/mL"]),
        ("spirit", "strength", {"menstruum_density": 0.9091}, ["the value whose density is 0.9091 g/mL = 60.01 %"]),
    ],
)
def test_one_line_as_a_person_would_write_it(tags, key, known, working):
    assert told(tags, key, **known) == working


def test_water_is_what_the_weights_leave():
    (_, water) = told("spirit", "water", menstruum=224, strength=60, stock_strength=95)
    assert water == "(224 mL × density at 60 % (0.90911) − 141.5 mL × density at 95 % (0.81138)) ÷ density at 0 % (0.9982) = 89.01 mL"


def test_a_search_shows_the_sides_that_came_out_equal():
    lines = told("fresh spirit tincture", "herb", pressed=2000, ratio=2, strength=95, water_content=70, held_per_gram=1)
    assert lines[-1] == ("855.4 g, found so that 1711 mL × density at 95 % (0.81138) + 598.8 g = 2257 mL × density at 72.02 % (0.88048)")
    assert lines[:3] == ["855.4 g × 70 % = 598.8 g", "855.4 g × (1 − 70 %) = 256.6 g", "855.4 g × 2 = 1711 mL"]


def test_a_long_sum_is_cut_in_the_middle():
    members = [f"m{n}" for n in range(1, 41)]
    solution = solved(("whole = sum(x[i])",), {f"x[{m}]": 1.0 for m in members}, members=members)
    assert solution.derivation("whole")[0].working == "1 + 1 + 1 + … + 1 (40 in all) = 40"


def test_a_sum_in_brackets_where_it_is_a_factor():
    solution = solved(("mean = sum(x[i]) / n", "x[i] = x[i] + 0 * n"), {"x[a]": 1.0, "x[b]": 4.0, "n": 2.0}, members=("a", "b"))
    assert solution.derivation("mean")[0].working == "(1 + 4) ÷ 2 = 2.5"


def test_the_rest_of_a_sum_is_told_as_what_is_taken_off():
    solution = solved(("whole = sum(x[i])",), {"x[a]": 1.0, "x[b]": 2.0, "whole": 10.0}, members=("a", "b", "c"))
    assert solution.derivation("x[c]")[0].working == "10 − (1 + 2) = 7"


def test_plain_numbers_where_nobody_says_how_to_show_them():
    assert solved(("a = b * 1.50",), {"b": 3}).derivation("a")[0].working == "3 × 1.50 = 4.5"


def percents(key, value):
    return f"{value:.4g} %" if key.startswith("percent") else f"{value:.4g}"


@pytest.mark.parametrize(
    ("equation", "said", "working"),
    [
        ("a = b * 3 / 100", {"b": 50}, "50 × 3 ÷ 100 = 1.5"),  # neither is a percent, so the hundred stays
        ("a = b * square(c) / 100", {"b": 50, "c": 2}, "50 × square at 2 (4) ÷ 100 = 2"),
        ("a = b + 100 * c", {"b": 5, "c": 2}, "5 + 100 × 2 = 205"),
        ("percent_a = b + 100 * c", {"b": 5, "c": 0.2}, "5 + 100 × 0.2 = 25 %"),
        ("a = 100 / percent_b * c", {"percent_b": 50, "c": 3}, "3 ÷ 50 % = 6"),
        ("a = 100 / percent_b", {"percent_b": 50}, "1 ÷ 50 % = 2"),
        ("a = 100 * b", {"b": 3}, "100 × 3 = 300"),
        ("percent_a = 100 * b", {"b": 0.3}, "0.3 = 30 %"),
    ],
)
def test_a_hundred_is_left_out_beside_a_percent_and_nowhere_else(equation, said, working):
    assert [step.working for step in solved((equation,), said, show=percents).derivation(equation.split()[0])] == [working]


def test_a_table_read_backwards_is_told_with_what_else_it_depends_on():
    there, back = (lambda x, warmth: x * warmth), (lambda y, warmth: y / warmth)
    table = {"swell": Function("swell", ("1", "1"), "1", 0.0, 1e4, there, back, None, "a toy", "common practice")}
    solution = solve({"a": Known(6.0), "warmth": Known(20.0)}, toys("a = swell(b, warmth)"), (), table, wide)
    assert [step.working for step in solution.derivation("b")] == ["the value whose swell at 20 is 6 = 0.3"]
