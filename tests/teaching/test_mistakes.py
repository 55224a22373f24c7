"""Wrong answers, each made by one known wrong move, are named; right answers, rounded as a person rounds, are never called wrong."""

import math
import random

import pytest

from assistant.quantities.showing import number
from assistant.quantities.vocabulary import VOCABULARY, base
from assistant.relations import RELATIONS
from assistant.solving import Known
from assistant.teaching.case import Case
from assistant.teaching.mistakes import MOST_TOLD, as_text, diagnose, findings, first_wrong_step, is_right
from assistant.teaching.problems import directions, problem, says_nothing
from assistant.teaching.wrong_moves import CATALOGUE

KINDS = ("trade", "working")
PRACTISED = [r for r in RELATIONS if not says_nothing(r)]


def batch(tags, members=(), **known):
    relations = tuple(r for r in RELATIONS if r.applies(set(tags.split())))
    return Case({k.replace("__", "[") + "]" * ("__" in k): Known(float(v)) for k, v in known.items()}, relations, members)


NETTLE = batch("fresh spirit", herb=200, water_content=75, ratio=2, finished_strength=50, stock_strength=95, held_per_gram=2)
POURED = batch("fresh spirit", herb=200, water_content=75, ratio=2, strength=68.02, stock_strength=95, held_per_gram=2)


def three_digits(value):
    """As a person writes a figure off a calculator."""
    return float(f"{value:.3g}")


def cases(dice):
    """Problems without end: any relation, any direction, and now and then a whole jar."""
    while True:
        if dice.random() < 0.25:
            pick = dice.choice
            plant = {"herb": pick((80, 112, 150, 200, 300)), "water_content": pick((60, 70, 75, 80, 85)), "ratio": pick((2, 2.5, 3))}
            case = batch("fresh spirit", **plant, strength=pick((60, 65, 70, 75)), stock_strength=95, held_per_gram=pick((1.2, 2, 3)))
            yield (
                case,
                dice.choice(("finished_strength", "in_jar", "stock", "water", "pressed", "held_back", "menstruum", "plant_water", "dry_matter")),
            )
            continue
        relation = dice.choice(PRACTISED)
        asked = dice.choice(directions(relation))
        made = problem(relation, asked, dice.randrange(10_000))
        if made is not None:
            yield made.case, asked


def test_of_500_wrong_answers_nearly_all_are_named_rightly():
    dice = random.Random(20)
    named, unnamed = 0, []
    source = cases(dice)
    while named + len(unnamed) < 500:
        case, asked = next(source)
        ways = [f for f in findings(case, asked) if f.kind in KINDS]
        if not ways:
            continue
        made = dice.choice(ways)
        claim = three_digits(made.value)
        right = case.solved((asked,)).value(asked)
        if is_right(asked, claim, right):
            continue
        found = diagnose(case, asked, claim)
        told = [f for f in found if f.kind == found[0].kind][:MOST_TOLD] if found else []
        if any(f.move == made.move or math.isclose(f.value, made.value, rel_tol=1e-9) for f in told):
            named += 1
        else:
            unnamed.append((asked, made.move, claim))
    assert named >= 475, unnamed


def test_of_500_right_answers_none_is_called_wrong():
    dice = random.Random(21)
    source = cases(dice)
    for _ in range(500):
        case, asked = next(source)
        right = case.solved((asked,)).value(asked)
        for said in (right, three_digits(right), float(number(right, VOCABULARY[base(asked)].unit)), float(round(right)) if right >= 10 else right):
            assert is_right(asked, said, right), (asked, said, right)
            assert diagnose(case, asked, said) == ()


@pytest.mark.parametrize(
    ("asked", "claim", "move"),
    [
        ("strength", 68.75, "volumes simply added"),
        ("in_jar", 550, "volumes simply added"),
        ("pressed", 450, "volumes simply added"),
        ("water", 113.6, "water by subtraction"),
        ("menstruum", 449, "weight for volume"),
        ("menstruum", 1000, "fresh for dried"),
        ("menstruum", 100, "ratio upside down"),
        ("menstruum", 600, "ratio part counted in the total"),
        ("strength", 85.6, "water content of the menstruum"),
        ("held_back", 400, "fresh weight for dry matter"),
        ("plant_water", 50, "water and dry matter swapped"),
    ],
)
def test_the_wrong_numbers_of_one_jar(asked, claim, move):
    assert move in {f.move for f in diagnose(NETTLE, asked, claim)}


