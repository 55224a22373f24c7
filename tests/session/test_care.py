"""Cautions in a conversation: once a batch, again when a figure tips over again, all of them when asked, why, quiet, and what a stop asks."""

from __future__ import annotations

import pytest

from assistant import Session

WEAK = "300 g fresh chickweed at 91 % water, 1:1 at 40 %"  # finishes where it keeps with no margin
STRONG = "1:2 at 80 %"


def talked(*sentences):
    session = Session()
    return session, [session.say(sentence) for sentence in sentences]


def ids(reply):
    return [caution.id for caution in reply.cautions]


def found(reply):
    return {value.quantity: value.value for value in reply.values if value.origin == "found"}


def test_a_caution_speaks_once_and_again_when_its_figure_tips_over_again():
    _, (first, same, strong, weak) = talked(WEAK, "how much of 95 % is that", STRONG, "1:1 at 40 %")
    assert "fresh-wants-a-margin" in ids(first)
    assert "fresh-wants-a-margin" not in ids(same)
    assert "fresh-wants-a-margin" not in ids(strong)
    assert "fresh-wants-a-margin" in ids(weak)


def test_three_at_most_and_the_rest_is_offered_and_told():
    _, (first, rest) = talked("20 goldenseal plants, 6 g of root each, I need 90 g, wild", "what else should I know")
    assert len(first.cautions) == 3
    assert "what else should I know" in first.text
    assert len(rest.cautions) > 3
    assert set(ids(first)) <= set(ids(rest))


def test_levels_stand_in_order():
    _, (reply, rest) = talked(WEAK, "anything else to watch out for?")
    order = ["stop", "warn", "note"]
    for said in (reply, rest):
        levels = [order.index(caution.level) for caution in said.cautions]
        assert levels == sorted(levels)


@pytest.mark.parametrize(
    "asked",
    [
        "why do you say that",
        "says who?",
        "what's your source",
        "where is that from?",
        "why the warning?",
        "explain that caution",
        "how do you know that",
        "sources please",
    ],
)
def test_why_gives_reason_and_source(asked):
    _, (first, why) = talked(WEAK, asked)
    assert why.status == "answered"
    assert ids(why) == ids(first)
    assert "Why:" in why.text
    assert "Source:" in why.text
    assert all(caution.why and caution.source for caution in why.cautions)


@pytest.mark.parametrize(
    "asked",
    [
        "what else should I know",
        "any other warnings?",
        "anything else to watch out for",
        "are there any risks",
        "what could go wrong?",
        "is it safe?",
        "all the cautions",
        "what must I look out for?",
    ],
)
def test_all_of_them_in_many_words(asked):
    _, (_, _, told) = talked(WEAK, STRONG, asked)
    assert told.status == "answered"
    _, (first, told) = talked(WEAK, asked)
    assert set(ids(told)) >= set(ids(first))


@pytest.mark.parametrize(
    "asked",
    [
        "will it keep?",
        "does that go off?",
        "how long is it good for",
        "is it shelf stable?",
        "shelf life?",
        "how long will the tincture last?",
        "is this strong enough to keep",
    ],
)
def test_keeping_is_told_whenever_it_is_asked(asked):
    session, (_, told) = talked(WEAK, asked)
    assert ids(told) == ["fresh-wants-a-margin"]
    session.say(STRONG)
    reply = session.say(asked)
    assert "weak" not in " ".join(ids(reply))
    assert reply.status == "answered"


@pytest.mark.parametrize(
    "said", ["quiet on that", "enough of that", "don't tell me that again", "no need to remind me", "mute that note", "stop warning me about it"]
)
def test_quiet_mutes_a_note_for_this_batch(said):
    note = "under-usual-strength"
    session, (first, hushed) = talked("300 g fresh chickweed at 91 % water, 1:2 at 40 %", said)
    assert note in ids(first)
    assert hushed.status == "noted"
    session.say("1:2 at 70 %")
    assert note not in ids(session.say("1:2 at 40 %"))
    assert note in ids(session.say("50 g dried comfrey root, 1:5 at 45 %, for the skin"))  # another batch is told again


def test_a_stop_is_never_muted():
    session, (first, hushed) = talked("50 g dried comfrey root, 1:5 at 45 %, to drink", "quiet on that")
    assert first.cautions[0].level == "stop"
    assert "not muted" in hushed.text
    again = session.say("50 g dried comfrey root, 1:5 at 45 %, to drink")
    assert again.cautions[0].level == "stop"
    assert not found(again)


