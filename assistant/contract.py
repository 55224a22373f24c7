"""pydantic's judgement of a record: asked only when something is not plainly sound, or when a program wants a schema.

For each record class there is one model with the same fields; nothing of a record is declared a second time.
"""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any, TypeVar, get_args, get_origin

from pydantic import BaseModel, ConfigDict, ValidationError, create_model
from pydantic_core import InitErrorDetails, core_schema

if TYPE_CHECKING:
    from assistant.record import Record

    R = TypeVar("R", bound=Record)
else:
    R = TypeVar("R")

_CONFIG = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)
_MODELS: dict[Any, type[BaseModel]] = {}


def model_of(record: Any) -> type[BaseModel]:
    """The pydantic model with the fields of a record class, made once."""
    if record in _MODELS:
        return _MODELS[record]
    fields: dict[str, Any] = {name: (_modelled(kind), getattr(record, name, ...)) for name, kind in record.__annotations__.items()}
    made: type[BaseModel] = create_model(record.__name__, __config__=_CONFIG, __doc__=record.__doc__, **fields)
    _MODELS[record] = made
    return made


def judged(record: "type[Record]", given: Mapping[str, Any]) -> dict[str, Any]:
    """The fields as a record keeps them, mended where pydantic mends.

    fails   ValidationError
    """
    model = model_of(record)(**{name: _with_models(value) for name, value in given.items()})
    return _fields_of(record, model)


def read(record: type[R], given: Any) -> R:
    return record._made_of(_fields_of(record, model_of(record).model_validate(_with_models(given))))


def read_json(record: type[R], text: str | bytes) -> R:
    return record._made_of(_fields_of(record, model_of(record).model_validate_json(text)))


def dumped(record: "Record", **choices: Any) -> dict[str, Any]:
    tree: dict[str, Any] = _with_models(record).model_dump(**choices)
    return tree


def schema(record: "type[Record]") -> dict[str, Any]:
    return model_of(record).model_json_schema()


def frozen(record: "type[Record]", name: str, value: Any) -> ValidationError:
    """The fault of one who would change a record."""
    return ValidationError.from_exception_data(record.__name__, [InitErrorDetails(type="frozen_instance", loc=(name,), input=value)])


def core_schema_of(record: "type[Record]", handler: Any) -> core_schema.CoreSchema:
    """How pydantic reads the record as a field of somebody's own model."""

    def take(given: Any, judge: Any) -> Any:
        return given if isinstance(given, record) else record._made_of(_fields_of(record, judge(given)))

    shown = core_schema.plain_serializer_function_ser_schema(lambda value: value.model_dump(mode="json"), when_used="json")
    return core_schema.no_info_wrap_validator_function(take, handler(model_of(record)), serialization=shown)


def _is_record(kind: Any) -> bool:
    return isinstance(kind, type) and hasattr(kind, "_made_of")


def _modelled(kind: Any) -> Any:
    """An annotation with the model of each record in its place."""
    if get_origin(kind) is tuple:
        row: Any = tuple
        return row[_modelled(get_args(kind)[0]), ...]
    return model_of(kind) if _is_record(kind) else kind


def _with_models(value: Any) -> Any:
    """Records, which were judged when they were made, as instances of their models, wherever they stand in a value."""
    if _is_record(type(value)):
        return model_of(type(value)).model_construct(**{name: _with_models(held) for name, held in value.__dict__.items()})
    if type(value) in (list, tuple):
        return type(value)(map(_with_models, value))
    return {name: _with_models(held) for name, held in value.items()} if type(value) is dict else value


def _fields_of(record: "type[Record]", model: Any) -> dict[str, Any]:
    return {name: _without_models(kind, getattr(model, name)) for name, kind in record.__annotations__.items()}


def _without_models(kind: Any, value: Any) -> Any:
    if get_origin(kind) is tuple:
        return tuple(_without_models(get_args(kind)[0], held) for held in value)
    return kind._made_of(_fields_of(kind, value)) if _is_record(kind) else value
