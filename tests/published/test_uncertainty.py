"""± by first order: worked examples, and an independent library over every relation of the house."""

import pytest
import uncertainties
from uncertainties import ufloat

from assistant.matter.functions import FUNCTIONS
from assistant.quantities.vocabulary import bracket
from assistant.relations import RELATIONS
from assistant.solving import Known, solve
from tests.published.reading import published, questions
from tests.solving.spreads import as_black_box, base_values, directions, instance_of, with_values
from tests.solving.toys import TABLE, toys, wide


def worked(equation, wanted, *pairs):
    known = {name: Known(value, plus_minus=u) for name, value, u in pairs}
    figure = solve(known, toys(equation), (), TABLE, wide).figures[wanted]
    return figure.value, figure.plus_minus


def concentration(m, um, p, up, v, uv):
    return worked("c = 1000 * m * p / v", "c", ("m", m, um), ("p", p, up), ("v", v, uv))


def titration(rep, urep, m, um, p, up, molar, umolar, v, uv):
    pairs = ("rep", rep, urep), ("m", m, um), ("p", p, up), ("molar", molar, umolar), ("v", v, uv)
    return worked("c = 1000 * rep * m * p / (molar * v)", "c", *pairs)


ANSWERS = {
    "concentration": concentration,
    "titration": titration,
    "sum": lambda a, b: worked("y = a + b", "y", ("a", 100.0, a), ("b", 50.0, b))[1],
}


@published("uncertainty")
def test_uncertainty(check):
    check.holds(ANSWERS[check.asks](*check.given))


def test_every_question_about_uncertainty_has_an_answer():
    assert questions("uncertainty") == set(ANSWERS)


@pytest.mark.filterwarnings("ignore:AffineScalarFunc")  # the range of a function is asked of it by comparing, which the library is about to drop
@pytest.mark.parametrize("relation", RELATIONS, ids=lambda relation: relation.name)
def test_an_independent_library_gives_the_same(relation):
    """The `uncertainties` package, which differentiates by its own rules, on every direction of every relation."""
    tried = 0
    for instance, slot, keys in directions(relation):
        values = base_values(instance)
        if values is None:
            continue
        spreads = {s: 0.01 * abs(values[s]) for s in instance.slots if s != slot}
        ours = with_values(instance, slot, values, spreads)
        if ours is None or not ours.plus_minus:
            continue
        unsure = [ufloat(v, spreads[s]) if spreads.get(s) else v for s, v in enumerate(values)]
        answer = as_black_box(relation).towards(slot).evaluate(unsure)
        assert ours.plus_minus == pytest.approx(answer.std_dev, rel=2e-4), f"{keys[slot]} of {relation.equation}"
        tried += 1
    assert tried or instance_of(relation).has_steps, f"no direction of {relation.equation} was tried"


def test_a_whole_jar_agrees_with_it():
    """Weight, water, ratio and strength of a jar: the coupled pair of equations for the finish, as a function of what it rests on."""
    given = {"herb": (112.0, 5.0), "water_content": (80.0, 4.0), "ratio": (2.0, 0.0), "strength": (60.0, 0.5)}
    relations = tuple(r for r in RELATIONS if r.applies({"fresh", "tincture", "spirit"}))

    def finish(*values):
        known = {key: Known(value) for key, value in zip(given, values, strict=True)}
        return solve(known, relations, (), FUNCTIONS, bracket).value("finished_strength")

    ours = solve({k: Known(v, plus_minus=u or None) for k, (v, u) in given.items()}, relations, (), FUNCTIONS, bracket).figures["finished_strength"]
    theirs = uncertainties.wrap(finish)(*(ufloat(v, u) if u else v for v, u in given.values()))
    assert ours.plus_minus == pytest.approx(theirs.std_dev, rel=1e-3)
    assert ours.value == pytest.approx(theirs.nominal_value)
