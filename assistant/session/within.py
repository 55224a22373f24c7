"""Worked backwards: which scale, which glass, which drying test would bring a figure within a wished ±.

The wished ± less what the other sources leave is what one source may have; that is turned into a scale by its step, a glass by its class, a drying
test by the weight of its sample. Where no one source does it, all of the large ones share.
"""

from __future__ import annotations

from math import sqrt
from typing import TYPE_CHECKING

from assistant.dataclass import dataclass
from assistant.listening.statements import Reading
from assistant.matter import cylinders
from assistant.quantities.vocabulary import VOCABULARY, about, base
from assistant.reply import Question, Reply, Value
from assistant.session.exactness import Part, as_phrase, looked_into, nothing_yet, parts_of, total
from assistant.session.figuring import Worked
from assistant.session.instruments import READ_OFF, Instrument, at_hand
from assistant.session.sources import Source, name_of
from assistant.session.used import references
from assistant.session.wording import SIGNS, number, shown, slack_text

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

STEPS = (0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0)  # [g] steps that scales are sold in
SAMPLES = (5.0, 10.0, 20.0, 25.0, 50.0, 100.0, 200.0, 500.0)  # [g] of fresh plant for a drying test
LARGEST_SAMPLE = 100.0  # [g] nobody dries more of a harvest for a test
TEST_STEP = 1.0  # [g] of the scale for it, where none is known
OF_WATER = frozenset({"water_content", "other_water", "wilted_water"})
OF_STRENGTH = frozenset({"strength", "stock_strength", "strength_of"})
METER_STEPS = (0.1, 0.2, 0.5, 1.0, 2.0)  # [percent] of hydrometers


@dataclass(frozen=True, slots=True)
class Way:
    """One way to the wished ±: the source, the ± it may then have, in its own unit, and the means in words ("" where there is none)."""

    source: Source
    allowed: float
    means: str
    figures: tuple[Value, ...] = ()


def reached_by(session: Session, reading: Reading, answers: Answers) -> Reply:
    """What would bring a figure within the ± that was wished."""
    wish = reading.within
    assert wish is not None
    answers.used += references(reading)
    found = looked_into(session, reading, wish.target)
    if found is None:
        return nothing_yet(answers)
    key, worked, sources = found
    figure = worked.solution.figures[key]
    unit = VOCABULARY[base(key)].unit
    wished = wish.plus_minus if unit == wish.unit else figure.value * wish.plus_minus / 100 if wish.unit == "percent" else None
    if wished is None:
        question = Question(text=f"Within how many {unit if unit != 'percent' else '%'} is it to be?", wants=(base(key),), choices=("I need it within 1 %",))
        return answers.reply("asking", f"{as_phrase(key, figure.value)}: that is no ± of it. {question.text}", batch=worked.batch, questions=(question,))
    parts = parts_of(key, worked, sources)
    spread = total(parts)
    values = [_figure(key, figure.value, spread, worked), Value(quantity="wished_error", about=name_of(key), batch=worked.batch.title, value=wished, unit=unit,
                                                                origin="said", text=f"± {slack_text(wished, unit)}")]  # fmt: skip
    now, aimed = slack_text(spread, unit), slack_text(wished, unit)
    if now == aimed and spread > wished:
        now = f"{spread:.3g}"  # 1.01 is not yet within 1
    head = f"{as_phrase(key, figure.value, f' ± {now}')} as it stands"
    aim = f"± {aimed}{SIGNS.get(unit, '')}"
    if spread <= wished:
        room = f", within {aim} already" if parts else f": nothing it rests on has a ± that I know of, so it is within {aim}"
        lines = [head + room + "."]
        if parts:
            lines.append(f"The most of that is from {name_of(parts[0].source.key)}, ± {_own(parts[0].source)} ({parts[0].source.why}).")
        return answers.reply("answered", "\n".join(lines), batch=worked.batch, values=tuple(values))
    alone = [way for part in parts if (way := _alone(part, parts, wished, worked)) is not None]
    if alone:
        lines = [f"{head}. To have it within {aim}, any one of these:" if len(alone) > 1 else f"{head}. To have it within {aim}:"]
        ways = alone
    else:
        ways = _together(parts, wished, worked)
        lines = [f"{head}. No one thing brings it within {aim}; " + ("these together do:" if len(ways) > 1 else "this does:")]
    for n, way in enumerate(ways, 1):
        lines.append(f"{n}. {name_of(way.source.key)} to ± {_own(way.source, way.allowed)} (now ± {_own(way.source)}): {way.means}.")
        allowed = f"± {_own(way.source, way.allowed)}"
        own_unit = VOCABULARY[base(way.source.key)].unit
        values.append(Value(quantity="error_allowed", about=name_of(way.source.key), batch=worked.batch.title, value=way.allowed, unit=own_unit, text=allowed))
        values += way.figures
    return answers.reply("answered", "\n".join(lines), batch=worked.batch, values=tuple(values))


