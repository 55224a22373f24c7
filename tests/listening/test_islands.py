"""Sentences to items: the cases of items/*.txt, and what holds of any text at all."""

import dataclasses
import math
import re
import subprocess
import sys
import unicodedata
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.listening.classes import classes
from assistant.listening.counts import Counting, Measuring
from assistant.listening.islands import Item, read
from assistant.listening.shapes import SHAPES
from assistant.listening.words import Habits
from assistant.places import grammar_file
from assistant.quantities.units import units
from tests.listening.item_cases import Case, cases, islands_of, misread, read_cases

KINDS = {
    "word", "punct", "amount", "percent", "proof", "ratio", "parts_list", "parts", "number", "frequency", "per", "temperature", "money", "label", "time",
}  # fmt: skip


# --- the cases -----------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("case", cases(), ids=lambda case: case.sentence)
def test_sentence_is_read_as_the_case_says(case: Case) -> None:
    found = islands_of(case)
    assert [item.text for item in found] == [line.split(" | ")[0].strip() for line in case.islands], case.place
    wrong = [problem for line, item in zip(case.islands, found, strict=True) for problem in misread(line, item)]
    assert not wrong, f"{case.place}: {case.sentence}"


@pytest.mark.parametrize("case", cases(), ids=lambda case: case.sentence)
def test_words_and_notes_are_as_the_case_says(case: Case) -> None:
    heard = read(case.sentence, case.habits)
    assert list(heard.notes) == case.notes, case.place
    if case.words is not None:
        assert " ".join(item.word for item in heard.items if item.kind in ("word", "punct")) == case.words, case.place


def test_case_with_an_unknown_line_is_refused_with_its_place() -> None:
    with pytest.raises(AssertionError, match=r"numbers\.txt, line 2: cannot read 'kowing sage'"):
        read_cases("numbers.txt", "5 g\n    kowing sage\n")


def test_case_that_is_read_otherwise_is_found_out() -> None:
    item = read("5 g").items[0]
    assert misread("5 g | amount | 5 g | said 5 g", item) == []
    assert misread("5 g | amount | 6 g | said 5 g", item)
    assert misread("5 g | amount | 5 g | 4..6", item)
    assert misread("5 g | number | 5 g | said 5 g", item)


# --- any text ---------------------------------------------------------------------------------------------------------------------

SAYABLE = [
    *(word for word in classes().words if word.isalpha()),
    *(word.replace("_", " ") for word in units().spellings),
    *"1 2 5 12 40 95 1,200 2,5 .8 0 1/2 ½ 1 1/2 30s 1:2 3:2:1 24-07 1e9 85g 1to5 2nd 2024-05-03 $5 #4 -5 60% 70° °C".split(),
    *": / - – — . , ; ( ) ? + ± +/- = x × % ' & @ ~".split(),
    *"nettle fresh of the it was no one's don't make about h2o b12 w/ per cent give or take".split(),
]
BENCH_TALK = st.lists(st.sampled_from(SAYABLE), max_size=25).flatmap(
    lambda words: st.lists(st.sampled_from([" ", " ", " ", "", ", ", "-"]), min_size=len(words), max_size=len(words)).map(
        lambda gaps: "".join(word + gap for word, gap in zip(words, gaps, strict=True))
    )
)
ANY_TEXT = st.one_of(BENCH_TALK, st.text(max_size=80))
ANY_HABITS = st.builds(Habits, st.sampled_from(["us", "imperial", "metric", "australian"]), st.booleans())


def _holds(item: Item, text: str) -> None:
    assert text[item.start : item.end] == item.text
    assert item.kind in KINDS
    for number in (item.value, item.low, item.high, item.plus_minus, item.said, item.slack):
        assert number is None or math.isfinite(number)
    if item.low is not None:
        assert item.high is not None
        assert item.value is not None
        assert item.low <= item.value <= item.high
    if item.kind in ("word", "punct"):
        assert item.word
        assert not any(unicodedata.category(letter).startswith("C") for letter in item.word)


