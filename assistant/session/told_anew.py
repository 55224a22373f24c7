"""More found, and what it comes to then: "found another cup, so three", "and another 100, so 600". The sum tells which figure is meant."""

from __future__ import annotations

import re

from assistant.dataclass import replace
from assistant.listening.statements import Loose, Reading, Said, forget
from assistant.patterns import looked_for
from assistant.quantities.units import units
from assistant.quantities.vocabulary import VOCABULARY, about, base
from assistant.session.added_on import NO_AMOUNT
from assistant.session.batch import Batch, Fact
from assistant.session.renumbering import size_said

MORE = looked_for(r"\b(?:another|more|extra|further|additional|found|turned up|on top|add(?:ed)?|plus)\b", re.IGNORECASE)
# "Another cup", "one more pint": a measure without a figure of its own.
ONE_MEASURE = looked_for(r"\b(?:another|one more|one extra|an extra|a further|a|one|1)\s+(?:more\s+|extra\s+)?(?P<unit>[a-z]+)\b", re.IGNORECASE)
COMES_TO = looked_for(
    r"(?:\b(?:so|that['’]?s|thats|makes?|making|which is|now|total|altogether|all told|in all|comes? to|then)\b|=)"
    r"(?:\W*(?:it['’]?s|there['’]?s|i['’]?ve|we['’]?ve|i|we|have|got|that['’]?s|is|it|in all|about|makes?|total|of|now)\b)*\W*$",
    re.IGNORECASE,
)
COUNTED = frozenset({"g", "mL", "drop", "1"})
NEAR = 0.005  # of the sum


def told_anew(reading: Reading, batch: Batch | None) -> None:
    """Let the sum that was said take the place of the figure it was added to, where just one figure of the batch makes it. Changes the reading."""
    if batch is None or reading.ingredients or reading.liquids or reading.named or not MORE.search(reading.heard):
        return
    figures = reading.figures
    if _another_alone(reading, batch) or not 1 <= len(figures) <= 2:
        return
    total = figures[-1]
    if not COMES_TO.search(reading.heard[: total.start]):
        return
    more = figures[0] if len(figures) == 2 else None
    unit = _measure_before(reading, total) if more is None or _is_bare(more) else more.said_unit
    if more is None and not unit:
        return
    told = {k: f for k, f in batch.facts.items() if f.origin == "said" and VOCABULARY[base(k)].unit in COUNTED}
    kind = _bench_unit(more) if more is not None else ""
    told = {k: f for k, f in told.items() if not kind or VOCABULARY[base(k)].unit == kind}
    found = [(key, size) for key, fact in told.items() if (size := _sum(fact, more, total, unit, reading.measures)) is not None]
    if len(found) == 1:
        _let_be(reading, batch, *found[0], total)
    elif not found and len(only := _amounts(told)) == 1:
        fact = told[only[0]]
        more_of_it, all_of_it = (_sizes(f, fact, unit, reading.measures)[0] for f in (more, total))
        _let_be(reading, batch, only[0], fact.value + more_of_it, total)
        _let_be(reading, batch, only[0], all_of_it, total)  # two figures for one thing: which holds is asked
    elif kind and not told and isinstance(more, Said) and _is_bare(total):  # of a figure that was worked out: the sum in the unit that was said
        forget(total, reading.said, reading.loose)
        reading.said.append(replace(more, value=_number(total) * size_said(more.said_unit, reading.measures), start=total.start, end=total.end))
    else:
        return
    if more is not None:
        reading.only_points(more)
    reading.let_go("claim", "check", "scale_n")


def _let_be(reading: Reading, batch: Batch, key: str, value: float, figure: Said | Loose) -> None:
    forget(figure, reading.said, reading.loose)
    reading.said.append(Said(base(key), value, figure.start, figure.end, about(key), batch.facts[key].said_unit))


