"""One measure in two countries: "86 proof, American, and British?", "a US pint against an imperial one": both, and the gap."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.listening.statements import Loose, Reading, Said
from assistant.patterns import looked_for
from assistant.quantities.units import Unit, units
from assistant.reply import Reply, Step, Value
from assistant.session.repeating import refer
from assistant.session.wording import number

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

AMERICAN = looked_for(r"\b(?:american?|us|u\.s\.?|states|customary)\b", re.IGNORECASE)
BRITISH = looked_for(r"\b(?:imperial|british|uk|u\.k\.?|english|sikes|britain)\b", re.IGNORECASE)
ASKS = looked_for(r"\?|\b(?:what|how many|how much|which|give|convert|difference|gap)\b", re.IGNORECASE)
COUNTRIES = (("US", "us"), ("imperial", "imperial"))
PROOF_SIZES = (("US proof", 0.5), ("UK proof", 0.5715))  # percent by volume for one degree
UNITS = {"mL": "mL", "percent": "%"}


def both_countries(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """The same count by both countries' measure, None where a sentence does not ask for both."""
    heard = reading.heard
    if not (AMERICAN.search(heard) and BRITISH.search(heard) and ASKS.search(heard)) or reading.named or reading.ingredients or reading.liquids:
        return None
    figures = reading.figures
    proofs = [f for f in figures if f.said_unit in dict(PROOF_SIZES)]
    if proofs and len(proofs) == len([f for f in figures if not _is_bare(f)]):
        counts = [p.value / dict(PROOF_SIZES)[p.said_unit] for p in proofs]
        pair = [(name, counts[min(i, len(counts) - 1)], size) for i, (name, size) in enumerate(PROOF_SIZES)]
        return _told(session, reading, answers, pair, "percent", "proof")
    told = [(f, unit) for f in figures if (unit := _measure(f)) is not None]
    if not told or len(told) < len([f for f in figures if not _is_bare(f)]) or len({unit.name for _, unit in told}) > 1:
        return None
    unit = told[0][1]
    counts = [_count(f.value, unit) for f, _ in told]
    british_first = BRITISH.search(heard).start() < AMERICAN.search(heard).start()  # type: ignore[union-attr]
    if len(counts) == 2 and british_first:
        counts.reverse()
    pair = [(name, counts[min(i, len(counts) - 1)], unit.size(country)) for i, (name, country) in enumerate(COUNTRIES)]
    return _told(session, reading, answers, pair, "mL", unit.shown)


def _is_bare(figure: Said | Loose) -> bool:
    """ "Three imperial ones": a number whose unit was said before."""
    return isinstance(figure, Loose) and figure.kind in ("#", "n")


def _measure(figure: Said | Loose) -> Unit | None:
    """The unit of volume a figure was said in, where the countries differ in its size."""
    unit = units().spellings.get(figure.said_unit.lower())
    if unit is not None and unit.bench == "g" and unit.name == "ounce":
        return None
    return unit if unit is not None and unit.bench == "mL" and unit.size("us") != unit.size("imperial") else None


def _count(volume: float, unit: Unit) -> float:
    """How many of the unit a volume was said as: by the country that makes it a plain number."""
    counts = [volume / unit.size(country) for country in ("us", "imperial", "metric")]
    return min(counts, key=lambda n: abs(n - round(n, 2)))


def _told(session: Session, reading: Reading, answers: Answers, pair: list[tuple[str, float, float]], bench: str, called: str) -> Reply:
    """Both sides and the gap between them."""
    sign = UNITS[bench]
    amounts = [count * size for _, count, size in pair]
    gap = abs(amounts[0] - amounts[1])
    quantity = "strength" if bench == "percent" else "menstruum"
    told = [f"{name} {number(amount, bench)} {sign}" for (name, _, _), amount in zip(pair, amounts, strict=True)]
    steps = tuple(
        Step(quantity=quantity, about=name, value=amount, unit=bench, relation="unit", says=f"One {called} by the {name} measure is {size:.6g} {sign}.",
             working=f"{count:g} × {size:.6g} = {number(amount, bench)} {sign}")
        for (name, count, size), amount in zip(pair, amounts, strict=True)
    )  # fmt: skip
    values = [Value(quantity=quantity, about=name, value=amount, unit=bench, origin="found", text=text)
              for (name, _, _), amount, text in zip(pair, amounts, told, strict=True)]  # fmt: skip
    words = f"{number(gap, bench)} {'points' if bench == 'percent' else sign}"
    values.append(Value(quantity=quantity, about="gap", value=gap, unit=bench, origin="found", text=words))
    session.gap = (quantity, gap, ", ".join(told))
    refer(answers, reading)
    return answers.reply("answered", f"{told[0]}, {told[1]}: {words} apart.", values=tuple(values), steps=steps)