@pytest.mark.parametrize(
    ("said", "question"),
    [
        ("50 g dried foxglove, 1:5, to drink", "Which other plant do you want to work with?"),
        ("50 g dried comfrey root, 1:5 at 45 %, to drink", "Is it for the skin?"),
        ("300 mL of 50 % tincture, I want to reduce it over a gas ring", "What do you heat on?"),
        ("50 g dried valerian in 91 % isopropyl, 1:5, we drink it", "Which will you take?"),
        ("elderberry syrup with 300 g honey and 300 mL decoction for the baby", "What will you make it with instead?"),
    ],
)
def test_a_stop_asks_what_fits_it(said, question):
    _, (reply,) = talked(said)
    assert reply.status == "refused"
    assert [asked.text for asked in reply.questions] == [question]
    assert reply.text.endswith(question)
    assert reply.text.count(question) == 1
    assert not found(reply)


@pytest.mark.parametrize(
    ("said", "way_on"),
    [
        ("50 g dried comfrey root, 1:5 at 45 %, to drink", "for outside use only"),
        ("50 g dried arnica flower, 1:10 at 70 %, to drink", "for the skin"),
        ("50 g dried foxglove, 1:5, to drink", "motherwort instead"),
        ("some umbel from the ditch, 90 g fresh at 80 % water, 1:2 at 60 %, to drink", "a botanist has identified it"),
        ("elderberry syrup with 300 g honey and 300 mL decoction for the baby", "it is for an adult"),
    ],
)
def test_the_way_on_after_a_stop_works(said, way_on):
    _, (stopped, after) = talked(said, way_on)
    assert stopped.status == "refused"
    assert after.status == "answered"
    assert found(after)


def test_another_plant_with_figures_after_a_stop_is_a_new_job():
    _, (_, after) = talked("50 g dried foxglove, 1:5, to drink", "then only motherwort: 40 g dried at 1:5, how much do I pour?")
    assert found(after)["menstruum"] == pytest.approx(200)


def test_what_is_about_one_person_is_a_warning_with_the_arithmetic():
    for said in ("she is pregnant", "for a recovering alcoholic", "he is on metronidazole"):
        _, (reply,) = talked(f"100 g dried thyme, 1:5 at 45 %, {said}")
        assert reply.status == "answered"
        assert found(reply)["menstruum"] == pytest.approx(500)
        assert [c for c in reply.cautions if c.level == "warn" and c.theme == "people"]


@pytest.mark.parametrize("said", ["I practise; clients are mine", "I'm a licensed herbalist", "i see patients in my own practice", "I am registered"])
def test_one_who_practises_says_so_once(said):
    ask = "100 g dried nettle leaf, 1:5 at 45 %, she is pregnant"
    session, (noted,) = talked(said)
    assert noted.status == "noted"
    soft = {c.id: c.level for c in session.say(ask).cautions}
    hard = {c.id: c.level for c in Session().say(ask).cautions}
    assert hard["alcohol-in-pregnancy"] == "warn"
    assert soft["alcohol-in-pregnancy"] == "note"
    deadly = session.say("50 g dried foxglove, 1:5, to drink")
    assert deadly.cautions[0].level == "stop"  # an established poison stays a stop


def test_a_shared_name_is_asked_about_once_and_the_arithmetic_given():
    session, (first, second, named) = talked("50 g dried snakeroot, 1:5 at 60 %", "how much of 95 % is that", "black cohosh")
    assert found(first)["menstruum"] == pytest.approx(250)
    assert "which?" in first.questions[0].text
    assert "black cohosh" in first.questions[0].choices
    assert [c for c in first.cautions if "Poisons" in c.text]
    assert not [asked for asked in second.questions if "which?" in asked.text]
    assert named.batch == "black cohosh tincture"
    assert session.batch.facts["herb"].value == 50


def test_a_shared_name_told_to_be_the_poison_stops():
    _, (_, told) = talked("40 g dried snakeroot at 1:5", "it's white snakeroot")
    assert told.cautions[0].id == "deadly-plant"
    assert not found(told)


def test_nothing_is_known_of_an_unknown_plant_and_that_is_said_once():
    _, (first, again) = talked("112 g fresh quibblewort at 80 % water, 1:2 at 60 %", "1:3")
    assert found(first)["menstruum"] == pytest.approx(224)
    assert "quibblewort" in next(c.text for c in first.cautions if c.id == "name-means-nothing-here")
    assert "name-means-nothing-here" not in ids(again)


@pytest.mark.parametrize("off", ["no giving-back line", "leave out the giving back line", "without the giving-back note", "switch off the giving back line"])
def test_the_line_for_giving_back_is_switched_off_and_on(off):
    ask = "I need 300 g fresh {} from the wild woods, how much should I pick?"
    session, (first, hushed) = talked(ask.format("nettle leaf"), off)
    assert "give-back" in ids(first)
    assert hushed.status == "noted"
    assert "give-back" not in ids(session.say(ask.format("yarrow")))
    session.say("giving-back line again")
    assert "give-back" in ids(session.say(ask.format("mugwort")))


def test_why_do_you_say_that_tells_the_working_where_nothing_was_cautioned():
    _, (_, why) = talked("112 g dried oats, 1:5 at 40 %", "why do you say that")
    assert why.status == "answered"
    assert any(step.relation == "ratio" for step in why.steps)
