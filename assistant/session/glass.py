"""Which glass for a volume: the one with the smallest error, reached in one fill or two."""

from __future__ import annotations

from math import floor, hypot
from typing import TYPE_CHECKING

from assistant.dataclass import dataclass
from assistant.listening.statements import GlassAsked, Reading
from assistant.matter import cylinders
from assistant.quantities.vocabulary import base
from assistant.reply import Question, Reply, Value
from assistant.session.instruments import Instrument, at_hand
from assistant.session.used import references
from assistant.session.wording import number, shown, slack_text

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

MOST_FILLS = 6  # nobody fills a cylinder more often where another will do
CLASS_WHERE_NONE = "B"  # of a glass of which nothing was said: the everyday one
LIQUIDS = ("menstruum", "stock", "pressed", "glycerine_volume", "decoction", "blend", "eo")


@dataclass(frozen=True, slots=True)
class Fill:
    """One filling: the glass, the mark it is filled to [mL], and how often."""

    glass: Instrument
    mark: float
    times: int = 1


@dataclass(frozen=True, slots=True)
class Pouring:
    """A volume measured out: what was wanted, the fillings, and the most it may be out, marks and glass together [mL]."""

    wanted: float
    fills: tuple[Fill, ...]
    error: float

    @property
    def poured(self) -> float:
        return sum(f.mark * f.times for f in self.fills)


def common_glass(capacity: float, accuracy: str = "", standard: str = "") -> Instrument:
    """A cylinder of which only the capacity is known, as such cylinders are commonly marked."""
    known = cylinders.cylinder_of(capacity)
    return Instrument("glass", f"{capacity:g} mL cylinder", capacity, known.division if known else capacity / 50, accuracy, standard)


def pourings(wanted: float, glasses: list[Instrument]) -> list[Pouring]:
    """Every way to a volume in one fill or two (more, of the largest glass, where two do not hold it), the smallest error first.

    wanted   mL, above 0;  glasses   each with a capacity

    A glass is filled to the mark nearest to what is still missing. What the marks leave over is added to the error of the glass; the same
    glass twice is out the same way twice, two glasses are independent.
    """
    found: list[Pouring] = []
    found += [_pouring(wanted, (Fill(glass, _mark(glass, wanted)),)) for glass in glasses if glass.holds(wanted)]
    for first in glasses:
        assert first.capacity is not None
        times = max(1, floor(wanted / first.capacity + 1e-9))
        rest = wanted - times * first.capacity
        if wanted < first.capacity * (1 + 1e-9):
            continue  # one fill does
        if rest < 1e-6 * wanted:
            found.append(_pouring(wanted, (Fill(first, first.capacity, times),)))
            continue
        found += [_pouring(wanted, (Fill(first, first.capacity, times), Fill(second, _mark(second, rest)))) for second in glasses if second.holds(rest)]
    few = [p for p in found if p.poured > 0 and sum(f.times for f in p.fills) <= MOST_FILLS] or [p for p in found if p.poured > 0]
    return sorted(few, key=lambda p: (round(p.error, 9), sum(f.times for f in p.fills)))


def _mark(glass: Instrument, volume: float) -> float:
    step = glass.step or _division(glass)
    return min(round(volume / step) * step, glass.capacity or volume)


def _division(glass: Instrument) -> float:
    known = cylinders.cylinder_of(glass.capacity or 0.0)
    return known.division if known is not None else (glass.capacity or 50.0) / 50


def _pouring(wanted: float, fills: tuple[Fill, ...]) -> Pouring:
    by_glass: dict[str, float] = {}
    for fill in fills:
        error = fill.glass.error(fill.mark)
        by_glass[fill.glass.name] = by_glass.get(fill.glass.name, 0.0) + (error.plus_minus if error else _division(fill.glass) / 2) * fill.times
    poured = sum(f.mark * f.times for f in fills)
    return Pouring(wanted, fills, abs(poured - wanted) + hypot(*by_glass.values()))


# ── asked ────────────────────────────────────────────────────────────────────────────────────────────────────────────────


