"""The relations of a batch as a network: which quantities stand in which equations, and each equation turned towards each of them.

A network is built once for a set of relations and ingredients and then kept; it holds no values. Equations are numbered in the order
the relations were listed, which is the order of preference; an indexed relation makes one equation for each ingredient.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping, Sequence
from functools import lru_cache
from typing import Any, TypeVar, cast

from assistant.matter.function import Function
from assistant.relations.relation import Relation
from assistant.solving.compiling import Compiler, Evaluate
from assistant.solving.expression import Call, Equation, Name, Node, Pair, functions_of, holds_a_difference, read_equation
from assistant.solving.forms import right_side
from assistant.solving.isolating import opened, times_mentioned


class Direction:
    """An equation turned towards one unknown.

    evaluate  gives the unknown from the list of values; None where a root has to be searched for
    form      the right side as a tree, for the working
    in_steps  the way leads back through floor or ceil: a least amount, not the only one
    takes_off it holds a difference, so that rounding may be all that is left
    """

    __slots__ = ("evaluate", "form", "in_steps", "takes_off")

    def __init__(self, evaluate: Evaluate | None, form: Node | None, *, in_steps: bool) -> None:
        self.evaluate = evaluate
        self.form = form
        self.in_steps = in_steps
        self.takes_off = form is not None and holds_a_difference(form)


class Instance:
    """One equation of the network, for one ingredient where the relation is indexed.

    number     its place in the order of preference
    slots      the quantities in it, in order of mention
    has_steps  whether it holds floor or ceil
    """

    __slots__ = ("_directions", "_sides", "equation", "has_steps", "member", "network", "number", "relation", "slots")

    def __init__(self, network: Network, number: int, relation: Relation, equation: Equation, member: str) -> None:
        self.network = network
        self.number = number
        self.relation = relation
        self.equation = equation
        self.member = member
        self.slots: tuple[int, ...] = tuple(dict.fromkeys(self._all_slots()))
        self._directions: dict[int, Direction] = {}
        self._sides: tuple[Evaluate, Evaluate] | None = None
        called = functions_of(equation.left) | functions_of(equation.right)
        self.has_steps = any(network.functions[name].in_steps for name in called if name in network.functions)

    def _all_slots(self) -> list[int]:
        slots: list[int] = []
        for name in self.equation.names:
            if not name.index:
                slots.append(self.network.slot(name.name, ""))
                continue
            if self.member:
                slots.append(self.network.slot(name.name, self.member))
            if name in self.equation.in_sums:
                slots.extend(self.network.slot(name.name, member) for member in self.network.members)
        return slots

    def sides(self) -> tuple[Evaluate, Evaluate]:
        """Both sides as functions of the list of values."""
        if self._sides is None:
            compiler = self.network.compiler(self.member)
            self._sides = compiler.compiled(self.equation.left), compiler.compiled(self.equation.right)
        return self._sides

    def towards(self, slot: int) -> Direction:
        """The equation turned towards one of its quantities."""
        direction = self._directions.get(slot)
        if direction is None:
            direction = self._directions[slot] = self._turned(slot)
        return direction

    def stands_in_steps(self, slot: int) -> bool:
        """Whether a quantity stands inside floor or ceil, so that the equation gives the least of it that is enough, not its value."""
        return self.has_steps and self.towards(slot).in_steps

    def _unknown(self, slot: int) -> Name:
        name, member = self.network.parts(slot)
        return Name(name, "" if not member else "i" if member == self.member else "j")

    def _turned(self, slot: int) -> Direction:
        unknown, member = self._unknown(slot), self.network.parts(slot)[1]
        form = right_side(self.relation.equation, unknown, self.network.functions)
        in_steps = self.has_steps and any(
            _stands_in_steps(opened(side, unknown), unknown, self.network.functions) for side in (self.equation.left, self.equation.right)
        )
        if form is None:
            return Direction(None, None, in_steps=in_steps)
        return Direction(self.network.compiler(self.member, member).compiled(form), form, in_steps=in_steps)


def _stands_in_steps(node: Node, unknown: Name, functions: Mapping[str, Function]) -> bool:
    match node:
        case Pair(_, left, right):
            return _stands_in_steps(left, unknown, functions) or _stands_in_steps(right, unknown, functions)
        case Call(function, arguments) if times_mentioned(node, unknown):
            known = functions.get(function)  # none for an inverse, which goes by no steps of its own
            return (known is not None and known.in_steps) or any(_stands_in_steps(argument, unknown, functions) for argument in arguments)
    return False


T = TypeVar("T")
MOST_REMEMBERED = 2000  # things kept for one network: a long conversation must not grow without end


class Network:
    """All equations, all keys, and which equations touch a key.

    keys       key of each slot, in order of first mention
    instances  equations in order of preference
    touching   for each slot the numbers of its equations, rising
    """

    def __init__(self, relations: Sequence[Relation], members: Sequence[str], functions: Mapping[str, Function]) -> None:
        self.members = tuple(members)
        self.functions = functions
        self.keys: list[str] = []
        self.slot_of: dict[str, int] = {}
        self._parts: list[tuple[str, str]] = []
        self._remembered: dict[Hashable, Any] = {}
        self.instances: list[Instance] = []
        for relation in relations:
            equation = read_equation(relation.equation)
            if equation.is_indexed:
                for member in self.members:
                    self._add(relation, equation, member)
            elif self.members or not equation.in_sums:  # a sum over nothing tells nothing
                self._add(relation, equation, "")
        self.touching: list[list[int]] = [[] for _ in self.keys]
        for instance in self.instances:
            for slot in instance.slots:
                self.touching[slot].append(instance.number)

    def _add(self, relation: Relation, equation: Equation, member: str) -> None:
        self.instances.append(Instance(self, len(self.instances), relation, equation, member))

    def slot(self, name: str, member: str) -> int:
        """The place of a quantity in the list of values."""
        key = f"{name}[{member}]" if member else name
        slot = self.slot_of.get(key)
        if slot is None:
            slot = self.slot_of[key] = len(self.keys)
            self.keys.append(key)
            self._parts.append((name, member))
        return slot

    def parts(self, slot: int) -> tuple[str, str]:
        """Name and ingredient of a slot; the ingredient is "" for a quantity of the whole batch."""
        return self._parts[slot]

    def compiler(self, own: str, unknown: str = "") -> Compiler:
        """Compiles trees of an equation written for one ingredient."""
        return Compiler(self.slot, self.members, self.functions, own, unknown)

    def remembered(self, what: Hashable, make: Callable[[], T]) -> T:
        """Something that depends on the network alone, made once."""
        if what not in self._remembered:
            if len(self._remembered) >= MOST_REMEMBERED:
                self._remembered.clear()
            self._remembered[what] = make()
        return cast(T, self._remembered[what])


def network_of(relations: Sequence[Relation], members: Sequence[str], functions: Mapping[str, Function]) -> Network:
    """The network of these relations, built at most once for each set while it is in use."""
    return _kept(tuple(relations), tuple(members), tuple(functions.values()))


@lru_cache(maxsize=64)
def _kept(relations: tuple[Relation, ...], members: tuple[str, ...], functions: tuple[Function, ...]) -> Network:
    return Network(relations, members, {function.name: function for function in functions})
