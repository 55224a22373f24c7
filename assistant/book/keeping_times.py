"""How long a preparation keeps, by custom: what a label's best-before is reckoned with.

The shorter end of what is usual stands for each. Custom is no proof; a laboratory would say more.
source   common practice, as the caution about age gives it; the floors of strength as in rules/keeping.rules
"""

from __future__ import annotations

from datetime import date

from assistant.book.dates import days_later, months_later
from assistant.dataclass import dataclass

WOODY = frozenset({"root", "rhizome", "bark", "seed", "resin", "fungus"})


@dataclass(frozen=True, slots=True)
class KeepingTime:
    """How long, and the words for it. One of months and days is 0."""

    months: int
    days: int
    words: str

    def best_before(self, made: date) -> date:
        return months_later(made, self.months) if self.months else days_later(made, self.days)


def keeping_time(preparation: str, part: str = "", finished_strength: float | None = None, brix: float | None = None) -> KeepingTime | None:
    """How long this preparation keeps; None where custom has no word for it.

    finished_strength   [% vol at 20 °C] of what is in the bottle, None where not known
    brix                [°Bx] of a syrup, None where not known

    >>> keeping_time("tincture", finished_strength=45).best_before(date(2031, 6, 12))
    datetime.date(2034, 6, 12)
    """
    if preparation in ("tincture", "formula", "mix"):
        if finished_strength is None:
            return KeepingTime(12, 0, "strength not known: a year, and look at it then")
        if finished_strength >= 25:
            return KeepingTime(36, 0, "tincture of 25 % or more: 3 to 5 years")
        if finished_strength >= 20:
            return KeepingTime(12, 0, "tincture of 20 to 25 %: a year, and look at it then")
        return KeepingTime(0, 7, "under 20 %: a fresh liquid, in the fridge, days and not months")
    if preparation == "syrup":
        if brix is not None and brix >= 65:
            return KeepingTime(6, 0, "syrup of 65 °Bx or more, cold: 6 months")
        return KeepingTime(0, 14, "a thin syrup, cold: 2 weeks to 3 months")
    if preparation == "dried herb":
        return KeepingTime(24, 0, "dried root and bark: 2 to 3 years") if part in WOODY else KeepingTime(12, 0, "dried leaf and flower: 1 year")
    plain = {
        "glycerite": KeepingTime(12, 0, "glycerite: 1 to 2 years"),
        "vinegar": KeepingTime(6, 0, "vinegar: 6 to 12 months"),
        "oxymel": KeepingTime(6, 0, "oxymel: 6 to 12 months"),
        "oil": KeepingTime(6, 0, "infused oil: 6 to 12 months"),
        "salve": KeepingTime(12, 0, "salve: 12 months"),
        "tea": KeepingTime(12, 0, "dried herbs, blended: 1 year"),
        "decoction": KeepingTime(0, 2, "decoction, cold: 48 hours"),
        "infusion": KeepingTime(0, 2, "infusion, cold: 48 hours"),
    }
    return plain.get(preparation)
