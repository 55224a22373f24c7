"""One step as a line of arithmetic with its numbers in: "112 g × 2 = 224 mL".

A percent is told as a percent, so the hundreds that turn it into a share are not written: "112 g × 80 % = 89.6 g".
"""

from __future__ import annotations

from collections.abc import Callable

from assistant.solving.expression import INVERSE, Call, Name, Node, Number, Pair, Total
from assistant.solving.ledger import Ledger, Way
from assistant.solving.network import Instance

Show = Callable[[str, float], str]
MOST_TERMS = 6  # of a long sum; beyond that the first few and the last are told
SIGNS = {"+": " + ", "-": " − ", "*": " × ", "/": " ÷ "}
ROUNDED = {"floor": "rounded down", "ceil": "rounded up"}


def plain(_: str, value: float) -> str:
    """The value alone, where nobody says how to show one."""
    return f"{value:.6g}"


def working(ledger: Ledger, way: Way, slot: int, show: Show) -> str:
    """The line for one slot of a way."""
    network = ledger.network
    instance = network.instances[way.leading[way.slots.index(slot)]]
    key = network.keys[slot]
    result = show(key, ledger.values[slot])
    form = instance.towards(slot).form
    writer = _Writer(ledger, instance, network.parts(slot)[1], show)
    if form is None or (way.searched and slot == way.slots[0]):
        return f"{result}, found so that {writer.side(instance.equation.left)} = {writer.side(instance.equation.right)}"
    told = writer.right_side(form, wanted_percent=result.endswith("%"))
    return f"{told} = {result}"


class _Writer:
    """Writes trees of one equation with the values of one ledger."""

    def __init__(self, ledger: Ledger, instance: Instance, unknown: str, show: Show) -> None:
        self.ledger = ledger
        self.instance = instance
        self.unknown = unknown
        self.show = show
        self.told: dict[tuple[int, str], str] = {}  # by the place of the name in the equation, which outlives the writer

    def right_side(self, form: Node, *, wanted_percent: bool) -> str:
        """The right side; the hundreds of a wanted percent are not written."""
        i = self.instance.member
        return self._product(form, i, wanted_percent=wanted_percent) if _is_product(form) else self._text(form, i)

    def side(self, node: Node) -> str:
        """One side of the equation as it stands."""
        return self._text(node, self.instance.member)

    def _text(self, node: Node, i: str) -> str:
        match node:
            case Number(text):
                return text
            case Name():
                return self._figure(node, i)
            case Call():
                return self._call(node, i)
            case Total(inner, others):
                return self._total(inner, others=others)
            case Pair("+" | "-" as sign, left, right):
                hundred = self._is_percent(node, i)
                first = self._term(left, i, percent=hundred)
                second = self._term(right, i, percent=hundred)
                if left == Number("0") and sign == "-":
                    return f"−{second}"
                if sign == "-" and _is_sum(right, second):
                    second = f"({second})"
                return first + SIGNS[sign] + second
        return self._product(node, i, wanted_percent=False)

    def _figure(self, name: Name, i: str) -> str:
        """The value of a name, shown once however often it is looked at."""
        told = self.told.get((id(name), i))
        if told is None:
            key = self._key(name, i)
            told = self.told[id(name), i] = self.show(key, self.ledger.values[self.ledger.network.slot_of[key]])
        return told

    def _term(self, node: Node, i: str, *, percent: bool) -> str:
        return "100 %" if percent and node == Number("100") else self._text(node, i)

    def _key(self, name: Name, i: str) -> str:
        if not name.index:
            return name.name
        member = i if name.index == "i" else self.unknown
        return f"{name.name}[{member}]" if member else name.name

    def _product(self, node: Node, i: str, *, wanted_percent: bool) -> str:
        factors = _factors(node)
        hundreds = [factor for factor in factors if _is_hundred(factor[1])]
        if hundreds:
            percents = {is_above: sum(self._is_percent(factor, i) for side, factor in factors if side is is_above) for is_above in (True, False)}
        for hundred in hundreds:
            is_above = hundred[0]
            if percents[not is_above] > 0:
                percents[not is_above] -= 1
            elif is_above and wanted_percent:
                wanted_percent = False
            else:
                continue
            factors.remove(hundred)
        first = next((factor for factor in factors if factor[0]), None)
        if first:
            factors.remove(first)
        lead = self._factor(first[1], i) if first else "1"
        return lead + "".join(SIGNS["*" if above else "/"] + self._factor(factor, i) for above, factor in factors)

    def _factor(self, node: Node, i: str) -> str:
        text = self._text(node, i)
        return f"({text})" if _is_sum(node, text) else text

    def _is_percent(self, node: Node, i: str) -> bool:
        match node:
            case Name():
                return self._text(node, i).endswith("%")
            case Pair("+" | "-", left, right):
                sides = [side for side in (left, right) if side != Number("100")]
                return bool(sides) and all(self._is_percent(side, i) for side in sides)
        return False

    def _call(self, call: Call, i: str) -> str:
        function = self.ledger.network.functions[call.function.removeprefix(INVERSE)]
        name = function.name.replace("_", " ")
        told = [self._argument(argument, unit, i) for argument, unit in zip(call.arguments, function.takes, strict=True)]
        if call.function.startswith(INVERSE):
            if function.in_steps:
                return self._text(call.arguments[0], i)
            further = f" at {', '.join(told[1:])}" if told[1:] else ""
            return f"the value whose {name}{further} is {self._text(call.arguments[0], i)}"
        if function.name in ROUNDED:
            return f"{told[0]}, {ROUNDED[function.name]}"
        return f"{name} at {', '.join(told)} ({self._value(call, i):.5g})"

    def _argument(self, node: Node, unit: str, i: str) -> str:
        text = self._text(node, i)
        return f"{text} %" if isinstance(node, Number) and unit == "percent" else text

    def _value(self, node: Node, i: str) -> float:
        return self.ledger.network.compiler(i, self.unknown).compiled(node)(self.ledger.values)

    def _total(self, inner: Node, *, others: bool) -> str:
        members = [m for m in self.ledger.network.members if not (others and m == self.unknown)]
        if not members:
            return "0"
        if len(members) <= MOST_TERMS:
            return SIGNS["+"].join(self._text(inner, member) for member in members)
        first = SIGNS["+"].join(self._text(inner, member) for member in members[:3])
        return f"{first} + … + {self._text(inner, members[-1])} ({len(members)} in all)"


def _is_hundred(node: Node) -> bool:
    return isinstance(node, Number) and node.text == "100"


def _is_product(node: Node) -> bool:
    return isinstance(node, Pair) and node.sign in "*/"


def _is_sum(node: Node, text: str) -> bool:
    """Whether a term needs brackets as a factor or after a minus."""
    return (isinstance(node, Pair) and node.sign in "+-") or (isinstance(node, Total) and SIGNS["+"] in text)


def _factors(node: Node) -> list[tuple[bool, Node]]:
    """A product or quotient as its factors in order, each with whether it stands above the line."""
    match node:
        case Pair("*", left, right):
            return _factors(left) + _factors(right)
        case Pair("/", left, right):
            return _factors(left) + [(not above, factor) for above, factor in _factors(right)]
    return [(True, node)]
