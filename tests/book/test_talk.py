"""The book in conversation: a season at an invented bench, spoken to the whole program."""

import re

import pytest

from assistant.reply import breaches
from tests.book.kit import session, told

NUMBER = re.compile(r"\d+(?:\.\d+)?")

SEASON = (
    ("brought in 5 L of 95% spirit, lot S-12, for 60", "5000 mL spirit of 95 %, lot S-12"),
    ("put 24 bottles of 50 ml in stock", "24 × bottle of 50 mL"),
    ("log a gathering: 640 g nettle leaf at Mill Lane on 10 June, a fifth of the stand, with the farm's leave", "20 % of the stand"),
    ("112 g fresh nettle, 1:2 at 60 %, my stock is 95", "4859 mL is left after this"),
    ("keep this as lot 24-07 nettle, press in six weeks", "press on 24 July 2031"),
    ("what went into lot 24-07", "gathering 1: nettle leaf at Mill Lane"),
    ("lot 24-07 gave 205 ml", "84.1 % of the 244 mL expected"),
    ("bottled lot 24-07: 4 bottles of 50 ml", "200 mL bottled of 205 mL pressed"),
    ("which bottles came from the June nettle", "4 bottles of 50 mL"),
    ("labels for lot 24-07", "made 12 June 2031 · best before 12 June 2034"),
    ("note the cleaning for lot 24-07: jar and press scalded on the 11th", "when the equipment was cleaned"),
    ("batch sheet for lot 24-07", "(c) when the equipment was cleaned: jar and press"),
    ("which fields stay blank for lot 24-07", "(h) results of tests"),
    ("what's in stock", "bottle of 50 mL: 20 left"),
    ("can I go back to Mill Lane", "More than a tenth of the stand"),
    ("what did I take from Mill Lane", "2031: 1 visit, 640 g"),
    ("when did I pick nettle", "10 June 2031"),
    ("gathering sheet", "Permission: the farm's leave"),
    ("what is past its date", "Nothing kept is past its date"),
    ("show me the lots", "205 mL pressed"),
)


@pytest.fixture(scope="module")
def season(tmp_path_factory):
    one = session(tmp_path_factory.mktemp("season") / "book.db")
    return [(sentence, words, one.say(sentence)) for sentence, words in SEASON]


def test_a_season_is_told(season):
    for sentence, words, reply in season:
        assert reply.is_good, f"{sentence}\n{reply.text}"
        assert words in reply.text, f"{sentence}\n{reply.text}"


def test_the_replies_keep_the_contract(season):
    for sentence, _, reply in season:
        assert not list(breaches(reply)), sentence
        spans = [(u.start, u.end) for u in reply.used]
        asked = " ".join(q.text for q in reply.questions)
        for number in NUMBER.finditer(sentence):
            assert any(a < number.end() and number.start() < b for a, b in spans) or number.group() in asked, (
                f"{number.group()} of {sentence!r} was passed over"
            )


def test_dates_are_told_before_during_and_after(tmp_path):
    one = told(None, "112 g fresh nettle, 1:2 at 60 %", "started 2 June", "press in 4 weeks", "keep this as lot A1")
    assert "Started 2 June 2031" in one.say("what went into lot A1").text.replace("started", "Started")
    dates = {v.quantity: v.date for v in one.say("press on 3 August").values}
    assert dates["press_on"] == "2031-08-03"
    kept = one.memory.book.row("SELECT * FROM batches")
    assert (kept["started"], kept["shake_until"], kept["ready_on"], kept["best_before"]) == ("2031-06-02", "2031-08-03", "2031-08-03", "2034-08-03")
    reply = one.say("300 g dried yarrow 1:5 at 45 %, keep this as lot A2, shake daily for 2 weeks, press in a month, settle for a week")
    dates = {v.quantity: v.date for v in reply.values if v.date}
    assert dates == {"started": "2031-06-12", "shake_until": "2031-06-26", "press_on": "2031-07-12", "ready_on": "2031-07-19", "best_before": "2034-07-12"}


