"""Whether a said figure can be at all, before anything is worked out with it."""

from __future__ import annotations

import math
from datetime import date

from assistant.quantities.vocabulary import VOCABULARY, base
from assistant.quantities.working_year import DATES

MAY_BE_NOTHING = frozenset(
    """tare water honey sugar empty_bottle part volume weight share labour have have_weight poured still_left left_in_bottle sold stall_fee spare_kits
    spirit_used spirit_on_shelf settle_days lot_has promised line_spirit""".split()
)
FIRST_DAY, LAST_DAY = date(1900, 1, 1).toordinal(), date(2200, 1, 1).toordinal()  # a bare number is no date
MOST = 1e6  # grams or millilitres: a tonne


def wrong_with(key: str, value: float) -> str:
    """Why a said value cannot be, or an empty text.

    key    quantity, of an ingredient or of the batch
    value  in its bench unit
    """
    name = base(key)
    q = VOCABULARY[name]
    if not math.isfinite(value):
        return "is no number"
    if name in DATES and not FIRST_DAY <= value <= LAST_DAY:
        return "is no day of a bench"
    if q.unit == "percent":
        if name in ("margin", "growth"):
            return "" if 0 <= value <= 500 else f"is no {name}"
        if name == "on_cost":
            return "" if 0 <= value <= 10_000 else "is no mark-up"  # three times the cost is 200 % on it
        if value > 100 or (value > 99.9 and name in ("water_content", "wilted_water", "dried_water", "trim_loss", "rack_loss")):
            return "leaves nothing" if value == 100 else "is more than the whole"
        if value < 0:
            return "is less than nothing"
        return ""
    if value < 0 and q.unit != "degC":
        return "is less than nothing"
    if value == 0 and q.unit in ("g", "mL", "1", "g/mL") and name not in MAY_BE_NOTHING:
        return "is nothing at all"
    if name in DATES:
        return ""
    if value > q.high * (1 + 1e-12) or (q.unit in ("g", "mL") and value > MOST):
        return "is more than any bench holds"
    return ""
