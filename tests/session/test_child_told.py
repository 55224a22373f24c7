"""A child told of in other work: its age and weight are no plant, ratio or strength."""

from __future__ import annotations

import pytest

from assistant import Session

JAR = "112 g fresh lemon balm 1:2 at 60"


def _after(first, said):
    session = Session()
    session.say(first)
    return session, session.say(said)


@pytest.mark.parametrize(
    ("said", "years", "grams"),
    [
        ("10 ml 3x a day for the lad, he's 8 and 26 kg", 8, 26000),
        ("its for my lad, 8 yrs, 26 kg", 8, 26000),
        ("the little one, 4 and weighs 17 kilo, has it too", 4, 17000),
        ("my girl is 5, 19 kg", 5, 19000),
        ("it's for a 6 year old", 6, None),
        ("a 20 kg kid", None, 20000),
        ("my daughter is 3 and her brother 7, can they have it", 3, None),
    ],
)
@pytest.mark.parametrize("first", [JAR, "250 g dried elder in 1 L at 40", "900 ml elderberry juice, make a syrup, 65 brix"])
def test_age_and_weight_are_the_childs(first, said, years, grams):
    session = Session()
    session.say(first)
    before = {k: f.value for k, f in session.batch.facts.items()}
    reply = session.say(said)
    facts = session.batch.facts
    assert {k: facts[k].value for k in before} == before
    assert years is None or facts["child_years"].value == pytest.approx(years)
    assert grams is None or facts["child_weight"].value == pytest.approx(grams)
    assert any("child" in c.text.lower() for c in reply.cautions)


def test_months_are_kept_in_months():
    session, _ = _after(JAR, "is it ok for a 9 month old")
    assert session.batch.facts["child_months"].value == pytest.approx(9)


@pytest.mark.parametrize(("said", "herb"), [("my lad picked 2 kg more", 2112), ("my daughter brought 300 g, use that instead", 300)])
def test_what_a_child_brings_is_plant(said, herb):
    session, _ = _after(JAR, said)
    assert session.batch.facts["herb"].value == pytest.approx(herb)
    assert "child_weight" not in session.batch.facts


def test_the_age_of_a_brandy_is_no_childs():
    session, _ = _after(JAR, "3 year old brandy at 38 instead")
    assert "child_years" not in session.batch.facts
