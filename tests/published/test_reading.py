"""The reader of the published checks refuses whatever would let a check fall silent."""

import pytest

from tests.published.reading import FOLDER, BadFile, Check, read

GOOD = """
about = "a table"
[[set]]
says = "a figure"
asks = "it"
takes = ["g"]
gives = ["mL"]
rows = [[1, 2.0]]
within = 0.1
because = "one decimal"
source = "a book"
evidence = "memory"
"""


@pytest.fixture
def written(tmp_path):
    def write(text):
        path = tmp_path / "table.toml"
        path.write_text(text, encoding="utf-8")
        return path

    return write


def test_a_good_file_gives_a_check_a_row(written):
    (check,) = read(written(GOOD))
    assert (check.given, check.printed, check.within) == ((1,), (2.0,), 0.1)


@pytest.mark.parametrize(
    ("old", "new", "complaint"),
    [
        (GOOD[GOOD.index("[[set]]") :], "", "no check"),
        ("[[1, 2.0]]", "[]", "rows"),
        ("within = 0.1", "", "no tolerance"),
        ("because", "becuase", "becuase"),
        ('source = "a book"', 'source = ""', "source"),
        ("memory", "hearsay", "hearsay"),
        ("memory", "read", "seen_as"),
        ("[[1, 2.0]]", "[[1, 2.0, 3.0]]", "3 entries"),
        ("[[1, 2.0]]", "[[1, 2.0], [1, 2.1]]", "twice"),
        ("within = 0.1", 'within = 0.1\nkind = "around"', "around"),
        ("within = 0.1", 'within = 0.1\nkind = "between"', "limits"),
        ('about = "a table"', 'about = "a table"\nextra = 1', "extra"),
        ('about = "a table"', "", "about"),
    ],
    ids=lambda value: value.strip().replace("\n", " ")[:40] or "nothing",
)
def test_a_bad_file_is_refused_and_the_message_names_it(written, old, new, complaint):
    assert old in GOOD
    with pytest.raises(BadFile, match=r"table\.toml") as caught:
        read(written(GOOD.replace(old, new)))
    assert complaint in str(caught.value)


def check_of(kind, printed, within=0.0, within_percent=0.0):
    return Check("a figure", "it", (), printed, kind, within, within_percent, "a book", "read")


@pytest.mark.parametrize(
    ("check", "right", "wrong"),
    [
        (check_of("each", (10.0,), within=0.1), 10.1, 10.11),
        (check_of("each", (200.0,), within=0.1, within_percent=1), 202.0, 202.1),
        (check_of("each", (1.0, 2.0), within=0.1), (1.0, 2.1), (1.0, 2.2)),
        (check_of("between", (2.0, 1.0)), 1.0, 0.9),
        (check_of("between", (1.0, 2.0)), 2.0, 2.1),
    ],
)
def test_an_answer_holds_inside_the_tolerance_and_fails_outside(check, right, wrong):
    check.holds(right)
    with pytest.raises(AssertionError, match="a book"):
        check.holds(wrong)


def test_every_file_of_checks_has_a_test_of_its_own():
    topics = {path.stem for path in FOLDER.glob("*.toml")}
    assert topics
    assert topics == {path.stem.removeprefix("test_") for path in FOLDER.glob("test_*.py")} - {"reading", "library", "mass_balance", "draws"}
