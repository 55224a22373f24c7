"""The last answer over another stretch of time: "and in a day", "over the week", "two weeks of that"."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.listening.statements import Asked, Loose, Reading, Reference, Said
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import about, base

if TYPE_CHECKING:
    from assistant.session.conversation import Session

LONGEST = 60  # characters: a longer sentence says something of its own
PERIOD = looked_for(
    r"^\W*(?:(?:and|so|then|ok|okay|right|now|well|what about|how about|how much is that|how much|what's that|whats that|that's|thats|make that|all)\W+)*"
    r"(?:(?:(?:over|in|for|across|through|during)\s+)?(?:per|a|the|one|each|every)\s+(?:whole\s+|full\s+)?(?P<period>day|week|fortnight|month)\b"
    r"|(?P<adverb>week|fortnight|month)ly\b)"
    r"(?:\W+(?:then|in all|total|altogether|please|of that|in|as|mls?|millilitres|g|grams?|drops|how much|does that make|is that)\b)*\W*$",
    re.IGNORECASE,
)
DAYS = {"week": 7.0, "fortnight": 14.0, "month": 30.0}
# What was answered → what of it is asked for a day, and for longer.
A_DAY = {
    "dose": ("daily",), "child_dose": ("daily",), "clark_dose": ("daily",), "young_dose": ("daily",), "fried_dose": ("daily",), "needed_dose": ("daily",),
    "herb_per_dose": ("herb_per_day",), "alcohol_per_dose": ("alcohol_per_day",), "alcohol_ml_per_dose": ("alcohol_ml_per_day",), "dose_drops": ("daily",),
}  # fmt: skip
LONGER = {
    **dict.fromkeys(("dose", "child_dose", "clark_dose", "young_dose", "fried_dose", "daily", "dose_drops", "supply"), ("supply",)),
    "volume_a_day": ("volume_in_time",),
    "herb_a_day_of": ("herb_in_time",),
    **dict.fromkeys(("herb_per_day", "herb_per_dose", "herb_for_course"), ("herb_for_course",)),
    **dict.fromkeys(
        ("alcohol_per_day", "alcohol_per_dose", "alcohol_ml_per_day", "alcohol_ml_per_dose", "alcohol_for_course", "alcohol_ml_for_course"),
        ("alcohol_ml_for_course", "alcohol_for_course"),
    ),
}
OF_ONE = frozenset({"volume_in_time", "herb_in_time"})  # of one ingredient of a formula
BY_VOLUME, BY_WEIGHT = re.compile(r"\bm[lL]s?\b|\bmillilit", re.IGNORECASE), re.compile(r"\bgrams?\b|\bg\b", re.IGNORECASE)


def _named(period: re.Match[str]) -> str:
    return str(period["period"] or period["adverb"]).lower()


def over_time(session: Session, reading: Reading) -> None:
    """Ask the last answer's quantity for the stretch of time that is named. Changes the reading."""
    if session.last is None or not session.last_keys or session.draft is not None or reading.ingredients or reading.named or len(reading.heard) > LONGEST:
        return
    answered = [base(k) for k in session.last_keys]
    longer = tuple(dict.fromkeys(q for k in answered for q in LONGER.get(k, ())))
    if session.batch is not None and "cups_a_day" in session.batch.facts:
        longer = ("batch", "cups")
    a_day = tuple(dict.fromkeys(q for k in answered[:1] for q in A_DAY.get(k, ())))
    period = PERIOD.match(reading.heard)
    if period is not None:  # "per week" is no new way of taking it
        reading.said[:] = [s for s in reading.said if not (s.quantity in ("times_a_day", "cups_a_day") and s.value < 1)]
        reading.references += [Reference("reference", f.start, f.end, f.value) for f in reading.loose]
        reading.loose[:] = []
    told: list[Said | Loose] = [s for s in reading.said if s.quantity == "course"]
    told = told or [f for f in reading.loose if f.kind in ("day", "month")]
    figures = len(reading.said) + len(reading.loose)
    if period is not None and _named(period) == "day" and not figures:
        asked = a_day
        if asked and "daily" in asked and session.last.value("times_a_day") is None:
            return
    elif period is not None and not figures and longer and _named(period) != "day":
        asked = longer
        days = DAYS[_named(period)]
        reading.said.append(Said("course", days, *period.span("period" if period["period"] else "adverb")))
    elif len(told) == 1 and figures == 1 and longer and not {a.quantity for a in reading.asked} - {"daily", "supply", "dose"}:
        asked = longer
        figure = told[0]
        reading.loose[:] = []
        reading.said[:] = [Said("course", figure.value, figure.start, figure.end)]
    else:
        return
    if not asked:
        return
    if period is not None:
        reading.references += [Reference("reference", a, b) for a, b, _ in reading.numbers]  # "in a day" is answered by the asking
    if len(asked) > 1 and (BY_VOLUME.search(reading.heard) or BY_WEIGHT.search(reading.heard)):
        asked = tuple(q for q in asked if ("_ml_" in q) == (BY_VOLUME.search(reading.heard) is not None)) or asked
    owners = [about(k) for k in session.last_keys if set(LONGER.get(base(k), ())) & OF_ONE] or [""]
    reading.asked[:] = [Asked(q, 0, len(reading.heard), owner if q in OF_ONE else "") for q in asked for owner in (owners if q in OF_ONE else [""])]
    reading.let_go("in_unit", "scale", "scale_n")
