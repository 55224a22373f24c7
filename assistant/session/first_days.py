"""Another dose for the first days: "halve it for the first week, then 5 mL twice a day, 4 weeks in all"."""

from __future__ import annotations

import re

from assistant.listening.statements import Asked, Reading, Reference
from assistant.listening.takings import Regimen, Stretch
from assistant.patterns import looked_for
from assistant.quantities.spelt import number_of
from assistant.session.batch import Batch

FIRST = looked_for(
    r"\b(?P<share>halve|half|quarter|a quarter|double|twice)\b[^.;\d]{0,30}?\bfirst (?P<n>\d+|two|three|four|few)?\s*(?P<unit>days?"
    r"|weeks?|fortnight|month)\b",
    re.IGNORECASE,
)
SHARES = {"halve": 0.5, "half": 0.5, "quarter": 0.25, "a quarter": 0.25, "double": 2.0, "twice": 2.0}
DAYS = {"day": 1.0, "week": 7.0, "fortnight": 14.0, "month": 30.0}
ACTS = frozenset({"scale_dose", "scale", "scale_n", "whatif", "first"})
THEN = looked_for(r"\b(?:then|after(?:wards)?|followed by)\b", re.IGNORECASE)
IN_ALL = looked_for(r"\b(?:in all|altogether|all told|in total|overall|total)\b", re.IGNORECASE)


def first_days(reading: Reading, batch: Batch | None) -> None:
    """Lay such days as a stretch of their own before the rest. Changes the reading."""
    hit = FIRST.search(reading.heard)
    facts = {k: f.value for k, f in batch.facts.items()} if batch is not None and not batch.members else {}
    told = facts | {s.quantity: s.value for s in reading.said}
    if hit is None or reading.ingredients or (hit["n"] or "").lower() == "few" or "times_a_day" not in told or not told.keys() & {"dose", "dose_drops"}:
        return
    unit = "mL" if "dose" in told else "drop"
    dose = told["dose" if unit == "mL" else "dose_drops"]
    days = number_of(hit["n"] or "1") * DAYS[hit["unit"].lower().rstrip("s")]
    course = facts.get("course")
    courses = [s for s in reading.said if s.quantity == "course" and not hit.start() <= s.start < hit.end()]
    if courses:
        of_the_rest = THEN.search(reading.heard[: courses[0].start]) is not None and not IN_ALL.search(reading.heard)
        course = courses[0].value + (days if of_the_rest and courses[0].start > hit.start() else 0.0)
    if course is None or course <= days:
        return
    reading.regimen = Regimen(
        [Stretch(dose * SHARES[hit["share"].lower()], unit, told["times_a_day"], days), Stretch(dose, unit, told["times_a_day"], course - days)],
        in_turn=True,
    )
    replaced = [s for s in reading.said if s.quantity in ("dose", "dose_drops", "times_a_day", "course")]
    reading.references += [Reference("reference", s.start, s.end, s.value) for s in replaced]
    reading.references += [Reference("reference", a, b) for a, b, _ in reading.numbers if hit.start() <= a < hit.end()]
    reading.said[:] = [s for s in reading.said if s.quantity not in ("dose", "dose_drops", "times_a_day", "course")]
    reading.loose[:] = [f for f in reading.loose if not hit.start() <= f.start < hit.end()]
    reading.let_go(*ACTS)
    reading.frames |= {"dose", "regimen"}
    if not {a.quantity for a in reading.asked} - {"menstruum", "dose", "daily"}:
        reading.asked[:] = [Asked("supply", 0, len(reading.heard))]
