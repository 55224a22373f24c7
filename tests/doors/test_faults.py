"""A fault is built from fields; both the fields and the text are asked for here."""

import copy
import pickle

import pytest

from assistant.faults import BenchError, FigureFault, FileFault, HouseFault, SentenceFault


def test_the_text_says_where_what_and_what_to_do():
    where = "keeping.rules, line 12"
    fault = FileFault("“finished strenght” is not a quantity", where=where, near=["finished strength"], try_this="gallipot --words")
    assert str(fault) == "keeping.rules, line 12: “finished strenght” is not a quantity. Nearest: finished strength. Try: gallipot --words"


def test_the_text_of_a_bare_fault_is_one_sentence():
    assert str(BenchError("the jar is full")) == "the jar is full."
    assert str(BenchError("the jar is full.")) == "the jar is full."


def test_at_most_five_near_names_are_kept():
    assert BenchError("x", near=list("abcdefg")).near == ("a", "b", "c", "d", "e")


@pytest.mark.parametrize("kind", [BenchError, SentenceFault, FigureFault, FileFault, HouseFault])
@pytest.mark.parametrize("through", [copy.copy, copy.deepcopy, lambda fault: pickle.loads(pickle.dumps(fault))], ids=["copy", "deepcopy", "pickle"])
def test_every_field_survives_copying(kind, through):
    fault = kind("above the stock", where="strength", try_this="at 60 %", near=("strength",), got=97.0, low=0.0, high=95.0, unit="percent")
    again = through(fault)
    assert type(again) is kind
    assert vars(again) == vars(fault)
    assert str(again) == str(fault)
    assert again.args == fault.args


def test_one_family():
    assert all(issubclass(kind, BenchError) for kind in (SentenceFault, FigureFault, FileFault, HouseFault))
