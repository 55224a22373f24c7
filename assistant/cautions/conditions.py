"""Conditions of rules: each answers NO, UNKNOWN or YES about the facts, with one plant of the batch in view.

A condition is data, turned to and from plain lists for the ready file; nothing of a rule file is ever run. The classes are written out instead
of being dataclasses: making a dozen of those costs more at each start than reading all the rules.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import Any, NamedTuple

from assistant.cautions.facts import NO, UNKNOWN, YES, Facts
from assistant.cautions.plant import PART_KINDS, Plant, Span

Key = tuple[str, str]  # what a condition looks at: ("figure", "finished_strength"), ("tag", "internal"), ("flag", "deadly") …


class Scene(NamedTuple):
    """The facts with one plant of them in view (None where no plant is named). `denied` already holds the rivals of what is established.

    strict   as a stop looks at it: a figure must pass a limit with its whole ±, while a warning is content with the figure itself
    """

    facts: Facts
    denied: frozenset[str]
    plant: Plant | None = None
    strict: bool = False

    def part(self) -> str:
        """Kind of the part in view: the one said, else what the plant's name means, else its only one; "" where that is open."""
        if self.facts.part:
            return PART_KINDS.get(self.facts.part, self.facts.part)
        if self.plant is None:
            return ""
        if self.plant.called_part:
            return self.plant.called_part
        return self.plant.parts[0].kind if len(self.plant.parts) == 1 else ""


class Condition:
    """Base of all conditions: equal where kind and contents are."""

    __slots__: tuple[str, ...] = ()

    def weigh(self, scene: Scene) -> int:
        raise NotImplementedError

    def wakes(self) -> frozenset[Key] | None:
        """Keys of which at least one must be present for a YES; None where it may hold without any."""
        raise NotImplementedError

    def atoms(self) -> Iterator[Condition]:
        yield self

    def values(self) -> tuple[Any, ...]:
        return tuple(getattr(self, name) for name in self.__slots__)

    def __eq__(self, other: object) -> bool:
        return type(self) is type(other) and isinstance(other, Condition) and self.values() == other.values()

    def __hash__(self) -> int:
        return hash((type(self), self.values()))

    def __repr__(self) -> str:
        return f"{type(self).__name__}{self.values()!r}"


class And(Condition):
    __slots__ = ("parts",)

    def __init__(self, parts: tuple[Condition, ...]) -> None:
        self.parts = parts

    def weigh(self, scene: Scene) -> int:
        worst = YES
        for part in self.parts:
            verdict = part.weigh(scene)
            if verdict == NO:
                return NO
            worst = min(worst, verdict)
        return worst

    def wakes(self) -> frozenset[Key] | None:
        best: frozenset[Key] | None = None
        for part in self.parts:
            keys = part.wakes()
            if keys is not None and (best is None or _rank(keys) < _rank(best)):
                best = keys
        return best

    def atoms(self) -> Iterator[Condition]:
        for part in self.parts:
            yield from part.atoms()


class Or(Condition):
    __slots__ = ("parts",)

    def __init__(self, parts: tuple[Condition, ...]) -> None:
        self.parts = parts

    def weigh(self, scene: Scene) -> int:
        best = NO
        for part in self.parts:
            verdict = part.weigh(scene)
            if verdict == YES:
                return YES
            best = max(best, verdict)
        return best

    def wakes(self) -> frozenset[Key] | None:
        keys: set[Key] = set()
        for part in self.parts:
            some = part.wakes()
            if some is None:
                return None
            keys |= some
        return frozenset(keys)

    def atoms(self) -> Iterator[Condition]:
        for part in self.parts:
            yield from part.atoms()


class Not(Condition):
    __slots__ = ("part",)

    def __init__(self, part: Condition) -> None:
        self.part = part

    def weigh(self, scene: Scene) -> int:
        return YES - self.part.weigh(scene)

    def wakes(self) -> frozenset[Key] | None:
        return None

    def atoms(self) -> Iterator[Condition]:
        yield from self.part.atoms()


class Compare(Condition):
    """A figure against a limit in its bench unit; `how` is under, over, at least, at most, may be under or may be over.

    "may be" holds where the figure passes on the right side while its ± reaches over the limit.
    """

    __slots__ = ("name", "how", "limit")  # noqa: RUF023  in the order of the arguments

    def __init__(self, name: str, how: str, limit: float) -> None:
        self.name = name
        self.how = how
        self.limit = limit

    def weigh(self, scene: Scene) -> int:
        verdict = None
        for key in _keys_of(self.name, scene):
            figure = scene.facts.figures[key]
            one = _compare(self.how, figure.value, figure.plus_minus or 0.0, self.limit, scene.strict)
            verdict = one if verdict is None else max(verdict, one)
        return UNKNOWN if verdict is None else verdict

    def wakes(self) -> frozenset[Key] | None:
        return frozenset({("figure", self.name)})


