"""Instruments in a conversation: kept, reckoned with, listed, taken back; how exact, what matters, within how much, which glass, two weights."""

from math import hypot, sqrt

import pytest

from assistant import Session
from assistant.reply import breaches
from assistant.session.glass import common_glass, pourings
from assistant.session.instruments import Instrument, Instruments, as_data, from_data
from assistant.session.within import water_error
from tests.dialogues.judge import dropped


def told(*sentences, session=None):
    """The reply to the last sentence; every reply on the way keeps the contract and drops no number."""
    session = session or Session()
    for sentence in sentences:
        reply = session.say(sentence)
        assert not list(breaches(reply)), sentence
        assert not dropped(sentence, reply), sentence
    return reply


def value(reply, quantity, about=None):
    return next(v for v in reply.values if v.quantity == quantity and about in (None, v.about))


SPRING = "my spring scale goes to a kilo in 10 g steps"
NETTLE = "112 g fresh nettle at 80 % water, 1:2 at 60 %"

# ── what an instrument is worth ──


@pytest.mark.parametrize(
    ("sentence", "plus_minus", "unit"),
    [
        (SPRING, 5.0, "g"),
        ("my kitchen scale reads in 1 g steps", 0.5, "g"),
        ("my scale is class III, 1 g steps, up to 5 kg", 0.5, "g"),
        ("the scale is good to 2 g", 2.0, "g"),
        ("the cylinder is 100 ml, class B", 1.0, "mL"),
        ("the cylinder is 100 ml, class A", 0.5, "mL"),
        ("my 25 ml cylinder is class B", 0.34, "mL"),
        ("my 25 ml cylinder is ISO class B", 0.5, "mL"),
        ("my cylinder is 100 ml", 0.5, "mL"),  # no class: half a mark
        ("the jug has marks every 50 ml", 25.0, "mL"),
        ("my dropper makes 34 drops a ml of 50 %", 5.1, "1"),
        ("hydrometer reads to half a percent", 0.25, "percent"),
    ],
)
def test_an_instrument_is_noted_with_what_it_is_worth(sentence, plus_minus, unit):
    reply = told(sentence)
    assert reply.status == "noted"
    worth = value(reply, "reads_to")
    assert (worth.value, worth.unit) == (pytest.approx(plus_minus), unit)


def test_one_of_which_nothing_follows_is_asked_about():
    reply = told("my jug holds 500 ml")
    assert reply.questions
    assert "marks" in reply.text


def test_what_is_said_later_is_added_to_what_is_known():
    session = Session()
    told("my spring scale goes to a kilo", "the spring scale reads in 10 g steps", session=session)
    assert [(i.name, i.capacity, i.step) for i in session.instruments] == [("spring scale", 1000.0, 10.0)]
    told("the spring scale reads in 5 g steps", session=session)
    assert [i.step for i in session.instruments] == [5.0]


def test_a_class_of_scale_counts_by_the_load():
    scale = Instrument("scale", "kitchen scale", 5000.0, 1.0, "III")
    assert [scale.error(x).plus_minus for x in (20, 500, 501, 2000, 2001)] == [0.5, 0.5, 1.0, 1.0, 1.5]


def test_a_glass_filled_again_is_out_the_same_way_again():
    glass = Instrument("glass", "100 mL cylinder", 100.0, None, "B")
    assert glass.error(90).plus_minus == 1.0
    assert glass.error(224).plus_minus == 3.0


@pytest.mark.parametrize("data", [None, {}, {"kind": "scale"}, {"kind": "spoon", "name": "x"}, {"kind": "scale", "name": "x", "step": -1}, {"kind": "scale", "name": "x", "odd": 1}, {"kind": "scale", "name": "a\nb"}])  # noqa: E501  (one sentence, or one expression)
def test_no_nonsense_is_taken_for_an_instrument(data):
    from assistant.faults import FileFault

    with pytest.raises(FileFault):
        from_data(data)


def test_an_instrument_goes_there_and_back():
    one = Instrument("glass", "25 mL cylinder", 25.0, 0.5, "A", "ISO 4788")
    assert from_data(as_data(one)) == one


# ── reckoned with ──


