"""Spirit, vessels and herb that do not reach, shared out so that the least plant is left over.

Each batch is made to some share of what was planned, between its least and its full pour of spirit. That is a linear programme, with
whole vessels where vessels are scarce; the solver library looks for it, not we.
"""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress

from assistant.dataclass import dataclass
from assistant.faults import BenchError

DUST = 1e-6  # of a share: what is less is nothing


@dataclass(frozen=True, slots=True)
class Planned:
    """One batch as planned.

    spirit   stock spirit of the full pour  [mL]
    least    stock spirit below which it may not fall, all of the plant in it  [mL], at most `spirit`
    herb     plant planned  [g]
    there    plant there is  [g], at most `herb`
    fills    what plant and liquid fill together  [mL]
    """

    name: str
    spirit: float
    least: float
    herb: float
    there: float
    fills: float


@dataclass(frozen=True, slots=True)
class Share:
    """What becomes of a batch: the share of its plant that goes in, 0 to 1, the spirit it gets [mL], and the vessels it stands in."""

    name: str
    made: float
    spirit: float
    vessels: int = 0


def least_left(plans: Sequence[Planned], spirit: float, vessels: int | None = None, vessel: float = 0.0) -> list[Share]:
    """The shares that leave the least plant over; of those as good, the ones that weaken least.

    spirit    stock spirit there is  [mL]
    vessels   whole vessels there are, each of `vessel` mL; None where they are not scarce
    fails     BenchError, where the solver finds no answer
    source    linear programming by HiGHS, as scipy carries it

    >>> [round(s.made, 3) for s in least_left([Planned("nettle", 100, 100, 50, 50, 150), Planned("elder", 100, 100, 80, 80, 180)], 150)]
    [0.5, 1.0]
    """
    import numpy
    from scipy.optimize import LinearConstraint, milp

    count = len(plans)
    # made share (0 … there/herb), spirit as a share of the full pour, whole vessels
    herb = numpy.array([p.herb for p in plans])
    pour = numpy.array([p.spirit for p in plans])
    size = count * (3 if vessels is not None else 2) + 1  # and last, the most that any of them is weakened
    weaken = 1e-4 * herb.sum() / max(pour.sum(), 1e-9)  # a plant left over counts ten thousand times as much as spirit not given
    gain = numpy.zeros(size)
    gain[:count] = -herb
    gain[count : 2 * count] = -weaken * pour
    gain[-1] = weaken * pour.sum() * 0.01  # as evenly as may be
    rows, top = [], []
    for i, plan in enumerate(plans):
        row = numpy.zeros(size)
        row[count + i], row[i] = 1.0, -1.0  # no more spirit than the full pour of what is made
        rows.append(row)
        top.append(0.0)
        row = numpy.zeros(size)
        row[i], row[count + i] = plan.least / plan.spirit, -1.0  # and no less than its least
        rows.append(row)
        top.append(0.0)
        row = numpy.zeros(size)
        row[i], row[count + i], row[-1] = 1.0, -1.0, -1.0
        rows.append(row)
        top.append(0.0)
    row = numpy.zeros(size)
    row[count : 2 * count] = pour
    rows.append(row)
    top.append(spirit)
    whole = numpy.zeros(size)
    high = numpy.concatenate([[min(1.0, p.there / p.herb) for p in plans], numpy.ones(count)])
    if vessels is not None:
        for i, plan in enumerate(plans):
            row = numpy.zeros(size)
            row[i], row[2 * count + i] = plan.fills, -vessel
            rows.append(row)
            top.append(0.0)
        row = numpy.zeros(size)
        row[2 * count : 3 * count] = 1.0
        rows.append(row)
        top.append(float(vessels))
        whole[2 * count : 3 * count] = 1.0
        high = numpy.concatenate([high, numpy.full(count, float(vessels))])
    high = numpy.concatenate([high, [1.0]])
    with _quiet():
        found = milp(gain, integrality=whole, bounds=(numpy.zeros(size), high), constraints=LinearConstraint(numpy.array(rows), ub=numpy.array(top)))
    if found.x is None:
        raise BenchError("no way to share that out was found", where=", ".join(p.name for p in plans), try_this="say what each wants again")
    made, poured = found.x[:count], found.x[count : 2 * count]
    stood = found.x[2 * count : 3 * count] if vessels is not None else numpy.zeros(count)
    return [
        Share(p.name, float(m) if m > DUST else 0.0, float(s * p.spirit) if m > DUST else 0.0, round(float(v)))
        for p, m, s, v in zip(plans, made, poured, stood, strict=True)
    ]


@contextmanager
def _quiet() -> Iterator[None]:
    """The solver's own remarks kept off the screen: it is no Python, and prints past every stream of ours."""
    with suppress(OSError):
        kept = os.dup(1)
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, 1)
        os.close(nowhere)
        try:
            yield
        finally:
            os.dup2(kept, 1)
            os.close(kept)
        return
    yield  # there is no screen


def in_order(plans: Sequence[Planned], spirit: float) -> list[Share]:
    """Each in its turn gets its full pour, as long as the spirit lasts; the first that does not is made in part.

    >>> [(s.made, s.spirit) for s in in_order([Planned("nettle", 100, 100, 50, 50, 150), Planned("elder", 100, 100, 80, 80, 180)], 150)]
    [(1.0, 100.0), (0.5, 50.0)]
    """
    shares, left = [], spirit
    for plan in plans:
        made = max(0.0, min(1.0, plan.there / plan.herb, left / plan.spirit))
        shares.append(Share(plan.name, made, made * plan.spirit))
        left -= made * plan.spirit
    return shares
