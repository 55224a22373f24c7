"""What is known so far about one batch, and how each value came to be: given, or found by an equation.

Values are entered one by one; each entry may leave an equation with a single unknown, which is then found, nearest to what was
given first and earlier relations first. Nothing is ever rescanned. An equation that comes to be known throughout without having
found anything waits to be checked (checking.py); one that does not hold is a clash.
"""

from __future__ import annotations

from collections.abc import Callable
from heapq import heappop, heappush

from assistant.dataclass import dataclass
from assistant.solving.compiling import NO_VALUE
from assistant.solving.network import Network
from assistant.solving.roots import all_roots

Brackets = Callable[[str], tuple[float, float]]
BENCH = 1e-3  # a milligram, a microlitre: less than any bench can tell
ROUNDING = 1e-12  # of the two sides together
SHARE = 0.005  # a said value may be off by half a percent before it contradicts another


@dataclass(frozen=True, slots=True)
class Way:
    """How one or more values were found: the equations that hold, and the slots they found together, in the order of finding.

    leading   for each slot the equation that gave it; the first slot of a searched group has the equation that had to hold
    searched  the first slot was found by a bracketed search
    """

    slots: tuple[int, ...]
    leading: tuple[int, ...]
    searched: bool = False


class Ledger:
    """Values, origins and open equations of one attempt; `copy` is cheap, so that an assumption can be tried and taken back."""

    __slots__ = (
        "_later",
        "_queue",
        "_wave",
        "brackets",
        "clashes",
        "idle",
        "known",
        "network",
        "open",
        "order",
        "several",
        "slack",
        "stuck",
        "unchecked",
        "values",
        "way",
    )

    def __init__(self, network: Network, brackets: Brackets) -> None:
        size = len(network.keys)
        self.network = network
        self.brackets = brackets
        self.values = [0.0] * size
        self.known = bytearray(size)
        self.open = [len(instance.slots) for instance in network.instances]
        self.way: list[Way | None] = [None] * size
        self.order: list[int] = []
        self.slack: dict[int, float] = {}  # given slots → how far each may be off
        self.unchecked: list[int] = []
        self.clashes: list[int] = []
        self.idle: set[int] = set()  # equations that can tell nothing here: redundant, or without a value
        self.stuck: dict[tuple[int, ...], int] = {}  # slots for which no one value was found → the equation that could not be met
        self.several: dict[tuple[int, ...], list[dict[int, float]]] = {}  # those with more than one possible value → slot → value, for each
        self._wave = [0] * size
        self._queue: list[tuple[int, int]] = []
        self._later: list[int] = []

    def copy(self) -> Ledger:
        """The same state, to try something on."""
        twin = object.__new__(Ledger)
        twin.network = self.network
        twin.brackets = self.brackets
        twin.values = self.values.copy()
        twin.known = self.known.copy()
        twin.open = self.open.copy()
        twin.way = self.way.copy()
        twin.order = self.order.copy()
        twin.slack = self.slack.copy()
        twin.unchecked = self.unchecked.copy()
        twin.clashes = self.clashes.copy()
        twin.idle = self.idle.copy()
        twin.stuck = self.stuck.copy()
        twin.several = self.several.copy()
        twin._wave = self._wave.copy()
        twin._queue = self._queue.copy()
        twin._later = self._later.copy()
        return twin

    def give(self, slot: int, value: float, slack: float) -> None:
        """Enter a value that was said, measured or assumed; `slack` is how far its digits let it be off, in its own unit."""
        self.slack[slot] = max(SHARE * abs(value), slack)
        self._enter(slot, value, None, 0)

    def found(self, way: Way, values: tuple[float, ...], wave: int = 0) -> None:
        """Enter values that were found; `wave` is how many finds lie before them, worked out where it is not given."""
        if not wave:
            inputs = (slot for number in way.leading for slot in self.network.instances[number].slots if self.known[slot])
            wave = 1 + max((self._wave[slot] for slot in inputs), default=0)
        self.idle.update(way.leading)
        for slot, value in zip(way.slots, values, strict=True):
            self._enter(slot, value, way, wave)

    def _enter(self, slot: int, value: float, way: Way | None, wave: int) -> None:
        self.values[slot] = value
        self.known[slot] = True
        self.way[slot] = way
        self._wave[slot] = wave
        self.order.append(slot)
        left = self.open
        for number in self.network.touching[slot]:
            left[number] -= 1
            if left[number] <= 1 and number not in self.idle:
                heappush(self._queue, (wave + 1, number))

    def unknown_in(self, number: int) -> list[int]:
        """The slots of an equation that are not known yet."""
        known = self.known
        return [slot for slot in self.network.instances[number].slots if not known[slot]]

    def settle(self) -> None:
        """Find whatever a single equation gives, until no equation has just one unknown."""
        while self._queue:
            wave, number = heappop(self._queue)
            if number in self.idle:
                continue
            if self.open[number] == 0:
                self.idle.add(number)
                self.unchecked.append(number)
            elif self.open[number] == 1:
                self._find_one(number, wave)

    def _find_one(self, number: int, wave: int) -> None:
        (slot,) = self.unknown_in(number)
        direction = self.network.instances[number].towards(slot)
        if direction.in_steps:
            heappush(self._later, number)
            return
        if direction.evaluate is None:
            value = self.searched(number, slot)
        else:
            try:
                value = direction.evaluate(self.values)
            except NO_VALUE:
                value = None
            if value is not None and direction.takes_off and self._is_rounding(number, slot, value):
                value = None
        if value is None:
            self.stuck[(slot,)] = number
        else:
            self.found(Way((slot,), (number,), direction.evaluate is None), (value,), wave)

    def _is_rounding(self, number: int, slot: int, value: float) -> bool:
        """Whether the equation holds as well far beside the value, which is then what rounding left of a difference of equals."""
        self.values[slot] = value + max(abs(value), BENCH)
        gap = self.gap(number)
        return gap is not None and abs(gap[0]) <= ROUNDING * gap[1]

    def take_least(self) -> bool:
        """Go back through one floor or ceil, to the least amount that is enough; only when nothing else tells more."""
        while self._later:
            number = heappop(self._later)
            if self.open[number] != 1 or number in self.idle:
                continue
            (slot,) = self.unknown_in(number)
            evaluate = self.network.instances[number].towards(slot).evaluate
            try:
                value = evaluate(self.values) if evaluate else None
            except NO_VALUE:
                value = None
            if value is not None:
                self.found(Way((slot,), (number,)), (value,))
                return True
        return False

    def forgo_least(self) -> None:
        """Leave the next floor or ceil as it is: going back through it contradicts what was said."""
        if self._later:
            heappop(self._later)

    def searched(self, number: int, slot: int) -> float | None:
        """The one value inside the bracket for which one equation holds; the slot itself is left unknown."""
        left, right = self.network.instances[number].sides()
        values = self.values

        def curve(x: float) -> float | None:
            values[slot] = x
            try:
                return left(values) - right(values)
            except NO_VALUE:
                return None

        found = all_roots(curve, *self.brackets(self.network.keys[slot]))
        if len(found) > 1:
            self.several[(slot,)] = [{slot: value} for value in found]
        return found[0] if len(found) == 1 else None

    def gap(self, number: int) -> tuple[float, float] | None:
        """Left less right side of an equation, and the size of the two; None where they have no value."""
        left, right = self.network.instances[number].sides()
        try:
            a, b = left(self.values), right(self.values)
        except NO_VALUE:
            return None
        return a - b, abs(a) + abs(b)