def which(session: Session, reading: Reading, answers: Answers) -> Reply:
    """The glass for a volume, how to reach it, and what the others would be out."""
    asked = reading.glass
    assert asked is not None
    answers.used += references(reading)
    wanted, title = asked.millilitres, ""
    if wanted is None and session.last is not None:
        key = next((k for k in (*session.last_keys, *LIQUIDS) if base(k) in (*LIQUIDS, "water", "volume") and session.last.value(k)), "")
        wanted, title = (session.last.value(key), session.last.batch.title) if key else (None, "")
    if wanted is None:
        question = Question(text="Which volume is it for?", choices=("which cylinder for 12.5 mL",))
        return answers.reply("asking", question.text, questions=(question,))
    glasses, assumed = glasses_for(asked)
    ways = pourings(wanted, glasses)
    if not ways:
        question = Question(text="Which glasses are there?", choices=("which cylinder for 12.5 mL, from 10, 25, 50 and 100 mL",))
        return answers.reply("asking", question.text, questions=(question,))
    best = ways[0]
    lines = [f"{how(best)}: {shown('menstruum', best.poured)} ± {slack_text(best.error, 'mL')}."]
    if abs(best.poured - wanted) > 1e-9 * wanted:
        lines[0] += f" Its marks miss {shown('menstruum', wanted)} by {shown('menstruum', abs(best.poured - wanted))}, which is counted in."
    alone = [next(iter(pourings(wanted, [glass])), None) for glass in glasses]
    others = sorted((w for w in alone if w is not None and w.fills != best.fills and sum(f.times for f in w.fills) <= MOST_FILLS), key=lambda w: w.error)[:3]
    if others:
        lines.append("The others: " + "; ".join(f"{how(way)[:1].lower()}{how(way)[1:]} ± {slack_text(way.error, 'mL')}" for way in others) + ".")
    if assumed:
        lines.append(assumed)
    values = [_glass_value(best, title)] + [_way_value(way, title) for way in others]
    values += [Value(quantity="fill", about=f.glass.name, batch=title, value=f.mark, unit="mL", text=shown("menstruum", f.mark)) for f in best.fills]
    return answers.reply("answered", "\n".join(lines), batch=title, values=tuple(values))


def glasses_for(asked: GlassAsked) -> tuple[list[Instrument], str]:
    """The glasses to choose from: those named in the question, else the person's own, else the common ones; and what was taken for granted."""
    own = [i for i in at_hand() if i.kind == "glass" and i.capacity]
    if asked.choices:
        found = [next((i for i in own if i.capacity == c), common_glass(c, asked.accuracy or CLASS_WHERE_NONE, asked.standard)) for c in asked.choices]
        if asked.accuracy:
            found = [common_glass(c, asked.accuracy, asked.standard) for c in asked.choices]
        unknown = not asked.accuracy and any(i not in own for i in found)
        return found, "Taken as class B, the everyday cylinder; “class A” halves the error." if unknown else ""
    if own:
        return own, ""
    found = [common_glass(c.capacity, asked.accuracy or CLASS_WHERE_NONE, asked.standard) for c in cylinders.CYLINDERS]
    return found, "You have told me of no glass: taken from the common cylinders, class B. “My cylinders are 10, 50 and 100 mL” puts yours in their place."


def how(way: Pouring) -> str:
    """ "The 25 mL cylinder, filled once to 12.5 mL"."""
    first = way.fills[0]
    names = {f.glass.name for f in way.fills}
    text = f"The {first.glass.name}, filled {_times(first.times)} to {number(first.mark, 'mL')} mL"
    for fill in way.fills[1:]:
        where = "again" if names == {fill.glass.name} else f"the {fill.glass.name}"
        text += f", then {where} to {number(fill.mark, 'mL')} mL"
    return text


def _times(n: int) -> str:
    return {1: "once", 2: "twice", 3: "three times"}.get(n, f"{n} times")


def _glass_value(way: Pouring, title: str) -> Value:
    return Value(quantity="glass", about=way.fills[0].glass.name, batch=title, value=way.fills[0].glass.capacity, unit="mL", plus_minus=way.error,
                 text=f"{way.fills[0].glass.name} ± {slack_text(way.error, 'mL')} mL")  # fmt: skip


def _way_value(way: Pouring, title: str) -> Value:
    names = " and ".join(dict.fromkeys(f.glass.name for f in way.fills))
    return Value(quantity="measured_out", about=names, batch=title, value=way.poured, unit="mL", plus_minus=way.error, text=shown("menstruum", way.poured))
