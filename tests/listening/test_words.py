"""Words: cutting, classes, near misses, and the kept tables of the grammar."""

import logging
import re
from collections.abc import Iterator

import lark
import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.listening import islands, kept_tables, tables, walking
from assistant.listening.classes import classes, read_classes
from assistant.listening.spelling import Lexicon, correct, distance
from assistant.listening.tokens import Token
from assistant.listening.words import Habits, read_words
from assistant.places import grammar_file, grammar_folder
from assistant.quantities.units import units
from tests.listening.item_cases import cases

TRADE = Lexicon("menstruum marc maceration nettle skullcap elder elderberry chamomile calendula tincture plantain jar pour stir".split())


def _types(sentence: str) -> list[str]:
    return [token.type for token in read_words(sentence, Habits())[0]]


# --- words and their classes -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("sentence", "types"),
    [
        ("85g", ["N", "UNIT"]),
        ("60 per cent", ["N", "PERCENT"]),
        ("12 fl. oz.", ["N", "UNIT", "PUNCT"]),
        ("one and a half", ["DIGIT", "AND_FRACTION", "A", "HALF"]),
        ("a hundred and twelve", ["A", "HUNDRED", "AND_HUNDRED", "TEEN"]),
        ("sage and thyme", ["WORD", "AND", "WORD"]),
        ("100 g and half a kilo", ["N", "UNIT", "AND", "HALF", "A", "UNIT"]),
        ("100 g and a half litre", ["N", "UNIT", "AND", "A", "HALF", "UNIT"]),
        ("a kilo and a half", ["A", "UNIT", "AND_FRACTION", "A", "HALF"]),
        ("at 20 C", ["WORD", "N", "CELSIUS"]),
        ("C and f", ["WORD", "AND", "WORD"]),
        ("US cups", ["SYSTEM", "UNIT"]),
        ("tell us", ["WORD", "WORD"]),
        ("at -5", ["WORD", "MINUS", "N"]),
        ("10 -20", ["N", "DASH", "N"]),
        ("twenty-four", ["TENS", "DIGIT"]),
        ("two-three", ["DIGIT", "DASH", "DIGIT"]),
        ("500-ml", ["N", "UNIT"]),
        ("50 ml x 3", ["N", "UNIT", "TIMES_BEFORE", "N"]),
        ("3 x 50", ["N", "TIMES", "N"]),
        ("give or take 5", ["PM", "N"]),
        ("give it", ["WORD", "WORD"]),
        ("3 May 2024", ["CODE"]),
        ("may I", ["WORD", "WORD"]),
        ("t.d.s.", ["LATIN"]),
    ],
)
def test_each_word_gets_its_class(sentence: str, types: list[str]) -> None:
    assert _types(sentence) == types


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("DIGIT one=1\nTEEN ten=ten\n", "line 2: 'ten' is no number"),
        ("DIGIT one=1\n\nTEEN one=1\n", "line 3: 'one' has a class already"),
        ("DIGIT one=1 gram=1\n", "line 1: 'gram' has a class already"),
    ],
)
def test_mistake_in_the_word_file_is_named_with_its_line(text: str, problem: str) -> None:
    with pytest.raises(ValueError, match=re.escape(f"words.txt, {problem}")):
        read_classes(text)


def test_no_word_of_the_house_is_near_enough_to_another_to_be_taken_for_it() -> None:
    known = classes()
    assert [word for word in known.near.words if correct(word, known.near) != word] == []


# --- near misses -------------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("metruum", "menstruum"),
        ("skulcap", "skullcap"),
        ("nettel", "nettle"),
        ("nttle", "nettle"),
        ("calendual", "calendula"),
        ("camomile", "chamomile"),
        ("tincure", "tincture"),
        # known words and their endings stay, and so do words too short or too far
        ("jars", "jars"),
        ("poured", "poured"),
        ("stirring", "stirring"),
        ("nettle's", "nettle's"),
        ("jor", "jor"),
        ("settle", "settle"),
        ("cupboard", "cupboard"),
        ("chestnut", "chestnut"),
    ],
)
def test_near_misses(said: str, meant: str) -> None:
    assert correct(said, TRADE) == meant


def test_word_between_two_known_ones_is_left_alone() -> None:
    assert correct("manth", Lexicon(["manths", "month"])) == "manth"


def test_slip_in_a_unit_is_mended_only_beside_a_number() -> None:
    tokens, notes = read_words("5 ounzes", Habits())
    assert (tokens[1].type, notes) == ("UNIT", ["ounzes → ounces"])
    tokens, notes = read_words("the ounzes", Habits())
    assert (tokens[1].type, notes) == ("WORD", [])


def test_thirsty_is_not_thirty_and_a_known_word_is_never_mended() -> None:
    assert _types("thirsty plants") == ["WORD", "WORD"]
    assert [token.word for token in read_words("3 pounts", Habits(lexicon=Lexicon(["pounts"])))[0]] == ["3", "pounts"]