def _alone(part: Part, parts: list[Part], wished: float, worked: Worked) -> Way | None:
    """One source improved, the others left as they are; None where the others alone are more than what was wished."""
    others = sum(p.size * p.size for p in parts if p is not part)
    room = wished * wished - others
    if room <= 0:
        return None
    allowed = part.source.plus_minus * sqrt(room) / part.size
    return _way(part.source, allowed, worked) if allowed < part.source.plus_minus else None


def _together(parts: list[Part], wished: float, worked: Worked) -> list[Way]:
    """The large sources share what was wished in equal parts, the small ones stay as they are."""
    small = 0.0
    large = list(parts)
    while large:
        room = wished * wished - small
        each = sqrt(max(room, 0.0) / len(large))
        fitting = [p for p in large if p.size <= each]
        if not fitting:
            break
        small += sum(p.size * p.size for p in fitting)
        large = [p for p in large if p.size > each]
    each = sqrt(max(wished * wished - small, 0.0) / len(large)) if large else 0.0
    return [_way(p.source, p.source.plus_minus * each / p.size, worked) for p in large]


# ── the means ────────────────────────────────────────────────────────────────────────────────────────────────────────────


def _way(source: Source, allowed: float, worked: Worked) -> Way:
    name, unit = base(source.key), VOCABULARY[base(source.key)].unit
    if name in OF_WATER:
        means, figures = _drying_test(source, allowed, worked)
    elif name in OF_STRENGTH or name == "hydrometer":
        step = max((s for s in METER_STEPS if s / 2 <= allowed), default=None)
        means = f"read it with a hydrometer in {step:g} % steps, at 20 °C" if step else "finer than any hydrometer of the bench reads"
        figures = () if step is None else (_value("step", "hydrometer", step, "percent", worked),)
    elif unit == "g":
        means, figures = _scale(source, allowed, worked)
    elif unit == "mL":
        means, figures = _glass(source, allowed, worked)
    elif name == "held_per_gram":
        means, figures = "press a batch, and say what came out: your own pressings then stand in its place", ()
    else:
        means, figures = "measure it again, more than once", ()
    return Way(source, allowed, means, figures)


def _scale(source: Source, allowed: float, worked: Worked) -> tuple[str, tuple[Value, ...]]:
    own = _own_that_does(source, allowed)
    if own is not None:
        return f"weigh it on your {own.name}", ()
    step = max((s for s in STEPS if s / 2 <= allowed * (1 + 1e-9)), default=None)
    if step is None:
        return "finer than any scale of the bench reads; make a larger batch", ()
    return f"a scale in {step:g} g steps", (_value("step", "scale", step, "g", worked),)


