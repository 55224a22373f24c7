"""The standard library's dataclasses, as far as this house uses them, at a tenth of the price.

The standard ones write and compile five or six methods for every class while it is imported; a hundred classes of that are a
third of what the first sentence waits for. Here the methods that need no speed are shared, and the constructor is compiled when the first
instance is made. To a type checker they are the standard ones, and tests/test_dataclass.py holds them to the same behaviour.

    @dataclass(frozen=True, slots=True)      or plain @dataclass
    field(default=…, default_factory=…, repr=…, compare=…)
    replace(instance, name=…)
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from operator import attrgetter
from typing import TYPE_CHECKING, Any

__all__ = ["ABSENT", "dataclass", "defaults", "field", "replace"]

ABSENT: Any = type("Absent", (), {"__repr__": lambda _: "ABSENT"})()


class Field:
    """What is declared of one field: its usual value or what makes one, whether it is shown and compared."""

    __slots__ = ("compare", "default", "factory", "repr")

    def __init__(self, default: Any = ABSENT, default_factory: Callable[[], Any] = ABSENT, repr: bool = True, compare: bool = True) -> None:  # noqa: A002
        self.default = default
        self.factory = default_factory
        self.repr = repr
        self.compare = compare


def defaults(kind: type) -> dict[str, Any]:
    """The usual value of each field of a class; ABSENT where there is none."""
    return {name: one.default if one.factory is ABSENT else one.factory() for name, one in _fields_of(kind).items()}


def _fields_of(kind: type) -> dict[str, Field]:
    fields: dict[str, Field] = kind.__dict__["_fields_"]
    return fields


if TYPE_CHECKING:
    from dataclasses import dataclass, field, replace
else:
    field = Field

    def dataclass(cls: type | None = None, /, *, frozen: bool = False, slots: bool = False) -> Any:
        """As the standard decorator: fields are the annotations of the class, in order, after those of its bases."""
        return (lambda given: _made(given, frozen, slots)) if cls is None else _made(cls, frozen, slots)

    def replace(instance: Any, /, **changes: Any) -> Any:
        """A new instance with some fields changed."""
        kind = type(instance)
        for name in kind._fields_:
            if name not in changes:
                changes[name] = getattr(instance, name)
        return kind(**changes)


def _made(cls: Any, frozen: bool, slots: bool) -> type:
    own = {name: _declared(cls, name) for name, kind in cls.__annotations__.items() if "ClassVar" not in str(kind)}
    inherited = {name: one for base in reversed(cls.__mro__[1:]) for name, one in base.__dict__.get("_fields_", {}).items()}
    made: Any = _with_slots(cls, own, inherited) if slots else _with_defaults(cls, own)
    made._fields_ = fields = inherited | own
    made._compared_ = _by([name for name, one in fields.items() if one.compare])
    for name, method in {**(_FROZEN if frozen else _SHARED), "__match_args__": tuple(fields), "__init__": _first_init(made)}.items():
        if name not in cls.__dict__:
            setattr(made, name, method)
    return made  # type: ignore[no-any-return]


def _with_slots(cls: Any, own: Mapping[str, Field], inherited: Collection[str]) -> type:
    """The class anew: slots can only be given when a class is made, and a usual value would stand in a slot's place."""
    body = {name: held for name, held in cls.__dict__.items() if name not in own and name not in ("__dict__", "__weakref__")}
    made: type = type(cls)(cls.__name__, cls.__bases__, {**body, "__slots__": tuple(name for name in own if name not in inherited)})
    made.__qualname__ = cls.__qualname__
    return made


def _with_defaults(cls: Any, own: Mapping[str, Field]) -> type:
    for name, one in own.items():
        if one.default is not ABSENT:
            setattr(cls, name, one.default)
        elif name in cls.__dict__:
            delattr(cls, name)
    return cls  # type: ignore[no-any-return]


def _by(names: Sequence[str]) -> Callable[[Any], Any]:
    return attrgetter(*names) if names else type


def _declared(cls: type, name: str) -> Field:
    given = cls.__dict__.get(name, ABSENT)
    if isinstance(given, Field):
        return given
    if type(given) in (list, dict, set):  # as the standard library: one list shared by all instances is a mistake
        raise ValueError(f"mutable default {type(given)} for field {name}: use default_factory")
    return Field(given)


def _first_init(cls: Any) -> Callable[..., None]:
    """A constructor that writes the real one when it is first called."""

    def __init__(self: Any, *args: Any, **given: Any) -> None:  # noqa: N807
        cls.__init__ = _written_init(cls)
        cls.__init__(self, *args, **given)

    return __init__


def _written_init(cls: Any) -> Callable[..., None]:
    """The constructor as it would be written by hand: one argument a field, put in its slot without a detour."""
    around: dict[str, Any] = {"ABSENT": ABSENT, "_set": object.__setattr__}
    arguments, lines = ["self"], []
    for name, one in cls._fields_.items():
        value = name
        if one.factory is not ABSENT:
            around[f"_make_{name}"] = one.factory
            arguments.append(f"{name}=ABSENT")
            value = f"(_make_{name}() if {name} is ABSENT else {name})"
        elif one.default is not ABSENT:
            around[f"_usual_{name}"] = one.default
            arguments.append(f"{name}=_usual_{name}")
        else:
            arguments.append(name)
        slot: Any = getattr(cls, name, None)
        if type(slot).__name__ == "member_descriptor":
            around[f"_put_{name}"] = slot.__set__
            lines.append(f"_put_{name}(self, {value})")
        else:
            lines.append(f"_set(self, {name!r}, {value})")
    if hasattr(cls, "__post_init__"):
        lines.append("self.__post_init__()")
    exec(f"def __init__({', '.join(arguments)}):\n " + "\n ".join(lines or ["pass"]), around)
    written: Callable[..., None] = around["__init__"]
    written.__qualname__ = f"{cls.__qualname__}.__init__"
    return written


# --- what all of them share ---------------------------------------------------------------------------------------------------


def _shown(self: Any) -> str:
    return f"{type(self).__qualname__}({', '.join(f'{name}={getattr(self, name)!r}' for name, one in self._fields_.items() if one.repr)})"


def _equal(self: Any, other: Any) -> Any:
    return self._compared_(self) == self._compared_(other) if type(other) is type(self) else NotImplemented


def _hashed(self: Any) -> int:
    return hash(self._compared_(self))


def _refuse_change(_self: Any, name: str, _value: Any = None) -> None:
    from dataclasses import FrozenInstanceError  # only when somebody tries

    raise FrozenInstanceError(f"cannot change field {name!r}")


def _state(self: Any) -> list[Any]:
    return [getattr(self, name) for name in self._fields_]


def _take_state(self: Any, state: list[Any]) -> None:
    for name, value in zip(self._fields_, state, strict=True):
        object.__setattr__(self, name, value)


_SHARED: dict[str, Any] = {"__repr__": _shown, "__eq__": _equal, "__hash__": None}
_FROZEN: dict[str, Any] = {
    **_SHARED, "__hash__": _hashed, "__setattr__": _refuse_change, "__delattr__": _refuse_change, "__getstate__": _state, "__setstate__": _take_state,
}  # fmt: skip