@given(word=st.text("abcdelnst", min_size=4, max_size=9), slip=st.integers(0, 3), at=st.integers(1, 8), letter=st.sampled_from("abcdelnst"))
def test_one_slip_is_one_miss_and_the_word_comes_back(word: str, slip: int, at: int, letter: str) -> None:
    at = min(at, len(word) - 1)
    slipped = [
        word[:at] + letter + word[at:],
        word[:at] + word[at + 1 :],
        word[:at] + letter + word[at + 1 :],
        word[: at - 1] + word[at] + word[at - 1] + word[at + 1 :],
    ][slip]
    assert distance(slipped, word, 2) <= 1
    assert distance(word, slipped, 2) == distance(slipped, word, 2)
    lexicon = Lexicon([word])
    if len(slipped) >= 4 and not lexicon.knows(slipped) and slipped[0] in (word[0], word[1]):
        assert correct(slipped, lexicon) == word


@given(word=st.text(min_size=1, max_size=12))
def test_correcting_any_text_gives_itself_or_a_known_word(word: str) -> None:
    assert correct(word, TRADE) in {word, *TRADE.words}


# --- the kept tables -----------------------------------------------------------------------------------------------------------------


def test_kept_tables_are_those_of_the_grammar() -> None:
    kept = (grammar_folder() / tables.TABLES).read_text(encoding="utf-8")
    assert kept == tables.tables_text(), "run: python -m assistant.listening.tables"


def _larks_trees(tokens: list[Token], at: int, limit: int) -> Iterator[tuple[int, walking.Node]]:
    """What islands._trees gives, as lark's own parser finds it."""
    for size in range(min(limit, len(tokens) - at), 0, -1):
        parser = LARK.parse_interactive("")
        try:
            for token in tokens[at : at + size]:
                parser.feed_token(token)
            tree = parser.feed_token(lark.Token("$END", ""))
        except lark.UnexpectedInput:
            continue
        yield size, tree


class _Merged:
    """The reader's callbacks as lark wants them: named attributes."""

    def __init__(self) -> None:
        vars(self).update(islands.callbacks())


LARK = tables.build(transformer=_Merged(), tree_class=walking.Node)


@given(st.lists(st.sampled_from(sorted({token for row in islands._tables().rows for token in row if token.isupper()})), max_size=7))
def test_walk_goes_where_lark_goes(words: list[str]) -> None:
    unit = units().by_name["gram"]
    tokens = [Token(word, "one", 4 * number, "us" if word == "SYSTEM" else "one", 1.0, 0.0, unit) for number, word in enumerate(words)]
    ours, theirs = list(islands._trees(tokens, 0, 99)), list(_larks_trees(tokens, 0, 99))
    assert [(size, _written(tree)) for size, tree in ours] == [(size, _written(tree)) for size, tree in theirs]


def _written(part: object) -> object:
    if isinstance(part, walking.Node):
        return part.data, [_written(inner) for inner in part.children]
    return part if isinstance(part, Token) else [getattr(part, name) for name in part.__slots__] if hasattr(part, "__slots__") else part


def test_kept_tables_read_as_lark_itself_does(monkeypatch: pytest.MonkeyPatch) -> None:
    sentences = [case.sentence for case in cases()]
    kept = [islands.read(sentence) for sentence in sentences]
    monkeypatch.setattr(islands, "_trees", _larks_trees)
    assert [islands.read(sentence) for sentence in sentences] == kept


def test_stale_tables_are_not_used(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(kept_tables, "fingerprint", lambda: "another grammar")
    made = []
    monkeypatch.setattr(kept_tables, "worked_out", lambda: made.append("anew") or WORKED_OUT)
    assert kept_tables.bench_tables({}).goal == WORKED_OUT["goal"]
    assert made == ["anew"]


WORKED_OUT = tables.worked_out()


def test_grammar_leaves_only_the_choices_that_are_meant(caplog: pytest.LogCaptureFixture) -> None:
    """Where lark goes on rather than ends (its silent rule), the grammar must mean it: each such place is listed here."""
    level = lark.logger.level
    lark.logger.setLevel(logging.DEBUG)
    lark.logger.propagate = True
    try:
        with caplog.at_level(logging.DEBUG):
            lark.Lark(
                grammar_file("bench.lark").read_text(encoding="utf-8"), start=tables.START, parser="lalr", lexer="basic", debug=True,
                import_paths=[str(grammar_folder())],
            )  # fmt: skip
    finally:
        lark.logger.setLevel(level)
    found = set(re.findall(r"Shift/Reduce conflict for terminal (\w+): .*?\n \* <(.*?)>", caplog.text)) | {
        (one.group(1), other.group(1))
        for one, other in zip(re.finditer(r"conflict for terminal (\w+)", caplog.text), re.finditer(r"\* <(.*?)>", caplog.text), strict=False)
    }
    assert found == {
        ("A", "number : share"),  # half a kilo, not "half" at a price a kilo
        ("A", "numbers__whole : numbers__thousands"),  # a thousand a hundred, not a thousand a litre
        ("A", "_equals : IN"),  # 20 drops in a ml: a rate, not a sum
        ("A", "_equals : TO"),
        ("A", "_equals : IS"),
    }


def test_every_callback_is_called_by_some_rule() -> None:
    assert {name for name in islands.callbacks() if name.removeprefix("numbers__") != "same"} <= {rule[2] for rule in WORKED_OUT["rules"]}
