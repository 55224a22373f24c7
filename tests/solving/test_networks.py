"""The relations of the house together: whatever moves with a quantity gives it back, and more facts that agree lose nothing."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.matter.functions import FUNCTIONS
from assistant.quantities.vocabulary import bracket
from assistant.relations import RELATIONS
from assistant.solving import Known, solve
from assistant.solving.attempt import attempt_all
from assistant.solving.network import network_of
from assistant.solving.sensitivity import Sensitivities

JOBS = {
    "fresh tincture": (
        "fresh tincture spirit gathering bottling bottles_pressed",
        {
            "herb": 112.0,
            "ratio": 2.0,
            "strength": 80.0,
            "water_content": 80.0,
            "stock_strength": 95.0,
            "held_per_gram": 2.5,
            "margin": 15.0,
            "trim_loss": 5.0,
            "dried_water": 10.0,
            "rack_loss": 2.0,
            "bottle_size": 50.0,
            "spirit_in_hand": 100.0,
            "tare": 20.0,
        },
        (),
    ),
    "dried tincture": (
        "dried tincture spirit room jars",
        {
            "herb": 100.0,
            "ratio": 5.0,
            "strength": 45.0,
            "stock_strength": 95.0,
            "held_per_gram": 1.2,
            "jar_size": 500.0,
            "fill": 80.0,
            "herb_room": 0.7,
            "dose": 2.0,
            "times_a_day": 3.0,
            "drops_per_ml": 20.0,
        },
        (),
    ),
    "three liquids mixed": (
        "mix mix_strength shrinks",
        {"volume[a]": 100.0, "volume[b]": 250.0, "volume[c]": 70.0, "strength_of[a]": 95.0, "strength_of[b]": 40.0, "strength_of[c]": 0.0},
        ("a", "b", "c"),
    ),
    "a salve by parts": (
        "recipe by_parts melts tins_by_volume",
        {
            "part[oil]": 3.0,
            "part[wax]": 5.0,
            "part[butter]": 7.0,
            "density_of[oil]": 0.9,
            "density_of[wax]": 0.96,
            "density_of[butter]": 0.95,
            "batch": 1000.0,
            "tin_size": 30.0,
        },
        ("oil", "wax", "butter"),
    ),
    "a syrup": ("syrup", {"honey_volume": 100.0, "honey_density": 1.42, "honey_sugar": 82.0, "sugar": 300.0, "decoction": 250.0}, ()),
    "a fresh vinegar": ("vinegar watery fresh", {"herb": 100.0, "ratio": 3.0, "acidity": 5.0, "water_content": 80.0, "held_per_gram": 2.0}, ()),
}


def relations_for(tags):
    return tuple(relation for relation in RELATIONS if relation.applies(set(tags.split())))


def solved(tags, values, members):
    return solve({key: Known(value) for key, value in values.items()}, relations_for(tags), members, FUNCTIONS, bracket)


def through_whole_numbers(solution, key, base):
    """Whether the way from a base to a key leads through floor or ceil, where there is no way back."""
    return any("rounded" in step.working and base in {leaf.key for leaf in solution.leaves(step.key)} for step in solution.derivation(key))


@pytest.mark.parametrize("job", JOBS)
def test_whatever_moves_with_a_quantity_gives_it_back(job):
    tags, base, members = JOBS[job]
    whole = solved(tags, base, members)
    assert not whole.conflicts
    assert not whole.impossible
    network = network_of(relations_for(tags), members, FUNCTIONS)
    ledger, _ = attempt_all(network, bracket, {key: Known(value) for key, value in base.items()})
    sensitivities = Sensitivities(ledger)
    tried = 0
    for key in [key for key in whole.figures if key not in base]:
        moved = sensitivities.of(network.slot_of[key])
        for source in base:
            change = moved.get(network.slot_of[source], 0.0) * max(abs(base[source]), 1.0)
            if abs(change) < 1e-9 * abs(whole.figures[key].value) or through_whole_numbers(whole, key, source):
                continue
            tried += 1
            values = {k: v for k, v in base.items() if k != source} | {key: whole.figures[key].value}
            back = solved(tags, values, members)
            assert not back.conflicts
            candidates = [back.value(source)] + [one.get(source) for group in back.unreached for one in group.several]
            close = [c for c in candidates if c is not None and c == pytest.approx(base[source], rel=1e-6, abs=1e-6)]
            assert close, f"{source} from {key}: {candidates}"
    assert tried >= len(base)


@pytest.mark.parametrize("job", JOBS)
@settings(max_examples=25, deadline=None)
@given(data=st.data())
def test_more_facts_that_agree_lose_no_answer(job, data):
    tags, base, members = JOBS[job]
    moved = {key: value * data.draw(st.floats(0.9, 1.04), label=key) for key, value in base.items()}
    whole = solved(tags, moved, members)
    more = data.draw(st.sets(st.sampled_from(sorted(whole.figures)), max_size=6))
    again = solved(tags, {key: whole.figures[key].value for key in more} | moved, members)
    assert not again.conflicts
    assert again.figures.keys() == whole.figures.keys()
    for key, figure in whole.figures.items():
        assert again.figures[key].value == pytest.approx(figure.value, rel=1e-9, abs=1e-9)


@pytest.mark.parametrize("job", JOBS)
def test_every_figure_has_steps_that_lead_from_what_was_given(job):
    tags, base, members = JOBS[job]
    whole = solved(tags, base, members)
    for key in whole.figures:
        steps = whole.derivation(key)
        leaves = {leaf.key for leaf in whole.leaves(key)}
        assert leaves <= set(base)
        known = set(leaves)
        for step in steps:
            assert set(step.inputs) <= known | set(step.together)
            known.add(step.key)
            assert step.working
        assert key in known
        assert not steps or steps[-1].key == key


def test_the_unreachable_finish_is_told_with_the_relation_that_forbids_it():
    values = {"herb": 112.0, "ratio": 2.0, "finished_strength": 80.0, "water_content": 80.0, "stock_strength": 95.0}
    solution = solved("fresh tincture spirit", values, ())
    assert solution.value("strength") is None
    assert [group.relation for group in solution.unreached] == ["plant water mixes in"]
    assert "strength" in solution.unreached[0].keys


def test_a_mix_made_of_two_spirits_has_the_volume_and_the_strength_asked_for():
    values = {"strength_of[strong]": 95.0, "strength_of[weak]": 40.0, "blend": 500.0, "blend_strength": 60.0}
    solution = solved("mix mix_strength shrinks", values, ("strong", "weak"))
    strong, weak = solution.value("volume[strong]"), solution.value("volume[weak]")
    assert strong * 95 + weak * 40 == pytest.approx(500 * 60, rel=1e-12)
    assert strong + weak > 505  # they shrink
    outside = solved("mix mix_strength shrinks", values | {"blend_strength": 97.0}, ("strong", "weak"))
    assert {wrong.key for wrong in outside.impossible} == {"volume[weak]"}
