"""What holds of a conversation whatever is said in it: undo, redo, the order of clauses, filler words, ounces for grams, questions that change nothing."""

from __future__ import annotations

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from assistant import Session

PLANTS = ("nettle", "sage", "yarrow", "elecampane", "skullcap")
OUNCE = 28.349523125

herbs = st.integers(20, 900)
ratios = st.integers(1, 12)
strengths = st.integers(20, 94)
plants_named = st.sampled_from(PLANTS)


@st.composite
def begun(draw: st.DrawFn) -> str:
    """A sentence that begins a plan."""
    state = draw(st.sampled_from(("fresh", "dried")))
    water = f", {draw(st.integers(60, 90))} % water" if state == "fresh" else ""
    return f"{draw(herbs)} g {state} {draw(plants_named)}{water}, 1:{draw(ratios)} at {draw(strengths)} %"


CHANGES = (
    "no wait, it was {figure} g", "what if 1:{ratio}", "and at {strength} %?", "1:{ratio} at {strength} %", "double it", "half again",
    "from {strength}", "the same with thyme, {figure} g", "the same but dried", "not {strength}, 95", "a third more", "why",
    "how much pure alcohol is in it", "just the numbers", "is it {figure} mL?", "what's a pint in mL", "compare the two",
    "go back to the first one", "start afresh", "{figure} g dried rue at 1:{ratio}", "imperial please", "call it red", "0 g of it",
    "what do you know so far", "it finishes at 40 %", "no water", "plain please", "pressed {figure} mL", "{strength}", "{figure} ml jars",
    "two jars: thyme {figure} g dried 1:{ratio}, rue 60 g dried 1:4, menstruum for each?", "{ratio} to {more} of it", "mumble the crumb",
    "with 300 mL at 1:9", "the ratio", "the {figure} is right", "stock is 96, how much of it for red", "back to the nettle",
)  # fmt: skip


@st.composite
def changing(draw: st.DrawFn) -> str:
    """A sentence that changes a plan, begins another, asks, checks, compares or talks; some of them nonsense."""
    sentence = draw(st.sampled_from(CHANGES))
    return sentence.format(figure=draw(herbs), ratio=draw(ratios), more=draw(ratios) + 1, strength=draw(strengths))


def bench(session: Session) -> tuple[object, ...]:
    """All that was said, as a person would find it again."""
    mark = session.mark()
    return mark.figures, [dict(b.facts) for b in mark.batches], mark.in_hand and dict(mark.in_hand.facts)


@settings(max_examples=60, deadline=None)
@given(begun(), st.lists(changing(), max_size=4), changing())
def test_undo_after_any_sentence_gives_the_bench_before(first, between, last):
    session = Session()
    for sentence in (first, *between):
        session.say(sentence)
    before, depth = bench(session), len(session.journal.before)
    session.say(last)
    if len(session.journal.before) == depth:
        assert bench(session)[0] == before[0]  # what leaves no mark has changed nothing
        return
    session.say("undo")
    assert bench(session) == before


def test_a_plan_that_was_only_asked_about_stays_one_after_undo():
    session = Session()
    for sentence in ("60 g dried nettle, 1:1 at 20 %", "start afresh", "it finishes at 40 %"):
        session.say(sentence)
    before = bench(session)
    session.say("no wait, it was 20 g")
    session.say("undo")
    assert bench(session) == before


@settings(max_examples=40, deadline=None)
@given(begun(), st.lists(changing(), min_size=1, max_size=5))
def test_undoing_every_change_clears_the_bench_and_redoing_brings_it_back(first, sentences):
    session = Session()
    for sentence in (first, *sentences):
        session.say(sentence)
    full = session.mark().figures
    steps = len(session.journal.before)
    for _ in range(steps):
        session.say("undo")
    assert not session.batches
    assert session.draft is None
    for _ in range(steps):
        session.say("redo")
    assert session.mark().figures == full


def found(sentence: str) -> dict[tuple[str, str], float]:
    reply = Session().say(sentence)
    assert reply.status == "answered", (sentence, reply.text)
    return {(v.quantity, v.about): v.value for v in reply.values if v.value is not None and v.origin != "said"}