@given(text=ANY_TEXT, habits=ANY_HABITS)
def test_any_text_is_read_and_nothing_that_counts_is_dropped(text: str, habits: Habits) -> None:
    items = read(text, habits).items
    for item in items:
        _holds(item, text)
    assert all(one.end <= other.start for one, other in pairwise(items))
    for run in re.finditer(r"\d+", text):
        assert sum(item.start <= run.start() and run.end() <= item.end for item in items) == 1, run.group()
    for word in re.finditer(r"[^\W\d_]+", text):
        if not unicodedata.category(word.group()[0]).startswith("N"):
            assert sum(item.start < word.end() and word.start() < item.end for item in items) >= 1, word.group()


@given(text=ANY_TEXT)
def test_number_words_lie_whole_in_one_item(text: str) -> None:
    numbers = {word for word, (kind, _) in classes().words.items() if kind in {"ZERO", "DIGIT", "TEEN", "TENS", "HUNDRED", "THOUSAND", "DOZEN", "HALF"}}
    items = read(text).items
    for word in re.finditer(r"(?<!['’ʼ\w])[^\W\d_]+(?!['’ʼ\w])", text):
        if word.group().lower() in numbers:
            assert sum(item.start <= word.start() and word.end() <= item.end for item in items) == 1, word.group()


@given(text=ANY_TEXT)
def test_reading_twice_gives_the_same(text: str) -> None:
    assert read(text) == read(text)


@given(text=BENCH_TALK)
def test_a_capital_at_the_head_of_a_sentence_changes_no_figure(text: str) -> None:
    plain = text.lower().strip()
    headed = plain[:1].upper() + plain[1:]
    assert [(i.kind, i.value, i.unit) for i in read(headed).items] == [(i.kind, i.value, i.unit) for i in read(plain).items]


def test_items_cannot_be_changed() -> None:
    item = read("5 g").items[0]
    with pytest.raises(dataclasses.FrozenInstanceError):
        item.value = 6  # type: ignore[misc]
    assert not hasattr(item, "__dict__")


def test_control_characters_stay_out_of_words() -> None:
    words = [item.word for item in read("net\x1b[31mtle \x07 5\x00 g \u202e sage").items]
    assert words == ["net", "(", "", "mtle", "", "sage"]


@pytest.mark.parametrize("piece", ["one ", "1:", "5 to ", "point one ", "two hundred and ", "1/", "a half ", "- ", "9", "½", "per ", "a1-", "cup ", "\u0301"])
def test_a_long_row_of_anything_is_read_in_proportion_to_its_length(piece: str) -> None:
    import time

    def seconds(times: int) -> float:
        text = piece * times
        best = math.inf
        for _ in range(3):
            start = time.process_time()
            read(text)
            best = min(best, time.process_time() - start)
        return best

    # eight times the text may take no more than thirty times as long: linear, with room for a busy machine
    assert seconds(2400) < 30 * max(seconds(300), 0.002)


# --- a statement said in many ways is the same statement ----------------------------------------------------------------------------

ONES = "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen".split()
TENS = "_ _ twenty thirty forty fifty sixty seventy eighty ninety".split()