def test_what_presses_when(tmp_path):
    one = told(
        None,
        "112 g fresh nettle, 1:2 at 60 %",
        "keep this as lot A1, press in 2 days",
        "keep this as lot A2, press in 9 days",
        "keep this as lot A3, press in 40 days",
    )
    for words, lots in (("this week", ["A1"]), ("next week", ["A2"]), ("this month", ["A1", "A2"]), ("today", [])):
        text = one.say(f"what presses {words}?").text
        assert [lot for lot in ("A1", "A2", "A3") if lot in text] == lots, words


def test_pressings_become_the_persons_own_number(tmp_path):
    """Three pressings by the ricer: their mean with count and ends stands in place of the table's 2 mL per g."""
    place = tmp_path / "book.db"
    one = session(place)
    for lot, got in (("A1", 266.0), ("A2", 261.5), ("A3", 257.0)):
        one.say("start afresh")
        one.say("112 g fresh nettle at 80 % water, 1:2 at 60 %, pressed with a ricer")
        assert one.say(f"keep this as lot {lot}").is_good
        assert one.say(f"lot {lot} gave {got:g} mL").is_good
    reply = session(place).say("200 g fresh nettle at 80 % water, 1:2 at 60 %, pressed with a ricer, how much do I get back?")
    # in the jar 311.0 mL on 22.4 g dry: (311.0 − 266) ÷ 22.4 = 2.01, 2.21, 2.41
    own = next(a for a in reply.assumptions if a.quantity == "held_per_gram")
    assert own.value == pytest.approx(2.21, abs=0.02)
    assert "your last 3 pressings of nettle; 2.01 to 2.41" in own.text
    assert "your last 3 pressings" in reply.text
    screw = session(place).say("200 g fresh nettle at 80 % water, 1:2 at 60 %, screw press, how much do I get back?")
    assert next(a for a in screw.assumptions if a.quantity == "held_per_gram").value == 1.2  # never recorded: the table's
    assert "pressings" not in session(None).say("200 g fresh nettle, 1:2 at 60 %, how much pressed?").text  # and nobody else's


def test_a_drying_becomes_the_persons_own_number(tmp_path):
    one = told(tmp_path / "book.db", "20 g fresh sage leaf dried down to 5 g, how much water had it?", "keep this drying", "start afresh")
    reply = one.say("100 g fresh sage leaf, 1:2 at 70 %")
    own = next(a for a in reply.assumptions if a.quantity == "water_content")
    assert own.value == pytest.approx(100 * (1 - 5 * 0.9 / 20))  # dried herb keeps 10 % water
    assert "your last drying of sage" in own.text


def test_a_plan_is_held_against_the_shelf(tmp_path):
    one = told(tmp_path / "book.db", "brought in 310 mL of 95 % spirit")
    assert "You have 310 mL of 95 %: 50 mL short." in one.say("make 600 mL of 57 % from 95").text
    reply = one.say("make 200 mL of 57 % from 95")
    assert "190 mL is left after this" in reply.text
    assert {v.quantity for v in reply.values} >= {"spirit_in_hand", "have_left"}


def test_a_formula_leads_back_through_its_tinctures(tmp_path):
    one = told(
        tmp_path / "book.db", "log a gathering: 640 g nettle at Mill Lane on 10 June",
        "112 g fresh nettle, 1:2 at 60 %, my stock is 95", "keep this as lot N1", "start afresh",
        "formula: 60 mL nettle, 40 mL sage", "keep this as code H-12", "bottled H-12: 1 bottle of 100 mL",
    )  # fmt: skip
    text = one.say("which bottles came from the June nettle").text
    assert "by way of lot N1: 1 bottle of 100 mL" in text
    assert one.memory.book.row("SELECT code FROM batches WHERE lot = 'H-12'")["code"] == "H-12"


