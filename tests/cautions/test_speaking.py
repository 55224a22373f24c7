"""What speaks, in which order, how often, and what it says."""

from assistant.cautions.facts import Facts
from assistant.cautions.reading import read_rules
from assistant.cautions.speaking import plain, speak, still_spoken
from tests.cautions.kit import Figure, book_of, facts, meaning, rule_text


def book(*texts):
    rules, faults = read_rules("".join(texts), "test.rules", meaning())
    assert not faults, faults
    return book_of(*rules)


def said(one, **given):
    return [(caution.id, caution.level, caution.asked) for caution in one.all_firing(facts(**given))]


def test_stops_come_first_then_warnings_then_notes():
    one = book(rule_text("a-note", level="note"), rule_text("a-warning"), rule_text("a-stop", level="stop"))
    assert [level for _, level, _ in said(one, tags="fresh")] == ["stop", "warn", "note"]


def test_a_stop_speaks_on_yes_only_and_asks_where_its_last_claim_is_open():
    one = book(rule_text("poison", "the plant is low-dose and it is for internal use", '  asks "Is {plant} to be swallowed?"\n', level="stop"))
    assert said(one, plant="lobelia", tags="internal") == [("poison", "stop", False)]
    assert said(one, plant="lobelia") == [("poison", "warn", True)]
    assert one.all_firing(facts(plant="lobelia"))[0].text == "Is lobelia to be swallowed?"
    assert said(one, plant="lobelia", tags="external") == []
    assert said(one, plant="nettle") == []
    assert said(one, tags="internal") == []  # which plant it is, is not what the rule asks


def test_without_a_question_what_is_open_stays_silent():
    one = book(rule_text("poison", "the plant is low-dose and it is for internal use", level="stop"))
    assert said(one, plant="lobelia") == []


def test_an_exception_must_be_established():
    one = book(rule_text("wet", "the herb is fresh", "  unless the herb is wilted\n"))
    assert said(one, tags="fresh") == [("wet", "warn", False)]
    assert said(one, tags="fresh wilted") == []


def test_one_who_practises_is_warned_instead_of_stopped():
    text = rule_text("liver", "the herb is fresh", level="stop (practising: warn)")
    assert said(book(text), tags="fresh") == [("liver", "stop", False)]
    assert said(book(text), tags="fresh practising") == [("liver", "warn", False)]


def test_a_caution_is_spoken_once_and_a_stop_as_long_as_it_holds():
    one = book(rule_text("a-warning"), rule_text("a-stop", level="stop"))
    given = facts(tags="fresh")
    already = frozenset(caution.key for caution in speak(one, given))
    assert [caution.id for caution in speak(one, given, already)] == ["a-stop"]


def test_what_tips_over_again_is_told_again():
    one = book(rule_text("weak", "finished strength is under 20 %"))
    already = frozenset({"weak"})
    assert still_spoken(one, facts({"finished_strength": 18}), already) == already
    assert still_spoken(one, facts({"finished_strength": 30}), already) == frozenset()


def test_the_question_does_not_silence_the_answer():
    one = book(rule_text("poison", "the plant is low-dose and it is for internal use", '  asks "Swallowed?"\n', level="warn"))
    asked = speak(one, facts(plant="lobelia"))
    assert [caution.id for caution in speak(one, facts(plant="lobelia", tags="internal"), frozenset(c.key for c in asked))] == ["poison"]


def test_figures_are_shown_as_the_bench_shows_them():
    one = book(rule_text("weak", "finished strength is under 20 %", say="{finished strength} is weak. Add {rescue} to mend it. Keep it cold."))
    given = facts({"finished_strength": Figure(17.04, "found")})
    assert one.all_firing(given)[0].text == "17 % is weak. Keep it cold."  # no rescue was handed over
    given = facts({"finished_strength": 17.04}, words={"rescue": "74 mL of 95 %"}, show=lambda key, value: f"{value:.2f} %")
    assert one.all_firing(given)[0].text == "17.04 % is weak. Add 74 mL of 95 % to mend it. Keep it cold."


def test_every_plant_that_is_meant_is_named_and_no_other():
    one = book(rule_text("strong", "the plant is low-dose and the herb is dried", say="{plant}: {note}."))
    (caution,) = one.all_firing(facts(plant="lobelia,thyme,bloodroot", tags="dried"))
    assert caution.text.startswith("Lobelia and bloodroot: ")
    assert "vomiting" in caution.text
    assert "licensed practitioner" in caution.text
    assert "Canadian Poisonous Plants" in caution.source


def test_a_usual_range_is_shown_for_the_part_and_state():
    one = book(rule_text("weak", "strength poured is under the plant's usual strength", say="{plant}: {usual strength}."))
    assert one.all_firing(facts({"strength": 40}, plant="valerian", tags="dried"))[0].text == "Valerian: 60 to 80 %."


def test_two_claims_must_hold_of_the_same_plant():
    one = book(rule_text("root", "the plant is low-dose and the plant is at-risk"))
    assert said(one, plant="rue,osha") == []  # the one is low-dose, the other at risk
    assert said(one, plant="rue,bloodroot") == [("root", "warn", False)]


def test_no_facts_at_all_say_nothing():
    one = book(rule_text("a-note"), rule_text("weak", "not finished strength is over 20 %"))
    assert one.all_firing(Facts()) == []


def test_nonsense_figures_do_no_harm():
    one = book(rule_text("weak", "finished strength is under 20 %", say="{finished strength} is weak."))
    for value in (float("nan"), float("inf"), -5.0, 1e300):
        one.all_firing(facts({"finished_strength": value}))


def test_plain_figures_read_as_a_jug_does():
    shown = [plain(value, unit) for value, unit in ((17.04, "percent"), (224.4, "mL"), (1.25, "g"), (0.0563, "g/mL"), (3, "1"))]
    assert shown == ["17 %", "224 mL", "1.2 g", "0.056 g/mL", "3"]
