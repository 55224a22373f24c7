"""Texts of rules: what is read, and what is told of a faulty one, to the letter."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.cautions.reading import DEEPEST, LONGEST_FILE, LONGEST_RULE, read_rules
from tests.cautions.kit import meaning, rule_text

GOOD = """# a remark
rule weak-to-keep                       theme: keeping   level: warn
  when finished strength is under 20 % and (the herb is fresh or ratio is stronger than 1:3)
  unless it is kept cold
  say "{finished strength} is weak:
       bring it up. {rescue}."
  asks "Is it fresh?"
  why "It spoils."
  source usp-dropper "page 3" (read), common practice, "my teacher" (memory)   # another remark
  fires on "100 g fresh chickweed, 1:1 at 30 %" then "will it keep?"
  silent on "100 g dried yarrow, 1:5 at 45 %"
"""


def test_a_rule_is_read_whole():
    rules, faults = read_rules(GOOD, "own.rules", meaning())
    assert not faults
    (rule,) = rules
    assert (rule.id, rule.theme, rule.level, rule.file, rule.line) == ("weak-to-keep", "keeping", "warn", "own.rules", 2)
    assert rule.say == "{finished_strength} is weak: bring it up. {rescue}."
    assert rule.sources == (("usp-dropper", "page 3", "read"), ("common practice", "", "common practice"), ("my teacher", "", "memory"))
    assert rule.evidence == "common practice"
    assert rule.fires_on == ("100 g fresh chickweed, 1:1 at 30 %", "will it keep?")
    assert rule.unless is not None


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            rule_text(when="finished strenght is under 20 %"),
            'own.rules, line 2, column 8: "finished strenght" is not a quantity. Nearest: finished strength.',
        ),
        (rule_text(when="finished strength is under 20 mL"), "own.rules, line 2, column 8: finished strength is counted in %, not in mL."),
        (rule_text(when="finished strength is under 20 stone"), 'own.rules, line 2, column 8: "stone" is not known as a unit.'),
        (rule_text(when="the plant is lowdose"), 'own.rules, line 2, column 8: "lowdose" is neither a plant nor a flag. Nearest: low-dose.'),
        (
            rule_text(when="the plant is of the family Apiacea"),
            'own.rules, line 2, column 8: "Apiacea" is the family of no plant in the list. Nearest: Apiaceae, Pinaceae.',
        ),
        (rule_text(when="the part is rot"), 'own.rules, line 2, column 8: "rot" is no part of a plant. Nearest: root.'),
        (
            rule_text(when="it is for interal use"),
            'own.rules, line 2, column 8: "it is for interal use" is not known as a claim. Nearest: it is for internal use. Try: gallipot --rules',
        ),
        (rule_text(level="stopp"), 'own.rules, line 1, column 28: "stopp" is not a level. Nearest: stop. Try: one of stop, warn, note'),
        (rule_text(theme="keeping", level="stop"), "own.rules, line 1, column 30: a keeping rule is never a stop. Try: level: warn"),
        (rule_text(say="{finished strenght} is low."), "own.rules, line 3, column 7: {finished strenght} stands for nothing. Nearest: finished strength."),
        (rule_text(extra='  asks "what?"\n'), "own.rules, line 8, column 3: a rule that asks needs two claims joined by and."),
        (rule_text(extra='  say "Twice."\n'), 'own.rules, line 8, column 3: "say" stands twice.'),
        (
            rule_text().replace("source common practice", "source common"),
            "own.rules, line 5, column 10: a source needs its evidence. Try: (read), (memory) or (common practice) after it",
        ),
        (
            rule_text().replace("source common practice", "source usp-droper (read)"),
            'own.rules, line 5, column 10: "usp-droper" is not known as a source. Nearest: usp-dropper. Try: source "its title" (memory)',
        ),
        (rule_text().replace('  silent on "b"\n', ""), 'own.rules, line 1, column 1: "silent on" is missing in the rule a-rule.'),
        (rule_text().replace('"Because."', '"Because.'), 'own.rules, line 4, column 7: a text is not closed. Try: end it with a quotation mark "'),
        (rule_text(when="(the herb is fresh"), 'own.rules, line 3, column 3: expected ")" before "say".'),
        (
            rule_text(when="finished strength is under 20 % and finished strength is over 25 %"),
            "own.rules, line 2, column 3: the rule can never speak: finished strength cannot be over 25 and under 20.",
        ),
        (
            rule_text(when="the herb is fresh and not the herb is fresh"),
            "own.rules, line 2, column 3: the rule can never speak: a claim stands beside its own opposite.",
        ),
        (rule_text(name="Weak"), 'own.rules, line 1, column 6: "Weak" cannot be the name of a rule. Try: small letters and hyphens: weak-to-keep'),
        (
            "when it rains\n" + rule_text(),
            'own.rules, line 1, column 1: this stands before the first rule. Try: begin a rule with the word "rule" at the start of a line',
        ),
        (rule_text() + "\x1b[2J", "own.rules, line 8, column 1: a control character stands in the text."),
        (rule_text(say="‮evil"), "own.rules, line 3, column 8: a control character stands in the text."),
        (rule_text(when="not " * (DEEPEST + 2) + "the herb is fresh"), "own.rules, line 2, column 60: the condition is nested too deep. Try: write two rules"),
    ],
)
def test_a_fault_is_told_with_its_place(text, told):
    _, faults = read_rules(text, "own.rules", meaning())
    assert [str(fault) for fault in faults] == [told]


def test_one_faulty_rule_hides_no_other():
    text = rule_text("first") + rule_text("second", when="nonsense") + rule_text("third") + "rule\n"
    rules, faults = read_rules(text, "own.rules", meaning())
    assert [rule.id for rule in rules] == ["first", "third"]
    assert [(fault.line, fault.column) for fault in faults] == [(9, 8), (22, 5)]


def test_what_is_too_long_is_refused():
    assert read_rules("#" * (LONGEST_FILE + 1), "own.rules", meaning())[1]
    assert "longer than" in str(read_rules(rule_text(extra="#" * LONGEST_RULE), "own.rules", meaning())[1][0])


WORDS = (
    'rule a-rule theme: level: warn stop when say why source fires on silent on unless asks and or not ( ) is under over 20 % "text" one of , : {} herb # \n'
)
PIECES = st.sampled_from(WORDS.split(" "))


@settings(max_examples=150, deadline=None)
@given(st.lists(PIECES, max_size=40).map(" ".join) | st.text(max_size=200))
def test_any_text_ends_in_rules_and_faults(text):
    text = "rule " + text
    rules, faults = read_rules(text, "own.rules", meaning())
    lines = text.count("\n") + 1
    for fault in faults:
        assert 0 <= fault.line <= lines
        assert str(fault)
    assert rules or faults
