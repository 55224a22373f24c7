"""Groups of unknowns that hang together are found by guessing one of them and closing in on the guess for which everything holds."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise

from assistant.solving.checking import check
from assistant.solving.compiling import NO_VALUE
from assistant.solving.courses import Course, Level, courses
from assistant.solving.ledger import Ledger, Way
from assistant.solving.roots import COARSE, FINE, all_roots, roots_among, roots_in_dips, scan_points
from assistant.solving.structure import Group, groups

STRAIGHT = 1e-9  # how far the slopes may differ for a curve to count as a straight line
NOTHING = 1e-10  # of the sides: an equation that holds this well for any guess is redundant
ROUNDING = 1e-6  # of the sides: what far-off guesses may leave by rounding alone
SAME = 0.0025  # of the sides: half a percent between the two
TRUE_ROOT = 1e-6  # of the sides: at a root they are equal; at a jump they only change order


def solve_next(ledger: Ledger) -> bool:
    """Find one more group, or learn that an equation is redundant; False when nothing more can be found this way."""
    return any(group.key not in ledger.stuck and Search(ledger, group).solve() for group in open_groups(ledger))


def open_groups(ledger: Ledger) -> list[Group]:
    """The groups of two and more; they depend on what is known and not on its value, so that most turns find them ready."""

    def cut() -> list[Group]:
        instances = ledger.network.instances
        unknown: dict[int, list[int]] = {}
        for number, left in enumerate(ledger.open):
            if left > 1 and number not in ledger.idle:
                slots = ledger.unknown_in(number)
                # Through floor and ceil many amounts lead to one whole number: no group is settled by guessing among them.
                if not any(instances[number].stands_in_steps(slot) for slot in slots):
                    unknown[number] = slots
        return groups(unknown)  # each of two and more: a group has every unknown of its equations

    return ledger.network.remembered((bytes(ledger.known), frozenset(ledger.idle)), cut)


class Search:
    """The search for one group of one ledger."""

    def __init__(self, ledger: Ledger, group: Group) -> None:
        self.ledger = ledger
        self.group = group
        self.brackets = {slot: ledger.brackets(ledger.network.keys[slot]) for slot in group.slots}
        spreads = [high - low for low, high in self.brackets.values()]
        self.courses = ledger.network.remembered(group, lambda: courses(ledger.network, group, spreads))

    def solve(self) -> bool:
        """Enter the group's values, or set a redundant equation aside; False when the group stays as it was."""
        for course in self.courses:
            trial = _Trial(self.ledger, course, self.brackets)
            if trial.solve():
                return True
            if trial.several:
                return self._one_of(course, trial.several)
            if not trial.has_holes:  # another guess would find the same
                break
        self.ledger.stuck[self.group.key] = self.courses[0].leading[0] if self.courses else self.group.equations[0]
        return False

    def _one_of(self, course: Course, several: list[dict[int, float]]) -> bool:
        """Enter the one of several answers that the other equations bear out; where that leaves more than one, none is taken."""
        way = Way(course.slots, course.leading, searched=True)
        borne_out = [one for one in several if self._holds_beside_the_others(way, one)]
        if len(borne_out) == 1:
            self.ledger.found(way, tuple(borne_out[0].values()))
            return True
        self.ledger.stuck[self.group.key] = course.leading[0]
        self.ledger.several[self.group.key] = borne_out or several
        return False

    def _holds_beside_the_others(self, way: Way, one: dict[int, float]) -> bool:
        trial = self.ledger.copy()
        trial.found(way, tuple(one.values()))
        trial.settle()
        check(trial)
        return not trial.clashes

    def repeats(self) -> bool:
        """Whether the group is one only by count: one of its equations repeats the others. That one is then set aside."""
        return bool(self.courses) and _Trial(self.ledger, self.courses[0], self.brackets).repeats()


Gap = tuple[float, float]  # left less right, and the size of the two