@settings(max_examples=40, deadline=None)
@given(st.permutations(range(4)), herbs, ratios, strengths, st.integers(60, 90), plants_named)
def test_the_order_of_clauses_does_not_matter(order, herb, ratio, strength, water, plant):
    clauses = (f"{herb} g fresh {plant}", f"1:{ratio}", f"at {strength} %", f"{water} % water")
    assert found(", ".join(clauses[i] for i in order)) == pytest.approx(found(", ".join(clauses)))


FILLERS = ("well", "right then", "so", "let me see", "you know", "please", "mate", "I suppose", "just now")


@settings(max_examples=40, deadline=None)
@given(st.sampled_from(FILLERS), st.sampled_from(FILLERS), herbs, ratios, strengths, plants_named)
def test_filler_words_do_not_matter(before, behind, herb, ratio, strength, plant):
    plain = f"{herb} g dried {plant}, 1:{ratio} at {strength} %"
    assert found(f"{before}, {plain}, {behind}") == pytest.approx(found(plain))


@settings(max_examples=40, deadline=None)
@given(st.integers(1, 30), ratios, strengths, plants_named)
def test_ounces_give_the_figures_that_grams_give(ounces, ratio, strength, plant):
    in_ounces = found(f"{ounces} oz dried {plant}, 1:{ratio} at {strength} %")
    in_grams = found(f"{ounces * OUNCE:.9f} g dried {plant}, 1:{ratio} at {strength} %")
    assert in_ounces == pytest.approx(in_grams, rel=1e-6)


@settings(max_examples=40, deadline=None)
@given(st.integers(1, 30), st.floats(0.5, 2), ratios)
def test_a_bare_correction_is_in_the_unit_that_was_said(first, times, ratio):
    second = max(1, round(first * times))
    assume(second != first)
    session = Session()
    session.say(f"{first} oz dried sage at 1:{ratio + 150}")
    session.say(f"no, {second} oz")
    wanted = session.batch.facts["herb"].value
    other = Session()
    other.say(f"{first} oz dried sage at 1:{ratio + 150}")
    other.say(f"no, {second}")
    assert other.batch.facts["herb"].value == pytest.approx(wanted)


ASKING = (
    "why", "how did you get that", "explain", "just the numbers", "what's a pint in mL", "112 g in ounces", "120 proof in percent",
    "is it 100 mL?", "I make it 134, right?", "what do you know so far", "what can I say", "thanks", "ok", "show me the steps",
    "how much pure alcohol is in that", "in quarts please", "…", "by how much",
)  # fmt: skip


@pytest.mark.parametrize("question", ASKING)
@settings(max_examples=8, deadline=None)
@given(begun())
def test_a_question_leaves_the_batch_as_it_was(question, first):
    session = Session()
    session.say(first)
    before = bench(session)
    session.say(question)
    assert bench(session) == before


@settings(max_examples=30, deadline=None)
@given(herbs, ratios, st.integers(1, 400))
def test_a_claim_is_judged_and_never_kept(herb, ratio, slip):
    session = Session()
    session.say(f"{herb} g dried sage at 1:{ratio}")
    right = session.say(f"is it {herb * ratio} mL?")
    assert [v.verdict for v in right.values if v.verdict is not None] == [True]
    off = herb * ratio + max(slip, 0.02 * herb * ratio)
    wrong = session.say(f"I make it {off:g} mL, right?")
    assert [v.verdict for v in wrong.values if v.verdict is not None] == [False]
    assert session.batch.facts["herb"].value == herb
    assert "menstruum" not in session.batch.facts


SCALINGS = (("double it", 2.0), ("halve it", 0.5), ("half again", 1.5), ("a quarter more", 1.25), ("20 % less", 0.8), ("three times that", 3.0))


@settings(max_examples=30, deadline=None)
@given(
    herbs,
    ratios,
    st.sampled_from((("double it", 2.0), ("halve it", 0.5), ("half again", 1.5), ("a quarter more", 1.25), ("20 % less", 0.8), ("three times that", 3.0))),
)
def test_scaling_multiplies_what_goes_in_and_leaves_ratio_and_strength(herb, ratio, scaling):
    sentence, factor = scaling
    session = Session()
    session.say(f"{herb} g dried sage at 1:{ratio} in 50 %")
    session.say(sentence)
    assert session.batch.facts["herb"].value == pytest.approx(herb * factor)
    assert session.batch.facts["ratio"].value == ratio
    assert session.batch.facts["strength"].value == 50
