"""The shipped pack: whole, sourced, within its policy, and the same as the form it is loaded from."""

import json
from collections import Counter

from assistant.cautions.conditions import AgainstUsual, Compare, Flagged, Known, Tagged
from assistant.cautions.folder import READY, digest, read_texts, shipped
from assistant.cautions.plant_reading import FLAGS
from assistant.cautions.reading import NEVER_STOPS
from assistant.cautions.ready import ready_data
from assistant.cautions.soundness import ways
from assistant.places import rules_folder
from assistant.tagtable import tag_table

PACK = read_texts(rules_folder())
RULES = PACK.book.rules()
# Tags that no sentence says by itself: the bench sets them from what is being made.
SET_BY_THE_BENCH = set("fresh dried tincture oil salve syrup vinegar glycerite tea decoction dilution formula dose percolation".split())


def test_every_text_of_the_pack_is_sound():
    assert not PACK.faults, "\n".join(map(str, PACK.faults))


def test_the_ready_file_is_what_the_texts_give():
    kept = json.loads((rules_folder() / READY).read_text(encoding="utf-8"))
    made = json.loads(json.dumps(ready_data(PACK, digest(rules_folder()))))
    assert kept == made, "run: python -m assistant.cautions.ready"


def test_what_is_loaded_speaks_like_what_is_read():
    loaded = shipped().book
    assert [rule._replace(fires_on=(), silent_on=()) for rule in RULES] == [rule._replace(fires_on=(), silent_on=()) for rule in loaded.rules()]
    assert loaded._index == PACK.book._index
    assert loaded._always == PACK.book._always
    assert loaded._plantless == PACK.book._plantless


def test_ninety_rules_and_every_theme_of_the_bench():
    themes = Counter(rule.theme for rule in RULES)
    assert len(RULES) >= 90
    assert set(themes) >= {"keeping", "strength", "plant water", "fire", "vessels", "measuring", "gathering", "look-alikes"}
    assert set(themes) >= {"poisons", "scope", "people", "skin", "essential oils"}


def test_keeping_measuring_and_gathering_never_stop():
    for rule in RULES:
        if rule.level == "stop":
            assert rule.theme not in NEVER_STOPS, rule.id


def test_a_stop_ends_in_a_question_or_an_offer_and_knows_its_hazard():
    for rule in RULES:
        if rule.level == "stop":
            assert "?" in rule.say or "ask" in rule.say, rule.id
            # That a figure is known is no hazard; that it is not known may narrow one.
            claims = [claim for way in ways(rule.when) for claim in way]
            assert claims, rule.id
            assert not any(isinstance(atom, Known) and atom.how == "known" and held for atom, held in claims), rule.id


def test_every_tag_and_flag_a_rule_looks_at_can_be_met():
    said = {pattern.tag for pattern in tag_table().patterns if not pattern.denies and not pattern.silences}
    borne = {flag.name for plant in PACK.plants for flag in plant.flags}
    assert borne <= set(FLAGS)
    for rule in RULES:
        for condition in (rule.when, *([rule.unless] if rule.unless else [])):
            for atom in condition.atoms():
                if isinstance(atom, Tagged):
                    assert atom.tag in said | SET_BY_THE_BENCH, f"{rule.id}: nothing said gives {atom.tag}"
                if isinstance(atom, Flagged):
                    assert atom.flag in borne, f"{rule.id}: no plant bears {atom.flag}"


def test_no_two_rules_have_the_same_condition():
    seen = {}
    for rule in RULES:
        first = seen.setdefault((rule.when, rule.unless), rule.id)
        assert first == rule.id, f"{rule.id} is shadowed by {first}"


def test_every_figure_a_rule_looks_at_is_of_the_vocabulary():
    units = PACK.book.units
    for rule in RULES:
        for atom in rule.when.atoms():
            if isinstance(atom, (Compare, AgainstUsual, Known)):
                assert atom.name in units, rule.id


def test_every_source_is_used_and_titled():
    used = {ident for rule in RULES for ident, _, _ in rule.sources}
    used |= {span.source for plant in PACK.plants for part in plant.parts for span in part[2:] if span}
    for ident, title in PACK.sources.items():
        assert ident in used, f"no rule and no plant uses the source {ident}"
        assert title


def test_a_text_names_no_dose_and_no_brand_of_certainty():
    for rule in RULES:
        for text in (rule.say, rule.asks, rule.why):
            assert "safe to take" not in text.lower(), rule.id
            assert "guarantee" not in text.lower(), rule.id