def in_words(number: int, hyphen: str = " ", link: str = " and ") -> str:
    """A whole number below a million as people say it."""
    if number < 20:
        return ONES[number]
    if number < 100:
        return TENS[number // 10] + (hyphen + ONES[number % 10] if number % 10 else "")
    if number < 1000:
        return f"{ONES[number // 100]} hundred" + (link + in_words(number % 100, hyphen, link) if number % 100 else "")
    rest = number % 1000
    return f"{in_words(number // 1000, hyphen, link)} thousand" + ((link if rest < 100 else " ") + in_words(rest, hyphen, link) if rest else "")


@given(number=st.integers(0, 999_999), hyphen=st.sampled_from([" ", "-"]), link=st.sampled_from([" ", " and ", " n "]))
def test_number_in_words_is_the_number(number: int, hyphen: str, link: str) -> None:
    (item,) = read(in_words(number, hyphen, link)).items
    assert (item.kind, item.value) == ("number", number)


@given(number=st.integers(1, 999).map(lambda n: n / 4), unit=st.sampled_from(sorted(units().spellings)), gap=st.sampled_from([" ", ""]))
def test_amount_in_any_spelling_of_its_unit(number: float, unit: str, gap: str) -> None:
    (item,) = read(f"{number:g}{gap}{unit}").items
    meant = units().spellings[unit]
    assert item.value == pytest.approx(number * meant.size("us"))
    assert item.unit == meant.bench
    assert (item.said, item.said_unit) == (number, meant.shown)


@given(
    grams=st.integers(1, 100_000),
    filler=st.sampled_from(["", "about ", "I have ", "well, ", "so, um, "]),
    tail=st.sampled_from(["", " of nettle", ", ok?", "!"]),
)
def test_filler_words_change_no_figure(grams: int, filler: str, tail: str) -> None:
    values = [(item.kind, item.value) for item in read(f"{filler}{grams} g{tail}").items if item.kind not in ("word", "punct")]
    assert values == [("amount", grams)]


@given(left=st.integers(1, 20), right=st.integers(1, 90), said=st.sampled_from(["{}:{}", "{} : {}", "{0}:{1} ", "ratio of {} to {}", "ratio {}-to-{}"]))
def test_ratio_said_in_many_ways(left: int, right: int, said: str) -> None:
    found = [item for item in read(said.format(left, right)).items if item.kind == "ratio"]
    assert [item.alt for item in found] == [(left, right)] or left + right == 100
    assert all(item.value == pytest.approx(right / left) for item in found)


@given(
    low=st.integers(1, 500),
    width=st.integers(1, 500),
    said=st.sampled_from(["{}-{} g", "{}–{} g", "{} to {} g", "between {} and {} g", "between {} g and {} g"]),
)
def test_range_keeps_both_ends(low: int, width: int, said: str) -> None:
    (item,) = read(said.format(low, low + width)).items
    assert (item.low, item.high, item.value, item.unit) == (low, low + width, low + width / 2, "g")


@given(
    grams=st.integers(1, 5000),
    slack=st.integers(1, 90),
    said=st.sampled_from(["{} g ± {} g", "{} ± {} g", "{} g +/- {}", "{} g give or take {}", "{} grams plus or minus {} grams"]),
)
def test_give_or_take_stays_with_its_figure(grams: int, slack: int, said: str) -> None:
    (item,) = read(said.format(grams, slack)).items
    assert (item.value, item.plus_minus, item.unit) == (grams, slack, "g")


@pytest.mark.parametrize(
    ("said", "slack"), [("112 g", 0.5), ("1.5 l", 50.0), ("0.25 kg", 5.0), ("a litre", 0.0), ("half a kilo", 0.0), ("60 %", 0.5), ("1/2 oz", 0.0)]
)
def test_slack_is_half_of_the_last_digit_said(said: str, slack: float) -> None:
    (item,) = read(said).items
    assert item.slack == pytest.approx(slack)


def test_country_named_beside_a_unit_is_told() -> None:
    assert read("2 imperial pints of vodka").measures == "imperial"
    assert read("2 pints of vodka").measures == ""
    assert read("a metric cup or an American cup").measures == ""


# --- the grammar and its words belong together ----------------------------------------------------------------------------------------


def _aliases(name: str) -> set[str]:
    lines = (line.split("//")[0] for line in grammar_file(name).read_text(encoding="utf-8").splitlines())
    return {found.group(1) for line in lines if (found := re.search(r"->\s*(\w+)", line))}


def test_every_form_of_the_grammar_has_a_meaning_and_no_meaning_is_left_over() -> None:
    forms, numbers = _aliases("bench.lark"), _aliases("numbers.lark")
    inner = {name for name in vars(Measuring) if not name.startswith("_")}
    assert forms == set(SHAPES) | inner
    assert numbers == {name for name in vars(Counting) if not name.startswith("_")}


def test_every_class_of_words_is_a_terminal_of_the_grammar() -> None:
    text = grammar_file("bench.lark").read_text(encoding="utf-8") + grammar_file("numbers.lark").read_text(encoding="utf-8")
    terminals = set(re.findall(r"\b[A-Z][A-Z_]*\b", re.sub(r"//.*", "", text)))
    spoken = {kind for kind, _ in classes().words.values()} | {kind for phrases in classes().phrases.values() for _, kind, _, _ in phrases}
    assert spoken <= terminals


def test_reading_imports_neither_pint_nor_sympy() -> None:
    code = """
import sys
from assistant.listening.islands import read
read("2 lb 3 oz of nettle at 60 %")
print({"pint", "sympy", "prompt_toolkit"} & set(sys.modules))
"""
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=60)
    assert done.stdout.strip() == "set()"
