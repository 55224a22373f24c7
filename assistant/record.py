"""A frozen record with checked fields, as cheap to load as it is to make: what the reply is made of.

Sound fields are recognised here, in plain Python. Whatever is not plainly sound (a field unknown or missing, text where a number
belongs, a number that is none) goes to assistant/contract.py, where pydantic judges it: it mends what can be mended and raises its
ValidationError for the rest. So the judgement is pydantic's, and an everyday sentence need not wait for it to load.
The methods have pydantic's names, since they do the same.
"""

import json
import math
from collections.abc import Callable, Mapping
from types import UnionType
from typing import Any, ClassVar, Literal, Self, dataclass_transform, get_args, get_origin

_DOUBTFUL: Any = object()  # what a reader gives for a value that pydantic must see
_ABSENT: Any = object()
_EXACT_INTEGER = 2**53  # beyond it a float does not hold every whole number
_MANY = 64  # records of one kind, after which a constructor written out for it is worth compiling; a single sentence makes fewer


@dataclass_transform(kw_only_default=True, frozen_default=True)
class Record:
    """The family of records: fields are the annotations of the class, given by name, checked, never changed afterwards.

    fails   pydantic.ValidationError, naming each field that cannot be what it is declared to be
    """

    _readers: ClassVar[dict[str, tuple[Callable[[Any], Any], Any]]] = {}
    _made: ClassVar[int] = 0

    def __init_subclass__(cls) -> None:
        cls._readers = {name: (_reader(kind), cls.__dict__.get(name, _ABSENT)) for name, kind in cls.__annotations__.items()}

    def __init__(self, /, **given: Any) -> None:
        kept, met = self.__dict__, 0
        for name, (read, default) in self._readers.items():
            value = given.get(name, _ABSENT)
            if value is _ABSENT:
                value = default
            else:
                met += 1
                value = read(value)
            if value is _DOUBTFUL or value is _ABSENT:
                break
            kept[name] = value
        else:
            if met == len(given):
                kind = type(self)
                kind._made += 1
                if kind._made == _MANY:
                    kind.__init__ = _written_out(kind)  # type: ignore[method-assign]
                return
        from assistant import contract

        kept.clear()
        kept.update(contract.judged(type(self), given))

    @classmethod
    def _made_of(cls, fields: Mapping[str, Any]) -> Self:
        """The record of fields that are known to be sound."""
        made = cls.__new__(cls)
        made.__dict__.update(fields)
        return made

    def __setattr__(self, name: str, value: Any) -> None:
        from assistant import contract

        raise contract.frozen(type(self), name, value)

    def __delattr__(self, name: str) -> None:
        from assistant import contract

        raise contract.frozen(type(self), name, None)

    def __eq__(self, other: object) -> bool:
        return type(other) is type(self) and other.__dict__ == self.__dict__

    def __hash__(self) -> int:
        return hash((type(self), *self.__dict__.values()))

    def __repr__(self) -> str:
        return f"{type(self).__name__}({', '.join(f'{name}={value!r}' for name, value in self.__dict__.items())})"

    def model_copy(self, *, update: Mapping[str, Any] | None = None) -> Self:
        """The same record with some fields replaced; what replaces them is not checked."""
        return self._made_of({**self.__dict__, **(update or {})})

    def model_dump(self, *, mode: Literal["python", "json"] = "python", **choices: Any) -> dict[str, Any]:
        """The fields as a dict, records inside as dicts too; mode "json" makes lists of tuples. Any other choice is pydantic's."""
        if choices:
            from assistant import contract

            return contract.dumped(self, mode=mode, **choices)
        row: type = list if mode == "json" else tuple
        return {name: row(map(_bare(mode), value)) if type(value) is tuple else _bare(mode)(value) for name, value in self.__dict__.items()}

    def model_dump_json(self, *, indent: int | None = None) -> str:
        """The fields as one JSON object."""
        separators = (",", ":") if indent is None else None
        return json.dumps(self.model_dump(mode="json"), ensure_ascii=False, allow_nan=False, indent=indent, separators=separators)

    @classmethod
    def model_validate(cls, given: Any) -> Self:
        """The record of a dict from outside.

        fails   pydantic.ValidationError
        """
        from assistant import contract

        return given if isinstance(given, cls) else contract.read(cls, given)

    @classmethod
    def model_validate_json(cls, text: str | bytes) -> Self:
        """The record of a JSON object.

        fails   pydantic.ValidationError
        """
        from assistant import contract

        return contract.read_json(cls, text)

    @classmethod
    def model_json_schema(cls) -> dict[str, Any]:
        """What a program may expect of the record, as a JSON schema."""
        from assistant import contract

        return contract.schema(cls)

    @classmethod
    def __get_pydantic_core_schema__(cls, _source: Any, handler: Any) -> Any:
        from assistant import contract

        return contract.core_schema_of(cls, handler)