def test_a_weight_read_on_a_named_scale_carries_its_error():
    reply = told(SPRING, "112 g fresh nettle on the spring scale at 80 % water, 1:2 at 60 %")
    assert value(reply, "herb").plus_minus == 5.0
    assert value(reply, "menstruum").plus_minus == pytest.approx(10.0)
    assert "224 mL ± 10" in reply.text


def test_the_only_scale_is_the_one_that_was_read():
    assert value(told(SPRING, NETTLE), "menstruum").plus_minus == pytest.approx(10.0)


def test_the_finer_of_two_is_taken_unless_the_other_is_named():
    kitchen = "my kitchen scale reads in 1 g steps"
    assert value(told(SPRING, kitchen, NETTLE), "herb").plus_minus == 0.5
    assert value(told(SPRING, kitchen, NETTLE, "that was on the spring scale"), "menstruum").plus_minus == pytest.approx(10.0)


def test_too_heavy_for_a_scale_was_not_read_on_it():
    reply = told("my letter scale goes to 100 g in 1 g steps", "500 g fresh nettle at 80 % water, 1:2 at 60 %")
    assert value(reply, "herb").plus_minus is None


def test_an_instrument_told_afterwards_counts_for_what_was_said_before():
    reply = told(NETTLE, SPRING)
    assert "± 10" in reply.text
    assert value(reply, "menstruum").plus_minus == pytest.approx(10.0)


def test_an_error_the_bench_cannot_see_is_not_shown():
    reply = told("my kitchen scale reads in 1 g steps", NETTLE)
    assert value(reply, "menstruum").plus_minus == pytest.approx(1.0)
    assert "±" not in reply.text


def test_a_dropper_counts_for_every_dose_to_come():
    reply = told("my dropper makes 34 drops a ml of 50 %", "start afresh", "100 mL bottle, 34 drops three times a day, how many days?")
    days = value(reply, "days")
    assert days.value == 33
    assert (days.low, days.high) == (28, 39)
    assert any("as you counted your dropper" in a.text for a in reply.assumptions)


def test_instruments_are_listed_sold_and_taken_back():
    session = Session()
    assert "none" in told("what instruments do I have", session=session).text
    told(SPRING, "the cylinder is 100 ml, class B", session=session)
    listed = told("what instruments do I have", session=session)
    assert "spring scale" in listed.text
    assert "100 mL cylinder" in listed.text
    assert told("sold the spring scale", session=session).status == "noted"
    assert [i.name for i in session.instruments] == ["100 mL cylinder"]
    told("undo", session=session)
    assert [i.name for i in session.instruments] == ["spring scale", "100 mL cylinder"]
    assert told("forget the steelyard", session=session).questions


def test_undo_takes_an_instrument_back():
    session = Session()
    told(NETTLE, SPRING, session=session)
    reply = told("undo", session=session)
    assert not session.instruments
    assert "±" not in reply.text


# ── how exact, what matters ──


def test_how_exact_tells_each_source_once():
    reply = told("112 g give or take 5 fresh nettle at 80 % water, 1:2 at 60 %", "how exact is that")
    assert value(reply, "menstruum").plus_minus == pytest.approx(10.0)
    assert reply.text.count("plant weight 112 g ± 5") == 1


def test_how_exact_without_a_batch_asks():
    assert told("how exact is that").status == "asking"
    assert told("what matters most here").status == "asking"


def test_a_rough_error_says_so():
    reply = told("112 g give or take 5 fresh nettle at 80 % water give or take 1, 1:2 at 60 %", "how exact is that")
    assert "rough" not in reply.text
    reply = told("100 mL bottle, 20 drops three times a day, 20 drops a mL give or take 10, how many days?", "how exact is that")
    assert value(reply, "drops_per_ml").plus_minus == 10
    assert "rough" in reply.text


def test_what_matters_ranks_by_share_and_says_what_halving_brings():
    reply = told("112 g give or take 5 fresh nettle at 75 to 85 % water, 1:2 at 60 %", "what matters most here")
    finish = value(reply, "finished_strength")
    shares = [v for v in reply.values if v.quantity == "share_of_error"]
    assert [s.value for s in shares] == sorted((s.value for s in shares), reverse=True)
    assert sum(s.value for s in shares) == pytest.approx(100, abs=1.5)
    for share in shares:
        halved = value(reply, "error_if_halved", share.about)
        assert halved.value == pytest.approx(finish.plus_minus * sqrt(1 - 0.75 * share.value / 100))
    assert shares[0].about in ("plant weight", "water content")


