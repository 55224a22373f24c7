"""Spirit that does not reach: the sums by hand, and every way out within every limit it claims to keep."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.matter import ethanol
from assistant.year.shares import Planned, in_order, least_left
from tests.year.bench import figure, jar_of_a_gram, table_lines, talk

FOUR = "8 L of 95, and nettle wants 2.7, hypericum 2.4, elder 1.9, valerian 3.3"
WANTED = {"nettle": 2700, "hypericum": 2400, "elder": 1900, "valerian": 3300}
ALL = sum(WANTED.values())  # 10300 mL
DUST = 1e-4


def near(value: float) -> float:
    return pytest.approx(value, rel=1e-5)


def test_the_shortfall_by_hand():
    reply = talk(FOUR)
    assert figure(reply, "spirit_wanted") == ALL
    assert figure(reply, "spirit_lacking") == 2300
    assert figure(reply, "share_met") == near(100 * 8000 / 10300)
    for name, wants in WANTED.items():
        assert figure(reply, "spirit_given", name, "all weaker") == near(wants * 8000 / 10300)
    assert [figure(reply, "spirit_given", n, "in that order") for n in WANTED] == [2700, 2400, 1900, 1000]
    assert reply.questions  # how they are made, so that the finishes can be told


def test_where_each_finishes_by_hand():
    """Poured as much, with 8000/10300 of the spirit: 75 % becomes 58.25 %."""
    reply = talk(FOUR, "all fresh 1:2 at 75 %, 75 % water")
    weaker = 75 * 8000 / 10300
    for name in WANTED:
        assert figure(reply, "finished_strength", name, "all weaker") == near(jar_of_a_gram(2, weaker, 0.75)[1])
    assert figure(reply, "finished_strength", "nettle", "in that order") == near(jar_of_a_gram(2, 75, 0.75)[1])
    herb = 3300 * 95 / 75 / 2  # valerian planned, grams
    assert figure(reply, "herb_left", "valerian", "in that order") == near(herb * (1 - 1000 / 3300))
    assert figure(reply, "left_dried", "valerian", "in that order") == near(herb * (1 - 1000 / 3300) * 0.25 / 0.9)


def test_the_least_left_over_keeps_the_weakest_finish():
    reply = talk(FOUR, "all fresh 1:2 at 75 %, 75 % water", "none under 50 %")
    given_ = {n: figure(reply, "spirit_given", n, "least left over") for n in WANTED}
    assert sum(given_.values()) <= 8000 + DUST
    for name in WANTED:
        assert figure(reply, "finished_strength", name, "least left over") >= 50 - 1e-3
        assert given_[name] <= WANTED[name] + DUST


def test_no_more_than_the_jars_hold():
    reply = talk(FOUR + "; all fresh 1:2 at 75 %, 75 % water", "5 jars of 3 L")
    assert "5 jars" in reply.text
    filled = sum(
        math.ceil(figure(reply, "herb", n, "least left over") * (2 + 1) / 3000 - 1e-6) for n in WANTED
    )  # liquid, and a mL for each gram of soaked fresh herb, in whole jars
    assert filled <= 5


def test_the_order_can_be_told():
    reply = talk(FOUR, "valerian first, then elder")
    assert [figure(reply, "spirit_given", n, "in that order") for n in ("valerian", "elder", "nettle", "hypericum")] == [3300, 1900, 2700, 100]


def test_enough_is_said_to_reach():
    reply = talk("12 L of 95, and nettle wants 2.7, hypericum 2.4, elder 1.9, valerian 3.3")
    assert figure(reply, "rest") == 12000 - ALL
    assert "reaches" in reply.text


def test_a_what_if_and_why():
    assert figure(talk(FOUR, "what if there are 9 L"), "spirit_lacking") == 1300
    reply = talk(FOUR, "where does the 2300 come from?")
    assert reply.steps[-1].working == "10300 mL − 8000 mL = 2300 mL"


def test_a_plan_on_the_bench_tells_how_it_is_made():
    reply = talk(
        "90 g dried yarrow, 1:5 at 45 %", "200 g fresh nettle, 1:2 at 75 %, 80 % water",
        "3 L of 95, and nettle wants 2 L, yarrow wants 2 L",
    )  # fmt: skip
    assert figure(reply, "finished_strength", "yarrow", "all weaker") == near(45 * 3 / 4)
    assert figure(reply, "finished_strength", "nettle", "all weaker") == near(jar_of_a_gram(2, 75 * 3 / 4, 0.8)[1])


def test_the_table_fits():
    rows = table_lines(talk(FOUR, "all fresh 1:2 at 75 %"))
    assert len(rows) == 6
    assert all(len(row) <= 60 for row in rows)


plans = st.lists(
    st.builds(
        lambda spirit, part, herb, there: (spirit, part, herb, there),
        st.floats(100, 5000), st.floats(0.3, 1.0), st.floats(50, 3000), st.floats(0.2, 1.0),
    ),
    min_size=1, max_size=8,
)  # fmt: skip


@settings(max_examples=60, deadline=None)
@given(plans, st.floats(0.1, 1.5), st.one_of(st.none(), st.integers(1, 12)))
def test_the_shares_keep_every_limit(rows, reach, jars):
    planned = [Planned(f"p{n}", s, s * part, herb, herb * there, s + herb) for n, (s, part, herb, there) in enumerate(rows)]
    spirit = reach * sum(p.spirit for p in planned)
    shares = least_left(planned, spirit, jars, 2000.0)
    assert sum(s.spirit for s in shares) <= spirit * (1 + 1e-6) + DUST
    for plan, share in zip(planned, shares, strict=True):
        assert -DUST <= share.made <= min(1.0, plan.there / plan.herb) + DUST
        assert share.spirit <= plan.spirit * share.made * (1 + 1e-5) + DUST * plan.spirit
        assert share.spirit >= plan.least * share.made * (1 - 1e-5) - DUST * plan.spirit
        if jars is not None:
            assert plan.fills * share.made <= share.vessels * 2000.0 * (1 + 1e-5) + DUST * plan.fills
    if jars is not None:
        assert sum(s.vessels for s in shares) <= jars
    else:  # no order of precedence leaves less
        ordered = in_order(planned, spirit)
        used = sum(p.herb * s.made for p, s in zip(planned, shares, strict=True))
        assert used >= sum(p.herb * s.made for p, s in zip(planned, ordered, strict=True)) - 1e-4 * sum(p.herb for p in planned)
        assert sum(s.spirit for s in ordered) <= spirit * (1 + 1e-9) + 1e-9


def test_alcohol_is_kept_in_every_way():
    """Spirit given, at 95 %, is the alcohol in the jar: its volume times its finish."""
    reply = talk(FOUR, "all fresh 1:2 at 75 %, 75 % water")
    for name, wants in WANTED.items():
        herb = wants * 95 / 75 / 2
        given_ = figure(reply, "spirit_given", name, "all weaker")
        finish = figure(reply, "finished_strength", name, "all weaker")
        strength = given_ * 95 / (2 * herb)
        weight = 2 * herb * ethanol.density_of(strength) + herb * 0.75
        assert weight / ethanol.density_of(finish) * finish / 100 == pytest.approx(given_ * 0.95, rel=1e-4)
