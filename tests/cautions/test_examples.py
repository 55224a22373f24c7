"""Every rule's two conversations, spoken to the whole program: the one fires it, the near miss does not."""

import pytest

from assistant import Session
from assistant.cautions.folder import read_texts
from assistant.places import rules_folder

RULES = read_texts(rules_folder()).book.rules()
SHOWN = 3  # cautions under one answer; the rest comes on the question below
THE_REST = "what else should I know"


def spoken_to(sentences):
    session = Session()
    reply = [session.say(sentence) for sentence in sentences][-1]
    said = list(reply.cautions)
    if len(said) >= SHOWN:
        said += session.say(THE_REST).cautions
    return reply, said


def told(rule, sentences):
    reply, said = spoken_to(sentences)
    return f"{rule.file}, line {rule.line}: {' / '.join(sentences)!r} was {reply.status} with {[caution.id for caution in said]}"


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_a_rule_fires_on_its_example(rule):
    reply, said = spoken_to(rule.fires_on)
    mine = [caution for caution in said if caution.id == rule.id]
    assert mine, told(rule, rule.fires_on)
    assert mine[0].level == rule.level, told(rule, rule.fires_on)
    assert mine[0].text
    assert mine[0].source
    if rule.level == "stop":
        assert reply.status == "refused"
        assert not [value for value in reply.values if value.origin == "found"]


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_a_rule_is_silent_on_its_near_miss(rule):
    _, said = spoken_to(rule.silent_on)
    assert not [caution for caution in said if caution.id == rule.id], told(rule, rule.silent_on)