class AgainstUsual(Condition):
    """A figure against the usual range of the plant in view: what = strength, ratio or daily; how = under or over."""

    __slots__ = ("name", "how", "what")  # noqa: RUF023

    def __init__(self, name: str, how: str, what: str) -> None:
        self.name = name
        self.how = how
        self.what = what

    def weigh(self, scene: Scene) -> int:
        usual = usual_span(scene, self.what)
        keys = _keys_of(self.name, scene)
        if usual is None or not keys:
            return UNKNOWN
        figure = scene.facts.figures[keys[0]]
        limit = usual.low if self.how == "under" else usual.high
        return _compare(self.how, figure.value, figure.plus_minus or 0.0, limit, scene.strict)

    def wakes(self) -> frozenset[Key] | None:
        return frozenset({("figure", self.name)})


class Known(Condition):
    """Whether a figure is there at all (how = known), or comes from what was said, or rests on an assumption; of that we are never unsure."""

    # how: known | said | assumed
    __slots__ = ("name", "how")  # noqa: RUF023

    def __init__(self, name: str, how: str = "known") -> None:
        self.name = name
        self.how = how

    def weigh(self, scene: Scene) -> int:
        origins = [scene.facts.figures[key].origin for key in _keys_of(self.name, scene)]
        if self.how == "known":
            return YES if origins else NO
        wanted = ("said", "measured") if self.how == "said" else ("assumed",)
        return YES if any(origin in wanted for origin in origins) else NO

    def wakes(self) -> frozenset[Key] | None:
        return frozenset({("figure", self.name)})


class Tagged(Condition):
    __slots__ = ("tag",)

    def __init__(self, tag: str) -> None:
        self.tag = tag

    def weigh(self, scene: Scene) -> int:
        if self.tag in scene.facts.tags:
            return YES
        return NO if self.tag in scene.denied else UNKNOWN

    def wakes(self) -> frozenset[Key] | None:
        return frozenset({("tag", self.tag)})


class IsPlant(Condition):
    """The plant in view is one of these: Latin names, or the bare names of plants of which nothing more is known."""

    __slots__ = ("names",)

    def __init__(self, names: tuple[str, ...]) -> None:
        self.names = names

    def weigh(self, scene: Scene) -> int:
        plant = scene.plant
        if plant is None:
            return UNKNOWN
        return YES if (plant.latin or plant.name.lower()) in self.names else NO

    def wakes(self) -> frozenset[Key] | None:
        return frozenset(("plant", name) for name in self.names)


class Flagged(Condition):
    """The plant in view bears a flag; `other` asks it of any plant of the batch but the one in view."""

    __slots__ = ("flag", "other")

    def __init__(self, flag: str, other: bool = False) -> None:
        self.flag = flag
        self.other = other

    def weigh(self, scene: Scene) -> int:
        if self.other:
            others = [plant for plant in scene.facts.plants if plant is not scene.plant]
            return YES if any(plant.flag(self.flag) for plant in others) else UNKNOWN if not others else NO
        if scene.plant is None or not scene.plant.is_known:
            return UNKNOWN
        return YES if scene.plant.flag(self.flag) else NO

    def wakes(self) -> frozenset[Key] | None:
        return frozenset({("flag", self.flag)})


class OfKin(Condition):
    """The plant in view is of a family or a genus."""

    # rank: family | genus
    __slots__ = ("rank", "names")  # noqa: RUF023

    def __init__(self, rank: str, names: tuple[str, ...]) -> None:
        self.rank = rank
        self.names = names

    def weigh(self, scene: Scene) -> int:
        if scene.plant is None or not scene.plant.is_known:
            return UNKNOWN
        return YES if (scene.plant.family if self.rank == "family" else scene.plant.genus) in self.names else NO

    def wakes(self) -> frozenset[Key] | None:
        return frozenset((self.rank, name) for name in self.names)


class IsPart(Condition):
    __slots__ = ("kinds",)

    def __init__(self, kinds: tuple[str, ...]) -> None:
        self.kinds = kinds

    def weigh(self, scene: Scene) -> int:
        part = scene.part()
        return UNKNOWN if not part else YES if part in self.kinds else NO

    def wakes(self) -> frozenset[Key] | None:
        return frozenset(("part", kind) for kind in self.kinds)


