"""The generated table, re-derived by sympy form by form; and every relation of the house solved forward and back."""

import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from assistant.faults import HouseFault
from assistant.matter.functions import FUNCTIONS
from assistant.quantities.vocabulary import VOCABULARY, base, bracket
from assistant.relations import RELATIONS
from assistant.solving import Known, algebra, rearranged, solve
from assistant.solving.expression import Name, read_equation, read_expression, to_text
from assistant.solving.forms import right_side, unknowns_of
from assistant.solving.network import Network
from assistant.solving.rearrange import forms_of, main, table_text
from tests.solving.toys import TABLE, toys

MEMBERS = ("lemon balm", "thyme", "oat straw")
EQUATIONS = {relation.equation: relation for relation in RELATIONS}
FORMS = [(equation, unknown) for equation in EQUATIONS for unknown in unknowns_of(equation)]


def test_the_table_is_what_the_command_writes():
    assert Path(rearranged.__file__).read_text(encoding="utf-8") == table_text(RELATIONS, FUNCTIONS)


def test_the_command_says_when_the_table_is_out_of_date(tmp_path, monkeypatch, capsys):
    copy = tmp_path / "rearranged.py"
    monkeypatch.setattr(rearranged, "__file__", str(copy))
    assert main([]) == 0
    assert main(["--check"]) == 0
    copy.write_text(copy.read_text(encoding="utf-8").replace("menstruum / ratio", "menstruum * ratio", 1), encoding="utf-8")
    assert main(["--check"]) == 1
    assert "out of date" in capsys.readouterr().out


@pytest.mark.parametrize(("equation", "unknown"), FORMS, ids=lambda part: part if isinstance(part, str) else to_text(part))
def test_sympy_derives_the_same_form(equation, unknown):
    text = rearranged.REARRANGED[equation][to_text(unknown)]
    derived = algebra.solved_for(read_equation(equation), unknown, FUNCTIONS)
    if text:
        form = read_expression(text)
        assert algebra.agrees(read_equation(equation), unknown, form)
        assert derived is None or algebra.same(derived, form)
    else:
        assert derived is None


def test_a_search_is_needed_only_where_a_function_cannot_be_turned_round():
    searched = [(equation, unknown) for equation, forms in rearranged.REARRANGED.items() for unknown, form in forms.items() if not form]
    assert searched == [("strength = true_strength(hydrometer, celsius)", "celsius")]


@pytest.mark.parametrize(
    ("equation", "unknown", "wrong"),
    [
        ("menstruum = herb * ratio", Name("herb"), "menstruum * ratio"),
        ("grams = volume * square(x)", Name("x"), "inverse_square(grams * volume)"),
        ("grams = square(x) - volume", Name("x"), "grams + volume"),
        ("batch = sum(weight[i])", Name("weight", "j"), "batch + others(weight[i])"),
        ("batch = sum(weight[i])", Name("weight", "j"), "batch - sum(weight[i])"),
    ],
)
def test_sympy_refuses_a_wrong_form(equation, unknown, wrong):
    assert not algebra.agrees(read_equation(equation), unknown, read_expression(wrong))


def test_a_form_that_does_not_follow_is_never_written(monkeypatch):
    monkeypatch.setattr("assistant.solving.rearrange.worked_out", lambda *_: read_expression("menstruum * ratio"))
    with pytest.raises(HouseFault, match="does not follow"):
        forms_of(toys("menstruum = herb * ratio")[0], TABLE)


@pytest.mark.parametrize(
    ("equation", "unknown", "form"),
    [
        ("child = grown * years / (years + 12)", Name("years"), "child * 12 / (grown - child)"),
        ("share[i] = weight[i] / sum(weight[i]) * 100", Name("weight", "i"), "share[i] * others(weight[i]) / (100 - share[i])"),
        ("share[i] = weight[i] / sum(weight[i]) * 100", Name("weight", "j"), "weight[i] / (share[i] / 100) - others(weight[i])"),
        ("a = b * 0.78924 - b / 3", Name("b"), "3 * a / (3 * 0.78924 - 1)"),
        ("rest = square(x) * 2 + square(x)", Name("x"), "inverse_square(rest / 3)"),
    ],
)
def test_what_stands_more_than_once_is_solved_by_sympy(equation, unknown, form):
    worked = right_side(equation, unknown, TABLE)
    assert worked is not None
    assert algebra.same(worked, read_expression(form))