@pytest.mark.parametrize(
    ("claim", "move"),
    [(70.8, "stock poured as it is"), (68.02, "plant water forgotten"), (48.3, "water content 10 points higher"), (27.5, "ratio upside down")],
)
def test_the_wrong_finishes_of_one_jar(claim, move):
    assert move in {f.move for f in diagnose(POURED, "finished_strength", claim)}


@pytest.mark.parametrize(
    ("tags", "known", "asked", "claim", "move"),
    [
        ("gathering", {"herb": 200, "trim_loss": 20, "margin": 15}, "to_gather", 276, "trimming added instead of divided"),
        ("", {"gross": 240, "tare": 40}, "picked", 240, "tare not taken"),
        ("", {"gross": 240, "tare": 40, "trim_loss": 0, "ratio": 2}, "menstruum", 480, "tare not taken"),
        ("spirit", {"strength": 40}, "proof_us", 20, "proof the wrong way"),
        ("", {"dose": 2, "drops_per_ml": 20}, "dose_drops", 2, "drops for mL"),
        ("", {"dose": 5, "times_a_day": 3}, "daily", 5, "times a day forgotten"),
        ("fresh", {"herb": 600, "water_content": 82, "dried_water": 10}, "dried", 168, "water shares subtracted"),
        ("fresh", {"herb": 600, "water_content": 82, "dried_water": 10}, "dried", 108, "water left in the dried herb forgotten"),
        ("syrup", {"sugar_in": 650, "liquid": 350, "sugar": 650, "honey": 0}, "brix", 185.7, "sugar over liquid"),
        ("bottling", {"to_bottle": 444, "bottle_size": 50}, "bottles", 9, "rounded the wrong way"),
        ("spirit", {"menstruum": 500, "strength": 60, "stock_strength": 95}, "stock", 792, "strengths upside down"),
        ("spirit", {"menstruum": 500, "strength": 60, "stock_strength": 95}, "stock", 300, "stock taken as pure"),
        ("", {"in_jar": 500, "yield_share": 80}, "pressed", 100, "loss taken for yield"),
    ],
)
def test_wrong_moves_of_the_craft(tags, known, asked, claim, move):
    assert move in {f.move for f in diagnose(batch(tags, **known), asked, claim)}


def test_every_move_of_the_catalogue_speaks_of_relations_there_are():
    names = {r.name for r in RELATIONS}
    for move in CATALOGUE:
        assert move.equations.keys() <= names, move.name
        assert bool(move.equations) != (move.change is not None)
        assert not move.says.startswith(("The ", "That "))
        assert not move.says.endswith(".")


def test_two_moves_with_the_same_number_are_both_told():
    text = as_text(diagnose(batch("dried", herb=67, ratio=3), "menstruum", 134))
    assert text.startswith("That is what comes out if ")
    assert "The same number comes out if " in text


def test_nothing_fits_and_the_first_step_is_asked_for():
    assert diagnose(NETTLE, "menstruum", 777) == ()
    assert as_text(()).endswith("What was your first step, and what did it come to?")


def test_the_first_step_that_goes_wrong():
    assert first_wrong_step(POURED, "pressed", (400.0, 150.0, 50.0, 544.0, 200.0), (200.0,)) == ("alcohol", 200.0)
    assert first_wrong_step(batch("", herb=112, ratio=2), "menstruum", (224.0,), (224.0,)) is None


@pytest.mark.parametrize(
    ("key", "claim", "right", "is_it"),
    [
        ("water", 14, 14.3, True),
        ("water", 8, 8.4, False),
        ("menstruum", 141, 141.47, True),
        ("strength", 69, 68.02, False),
        ("in_jar", 545, 544.2, True),
    ],
)
def test_the_precision_of_the_bench(key, claim, right, is_it):
    assert is_right(key, claim, right) is is_it