class PlantNamed(Condition):
    """Whether a plant is named, or is one of which nothing is known."""

    __slots__ = ("unknown",)

    def __init__(self, unknown: bool = False) -> None:
        self.unknown = unknown

    def weigh(self, scene: Scene) -> int:
        if scene.plant is None:
            return UNKNOWN if self.unknown else NO
        return YES if not self.unknown or not scene.plant.is_known else NO

    def wakes(self) -> frozenset[Key] | None:
        return frozenset({("plant", "?" if self.unknown else "any")})


_KINDS: dict[str, Callable[..., Condition]] = {
    kind.__name__: kind for kind in (And, Or, Not, Compare, AgainstUsual, Known, Tagged, IsPlant, Flagged, OfKin, IsPart, PlantNamed)
}


def to_data(condition: Condition) -> list[Any]:
    """A condition as plain lists: ["And", [[…], […]]]."""
    return [type(condition).__name__, *(_plain(value) for value in condition.values())]


def from_data(data: list[Any]) -> Condition:
    """The condition a plain list stands for."""
    kind, *values = data
    if kind in ("And", "Or"):
        return _KINDS[kind](tuple(from_data(part) for part in values[0]))
    if kind == "Not":
        return Not(from_data(values[0]))
    return _KINDS[kind](*(tuple(value) if isinstance(value, list) else value for value in values))


def usual_span(scene: Scene, what: str) -> Span | None:
    """The usual strength, ratio or daily weight of the plant in view, by its part and by fresh or dried; None where it is not known.

    Where nobody said whether it is fresh or dried, the span runs over both: what lies outside it is unusual either way.
    """
    if scene.plant is None:
        return None
    part = scene.plant.part(scene.part())
    if part is None:
        return None
    if what == "daily":
        return part.daily_dried
    fresh, dried = (part.fresh_strength, part.dried_strength) if what == "strength" else (part.fresh_ratio, part.dried_ratio)
    if "fresh" in scene.facts.tags:
        return fresh
    if "dried" in scene.facts.tags or fresh is None:
        return dried
    if dried is None:
        return fresh
    wide = (fresh if fresh.low <= dried.low else dried)._replace(high=max(fresh.high, dried.high))
    return wide._replace(low=min(fresh.low, dried.low))


def _keys_of(name: str, scene: Scene) -> list[str]:
    """The figures a name stands for: the batch's own, else the ingredient's that is in view, else every ingredient's."""
    figures = scene.facts.figures
    if name in figures:
        return [name]
    if scene.plant is not None and f"{name}[{scene.plant.name}]" in figures:
        return [f"{name}[{scene.plant.name}]"]
    of_each = scene.facts.of_each
    return keys_of_each(figures).get(name, []) if of_each is None else of_each.get(name, [])


def keys_of_each(figures: Iterable[str]) -> dict[str, list[str]]:
    """The keys of figures that ingredients have, by the quantity they are of."""
    found: dict[str, list[str]] = {}
    for key in figures:
        name, bracket, _ = key.partition("[")
        if bracket:
            found.setdefault(name, []).append(key)
    return found


def _compare(how: str, value: float, slack: float, limit: float, strict: bool) -> int:
    near = 1e-9 * max(abs(limit), 1.0)
    if how == "may be under":
        return YES if value >= limit - near and value - slack < limit - near else NO
    if how == "may be over":
        return YES if value <= limit + near and value + slack > limit + near else NO
    gap = limit - value if how in ("under", "at most") else value - limit
    least = near if how in ("under", "over") else -near  # "at least 20" holds at 20, "over 20" does not
    if gap < least or gap == near == least:
        return NO
    return UNKNOWN if strict and gap - slack < least else YES


def _plain(value: Any) -> Any:
    if isinstance(value, Condition):
        return to_data(value)
    return [_plain(one) for one in value] if isinstance(value, tuple) else value


_COMMON = frozenset({("tag", t) for t in ("fresh", "dried", "tincture", "internal", "external")} | {("plant", "any")})


def _rank(keys: frozenset[Key]) -> tuple[int, int, int, list[Key]]:
    """How good a set of keys is for waking a rule: the ones that nearly every batch bears last, few before many."""
    return (len(keys & _COMMON), sum(kind in ("figure", "part") for kind, _ in keys), len(keys), sorted(keys))
