"""Every relation of the house with values a bench could show, turned towards each of its quantities: for the tests of ±."""

import random
import zlib
from functools import lru_cache

import uncertainties

from assistant.dataclass import replace
from assistant.matter.function import Function
from assistant.matter.functions import FUNCTIONS
from assistant.quantities.vocabulary import VOCABULARY, base, bracket
from assistant.solving import Known, solve
from assistant.solving.compiling import NO_VALUE
from assistant.solving.expression import to_text
from assistant.solving.network import Network

MEMBERS = ("lemon balm", "thyme", "oat straw")
TRIES = 60


def _wrapped(function: Function) -> Function:
    """The function as the independent library sees it: a black box that it differentiates by itself."""
    inverse = None if function.inverse is None else uncertainties.wrap(function.inverse)
    call = function.call if function.in_steps else uncertainties.wrap(function.call)
    return replace(function, call=call, inverse=inverse, derivative=None)


@lru_cache(maxsize=1)
def _black_boxes():
    return {name: _wrapped(function) for name, function in FUNCTIONS.items()}


@lru_cache(maxsize=512)
def as_black_box(relation):
    return Network((relation,), MEMBERS, _black_boxes()).instances[0]


@lru_cache(maxsize=512)
def instance_of(relation):
    return Network((relation,), MEMBERS, FUNCTIONS).instances[0]


def directions(relation):
    """Each direction in which a relation has a closed form and no whole numbers: its equation, the slot found, and the keys."""
    instance = instance_of(relation)
    keys = instance.network.keys
    for slot in instance.slots:
        direction = instance.towards(slot)
        if direction.evaluate is not None and not direction.in_steps and not instance.has_steps:
            yield instance, slot, keys


@lru_cache(maxsize=512)
def base_values(instance):
    """Values for every slot for which the equation holds, the same at every run; None where none were met."""
    network = instance.network
    draw = random.Random(zlib.crc32(instance.relation.name.encode()))
    # what is left over is seldom above nothing: then a sum of the others is found in its place
    targets = [s for s in instance.slots if (f := instance.towards(s)).form is not None and "inverse_" not in to_text(f.form)]
    for target in targets:
        for _ in range(TRIES):
            values = [0.0] * len(network.keys)
            for slot in instance.slots:
                if slot != target:
                    values[slot] = _sensible(network.keys[slot], draw)
            try:
                values[target] = instance.towards(target).evaluate(values)
            except NO_VALUE:
                continue
            low, high = bracket(network.keys[target])
            if low < values[target] < high and abs(values[target]) > 1e-2:
                return values
    return None


def _sensible(key, draw):
    low, high = bracket(key)
    low, high = (max(low, 5.0), min(high, 80.0)) if VOCABULARY[base(key)].unit == "percent" else (max(low, 0.5), min(high, 60.0))
    return round(draw.uniform(low, max(low, high)), 2)


def with_values(instance, slot, values, spreads):
    """The figure in a slot, found from all the others with their ±; None where it does not follow."""
    keys = instance.network.keys
    known = {keys[s]: Known(values[s], plus_minus=spreads.get(s)) for s in instance.slots if s != slot}
    solution = solve(known, (instance.relation,), MEMBERS, FUNCTIONS, bracket)
    figure = solution.figures.get(keys[slot])
    return figure if figure is not None and figure.origin == "found" and not solution.conflicts else None