def _written_out(kind: type[Record]) -> Callable[..., None]:
    """The constructor as it would be written by hand for one kind: what is plainly sound is seen without a call, the rest goes the general way."""
    around: dict[str, Any] = {"_ABSENT": _ABSENT, "_text": _text, "_finite": math.isfinite, "_general": Record.__init__}  # no field begins with "_"
    arguments, sound, kept = [], [], []
    for name, (read, usual) in kind._readers.items():
        around[f"_read_{name}"], around[f"_usual_{name}"] = read, usual
        arguments.append(f"{name}=_usual_{name}")
        plainly = {
            str: f"type({name}) is str and ({name}.isascii() or _text({name}) is {name})",
            float | None: f"{name} is None or type({name}) is float and _finite({name})",
        }
        sound.append(f"({plainly.get(kind.__annotations__[name], f'_read_{name}({name}) is {name}')})")
        kept.append(f"  _kept[{name!r}] = {name}")
    given = ", ".join(f"({name!r}, {name})" for name in kind._readers)
    lines = [
        f"def __init__(self, /, *, {', '.join(arguments)}, **_others):",
        f" if not _others and {' and '.join(sound)}:",
        "  _kept = self.__dict__",
        *kept,
        "  return",
        f" _general(self, **{{name: value for name, value in ({given},) if value is not _ABSENT}}, **_others)",
    ]
    exec("\n".join(lines), around)
    written: Callable[..., None] = around["__init__"]
    written.__qualname__ = f"{kind.__qualname__}.__init__"
    return written


def _bare(mode: Literal["python", "json"]) -> Callable[[Any], Any]:
    return lambda value: value.model_dump(mode=mode) if isinstance(value, Record) else value


def _reader(kind: Any) -> Callable[[Any], Any]:
    """What recognises a sound value of this annotation and gives it as it is kept; anything else is _DOUBTFUL."""
    if isinstance(kind, UnionType):  # every union here is "… or None"
        inner = _reader(get_args(kind)[0])
        return lambda value: None if value is None else inner(value)
    if get_origin(kind) is Literal:
        allowed = frozenset(get_args(kind))
        return lambda value: value if type(value) is str and value in allowed else _DOUBTFUL
    if get_origin(kind) is tuple:
        return _row(get_args(kind)[0])
    return {str: _text, float: _number}.get(kind) or _exactly(kind)


def _exactly(kind: type) -> Callable[[Any], Any]:
    return lambda value: value if type(value) is kind else _DOUBTFUL


def _text(value: Any) -> Any:
    if type(value) is str:
        if value.isascii():
            return value
        try:
            value.encode()
        except UnicodeEncodeError:  # half of a sign
            return _DOUBTFUL
        return value
    return _DOUBTFUL


def _number(value: Any) -> Any:
    if type(value) is float and math.isfinite(value):
        return value
    return float(value) if type(value) is int and abs(value) <= _EXACT_INTEGER else _DOUBTFUL


def _row(kind: Any) -> Callable[[Any], Any]:
    read = _reader(kind)

    def row(values: Any) -> Any:
        if type(values) is not tuple and type(values) is not list:
            return _DOUBTFUL
        kept = tuple(map(read, values))
        return _DOUBTFUL if _DOUBTFUL in kept else kept

    return row
