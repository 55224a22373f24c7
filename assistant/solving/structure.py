"""Which unknowns can be found together: the well-determined part of what is still open, cut into its smallest groups.

Each equation is given one unknown of its own where that can be done (a matching). What hangs on an unknown that no equation could be
given is not determined (Dulmage and Mendelsohn 1958; memory); the rest falls into groups in which each unknown leads to each other
(strongly connected components, Tarjan 1972; memory). Groups come in the order in which they can be solved.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from assistant.dataclass import dataclass


@dataclass(frozen=True, slots=True)
class Group:
    """As many equations as unknowns, none of which can be found before the others."""

    equations: tuple[int, ...]
    slots: tuple[int, ...]

    @property
    def key(self) -> tuple[int, ...]:
        """The slots in rising order: the same group however its equations were handed out."""
        return tuple(sorted(self.slots))


def groups(unknown: Mapping[int, Sequence[int]]) -> list[Group]:
    """The groups that can be solved next.

    unknown  for each open equation, in order of preference, the slots not known yet
    """
    owner, owned = _matching(unknown)
    free = _undetermined(unknown, owner, owned)
    usable = [number for number in unknown if number in owned and owned[number] not in free]
    ready: list[Group] = []
    for component in _components(usable, unknown, owner, owned):
        slots = {owned[number] for number in component}
        if all(slot in slots for number in component for slot in unknown[number]):
            numbers = tuple(sorted(component))
            ready.append(Group(numbers, tuple(owned[number] for number in numbers)))
    return ready


def _matching(unknown: Mapping[int, Sequence[int]]) -> tuple[dict[int, int], dict[int, int]]:
    """slot → equation and equation → slot; earlier equations are served first and never lose out to later ones."""
    owner: dict[int, int] = {}
    owned: dict[int, int] = {}
    for number in unknown:
        before: dict[int, int] = {}  # slot → the equation from which it was reached
        queue = [number]
        end = -1
        for at in queue:
            for slot in unknown[at]:
                if slot in before:
                    continue
                before[slot] = at
                if slot not in owner:
                    end = slot
                    break
                queue.append(owner[slot])
            if end >= 0:
                break
        while end >= 0:
            at = before[end]
            previous = owned.get(at, -1)
            owner[end], owned[at] = at, end
            end = previous if at != number else -1
    return owner, owned


def _undetermined(unknown: Mapping[int, Sequence[int]], owner: Mapping[int, int], owned: Mapping[int, int]) -> set[int]:
    """The slots that hang on a slot without an equation of its own."""
    standing: dict[int, list[int]] = {}
    for number, slots in unknown.items():
        for slot in slots:
            standing.setdefault(slot, []).append(number)
    free = {slot for slot in standing if slot not in owner}
    queue = list(free)
    for slot in queue:
        for number in standing[slot]:
            hanging = owned.get(number, -1)
            if hanging >= 0 and hanging not in free:
                free.add(hanging)
                queue.append(hanging)
    return free


def _components(usable: Sequence[int], unknown: Mapping[int, Sequence[int]], owner: Mapping[int, int], owned: Mapping[int, int]) -> list[list[int]]:
    """Tarjan's components without recursion, what others hang on first. An equation leads to the owners of its other unknowns."""
    inside = set(usable)
    index: dict[int, int] = {}
    low: dict[int, int] = {}
    stack: list[int] = []
    on_stack: set[int] = set()
    found: list[list[int]] = []
    for start in usable:
        if start in index:
            continue
        path = [(start, iter(unknown[start]))]
        index[start] = low[start] = len(index)
        stack.append(start)
        on_stack.add(start)
        while path:
            number, slots = path[-1]
            for slot in slots:
                then = owner.get(slot, -1)
                if then not in inside or slot == owned[number]:
                    continue
                if then not in index:
                    index[then] = low[then] = len(index)
                    stack.append(then)
                    on_stack.add(then)
                    path.append((then, iter(unknown[then])))
                    break
                if then in on_stack:
                    low[number] = min(low[number], index[then])
            else:
                path.pop()
                if path:
                    low[path[-1][0]] = min(low[path[-1][0]], low[number])
                if low[number] == index[number]:
                    cut = stack.index(number)
                    found.append(stack[cut:])
                    on_stack.difference_update(stack[cut:])
                    del stack[cut:]
    return found