def test_once_poured_the_weight_counts_in_the_finish():
    """With the ratio held the weight cancels from the finish; in the jar, where 224 mL is poured once, it does not."""
    reply = told("112 g give or take 10 fresh nettle at 80 % water, 1:2 at 60 %", "what matters most here")
    assert next(v for v in reply.values if v.quantity == "share_of_error").about == "plant weight"
    from assistant.session.figuring import work_out

    session = Session()
    base = session.say("112 g fresh nettle at 80 % water, 224 mL at 60 %")
    heavier = Session().say("112.1 g fresh nettle at 80 % water, 224 mL at 60 %")
    slope = (value(heavier, "finished_strength").value - value(base, "finished_strength").value) / 0.1
    part = sqrt(value(reply, "share_of_error", "plant weight").value / 100) * value(reply, "finished_strength").plus_minus
    assert part == pytest.approx(abs(slope) * 10, rel=2e-3)
    assert work_out(session.batch).value("ratio") == pytest.approx(2.0)


# ── within ──


@pytest.mark.parametrize(
    "sentences",
    [
        ("112 g give or take 5 fresh nettle at 75 to 85 % water, 1:2 at 60 %", "I need the finish within 1 %"),
        ("112 g give or take 12 fresh nettle at 70 to 90 % water, 1:2 at 60 %", "I need the finish within 1 %"),
        ("112 g give or take 12 fresh nettle at 70 to 90 % water, 1:2 at 60 %", "I need the finish within 0.7 %"),
    ],
)
def test_backwards_does_what_was_wished(sentences):
    """Each single way, or all of them together, brings the ± to what was wished."""
    before = told(*sentences[:1], "what matters most here")
    reply = told(*sentences)
    wished = value(reply, "wished_error").value
    spread = value(reply, "finished_strength").plus_minus
    ways = [v for v in reply.values if v.quantity == "error_allowed"]
    if spread <= wished:
        assert not ways
        return
    assert ways
    parts = {v.about: sqrt(v.value / 100) * spread for v in before.values if v.quantity == "share_of_error"}
    now = {v.about: v for v in ways}
    whole = hypot(spread)
    left = dict(parts)
    sizes = {name: value(before, *_key(name)).plus_minus for name in now}
    together = "together" in reply.text
    if together:
        for name, way in now.items():
            left[name] = parts[name] * way.value / sizes[name]
        assert hypot(*left.values()) == pytest.approx(wished, rel=0.05)
    else:
        for name, way in now.items():
            one = {**parts, name: parts[name] * way.value / sizes[name]}
            assert hypot(*one.values()) == pytest.approx(wished, rel=0.05)
    assert whole > wished


def _key(name):
    return {"plant weight": ("herb", ""), "water content": ("water_content", ""), "strength poured": ("strength", ""), "menstruum": ("menstruum", "")}[name]


def test_a_drying_test_is_named_with_its_sample_and_scale():
    reply = told("my kitchen scale reads in 1 g steps", "112 g fresh nettle at 70 to 90 % water, 1:2 at 60 %", "I need the finish within 1 %")
    sample = value(reply, "sample", "drying test").value
    allowed = value(reply, "error_allowed", "water content").value
    assert water_error(0.5, sample, 0.2) <= allowed
    assert "kitchen scale" in reply.text


def test_the_error_of_a_drying_test_is_that_of_its_two_weighings():
    fresh, dried, u = 50.0, 10.0, 0.5
    slope_fresh = (100 * (1 - dried / (fresh + 1e-4)) - 100 * (1 - dried / fresh)) / 1e-4
    assert water_error(u, fresh, dried / fresh) == pytest.approx(hypot(slope_fresh * u, 100 / fresh * u), rel=1e-4)


def test_what_is_within_already_is_said_to_be():
    assert "already" in told("112 g fresh nettle at 80 % water, 1:2 at 60 %", "I need the finish within 3 %").text