@pytest.mark.parametrize(
    ("sentence", "status"),
    [
        ("keep this as lot 24-07", "asking"), ("what went into lot 99-99", "asking"),
        ("lot 99-99 gave 205 mL", "asking"), ("labels for lot 99-99", "asking"),
        ("log a gathering at Mill Lane", "asking"), ("log a gathering: 30 of 20 plants of nettle there", "refused"),
        ("log a gathering: nettle on 31 June", "refused"),
    ],
)  # fmt: skip
def test_what_cannot_be_kept_ends_in_a_question(tmp_path, sentence, status):
    one = session(tmp_path / "book.db")
    reply = one.say(sentence)
    assert reply.status == status, reply.text
    assert reply.questions
    assert not list(breaches(reply))
    assert one.memory.book.row("SELECT count(*) FROM batches")[0] + one.memory.book.row("SELECT count(*) FROM gatherings")[0] == 0
    assert one.memory.book.row("SELECT status FROM turns")["status"] == status  # the talk itself is kept


def test_a_lot_is_not_taken_twice_and_a_zero_yield_is_none(tmp_path):
    one = told(tmp_path / "book.db", "112 g fresh nettle, 1:2 at 60 %", "keep this as lot 24-07")
    twice = one.say("keep this as lot 24-07")
    assert twice.status == "refused"
    assert "24-07b" in twice.text
    assert one.say("lot 24-07 gave 0 mL").status == "refused"
    assert one.say("bottled lot 24-07: 2.5 bottles of 50 mL").status == "refused"
    assert one.memory.book.row("SELECT actual FROM batches")["actual"] is None


def test_a_figure_beside_a_kept_lot_is_worked_out_first_or_asked_about():
    one = session()
    reply = one.say("112 g fresh nettle, 1:2 at 60 %, keep this as lot B1")
    assert reply.status == "noted"
    assert one.memory.book.row("SELECT expected FROM batches")["expected"] == pytest.approx(244, abs=1)
    asked = one.say("bottled lot B1: 4 bottles of 50 mL and 17 sprigs")
    assert "17" in " ".join(q.text for q in asked.questions)


def test_a_kept_lot_names_the_tables_it_rests_on_and_never_changes(monkeypatch):
    one = told(None, "112 g fresh nettle, 1:2 at 60 %", "keep this as lot B1")
    before = one.say("batch sheet for lot B1").text
    assert set(one.memory.book.row("SELECT record FROM batches")["record"].split('"')) >= {"gallipot", "relations", "plants"}
    monkeypatch.setattr("assistant.session.freezing.RELATIONS", ())
    monkeypatch.setattr("assistant.matter.functions.FUNCTIONS", {}, raising=False)
    assert one.say("batch sheet for lot B1").text == before


def test_a_lot_by_its_mere_name_is_bottled_pressed_and_labelled(tmp_path):
    one = session(tmp_path / "book.db")
    one.say("112 g fresh nettle, 80 % water, 1:2 at 60 % from 95")
    one.say("keep this as lot 24-07 nettle")
    assert one.say("24-07 gave 240 ml").status == "noted"
    bottled = one.say("24-07 bottled into 4 bottles of 50 ml")
    assert bottled.status == "noted"
    assert "4 bottles of 50 mL" in bottled.text
    assert "112 g nettle" in one.say("what went into 24-07").text
    assert "Lot 24-07" in one.say("labels for 24-07").text
    assert "mL per g of dry matter" in one.say("my last pressings").text
    finish = one.say("what does 24-07 finish at")
    assert "What is" not in finish.text
    assert ("24-07", "label") in {(u.text, u.quantity) for u in finish.used}


def test_where_no_gathering_is_kept_that_is_said(tmp_path):
    one = session(tmp_path / "book.db")
    one.say("112 g fresh nettle, 80 % water, 1:2 at 60 % from 95")
    assert one.say("can I go back to the mill field").text.startswith("No gathering is in the book yet.")
