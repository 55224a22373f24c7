"""What holds of every recipe: parts scale exactly, the blend is the bottle, weight is conserved, forty ingredients are no matter."""

from __future__ import annotations

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from assistant import Session
from assistant.cautions.plants import plants
from assistant.matter import ethanol
from assistant.quantities.vocabulary import key_for
from assistant.session.batch import Batch, Fact
from assistant.session.figuring import Worked, work_out

HERBS = (
    "nettle yarrow thyme sage mint dandelion burdock elder linden hawthorn motherwort valerian hops passionflower skullcap "
    "ginger licorice fennel anise chamomile lavender rosemary calendula plantain mullein marshmallow elecampane echinacea "
    "goldenseal gentian angelica oats cleavers chickweed horsetail raspberry rose peppermint spearmint vervain "
).split()
PARTS = st.lists(st.sampled_from([0.5, 1, 1.5, 2, 3, 4, 5, 7, 10]), min_size=2, max_size=8)
BOTTLES = st.sampled_from([10, 30, 50, 60, 100, 118, 250, 500, 1000])
STRENGTHS = st.lists(st.integers(20, 95), min_size=2, max_size=6)


def worked(frames: set[str], facts: dict[str, float], members: list[str], *tags: str) -> Worked:
    return work_out(Batch(frames=frozenset(frames), tags=frozenset(tags), members=tuple(members)).with_facts({k: Fact(v) for k, v in facts.items()}))


def told(session: Session, sentence: str, quantity: str) -> dict[str, float]:
    """Figures of a quantity by ingredient; "" for the whole."""
    reply = session.say(sentence)
    return {v.about: v.value for v in reply.values if v.quantity == quantity and v.value is not None}


@settings(max_examples=60, deadline=None)
@given(parts=PARTS, bottle=BOTTLES)
def test_parts_take_their_share_and_fill_the_bottle(parts, bottle):
    herbs = HERBS[: len(parts)]
    line = ", ".join(f"{p:g} parts {h}" for p, h in zip(parts, herbs, strict=True))
    volumes = told(Session(), f"{line}, {bottle} mL", "volume")
    assert volumes == {h: pytest.approx(bottle * p / sum(parts)) for h, p in zip(herbs, parts, strict=True)}
    assert sum(volumes.values()) == pytest.approx(bottle)


@settings(max_examples=60, deadline=None)
@given(parts=PARTS, bottle=BOTTLES, times=st.sampled_from([2, 3, 0.5]))
def test_a_recipe_scales_exactly(parts, bottle, times):
    session = Session()
    line = ", ".join(f"{h} {p:g} parts" for p, h in zip(parts, HERBS, strict=False))
    before = told(session, f"{line}, {bottle} mL", "volume")
    after = told(session, {2: "double it", 3: "triple it", 0.5: "halve it"}[times], "volume")
    assert after == {h: pytest.approx(v * times) for h, v in before.items()}


@settings(max_examples=60, deadline=None)
@given(strengths=STRENGTHS, data=st.data())
def test_a_blend_conserves_alcohol_and_weight(strengths, data):
    volumes = data.draw(st.lists(st.integers(5, 500), min_size=len(strengths), max_size=len(strengths)))
    herbs = HERBS[: len(strengths)]
    facts = {key_for("volume", h): float(v) for h, v in zip(herbs, volumes, strict=True)} | {
        key_for("strength_of", h): float(s) for h, s in zip(herbs, strengths, strict=True)
    }
    blend = worked({"formula"}, facts, herbs)
    made, strength = blend.value("made"), blend.value("blend_strength")
    assert made * strength == pytest.approx(sum(v * s for v, s in zip(volumes, strengths, strict=True)), rel=1e-6)
    weight = sum(v * ethanol.density_of(s) for v, s in zip(volumes, strengths, strict=True))
    assert made * ethanol.density_of(strength) == pytest.approx(weight, rel=1e-6)
    assert min(strengths) - 1e-6 <= strength <= max(strengths) + 1e-6
    assert blend.value("blend") == pytest.approx(sum(volumes))


@settings(max_examples=60, deadline=None)
@given(parts=PARTS, size=st.integers(10, 120), tins=st.integers(1, 60))
def test_a_melt_weighs_what_goes_in_and_fills_its_tins(parts, size, tins):
    members = ["beeswax", "oil", "shea", "lanolin", "jojoba", "castor oil", "cocoa butter", "coconut oil"][: len(parts)]
    facts = {key_for("part", m): float(p) for m, p in zip(members, parts, strict=True)} | {"tins": float(tins), "tin_size": float(size)}
    melt = worked({"salve"}, facts, members)
    weights = {m: melt.value(key_for("weight", m)) for m in members}
    assert sum(weights.values()) == pytest.approx(melt.value("batch"))
    assert sum(melt.value(key_for("volume", m)) for m in members) == pytest.approx(tins * size)
    for member, part in zip(members, parts, strict=True):
        assert weights[member] / part == pytest.approx(weights[members[0]] / parts[0])