# ── which glass ──


def test_the_glass_for_twelve_and_a_half():
    reply = told("which cylinder for 12.5 ml, I have 10, 25, 50 and 100")
    best = value(reply, "glass")
    assert (best.value, best.plus_minus) == (25.0, pytest.approx(0.34))
    assert value(reply, "fill").value == 12.5
    assert value(told("which cylinder for 12.5 ml, class A, from 10, 25, 50 and 100 ml?"), "glass").plus_minus == pytest.approx(0.17)


def test_two_fills_where_one_does_not_hold_it():
    best = pourings(130.0, [common_glass(c, "B") for c in (50.0, 100.0)])[0]
    assert [(f.glass.capacity, f.mark) for f in best.fills] == [(100.0, 100.0), (50.0, 30.0)]
    assert best.error == pytest.approx(hypot(1.0, 0.5))


@pytest.mark.parametrize("wanted", [3.0, 9.9, 12.5, 37.0, 66.7, 99.0, 130.0, 210.0, 480.0])
def test_the_best_way_is_the_best_of_all_ways_and_reaches_the_volume(wanted):
    ways = pourings(wanted, [common_glass(c, "B") for c in (10.0, 25.0, 50.0, 100.0)])
    assert ways[0].error == min(w.error for w in ways)
    for way in ways:
        assert abs(way.poured - wanted) <= way.error
        assert all(0 <= f.mark <= f.glass.capacity for f in way.fills)


def test_the_persons_own_glasses_are_taken():
    session = Session()
    told("my cylinders are 10, 50 and 100 ml, class A", session=session)
    assert value(told("which glass for 37 ml", session=session), "glass").value == 50.0
    told("112 g dried yarrow at 1:5 and 45 %", session=session)
    assert "mL" in told("which of my cylinders?", session=session).text


def test_a_formula_is_rounded_to_a_persons_own_marks_with_each_error():
    reply = told("my cylinder is 50 ml marked every 2 ml", "formula of thyme 3 parts, elecampane 2, licorice 1, fill a 100 mL bottle", "round it to the marks")
    poured = {v.about: v.value for v in reply.values if v.batch == "rounded" and v.unit == "mL"}
    assert sum(poured.values()) == pytest.approx(100)
    assert all(v % 2 == 0 for v in poured.values())
    errors = {v.about: v.value for v in reply.values if v.batch == "rounded" and v.unit == "percent"}
    assert errors["elecampane"] == pytest.approx(100 * (poured["elecampane"] - 100 / 3) / (100 / 3))
    assert errors["licorice"] == pytest.approx(100 * (poured["licorice"] - 100 / 6) / (100 / 6))


# ── two weights ──


def test_more_than_the_scales_can_be_apart_went_on_the_way():
    session = Session()
    reply = told(SPRING, "112 g fresh nettle on the spring scale at 80 % water, 1:2 at 60 %", "112 g on the spring scale, 104 g at home", session=session)
    assert reply.questions
    assert value(reply, "weight_difference").plus_minus == pytest.approx(hypot(5, 0.5))
    assert session.batch.facts["herb"].value == 104
    assert value(reply, "menstruum", "").value == pytest.approx(208)
    assert value(reply, "menstruum", "before").value == pytest.approx(224)
    assert value(reply, "ratio", "if poured already").value == pytest.approx(224 / 104)


def test_within_what_the_scales_can_tell_they_are_one():
    session = Session()
    reply = told(SPRING, "112 g on the spring scale, 110 g at home", session=session)
    assert not reply.questions
    assert "finer" in reply.text
    assert session.batch.facts["herb"].value == 110


def test_heavier_at_home_changes_nothing_and_asks():
    session = Session()
    reply = told("112 g fresh nettle 1:2 at 60 %", "the spring scale said 104 g, the kitchen scale 112 g", session=session)
    assert reply.questions
    assert session.batch.facts["herb"].value == 112


