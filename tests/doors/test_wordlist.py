"""The page of words is the vocabulary, whole."""

from assistant.quantities.vocabulary import VOCABULARY
from assistant.render import NO_WRAPPING, columns
from assistant.wordlist import UNIT_IN_WORDS, page


def test_every_quantity_stands_on_the_page_with_its_unit_and_names():
    lines = page(NO_WRAPPING).splitlines()
    for quantity in VOCABULARY.values():
        entries = [line for line in lines if line.startswith(f"{quantity.caption}: {UNIT_IN_WORDS[quantity.unit]}")]
        assert any(all(name in line for name in quantity.spoken) for line in entries), quantity


def test_the_page_fits_a_narrow_terminal():
    assert all(columns(line) <= 60 for line in page(60).splitlines())