def _glass(source: Source, allowed: float, worked: Worked) -> tuple[str, tuple[Value, ...]]:
    own = _own_that_does(source, allowed)
    if own is not None:
        return f"measure it in your {own.name}", ()
    holding = [c for c in cylinders.CYLINDERS if c.capacity >= source.value] or [cylinders.CYLINDERS[-1]]
    for cylinder in holding:
        fills = max(1, -(-int(source.value) // int(cylinder.capacity)))
        for accuracy, error in (("B", cylinder.class_b), ("A", cylinder.class_a)):
            if error * fills <= allowed * (1 + 1e-9):
                return f"a {cylinder.capacity:g} mL cylinder of class {accuracy}", (_value("capacity", "cylinder", cylinder.capacity, "mL", worked),)
    weighed = max((s for s in STEPS if s / 2 <= allowed * 0.8), default=None)
    if weighed is None:
        return "finer than any glass is; make a larger batch", ()
    return f"finer than a cylinder of that size is: weigh it, on a scale in {weighed:g} g steps", (_value("step", "scale", weighed, "g", worked),)


def _own_that_does(source: Source, allowed: float) -> Instrument | None:
    """An instrument the person has that reads this well enough; the coarsest of them is enough."""
    kind = next((k for k, quantities in READ_OFF.items() if base(source.key) in quantities), "")
    fitting = [i for i in at_hand() if i.kind == kind and (i.holds(source.value) or kind == "glass")]
    good = [(error.plus_minus, i) for i in fitting if (error := i.error(source.value)) is not None and error.plus_minus <= allowed * (1 + 1e-9)]
    return max(good, key=lambda pair: pair[0])[1] if good else None


def _drying_test(source: Source, allowed: float, worked: Worked) -> tuple[str, tuple[Value, ...]]:
    """How much to dry so that the loss tells the water well enough.

    Water W = 100 (1 − d/f) of a sample of f g that dries to d g, both read to ± u: ± W = (100 u / f) √(1 + (d/f)²).
    source    differentiation of the balance of a drying test; worked out here
    """
    scales = [i for i in at_hand() if i.kind == "scale"]
    left = 1 - source.value / 100
    best: tuple[float, str] | None = None
    for instrument in scales:
        for sample in SAMPLES:
            error = instrument.error(sample)
            if error is not None and instrument.holds(sample) and sample <= LARGEST_SAMPLE and water_error(error.plus_minus, sample, left) <= allowed:
                if best is None or sample < best[0]:
                    best = sample, f"your {instrument.name}"
                break
    if best is None:
        for step in [s for s in reversed(STEPS) if s <= TEST_STEP]:
            sample_enough = next((s for s in SAMPLES if water_error(step / 2, s, left) <= allowed), None)
            if sample_enough is not None and sample_enough <= LARGEST_SAMPLE:
                best = sample_enough, f"a scale in {step:g} g steps"
                break
    if best is None:
        return "finer than a drying test tells", ()
    sample, scale = best
    return f"dry {number(sample, 'g')} g of it until it loses no more, and weigh before and after on {scale}", (
        _value("sample", "drying test", sample, "g", worked),
    )


def water_error(read_to: float, sample: float, left: float) -> float:
    """± of a water content [percent points] by drying a sample [g] that is weighed to ± `read_to` g; `left` is the share that stays.

    >>> round(water_error(0.5, 50, 0.2), 2)
    1.02
    """
    return 100 * read_to / sample * sqrt(1 + left * left)


def _value(quantity: str, of: str, value: float, unit: str, worked: Worked) -> Value:
    return Value(quantity=quantity, about=of, batch=worked.batch.title, value=value, unit=unit, text=f"{value:g} {'%' if unit == 'percent' else unit}")


def _own(source: Source, plus_minus: float | None = None) -> str:
    unit = VOCABULARY[base(source.key)].unit
    sign = SIGNS.get(unit, "")
    return slack_text(source.plus_minus if plus_minus is None else plus_minus, unit) + sign


def _figure(key: str, value: float, spread: float, worked: Worked) -> Value:
    return Value(
        quantity=base(key),
        about=about(key),
        batch=worked.batch.title,
        value=value,
        unit=VOCABULARY[base(key)].unit,
        plus_minus=spread or None,
        text=shown(key, value),
    )