@pytest.mark.parametrize(
    ("equation", "unknown"),
    [("a = b * b", Name("b")), ("a = b + square(b)", Name("b")), ("a = square(b * b)", Name("b")), ("a = bump(b)", Name("b"))],
)
def test_what_has_no_single_closed_form_is_left_to_a_search(equation, unknown):
    assert right_side(equation, unknown, TABLE) is None


def test_a_solve_loads_no_sympy():
    check = (
        "import sys; from assistant.solving import solve, Known; from assistant.relations import RELATIONS;"
        "from assistant.matter.functions import FUNCTIONS; from assistant.quantities.vocabulary import bracket;"
        "r = tuple(r for r in RELATIONS if r.applies({'fresh', 'spirit', 'tincture'}));"
        "k = {'pressed': 2000.0, 'ratio': 2.0, 'strength': 95.0, 'water_content': 70.0, 'held_per_gram': 1.0};"
        "s = solve({key: Known(v) for key, v in k.items()}, r, (), FUNCTIONS, bracket);"
        "assert 850 < s.figures['herb'].value < 860; s.derivation('herb')[-1].working;"
        "sys.exit('sympy' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", check], check=False, cwd=Path(__file__).parents[2]).returncode == 0


def sensible(key: str, most: float) -> st.SearchStrategy[float]:
    """Values a bench could show, inside the bracket, so that differences of them stay well above rounding."""
    low, high = bracket(key)
    unit = VOCABULARY[base(key)].unit
    low, high = (max(low, 3.0), min(high, 92.0)) if unit == "percent" else (max(low, 0.5), min(high, most))
    return st.floats(low, high, allow_nan=False).map(lambda x: round(x, 2)).filter(lambda x: low <= x <= high)


@pytest.mark.parametrize("relation", EQUATIONS.values(), ids=lambda relation: relation.name)
@settings(max_examples=12, deadline=None)
@given(data=st.data())
def test_forward_then_back_in_every_direction(relation, data):
    network = Network((relation,), MEMBERS, FUNCTIONS)
    instance = network.instances[0]
    keys = [network.keys[slot] for slot in instance.slots]
    # The direction that can always be gone: no function turned round, nothing lost to whole numbers.
    target = next(key for key in keys if (form := instance.towards(network.slot_of[key]).form) is not None and "inverse_" not in to_text(form))
    # What goes into whole numbers is large beside what it is shared among, or the number would be none.
    many = {key for key in keys if not (instance.has_steps and network.slot_of[key] != instance.slots[1])}
    known = {key: data.draw(sensible(key, 900.0 if key in many else 5.0), label=key) for key in keys if key != target}
    only = (relation,)
    forward = solve({key: Known(value) for key, value in known.items()}, only, MEMBERS, FUNCTIONS, bracket)
    assume(target in forward.figures and abs(forward.figures[target].value) > 1e-3)
    full = known | {target: forward.figures[target].value}
    for missing in known:
        given = {key: Known(value) for key, value in full.items() if key != missing}
        back = solve(given, only, MEMBERS, FUNCTIONS, bracket)
        if back.unreached and back.unreached[0].several:  # water is heaviest at 4 °C: two temperatures give one reading
            assert any(one[missing] == pytest.approx(full[missing], rel=1e-5, abs=1e-5) for one in back.unreached[0].several)
            continue
        if missing not in back.figures:  # then any value of it must do, as the volume does when equal strengths meet
            anything = solve(given | {missing: Known(full[missing] * 3)}, only, MEMBERS, FUNCTIONS, bracket)
            assert not anything.conflicts, f"{missing} from {given}"
            continue
        value = back.figures[missing].value
        if instance.towards(network.slot_of[missing]).in_steps:
            again = solve({**given, missing: Known(value)}, only, MEMBERS, FUNCTIONS, bracket)
            assert not again.conflicts, f"{missing} = {value} does not give {target} = {full[target]}"
        else:
            assert value == pytest.approx(full[missing], rel=1e-5, abs=1e-5)