def _amounts(told: dict[str, Fact]) -> list[str]:
    return [k for k in told if VOCABULARY[base(k)].unit in ("g", "mL") and base(k) not in NO_AMOUNT]


ALONE = looked_for(
    r"^\W*(?:(?:and|ok|oh|so|i['’]?ve|i|we|have|found|got|add|added|there['’]?s|with|put in|pour(?:ed)? in|make that|tip(?:ped)? in)\W+)*"
    r"(?P<more>another|one more|1 more|one extra|an extra|a further)\s+(?P<unit>[a-z]+)(?:\s+(?:more|extra))?(?:\s+of\s+(?:the |my |that )?(?P<of>[a-z]+))?"
    r"(?:\s+(?:in|now|then|too|as well|on top|at the back|of it))*\W*$",
    re.IGNORECASE,
)


def _another_alone(reading: Reading, batch: Batch) -> bool:
    """ "Found another cup": one more of the measure an amount was told in, where there is one such amount. Changes the reading where it is so."""
    hit = ALONE.match(reading.heard)
    unit = units().spellings.get(hit["unit"].lower()) if hit is not None else None
    if hit is None or unit is None or unit.dimension not in ("mass", "volume") or any(not (_is_bare(f) and f.value == 1) for f in reading.figures):
        return False
    facts = {k: f for k, f in batch.facts.items() if f.origin == "said"}
    keys = [k for k in _amounts(facts) if units().spellings.get(facts[k].said_unit.lower()) is unit]
    keys = keys or [k for k in _amounts(facts) if VOCABULARY[base(k)].unit == unit.bench]
    if hit["of"] and hit["of"].lower() != "it":
        keys = [k for k in keys if about(k) and hit["of"].lower() in about(k).split()]
    if len(keys) != 1:
        return False
    for bare in [f for f in reading.loose if _is_bare(f)]:
        reading.only_points(bare)
    reading.said[:] = []
    reading.let_go("claim", "check", "scale_n", "scale")
    value = facts[keys[0]].value + unit.size(reading.measures)
    reading.said.append(Said(base(keys[0]), value, hit.start("more"), hit.end("unit"), about(keys[0]), facts[keys[0]].said_unit))
    return True


def _measure_before(reading: Reading, total: Said | Loose) -> str:
    """The measure of "another cup", "one more pint"."""
    hits = [m["unit"] for m in ONE_MEASURE.finditer(reading.heard[: total.start]) if m["unit"].lower() in units().spellings]
    return hits[-1] if hits else ""


def _is_bare(figure: Said | Loose) -> bool:
    return isinstance(figure, Loose) and figure.kind in ("#", "n")


def _bench_unit(figure: Said | Loose) -> str:
    """g or mL, where the figure was said with a unit; "" for a bare one."""
    unit = VOCABULARY[figure.quantity].unit if isinstance(figure, Said) else figure.unit
    return unit if figure.said_unit and unit in ("g", "mL") else ""


def _number(figure: Said | Loose) -> float:
    return figure.number if isinstance(figure, Loose) and figure.number is not None else figure.value


def _sizes(figure: Said | Loose | None, fact: Fact, unit: str, measures: str) -> list[float]:
    """What a figure may be in bench units: as it was said, a bare one in the fact's unit, in the measure beside it, or as it is."""
    own = size_said(fact.said_unit, measures)
    measure = size_said(unit, measures) if unit else own
    if figure is None:
        return [measure]
    return [figure.value] if not _is_bare(figure) else [_number(figure) * size for size in dict.fromkeys((own, measure, 1.0))]


def _sum(fact: Fact, more: Said | Loose | None, total: Said | Loose, unit: str, measures: str) -> float | None:
    """What the fact comes to with what was found, in bench units, where that is the sum that was said; else None."""
    sums, added = _sizes(total, fact, unit, measures), _sizes(more, fact, unit, measures)
    return next((s for s in sums for a in added if a > 0 and abs(fact.value + a - s) <= NEAR * s), None)