@pytest.mark.parametrize(
    ("answer", "quantity", "figure"),
    [("it was the bag", "tare", 8.0), ("I trimmed it", "trim_loss", 100 * 8 / 112), ("it was dew", "water_lost", 8.0), ("stalks", "trim_loss", 100 * 8 / 112)],
)
def test_what_went_is_put_where_it_belongs(answer, quantity, figure):
    reply = told(NETTLE, "112 g on the spring scale, 104 g at home", answer)
    assert reply.status == "answered"
    assert value(reply, quantity).value == pytest.approx(figure)


def test_what_wilted_is_asked_which_weight_counts():
    session = Session()
    reply = told(NETTLE, "112 g on the spring scale, 104 g at home", "it wilted", session=session)
    assert reply.status == "asking"
    reply = told("after", session=session)
    assert value(reply, "menstruum").value == pytest.approx(208)
    assert session.batch.facts["water_content"].value == pytest.approx(100 * (1 - 0.2 * 112 / 104))


def test_named_by_a_noun_alone_only_where_there_is_one():
    two = Instruments([Instrument("scale", "spring scale", 1000.0, 10.0), Instrument("scale", "kitchen scale", 5000.0, 1.0)])
    assert two.named("scale") is None
    assert Instruments(two[:1]).named("scale").name == "spring scale"
    assert two.named("field").name == "spring scale"
    assert two.named("home").name == "kitchen scale"


def test_a_second_weight_alone_is_laid_beside_the_first():
    session = Session()
    reply = told(SPRING, "112 g fresh nettle at 80 % water on the spring scale, 1:2 at 60 %", "it weighs 104 at home now", session=session)
    assert value(reply, "weight_difference").value == pytest.approx(8)
    assert session.batch.facts["herb"].value == 104


def test_a_give_or_take_told_afterwards_is_laid_on_its_figure():
    session = Session()
    reply = told(NETTLE, "the weight is plus or minus 5 g", session=session)
    assert value(reply, "menstruum").plus_minus == pytest.approx(10)
    reply = told("and the water give or take 4 %", session=session)
    assert session.batch.facts["water_content"].plus_minus == 4
    assert value(reply, "finished_strength").plus_minus > 0.5
    told("undo", session=session)
    assert session.batch.facts["water_content"].plus_minus is None
    assert session.batch.facts["herb"].plus_minus == 5


def test_every_figure_keeps_its_plus_minus_however_it_was_placed():
    reply = told("500 ml of 60 % ± 1 from 95 %")
    strength, stock = value(reply, "strength"), value(reply, "stock")
    assert strength.plus_minus == 1
    assert stock.plus_minus == pytest.approx(stock.value / 60)
    assert told("dried nettle 100 g ± 3 g, 500 ml ± 10 ml poured", "how exact is the ratio").status in ("answered", "asking")


def test_an_official_dropper_is_known():
    reply = told("I use an official USP dropper")
    assert value(reply, "reads_to").value == pytest.approx(2.0, abs=0.1)


def test_what_was_measured_already_is_not_measured_out_again():
    """80 g of oil is weighed once: its millilitres follow, they are not poured."""
    before = value(told("80 g oil ± 2 g, 20 g beeswax, how many 30 ml tins", "how exact is that"), "rest").plus_minus
    reply = told("80 g oil ± 2 g, 20 g beeswax, how many 30 ml tins", "what matters most here")
    assert value(reply, "rest").plus_minus == pytest.approx(before)
    assert "poured" not in reply.text


def test_asked_in_the_same_breath():
    reply = told("112 g fresh nettle ± 5 g at 80 % water, 1:2 at 60 %, how exact is the finish?")
    assert reply.status == "answered"
    assert "strength poured 60 % ± 0.5" in reply.text


def test_a_bare_noun_that_reads_quite_differently_is_another_scale():
    session = Session()
    told("my luggage scale goes to 10 kg in 20 g steps", "scale: 3 kg, 1 g", session=session)
    assert len(session.instruments) == 2


def test_which_weight_to_trust_is_told_again():
    reply = told("kitchen scale and spring scale disagree: 104 g and 112 g", "which one do I trust")
    assert "Believe the kitchen scale" in reply.text


def test_the_next_volume_is_for_the_same_glasses():
    reply = told("I've got three cylinders, 25, 100 and 250 ml", "which for 60 ml")
    assert value(reply, "glass").value == 100