class _Trial:
    """One course being run.

    has_holes  whether some guesses led nowhere (a division by zero, a density outside its table)
    several    the values for each root, where more than one lies inside all brackets
    """

    def __init__(self, ledger: Ledger, course: Course, brackets: Mapping[int, tuple[float, float]]) -> None:
        self.ledger = ledger
        self.course = course
        self.levels = course.levels
        self.brackets = brackets
        self.has_holes = False
        self.several: list[dict[int, float]] = []

    def solve(self) -> bool:
        """Enter the values, or set a redundant equation aside; False when this guess does not lead to either."""
        for density in (COARSE, FINE):
            scan = self._scan(density)
            if self._is_redundant(scan) or self._straight(scan):
                return True
            inside, beyond = self._roots(scan)
            if len(inside) == 1:
                return self._enter(inside[0])
            if inside:
                self.several = [self._values(root) for root in inside]
                return False
        return bool(beyond) and self._enter(beyond[0])

    def repeats(self) -> bool:
        """Whether what must hold holds for any guess; it is then set aside."""
        return self._is_redundant(self._scan(COARSE))

    def _scan(self, density: tuple[int, int]) -> list[tuple[float, Gap | None]]:
        scan = [(x, self._gap(self.levels, x)) for x in scan_points(*self.brackets[self.levels[0].guess], density)]
        self.has_holes = any(gap is None for _, gap in scan)
        return scan

    def _gap(self, levels: tuple[Level, ...], guess: float) -> Gap | None:
        """What is left between the sides at the outermost level, everything else having been found; None where there is no value."""
        level = levels[0]
        values = self.ledger.values
        values[level.guess] = guess
        try:
            for evaluate, slot in level.then:
                values[slot] = evaluate(values)
            if len(levels) > 1 and not self._inner_found(levels[1:]):
                return None
            a, b = level.left(values), level.right(values)
        except NO_VALUE:
            return None
        return a - b, abs(a) + abs(b)

    def _difference(self, guess: float) -> float | None:
        gap = self._gap(self.levels, guess)
        return gap[0] if gap else None

    def _inner_found(self, levels: tuple[Level, ...]) -> bool:
        def curve(x: float) -> float | None:
            gap = self._gap(levels, x)
            return gap[0] if gap else None

        found = all_roots(curve, *self.brackets[levels[0].guess])
        return bool(found) and self._gap(levels, found[0]) is not None

    def _is_redundant(self, scan: list[tuple[float, Gap | None]]) -> bool:
        """An equation that holds by the same share whatever is guessed tells nothing of the guess: it repeats the others.

        One that fails by the same share, though every guess has a value, contradicts them. (A share of a whole says only that the sides
        have opposite signs throughout, or that one of them is nothing.)
        """
        shares = sorted(gap[0] / gap[1] if gap[1] else 0.0 for _, gap in scan if gap)
        if len(shares) < 3 or shares[-1] - shares[0] > ROUNDING:
            return False
        # Guesses far from any sense leave rounding behind, so that it is the bulk of them that tells.
        quarter = len(shares) // 4
        least, most = shares[quarter], shares[-1 - quarter]
        if most - least > NOTHING:
            return False
        share = abs(least)
        contradicts = share > SAME
        if contradicts and (self.has_holes or share > 1 - ROUNDING):
            return False
        self.ledger.idle.add(self.course.leading[0])
        if contradicts:
            self.ledger.clashes.append(self.course.leading[0])
        return True

    def _straight(self, scan: list[tuple[float, Gap | None]]) -> bool:
        """Where the gap is a straight line its root is known at once, and may lie outside the bracket: that too is an answer."""
        quarter = len(scan) // 4
        middle = [(x, *gap) for x, gap in scan[quarter : len(scan) - quarter] if gap]
        if len(middle) < 3:
            return False
        slopes = [(y1 - y0) / (x1 - x0) for (x0, y0, _), (x1, y1, _) in pairwise(middle)]
        steepest = max(slopes, key=abs)
        if steepest == 0 or max(slopes) - min(slopes) > STRAIGHT * abs(steepest):
            return False
        x, y, _ = min(middle, key=lambda point: abs(point[1]))
        root = x - y / steepest
        once_more = self._difference(root)  # takes out the rounding of a root far from the scan
        if once_more is None:
            return False
        root -= once_more / steepest
        left = self._difference(root)  # where the line bends outside the middle its root is none
        return left is not None and abs(left) <= TRUE_ROOT * max(size for _, _, size in middle) and self._enter(root)

    def _roots(self, scan: list[tuple[float, Gap | None]]) -> tuple[list[float], list[float]]:
        """The roots with every value inside its bracket, and the others."""
        inside: list[float] = []
        beyond: list[float] = []
        differences = [(x, gap[0] if gap else None) for x, gap in scan]
        for root in list(roots_among(self._difference, differences)) or roots_in_dips(self._difference, differences):
            gap = self._gap(self.levels, root)
            if gap and abs(gap[0]) <= TRUE_ROOT * gap[1]:
                (inside if self._all_inside() else beyond).append(root)
        return inside, beyond

    def _all_inside(self) -> bool:
        values = self.ledger.values
        return all(low - 1e-9 * abs(low) - 1e-12 <= values[slot] <= high * (1 + 1e-9) for slot, (low, high) in self.brackets.items())

    def _values(self, guess: float) -> dict[int, float]:
        self._gap(self.levels, guess)
        return {slot: self.ledger.values[slot] for slot in self.course.slots}

    def _enter(self, guess: float) -> bool:
        if self._gap(self.levels, guess) is None:
            return False
        slots = self.course.slots
        self.ledger.found(Way(slots, self.course.leading, searched=True), tuple([self.ledger.values[slot] for slot in slots]))
        return True
