"""No shipped rule contradicts itself, is always silenced, or is always spoken over by another; and each kind of unsound rule is found."""

import pytest

from assistant.cautions import check_folder
from assistant.cautions.folder import read_texts
from assistant.cautions.soundness import never, shadowed, ways
from assistant.places import rules_folder
from assistant.tagtable import tag_table
from tests.cautions.kit import rule_text

PACK = read_texts(rules_folder())
RULES = PACK.book.rules()


def test_every_condition_is_small_enough_to_be_looked_into():
    assert not [rule.id for rule in RULES if not ways(rule.when)]


def test_no_shipped_rule_is_barred_from_speaking():
    assert not [(rule.id, why) for rule in RULES if (why := never(rule, tag_table().rivals, PACK.plants))]


def test_no_shipped_rule_is_always_spoken_over():
    assert not [(rule.id, loud.id) for rule, loud in shadowed(RULES)]


@pytest.mark.parametrize(
    ("when", "unless", "why"),
    [
        ("finished strength is under 15 % and finished strength is over 20 %", "", "finished strength cannot be over 20 and under 15"),
        ("ratio is stronger than 1:3 and ratio is weaker than 1:5", "", "ratio cannot be over 5 and under 3"),
        ("the herb is fresh and the herb is dried", "", "exclude each other"),
        ("it is for the skin and not it is for the skin", "", "a claim stands beside its own opposite"),
        ("the plant is nettle and the plant is comfrey", "", "no plant is both"),
        ("the part is root and the part is leaf", "", "no part is both"),
        ("the plant is nettle and the plant is deadly", "", "no plant of the list"),
        ("the herb is fresh and finished strength is under 20 %", "the herb is fresh", "its exception holds whenever it does"),
        ("finished strength is under 10 %", "finished strength is under 20 %", "its exception holds whenever it does"),
    ],
)
def test_a_rule_that_can_never_speak_is_found(tmp_path, when, unless, why):
    extra = f"  unless {unless}\n" if unless else ""
    text = rule_text("mute", when).replace('  say "', f'{extra}  say "', 1)
    (tmp_path / "own.rules").write_text(text, encoding="utf-8")
    told = [str(fault) for fault in check_folder(tmp_path)]
    assert len(told) == 1, told
    assert told[0].startswith("own.rules, line ")
    assert "can never speak" in told[0]
    assert why in told[0]


@pytest.mark.parametrize(
    ("when", "level", "is_shadowed"),
    [
        ("finished strength is under 15 %", "warn", True),
        ("finished strength is under 15 % and the herb is fresh", "note", True),
        ("finished strength is under 25 %", "warn", False),
        ("finished strength is at most 20 %", "warn", False),
        ("finished strength is under 15 %", "stop", False),
        ("finished strength is under 15 % or the herb is fresh", "warn", False),
    ],
)
def test_a_rule_that_another_always_speaks_over_is_found(tmp_path, when, level, is_shadowed):
    text = rule_text("wide", "finished strength is under 20 %") + rule_text("narrow", when, level=level)
    (tmp_path / "own.rules").write_text(text, encoding="utf-8")
    told = [str(fault) for fault in check_folder(tmp_path)]
    mine = "own.rules, line 8, column 1: narrow adds nothing: wide speaks whenever it does. Try: make it narrower, or leave it out"
    assert (mine in told) == is_shadowed


def test_an_exception_of_the_louder_rule_leaves_room():
    from assistant.cautions.reading import read_rules
    from tests.cautions.kit import meaning

    text = rule_text("wide", "finished strength is under 20 %").replace('  say "', '  unless it is for the skin\n  say "', 1) + rule_text(
        "narrow", "finished strength is under 15 %"
    )
    rules, faults = read_rules(text, "own.rules", meaning())
    assert not faults
    assert shadowed(rules) == []
