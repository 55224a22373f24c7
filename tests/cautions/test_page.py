"""The page for people who write rules: its example is a rule, and everything it lists can be said."""

import re

from assistant.cautions.page import WIDTH, page
from assistant.cautions.reading import read_rules
from assistant.places import rules_file
from tests.cautions.kit import meaning, rule_text


def test_the_example_of_the_page_is_a_sound_rule():
    text = rules_file("how_to.txt").read_text(encoding="utf-8")
    example = text[text.index("rule birch") : text.index("\ntheme ")]
    rules, faults = read_rules(example, "how_to.txt", meaning())
    assert not faults, faults
    assert rules[0].id == "birch-sap-spoils"


def listed(title):
    block = page().split(f"\n\n{title}\n")[1].split("\n\n")[0]
    return [word for word in re.split(r";\s*", block.strip()) if word]


def test_every_claim_and_flag_of_the_page_can_be_written():
    claims = listed("What can be said of a batch") + [f"the plant is {flag}" for flag in listed("Flags of plants")]
    claims += [f"{name} is known" for name in listed("Figures")]
    assert len(claims) > 200
    text = "".join(rule_text(f"rule-{number}", claim) for number, claim in enumerate(claims))
    rules, faults = read_rules(text, "page.rules", meaning())
    assert not faults, "\n".join(map(str, faults))
    assert len(rules) == len(claims)


def test_the_page_fits_a_screen_in_width():
    assert all(len(line) <= 140 for line in page().splitlines())
    assert all(len(line) <= WIDTH for line in page().split("What can be said")[1].splitlines())
