"""The phrase files: the kept form is the read form, every phrase compiles, faults are told with file and line."""

import json

import pytest

from assistant.faults import BenchError
from assistant.listening.phrase_files import READY, Reader, as_data, digest, from_data, phrase_texts
from assistant.listening.phrase_patterns import Patterns
from assistant.listening.phrases import PhraseBook, phrase_book
from assistant.places import grammar_folder
from assistant.quantities.vocabulary import VOCABULARY

UNITS = {name: q.unit for name, q in VOCABULARY.items()}


def test_the_kept_phrases_are_the_written_ones():
    texts = phrase_texts()
    kept = json.loads((grammar_folder() / READY).read_text(encoding="utf-8"))
    fresh = json.loads(json.dumps(as_data(Reader(UNITS).read(texts), digest(texts, UNITS)), ensure_ascii=False))
    assert kept == fresh, "run: python -m assistant.listening.phrase_files"


def test_every_phrase_compiles_and_captures_what_it_names():
    book = phrase_book()
    assert len(book.phrases) > 500
    for phrase in book.phrases:
        assert phrase.pattern.groups == len(phrase.captures), phrase.where
        assert all(c.quantity == "_" or c.quantity in VOCABULARY for c in phrase.captures), phrase.where


def test_the_kept_form_reads_back_the_same():
    texts = phrase_texts()
    pages = Reader(UNITS).read(texts)
    again = from_data(json.loads(json.dumps(as_data(pages, ""))))
    assert again == pages


def _book(text: str) -> PhraseBook:
    return PhraseBook(Reader(UNITS).read([("own.txt", text)]), UNITS)


def test_a_figure_goes_to_the_quantity_whose_words_stand_by_it():
    book = _book("water_content %\n  noun water content\n  say <> water\nstrength %\n  say at <+>\n")
    best = book.find("at <%> water".split(), frozenset())[0]
    assert best.phrase.quantity == "water_content"
    assert best.taken == (("water_content", 1),)


def test_function_words_weigh_little():
    patterns = Patterns(UNITS, {}, {})
    at = patterns.worth("at <>", "strength", "%", "", set())
    named = patterns.worth("strength <>", "strength", "%", "", set())
    assert at.weight < named.weight
    assert named.anchors == {"strength"}


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("no_such_thing %\n  noun x\n", "own.txt, line 1"),
        ("  say <> x\n", "before any block"),
        ("strength %\n  shout <>\n", "line 2"),
        ("strength %\n  say <g:no_such_thing> x\n", "names no quantity"),
    ],
)
def test_a_fault_in_a_file_is_told_with_its_place(text, words):
    with pytest.raises(BenchError) as caught:
        _book(text)
    assert words in str(caught.value)
