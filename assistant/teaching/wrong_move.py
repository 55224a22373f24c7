"""What a wrong move is: a relation written the wrong way, or a figure taken for another, that yields the number it would give."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from assistant.dataclass import dataclass, field
from assistant.quantities.vocabulary import VOCABULARY, base
from assistant.teaching.case import Case

STRENGTHS = frozenset("strength stock_strength finished_strength blend_strength strength_of dose_strength".split())
OUNCE_WEIGHT, OUNCE_FLUID = 28.3495, 29.5735


@dataclass(frozen=True, slots=True)
class WrongMove:
    """One wrong move.

    name       short, as the apprentice's record lists it
    says       completes "that is what comes out if …"
    mend       what to do instead, in a sentence
    equations  relation → the equation as it was taken
    change     figure → figure taken for it; None where the move does not touch the case
    """

    name: str
    says: str
    mend: str = ""
    equations: Mapping[str, str] = field(default_factory=dict)
    change: Callable[[Case], Case | None] | None = None


def written(name: str, says: str, mend: str, equations: Mapping[str, str]) -> WrongMove:
    return WrongMove(name, says, mend, equations)


def _figures(case: Case, pick: Callable[[str], bool], turn: Callable[[float], float]) -> Case | None:
    changed = {key: turn(fact.value) for key, fact in case.known.items() if pick(base(key))}
    return case.giving(changed) if changed else None


def strengths_as(turn: Callable[[float], float], only: str = "") -> Callable[[Case], Case | None]:
    return lambda case: _figures(case, lambda name: name == only if only else name in STRENGTHS, turn)


def poured_neat(case: Case) -> Case | None:
    stock = case.known.get("stock_strength")
    return None if stock is None else case.without("finished_strength", "stock", "water").giving({"strength": stock.value})


def ratio_of_the_other(usual: float, tag: str) -> Callable[[Case], Case | None]:
    """The ratio of the other kind of herb: dried 1:5, fresh 1:2."""

    def change(case: Case) -> Case | None:
        kinds = {t for relation in case.relations for t in relation.when}
        return case.giving({"ratio": usual}) if "ratio" in case.known and tag in kinds and abs(case.known["ratio"].value - usual) > 1e-9 else None

    return change


def other_water(step: float) -> Callable[[Case], Case | None]:
    def change(case: Case) -> Case | None:
        fact = case.known.get("water_content")
        return case.giving({"water_content": fact.value + step}) if fact is not None and 0 < fact.value + step < 100 else None

    return change


def ounces_as(turn: float, unit: str) -> Callable[[Case], Case | None]:
    return lambda case: _figures(case, lambda name: VOCABULARY[name].unit == unit, lambda value: value * turn)
