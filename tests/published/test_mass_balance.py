"""The program's mixing, through relations and solver, against an independent mass balance on the same densities: nothing lost, nothing made."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.matter.ethanol import density_of, mix
from tests.published.bench import found_all, mixed, two_lots

volumes = st.floats(1, 5000)
strengths = st.floats(0, 100)


def alcohol(volume, strength):
    return volume * strength


@settings(max_examples=50, deadline=None)
@given(st.lists(st.tuples(volumes, strengths), min_size=1, max_size=6))
def test_any_liquids_poured_together(parts):
    poured, strong = [v for v, _ in parts], [s for _, s in parts]
    volume, strength = mixed(poured, strong, shrinks=True)
    expected = mix(poured, strong)
    assert volume == pytest.approx(expected.volume, rel=1e-8)
    assert strength == pytest.approx(expected.strength, abs=1e-6)
    assert alcohol(volume, strength) == pytest.approx(sum(map(alcohol, poured, strong)), rel=1e-8, abs=1e-6)


@settings(max_examples=50, deadline=None)
@given(st.floats(1, 500), st.floats(1, 99), st.floats(0.5, 20), st.floats(1, 100))
def test_fresh_plant_in_spirit(herb, water, ratio, strength):
    known = {"herb": herb, "water_content": water, "ratio": ratio, "strength": strength}
    volume, finish = found_all(("in_jar", "finished_strength"), "spirit fresh", known)
    expected = mix([herb * ratio], [strength], herb * water / 100)
    assert volume == pytest.approx(expected.volume, rel=1e-8)
    assert finish == pytest.approx(expected.strength, abs=1e-6)


@settings(max_examples=50, deadline=None)
@given(st.floats(10, 5000), st.floats(20, 100), st.floats(0.05, 0.95))
def test_spirit_let_down(made, stock, share):
    wanted = stock * share
    spirit, water = found_all(("stock", "water"), "spirit", {"menstruum": made, "stock_strength": stock, "strength": wanted})
    mixture = mix([spirit], [stock], water * density_of(0))
    assert mixture.volume == pytest.approx(made, rel=1e-8)
    assert mixture.strength == pytest.approx(wanted, abs=1e-6)


@settings(max_examples=50, deadline=None)
@given(st.floats(10, 5000), st.just(0.0) | st.floats(0.1, 60), st.floats(5, 40), st.floats(0.05, 0.95))
def test_two_lots_to_a_volume_and_strength(made, weak, above, share):
    strong, wanted = weak + above, weak + above * share
    poured = two_lots(strong, weak, made, wanted, shrinks=True)
    mixture = mix(poured, [strong, weak])
    assert mixture.volume == pytest.approx(made, rel=1e-7)
    assert mixture.strength == pytest.approx(wanted, abs=1e-5)
