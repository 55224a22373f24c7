"""What a room hands out cannot be changed behind its back: records are compared, kept as keys and shared between networks."""

import importlib
import pkgutil

import pytest

import assistant.matter
import assistant.relations
import assistant.solving
from assistant.dataclass import replace
from assistant.relations import RELATIONS
from assistant.solving.solution import Known, Solution
from tests.solving.toys import solved

ROOMS = (assistant.matter, assistant.relations, assistant.solving)
LOADED = [importlib.import_module(f"{room.__name__}.{found.name}") for room in ROOMS for found in pkgutil.iter_modules(room.__path__)]
CLASSES = [(module, thing) for module in LOADED for thing in vars(module).values() if isinstance(thing, type)]
RECORDS = sorted(
    {kind for module, kind in CLASSES if "_fields_" in vars(kind) and kind.__module__ == module.__name__}, key=lambda kind: (kind.__module__, kind.__name__)
)


def test_there_are_records_in_every_room():
    assert {kind.__module__.split(".")[1] for kind in RECORDS} == {"matter", "relations", "solving"}


@pytest.mark.parametrize("kind", RECORDS, ids=lambda kind: kind.__name__)
def test_a_record_is_fixed_and_small(kind):
    made = object.__new__(kind)
    name = next(iter(kind._fields_))
    with pytest.raises(AttributeError):
        setattr(made, name, 1)
    assert not hasattr(made, "__dict__")


def test_a_relation_is_a_key():
    relation = RELATIONS[0]
    assert {relation: 1}[replace(relation)] == 1
    assert relation != replace(relation, name="another")


def test_what_is_known_is_said_and_exact_unless_it_is_told():
    known = Known(3.0)
    assert (known.value, known.origin, known.tolerance, known.plus_minus) == (3.0, "said", 0.0, None)


def test_of_a_solution_only_its_figures_count_when_two_are_compared():
    one, other = (solved(("a = b * c",), {"b": 2, "c": 3}) for _ in range(2))
    assert one == other
    assert "_derive" not in repr(one)
    assert "_moved" not in repr(one)
    assert "_written" not in repr(one.figures["a"])
    bare = Solution({}, (), (), (), (), (), _derive=lambda _: ((), ()))
    assert (bare.moved_by("a"), bare.rests_on("a"), bare.leaves("a"), bare.derivation("a"), bare.value("a")) == ({}, (), (), (), None)
