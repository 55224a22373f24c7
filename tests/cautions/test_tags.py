"""Sentences → tags: what is heard, what is denied, and what is not mistaken for either."""

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from assistant.faults import FileFault
from assistant.listening.tags import keep, read_tags
from assistant.tagtable import read_table, tag_table

# sentence | tags that must be heard | tags that must be denied ("-" for none)
HEARD = """
comfrey root, she wants to drink a spoonful                        | internal spoon         | -
175 g fresh, for a rub                                             | external               | -
salve for sore knees                                               | external               | -
not for internal use                                               | -                      | internal
external use only                                                  | external               | internal
for the skin, never to drink                                       | external               | internal
comfrey tea as a compress                                          | external               | -
a cup of comfrey tea                                               | internal               | -
for my little boy                                                  | child                  | -
for our 6 year old                                                 | child                  | -
not for a child but for my aunt                                    | -                      | child
for the baby                                                       | infant child           | -
she is 8 months old                                                | infant child           | -
she is pregnant                                                    | pregnant               | -
no longer pregnant                                                 | -                      | pregnant
he is on warfarin                                                  | blood_thinner          | -
I practise; clients are mine                                       | practising             | -
dunno its name                                                     | unidentified           | -
some umbel by the creek, not sure what it is                       | unidentified umbel wild | -
foraged in the hedgerow                                            | wild                   | -
from the garden                                                    | grown                  | -
in 70 % rubbing alcohol                                            | isopropyl              | -
denatured spirit                                                   | methylated             | -
warm the tincture over a gas flame                                 | heating_spirit flame   | -
keep it away from the stove                                        | -                      | flame
stand the tincture in a water bath                                 | water_bath             | -
there is mould on it                                               | mould                  | -
no mould on it                                                     | -                      | mould
it is fizzing                                                      | bubbles                | -
help my boy has eaten yew berries                                  | emergency help swallowed child | -
what dose of charcoal do i give                                    | emergency              | -
how many drops a day do i give him                                 | dose_asked             | -
what should I give my aunt for her cough                           | diagnosis              | -
will it rain on Saturday                                           | off_topic              | -
tell me a joke                                                     | off_topic              | -
can that stand on the shelf till spring                            | to_keep                | -
a copper pan of vinegar                                            | soft_metal acid        | -
""".strip().splitlines()

# sentence | tags that must not be heard
NOT_HEARD = """
112 g fresh nettle, 1:2 at 60 %                                    | internal wild unidentified flame off_topic diagnosis
how much 95 do I take for 500 ml at 60 %                           | internal dose_asked
do I have enough spirit                                            | diagnosis
15 percent goes off as stalk                                       | to_keep
half a third is tea tree oil                                       | internal water_extract
100 g dried wild cherry bark, 1:5 at 45 %                          | wild
chamomile 4, lemon balm 3                                          | external
I was expecting 300 mL                                             | pregnant
the shop wants 2 litres of it                                      | grown
how many jars, and it fits                                         | epilepsy
dilute with distilled water                                        | distilling
whats the weight of that                                           | off_topic diagnosis
how many drops in a ml                                             | dose_asked
a ten year old brandy                                              | child
the tincture is three months old                                   | infant child
can you help with a tincture                                       | help emergency
unknown strength, dunno what percent                               | unidentified
i think its 60 percent                                             | unidentified
use it for a grown-up                                              | grown
boil the decoction on the stove, then add the cold tincture        | heating_spirit
no wait, for the skin                                              | internal
heaped spoonful weighs 2 g                                         | emergency
""".strip().splitlines()


def cells(row):
    return [cell.strip() for cell in row.split("|")]


@pytest.mark.parametrize("row", HEARD, ids=lambda row: row.split("|")[0].strip())
def test_a_tag_is_heard_or_denied(row):
    sentence, tags, denied = cells(row)
    heard = read_tags(sentence)
    assert set(tags.split()) - {"-"} <= heard.tags
    assert set(denied.split()) - {"-"} <= heard.denied
    assert not heard.tags & heard.denied


@pytest.mark.parametrize("row", NOT_HEARD, ids=lambda row: row.split("|")[0].strip())
def test_a_tag_is_not_mistaken(row):
    sentence, tags = cells(row)
    assert not set(tags.split()) & read_tags(sentence).tags


def test_a_span_is_where_it_was_said():
    sentence = "Comfrey root — she’d like to DRINK it."
    heard = read_tags(sentence)
    span = next(span for span in heard.spans if span.tag == "internal")
    assert sentence[span.start : span.end] == "DRINK"


def test_a_cry_for_help_passes_with_its_sentence():
    heard = read_tags("help, she swallowed it, and she is pregnant")
    assert "emergency" in heard.passing
    held, _ = keep(frozenset(), frozenset(), heard)
    assert "emergency" not in held
    assert "pregnant" in held


def test_the_newest_of_a_family_holds():
    held, denied = keep(frozenset({"internal", "fresh", "wild"}), frozenset(), read_tags("it is for a rub, and from the garden"))
    assert held == {"external", "fresh", "grown"}
    held, denied = keep(held, denied, read_tags("not for a child"))
    assert denied == {"child"}


def test_a_family_excludes_and_nothing_else_does():
    held, denied = tag_table().closed({"external", "fresh"}, {"child"})
    assert {"internal", "dried", "child"} <= denied
    assert "wild" not in held | denied


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("  drink it\n", "a way of saying belongs to no tag"),
        ("tag internal\n", "a tag needs a name and a phrase"),
        ("tag a | it is a\ntag a | it is b\n", "the tag 'a' is declared twice"),
        ("tug a | it is a\n", "a line begins with 'tug'"),
        ("tag a | it is a\nalso a: b\n", "'b' is no tag"),
    ],
)
def test_a_table_tells_its_faults(text, told):
    with pytest.raises(FileFault) as fault:
        read_table(text)
    assert fault.value.what == told


def test_the_shipped_table_says_each_tag_and_phrase_once():
    table = tag_table()
    phrases = [tag.phrase.lower() for tag in table.tags.values()]
    assert len(set(phrases)) == len(phrases)
    assert len(table.tags) > 100
    for pattern in table.patterns:
        for choice in pattern.words:
            for word in choice:
                assert word == word.lower(), f"{pattern.tag}: {word!r} can never be met"
                assert word, pattern.tag


@given(st.text(max_size=300))
@example("a ² year old, ²¹ weeks, ④ months old")
@example("²")
@example("A&¹")  # a digit that is no number
def test_any_text_is_read(text):
    heard = read_tags(text)
    for span in heard.spans:
        assert 0 <= span.start < span.end <= len(text)


def test_words_of_one_kind_are_a_class():
    text = """
class FRUIT apple/pear
class FRUIT plum
tag fruit | a fruit is spoken of
  a/the FRUIT
tag other | something else is spoken of
  no ^FRUIT $
"""
    table = read_table(text)
    assert read_tags("the plum", table).tags == {"fruit"}
    assert read_tags("no stone", table).tags == {"other"}
    assert read_tags("no pear", table).tags == set()
    assert read_tags("no stone fruit", table).tags == set()  # "$" is the end of the clause


def test_a_class_that_is_not_there_is_a_fault_with_its_line():
    with pytest.raises(FileFault) as fault:
        read_table("tag fruit | a fruit is spoken of\n  the FRUIT\n")
    assert "line 2" in fault.value.where
    assert "FRUIT" in fault.value.what
