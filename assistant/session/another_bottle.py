"""A volume by itself where days were counted: another bottle."""

from __future__ import annotations

import math
import re

from assistant.listening.statements import Said
from assistant.patterns import looked_for
from assistant.session.work import Work, renamed

SOME_VOLUME = frozenset({"menstruum", "pressed", "spirit_in_hand", "to_fill"})
LARGEST_DOSE = 15.0  # mL: a tablespoon
OF_A_JAR = frozenset({"herb", "ratio", "menstruum", "pressed", "in_jar"})


VESSELS_ALONE = looked_for(r"^\W*(?:(?:and|or|so|in|into|with|what|about|how)\W+)*(?:gallons|quarts|pints|lit(?:re|er)s)\W*$", re.IGNORECASE)


def vessels_asked_alone(said: list[Said], work: Work) -> None:
    """ "Quarts?", after so many jars of half a litre: jars of that size, or bottles. Changes `said`."""
    size = next((q for q in ("jar_size", "bottle_size") if q in work.facts), "")
    if size and len(said) == 1 and VESSELS_ALONE.match(work.reading.heard):
        said[0] = renamed(said[0], size)


def another_bottle(said: list[Said], work: Work) -> None:
    """ "N with 50 ml?", after so many days were told for a bottle of 30: the bottle is another, the dose stays. Changes `said`."""
    facts = work.facts.keys()
    if "dose" not in work.frames or "bottle_size" not in facts or not facts & {"dose", "dose_drops", "daily"} or facts & OF_A_JAR or work.members:
        return
    if len(said) == 1 and said[0].quantity in SOME_VOLUME and said[0].said_unit and not _is_the_dose(said[0].value, work):
        said[0] = renamed(said[0], "bottle_size")


def _is_the_dose(value: float, work: Work) -> bool:
    """ "At the full 5 mL": few millilitres, more like the dose in hand than like its bottle."""
    dose, bottle = work.facts.get("dose"), work.facts["bottle_size"]
    return dose is not None and 0 < value <= LARGEST_DOSE and abs(math.log(value / dose.value)) < abs(math.log(value / bottle.value))


def the_lot_lasts(said: list[Said], work: Work) -> None:
    """ "Made a litre of tincture, she takes 4 mL tds, how many weeks": all that was made is the bottle it is taken from. Changes `said`."""
    have = {s.quantity for s in said} | work.facts.keys()
    if not any(a.quantity == "days" for a in work.reading.asked) or "bottle_size" in have or have & {"herb", "ratio", "planned_herb"} or work.members:
        return
    volumes = [i for i, s in enumerate(said) if s.quantity in ("menstruum", "pressed") and s.said_unit]
    if len(volumes) == 1 and have & {"dose", "dose_drops", "daily"}:
        said[volumes[0]] = renamed(said[volumes[0]], "bottle_size")