@settings(max_examples=60, deadline=None)
@given(parts=PARTS, ratios=st.data(), daily=st.sampled_from([5.0, 7.5, 10.0, 15.0]))
def test_formula_to_grams_a_day_and_back(parts, ratios, daily):
    herbs = HERBS[: len(parts)]
    told_ratios = ratios.draw(st.lists(st.sampled_from([1.0, 2.0, 3.0, 4.0, 5.0]), min_size=len(parts), max_size=len(parts)))
    ratio = {key_for("ratio_of", h): r for h, r in zip(herbs, told_ratios, strict=True)}
    facts = {key_for("part", h): float(p) for h, p in zip(herbs, parts, strict=True)} | ratio | {"blend": 100.0, "daily": daily}
    there = worked({"formula", "dose"}, facts, herbs)
    grams = {h: there.value(key_for("herb_a_day_of", h)) for h in herbs}
    back = worked({"formula", "dose"}, {key_for("herb_a_day_of", h): g for h, g in grams.items()} | ratio | {"course": 100.0 / daily}, herbs)
    for herb in herbs:
        assert back.value(key_for("volume", herb)) == pytest.approx(there.value(key_for("volume", herb)))
    assert back.value("blend") == pytest.approx(100.0)


@settings(max_examples=60, deadline=None)
@given(parts=PARTS, have=st.data())
def test_what_runs_short_sets_the_batch(parts, have):
    herbs = HERBS[: len(parts)]
    shelf = have.draw(st.lists(st.integers(10, 500), min_size=len(parts), max_size=len(parts)))
    facts = {key_for("part", h): float(p) for h, p in zip(herbs, parts, strict=True)} | {
        key_for("have", h): float(v) for h, v in zip(herbs, shelf, strict=True)
    }
    batch = worked({"formula"}, facts, herbs)
    assert batch.value("blend") == pytest.approx(min(v / p for v, p in zip(shelf, parts, strict=True)) * sum(parts))
    left = [batch.value(key_for("have_left", h)) for h in herbs]
    assert min(left) == pytest.approx(0.0, abs=1e-6)


@settings(max_examples=60, deadline=None)
@given(fixed=st.integers(1, 40), share=st.integers(1, 40), parts=st.lists(st.integers(1, 6), min_size=1, max_size=4))
def test_fixed_amounts_percents_and_parts_fill_the_bottle(fixed, share, parts):
    herbs = HERBS[: len(parts) + 2]
    facts = {key_for("poured", herbs[0]): float(fixed), key_for("share", herbs[1]): float(share), "blend": 100.0}
    facts |= {key_for("part", h): float(p) for h, p in zip(herbs[2:], parts, strict=True)}
    bottle = worked({"formula"}, facts, herbs)
    volumes = [bottle.value(key_for("volume", h)) for h in herbs]
    assert sum(volumes) == pytest.approx(100.0)
    assert volumes[0] == pytest.approx(fixed)
    assert volumes[1] == pytest.approx(share)


@settings(max_examples=60, deadline=None)
@given(weights=st.lists(st.integers(1, 500), min_size=2, max_size=8))
def test_tea_shares_make_a_hundred(weights):
    herbs = HERBS[: len(weights)]
    line = ", ".join(f"{w} g {h}" for w, h in zip(weights, herbs, strict=True))
    shares = told(Session(), f"tea: {line}. percentages?", "share")
    assert sum(shares.values()) == pytest.approx(100.0)
    assert shares[herbs[0]] == pytest.approx(100 * weights[0] / sum(weights))


@pytest.mark.parametrize("ending", [", 1 litre", " into a litre", ""])
def test_forty_ingredients_are_all_heard(ending):
    assert len(HERBS) == 40
    assert all(plants().called(h) for h in HERBS[:8])
    parts = [n % 5 + 1 for n in range(40)]
    volumes = told(Session(), ", ".join(f"{p} parts {h}" for p, h in zip(parts, HERBS, strict=True)) + (ending or ". 1000 mL please"), "volume")
    assert len(volumes) == 40
    assert sum(volumes.values()) == pytest.approx(1000.0)
    assert volumes["vervain"] == pytest.approx(1000 * parts[-1] / sum(parts))


@settings(max_examples=60, deadline=None)
@given(percents=st.lists(st.integers(1, 60), min_size=2, max_size=5))
def test_percents_that_do_not_make_a_hundred_are_asked_about(percents):
    assume(sum(percents) != 100)
    line = ", ".join(f"{p} % {h}" for p, h in zip(percents, HERBS, strict=False))
    reply = Session().say(f"{line} in a 100 mL bottle")
    assert reply.status == "conflict"
    assert reply.questions
