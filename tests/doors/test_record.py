"""A record judged in plain Python against pydantic's judgement of the same fields: never another answer."""

import json
import subprocess
import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import BaseModel, TypeAdapter, ValidationError

from assistant import contract
from assistant.record import _MANY, _written_out
from assistant.reply import Assumption, Caution, Question, Reply, Step, Used, Value

RECORDS = [Value, Step, Assumption, Question, Caution, Used]

# What a field may be handed: what belongs there, and a good deal that does not.
ANYTHING = st.one_of(
    st.none(), st.booleans(), st.integers(), st.integers(min_value=-(10**400), max_value=10**400), st.floats(), st.text(max_size=6), st.binary(max_size=4),
    st.sampled_from(["é½", "\ud800", "a\udfff"]), st.lists(st.text(max_size=3), max_size=3),
    st.tuples(st.text(max_size=3)), st.sampled_from(["answered", "asking", "said", "found", "stop", "12", "1.5", "nan", "true"]),
    st.dictionaries(st.text(max_size=3), st.integers(), max_size=2),
)  # fmt: skip


def fields_for(record: type) -> st.SearchStrategy:
    names = st.sampled_from([*record.__annotations__, "mood"])
    sound = {"quantity": "herb", "text": "x", "id": "x", "level": "note", "start": 0, "end": 1}
    base = {name: sound[name] for name in record.__annotations__ if name in sound and not hasattr(record, name)}
    return st.dictionaries(names, ANYTHING, max_size=4).map(lambda more: base | more)


def judged(make, fields):
    """What comes of it: the fields as kept, with the kind of each, or the places and kinds of what is wrong."""
    try:
        made = make(**fields)
    except ValidationError as fault:
        return [(error["type"], error["loc"]) for error in fault.errors(include_input=False, include_url=False, include_context=False)]
    dumped = made.model_dump()
    return {name: (type(value), value) for name, value in dumped.items()}


@given(st.sampled_from(RECORDS).flatmap(lambda record: st.tuples(st.just(record), fields_for(record))))
def test_pydantic_judges_no_differently(drawn):
    record, fields = drawn
    assert judged(record, fields) == judged(contract.model_of(record), fields)


@given(st.sampled_from(RECORDS).flatmap(lambda record: st.tuples(st.just(record), fields_for(record))))
def test_the_constructor_written_out_judges_no_differently(drawn):
    record, fields = drawn

    def made(**given_fields):
        one = record.__new__(record)
        _written_out(record)(one, **given_fields)
        return one

    assert judged(made, fields) == judged(contract.model_of(record), fields)


def test_a_kind_made_often_has_its_constructor_written_out():
    made = [Used(text="½ ", start=0, end=1, quantity="herb") for _ in range(2 * _MANY)]
    assert Used.__init__ is not Question.__init__
    assert len(set(made)) == 1
    assert list(made[-1].__dict__) == list(Used.__annotations__)


@given(
    st.fixed_dictionaries(
        {"status": ANYTHING},
        optional={name: st.one_of(ANYTHING, st.lists(st.sampled_from([Value(quantity="herb"), Step(quantity="herb"), {"quantity": "herb"}, 3]), max_size=3))
                  for name in ("values", "steps", "used", "text", "turn", "unused")},
    )
)  # fmt: skip
def test_pydantic_judges_a_whole_reply_no_differently(fields):
    with_models = {name: contract._with_models(value) for name, value in fields.items()}
    assert judged(Reply, fields) == judged(contract.model_of(Reply), with_models)


def whole() -> Reply:
    return Reply(
        status="conflict", heard="112 g – ½", text="Both? ½", values=[Value(quantity="herb", value=0.1, unit="g")], unused=["oak"],
        questions=[Question(text="?", wants=["herb"], choices=["it is 1 g"])], cautions=[Caution(id="a", level="warn", text="b")],
    )  # fmt: skip


def test_what_is_written_is_what_pydantic_writes():
    reply = whole()
    twin = contract._with_models(reply)
    for mode in ("python", "json"):
        assert reply.model_dump(mode=mode) == twin.model_dump(mode=mode)
        assert reply.model_dump(mode=mode, exclude={"heard"}) == twin.model_dump(mode=mode, exclude={"heard"})
    assert json.loads(reply.model_dump_json()) == json.loads(twin.model_dump_json())
    assert Reply.model_validate(reply.model_dump(mode="json")) == Reply.model_validate_json(reply.model_dump_json()) == reply


def test_a_record_is_hashed_compared_copied_and_shown_by_its_fields():
    one, other = Used(text="1", start=0, end=1, quantity="herb"), Used(text="1", start=0, end=1, quantity="herb")
    assert one == other
    assert len({one, other}) == 1
    assert one.model_copy(update={"end": 2}) == Used(text="1", start=0, end=2, quantity="herb") != one
    assert repr(one) == "Used(text='1', start=0, end=1, quantity='herb')"
    assert one != Question(text="1")
    with pytest.raises(ValidationError, match="frozen"):
        del one.text


def test_somebody_elses_model_may_hold_a_reply():
    class Page(BaseModel):
        reply: Reply

    reply = whole()
    page = Page.model_validate({"reply": reply.model_dump(mode="json")})
    assert page.reply == Page(reply=reply).reply == reply
    assert json.loads(page.model_dump_json())["reply"] == reply.model_dump(mode="json")
    with pytest.raises(ValidationError):
        TypeAdapter(Reply).validate_python({"status": "done"})


def test_the_schema_names_every_field():
    schema = Reply.model_json_schema()
    assert set(schema["properties"]) == set(Reply.__annotations__)
    assert schema["required"] == ["status"]
    assert schema["additionalProperties"] is False


def test_an_everyday_sentence_asks_no_pydantic():
    code = "import sys; from assistant import Session; print(Session().say('85 g dried yarrow 1:5, how much menstruum').status, 'pydantic' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, timeout=60, check=True)
    assert done.stdout.split() == ["answered", "False"]
