"""Three answers to a condition: what was merely not said is never no."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.cautions.conditions import And, Compare, Condition, Not, Or, Scene, Tagged, from_data, to_data
from assistant.cautions.facts import NO, UNKNOWN, YES
from assistant.cautions.reading import read_rules
from tests.cautions.kit import Figure, facts, meaning, rule_text


def condition(text: str) -> Condition:
    rules, faults = read_rules(rule_text(when=text), "test.rules", meaning())
    assert not faults, faults
    return rules[0].when


def weigh(text, strict=False, **said):
    found = facts(**said)
    held, denied = meaning().tags.closed(found.tags, found.denied)
    found = found._replace(tags=held, denied=denied)
    return condition(text).weigh(Scene(found, denied, found.plants[0] if found.plants else None, strict))


@pytest.mark.parametrize(
    ("text", "said", "answer"),
    [
        ("finished strength is under 20 %", {}, UNKNOWN),
        ("finished strength is under 20 %", {"figures": {"finished_strength": 17}}, YES),
        ("finished strength is under 20 %", {"figures": {"finished_strength": 20}}, NO),
        ("finished strength is at least 20 %", {"figures": {"finished_strength": 20}}, YES),
        ("finished strength is over 20 %", {"figures": {"finished_strength": 20}}, NO),
        ("finished strength is at most 20 %", {"figures": {"finished_strength": 20}}, YES),
        ("plant weight is over 1 kg", {"figures": {"herb": 1200}}, YES),
        ("course is over 2 weeks", {"figures": {"course": 15}}, YES),
        ("ratio is stronger than 1:10", {"figures": {"ratio": 5}}, YES),
        ("ratio is weaker than 1:10", {"figures": {"ratio": 5}}, NO),
        ("it is for internal use", {}, UNKNOWN),
        ("it is for internal use", {"tags": "internal"}, YES),
        ("it is for internal use", {"denied": "internal"}, NO),
        ("it is for internal use", {"tags": "external"}, NO),  # the one excludes the other
        ("it is for internal use", {"tags": "external internal"}, YES),
        ("the herb is fresh", {"tags": "dried"}, NO),
        ("not it is for internal use", {}, UNKNOWN),
        ("the plant is low-dose", {}, UNKNOWN),
        ("the plant is low-dose", {"plant": "lobelia"}, YES),
        ("the plant is low-dose", {"plant": "nettle"}, NO),
        ("the plant is low-dose", {"plant": "damiana"}, UNKNOWN),  # nothing is known of it
        ("the plant is unknown", {"plant": "damiana"}, YES),
        ("the plant is unknown", {"plant": "nettle"}, NO),
        ("the plant is named", {}, NO),
        ("the plant is one of comfrey, borage", {"plant": "borage"}, YES),
        ("the plant is of the family Apiaceae", {"plant": "osha"}, YES),
        ("the plant is in the genus Sambucus", {"plant": "osha"}, NO),
        ("the part is root", {"plant": "osha"}, YES),  # it has no other part here
        ("the part is root", {"plant": "nettle"}, UNKNOWN),
        ("the part is root", {"plant": "nettle", "part": "leaf"}, NO),
        ("the part is berry", {"plant": "elderberry"}, YES),
        ("another plant is sedative", {"plant": "valerian,hops"}, YES),
        ("another plant is sedative", {"plant": "valerian,thyme"}, NO),
        ("another plant is sedative", {"plant": "valerian"}, UNKNOWN),
        ("dose is known", {}, NO),
        ("dose is known", {"figures": {"dose": 5}}, YES),
        ("dose is said", {"figures": {"dose": Figure(5, "found")}}, NO),
        ("water content is assumed", {"figures": {"water_content": Figure(80, "assumed")}}, YES),
        ("share is over 10 %", {"figures": {"share[thyme]": 5, "share[lobelia]": 20}}, YES),
        ("share is over 10 %", {"figures": {"share[thyme]": 90, "share[lobelia]": 5}, "plant": "lobelia"}, NO),  # its own share
        ("strength poured is under the plant's usual strength", {"figures": {"strength": 25}, "tags": "dried", "plant": "myrrh"}, YES),
        ("strength poured is under the plant's usual strength", {"figures": {"strength": 25}, "plant": "myrrh"}, YES),  # a resin is never fresh
        ("strength poured is under the plant's usual strength", {"figures": {"strength": 35}, "plant": "nettle"}, NO),  # usual for it dried
        ("strength poured is under the plant's usual strength", {"figures": {"strength": 20}, "plant": "nettle"}, YES),  # unusual either way
        ("it is for internal use and the plant is low-dose", {"tags": "internal"}, UNKNOWN),
        ("it is for internal use and the plant is low-dose", {"tags": "external"}, NO),
        ("it is for internal use or the plant is low-dose", {"tags": "internal"}, YES),
        ("(it is for internal use or it is for a child) and the herb is fresh", {"tags": "child fresh"}, YES),
    ],
)
def test_a_condition_answers(text, said, answer):
    assert weigh(text, **said) == answer


def test_a_stop_wants_the_whole_plus_minus_past_the_limit():
    said = {"figures": {"finished_strength": Figure(18, "found", 3)}}
    assert weigh("finished strength is under 20 %", **said) == YES
    assert weigh("finished strength is under 20 %", strict=True, **said) == UNKNOWN
    said = {"figures": {"finished_strength": Figure(16, "found", 3)}}
    assert weigh("finished strength is under 20 %", strict=True, **said) == YES


@pytest.mark.parametrize(("value", "slack", "answer"), [(21, 2, YES), (21, 0.5, NO), (19, 2, NO), (21, None, NO)])
def test_may_be_speaks_of_the_safe_side_whose_slack_reaches_over(value, slack, answer):
    assert weigh("finished strength may be under 20 %", figures={"finished_strength": Figure(value, "found", slack)}) == answer


ATOMS = st.sampled_from([Tagged("internal"), Tagged("fresh"), Tagged("child"), Compare("ratio", "under", 3.0), Compare("herb", "over", 10.0)])
SAID = st.sets(st.sampled_from(["internal", "fresh", "child"]))


def joined(some):
    few = st.lists(some, min_size=1, max_size=3).map(tuple)
    return st.one_of(some.map(Not), few.map(And), few.map(Or))


CONDITIONS = st.recursive(ATOMS, joined)


@given(CONDITIONS)
def test_a_condition_survives_being_written_down(one):
    assert from_data(to_data(one)) == one


@given(CONDITIONS, SAID, SAID, st.booleans(), st.booleans())
def test_learning_more_never_turns_yes_into_no(one, tags, denied, herb, ratio):
    """What was settled stays settled when more is said that does not contradict it."""
    figures = {**({"herb": Figure(20)} if herb else {}), **({"ratio": Figure(2)} if ratio else {})}
    denied -= tags
    before = one.weigh(Scene(facts(), frozenset()))
    after = one.weigh(Scene(facts(figures, " ".join(tags), " ".join(denied)), frozenset(denied)))
    assert before in (UNKNOWN, after)


@given(CONDITIONS)
def test_a_rule_is_woken_by_whatever_makes_it_hold(one):
    """No YES without one of its wake keys being present."""
    keys = one.wakes()
    if keys is None:
        return
    empty = one.weigh(Scene(facts(denied="internal fresh child"), frozenset({"internal", "fresh", "child"})))
    assert empty != YES
