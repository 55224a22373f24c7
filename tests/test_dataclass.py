"""The house's own dataclass against the standard library's: the same class text behaves the same."""

import copy
import dataclasses
import pickle
import subprocess
import sys
from typing import Any, ClassVar

import pytest

from assistant import dataclass as ours
from assistant.session.batch import Fact


def made(kind: Any, **how: bool) -> Any:
    """One class, declared with the one or the other."""

    @kind.dataclass(**how)
    class Jar:
        """A jar on the shelf."""

        herb: str
        grams: float = 5.0
        notes: list[str] = kind.field(default_factory=list)
        aside: str = kind.field(default="", repr=False, compare=False)
        shelf: ClassVar[str] = "top"

        @property
        def label(self) -> str:
            return f"{self.herb} {self.grams:g}"

    return Jar


def checked(kind: Any, **how: bool) -> Any:
    @kind.dataclass(**how)
    class Checked:
        one: int

        def __post_init__(self) -> None:
            if self.one < 0:
                raise ValueError("below zero")

    return Checked


WAYS = [{}, {"frozen": True}, {"slots": True}, {"frozen": True, "slots": True}]


def outcome(do: Any) -> Any:
    try:
        return do()
    except (TypeError, AttributeError, ValueError) as fault:
        return type(fault)


@pytest.mark.parametrize("how", WAYS, ids=str)
def test_a_class_behaves_as_the_standard_one(how):
    def told(kind: Any) -> list[Any]:
        jar = made(kind, **how)
        one, other = jar("nettle", 5.0), jar(herb="nettle", aside="x")
        again = copy.deepcopy(one)
        again.notes.append("y")
        return [
            repr(one).split(".")[-1], one == other, one != jar("nettle", 6), one == "nettle", one.label, one.notes, other.notes is one.notes, again.notes,
            outcome(lambda: hash(jar("nettle", notes=()))) == outcome(lambda: hash(jar("nettle", notes=(), aside="x"))),
            isinstance(outcome(lambda: hash(jar("nettle", notes=()))), int), outcome(lambda: hash(one)),
            outcome(jar), outcome(lambda: jar("a", lid=1)), outcome(lambda: jar("a", herb="b")), outcome(lambda: jar(1, 2, 3, 4, 5)),
            outcome(lambda: setattr(one, "grams", 7.0)), one.grams,
            outcome(lambda: delattr(one, "herb")),
            jar.__match_args__, jar.__doc__, jar.shelf, jar.__name__, hasattr(one, "__dict__"), outcome(lambda: jar.grams) == 5.0,
            kind.replace(other, grams=9.0), kind.replace(other, grams=9.0).aside, outcome(lambda: kind.replace(one, lid=1)),
        ]  # fmt: skip

    assert [str(x) for x in told(ours)] == [str(x) for x in told(dataclasses)]


@pytest.mark.parametrize("how", WAYS, ids=str)
def test_what_is_done_after_making_is_done(how):
    for kind in (ours, dataclasses):
        assert checked(kind, **how)(1).one == 1
        with pytest.raises(ValueError, match="below zero"):
            checked(kind, **how)(-1)


def test_a_frozen_instance_takes_no_new_name():
    for how in ({"frozen": True}, {"frozen": True, "slots": True}):
        with pytest.raises(dataclasses.FrozenInstanceError):
            made(ours, **how)("nettle").lid = 1


def test_two_classes_are_never_equal():
    assert checked(ours)(1) != checked(ours)(1)


def test_a_base_gives_its_fields_first():
    def told(kind: Any) -> list[Any]:
        base = made(kind, frozen=True, slots=True)

        @kind.dataclass(frozen=True, slots=True)
        class Bottle(base):
            cork: bool = True

        bottle = Bottle("nettle", 5.0, [], "", False)
        return [repr(bottle).split(".")[-1], bottle.label, bottle.cork, outcome(lambda: setattr(bottle, "cork", True)), Bottle.__match_args__]

    assert [str(x) for x in told(ours)] == [str(x) for x in told(dataclasses)]


def test_one_list_for_all_is_refused():
    with pytest.raises(ValueError, match="mutable default"):

        @ours.dataclass
        class Wrong:
            notes: list[str] = []  # noqa: RUF012 - the mistake itself


def test_a_frozen_instance_can_be_pickled():
    fact = Fact(5.0)
    assert pickle.loads(pickle.dumps(fact)) == copy.copy(fact) == fact


def test_usual_values_are_told():
    told = ours.defaults(made(ours))
    assert told == {"herb": ours.ABSENT, "grams": 5.0, "notes": [], "aside": ""}


def test_no_sentence_waits_for_the_standard_ones():
    code = "import sys; from assistant import Session; Session().say('85 g dried yarrow 1:5'); print('dataclasses' in sys.modules, 'lark' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, timeout=60, check=True)
    assert done.stdout.split() == ["False", "False"]
