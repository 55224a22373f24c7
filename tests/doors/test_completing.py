"""What is offered while a sentence is typed, with strings alone."""

import pytest

from assistant.completing import MOST, Offer, offers

WORDS = ["nettle", "menstruum", "lemon balm", "lemon verbena", "basil", "Balm"]


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("112 g fresh ne", [Offer("nettle", 2)]),
        ("112 g fresh NE", [Offer("nettle", 2)]),
        ("lem", [Offer("lemon balm", 3), Offer("lemon verbena", 3)]),
        ("fresh lemon b", [Offer("lemon balm", 7), Offer("basil", 1), Offer("Balm", 1)]),
        ("lemon ", [Offer(w, 6 if w.startswith("lemon") else 0) for w in WORDS]),
        ("nettle", []),
        ("xyz", []),
        ("224 m", [Offer("menstruum", 1)]),
    ],
)
def test_what_is_offered(typed, expected):
    assert offers(typed, WORDS) == expected


def test_an_empty_line_offers_what_a_sentence_may_begin_with():
    assert [offer.text for offer in offers("", WORDS)] == WORDS


def test_no_more_is_offered_than_is_read():
    assert len(offers("", [f"herb{i}" for i in range(500)])) == MOST


def test_the_same_word_is_offered_once():
    assert offers("ne", ["nettle", "Nettle", "nettle"]) == [Offer("nettle", 2)]
