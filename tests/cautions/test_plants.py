"""Plants: found by any spelling, and every figure of theirs with a source."""

import pytest

from assistant.cautions.plants import plants, unknown_plant
from assistant.cautions.rules import EVIDENCE


@pytest.mark.parametrize(
    ("words", "names"),
    [
        ("112 g fresh nettles and dandelion", ["nettle", "dandelion"]),
        ("st johns wort tops", ["st john's wort"]),
        ("St. John's-wort", ["st john's wort"]),
        ("st johnswort", ["st john's wort"]),
        ("200 g lemon balm", ["lemon balm"]),
        ("ginger root and valerian root", ["ginger", "valerian"]),
        ("elder berries", ["elderberry"]),
        ("elderberries", ["elderberry"]),
        ("elder flowers", ["elderflower"]),
        ("golden seal", ["goldenseal"]),
        ("selfheal", ["self-heal"]),
        ("Urtica dioica", ["Urtica dioica"]),
        ("mentha piperita", ["Mentha × piperita"]),
        ("queen annes lace", ["queen anne's lace"]),
        ("six cloves of garlic", ["clove of garlic"]),
        ("lady's mantle", ["lady's mantle"]),
        ("raspberry leaves", ["raspberry leaf"]),
        ("water hemlock", ["water hemlock"]),
        ("tulsi, spilanthes and osha", ["tulsi", "spilanthes", "osha"]),
        ("the jar holds 500 ml of spirit at 60 percent", []),
        ("may I have a lip balm and a rum", []),
    ],
)
def test_a_name_is_found_in_any_spelling(words, names):
    assert [found.name for found in plants().find(words)] == names


def test_the_longest_name_wins_and_words_belong_to_one_name():
    found = plants().find("wild cherry bark with red clover".split())
    assert [(hit.name, hit.start, hit.end) for hit in found] == [("wild cherry", 0, 2), ("red clover", 4, 6)]


def test_a_name_may_mean_its_part():
    plant = plants().called("elderflower").plant
    assert plant.called_part == "flower"
    assert plant.part().kind == "flower"
    assert plants().called("elder").plant.called_part == ""


def test_a_shared_name_is_asked_about_and_never_guessed():
    found = plants().called("snakeroot")
    assert found.plant is None
    assert len(found.plants) >= 3
    assert found.question.startswith("Snakeroot: which?")
    assert "black cohosh (Actaea racemosa)" in found.question


def test_a_plant_of_which_nothing_is_known_is_still_a_plant():
    found = plants().called("damiana")
    assert found.plant is not None
    assert not found.plant.is_known
    assert found.plant.water_range() is None
    assert plants().called("xyzzy") is None
    assert unknown_plant("xyzzy").name == "xyzzy"


def test_water_comes_by_the_part_said_else_by_the_first():
    nettle = plants().called("nettle").plant
    assert (nettle.water_range("leaf").low, nettle.water_range("leaf").high) == (75, 85)
    assert nettle.water_range().middle == 80
    assert nettle.water_range("roots").middle == 65
    assert nettle.water_range("bark") is None


def test_sixty_plants_and_more_than_three_hundred_names():
    assert len(plants()) >= 60
    assert sum(1 for name in plants().names() if not plants().called(name).plants[0].is_known) >= 300


def test_every_span_and_flag_has_a_source_and_an_evidence():
    count = 0
    for plant in plants():
        spans = [span for part in plant.parts for span in part[2:] if span]
        for note in (*spans, *plant.flags):
            assert note.source, plant.latin
            assert note.evidence in EVIDENCE, plant.latin
            count += 1
    assert count > 500


def test_what_is_deadly_carries_no_ratio_to_make_it_with():
    refused = [plant for plant in plants() if plant.flag("deadly") or plant.flag("aristolochic") or plant.flag("controlled")]
    assert len(refused) >= 30
    for plant in refused:
        assert all(part.fresh_ratio is None and part.dried_ratio is None for part in plant.parts), plant.latin


def test_every_name_leads_back_to_its_plant():
    for plant in plants():
        for name in plant.names:
            found = plants().called(name)
            assert found is not None, name
            assert plant.latin in [one.latin for one in found.plants], name
