"""How a medicine is taken when it is not the same every day: morning and evening, tapers and steps, days on and days off.

"2.5 mL mane and 5 mL nocte", "5 mL tds for a week, then 2.5 mL bd for a week", "start at 1 mL, up 1 mL every 3 days to 5 mL", "five days on and two
off". Doses in mL or drops, lengths in days.
"""

from __future__ import annotations

import re

from assistant.listening.pieces import Piece
from assistant.listening.statements import Reading
from assistant.listening.steps import read_steps
from assistant.listening.takings import DOSE, OFTEN, Regimen, Row, Stretch, dose_of, times_of, unit_of
from assistant.listening.token_row import TokenRow
from assistant.patterns import looked_for

WHEN = r"(?:(?:for|over|during) )?(?:(?:a|the|one|first|next|another|last|following|further|then) )*<day> "
STRETCH = looked_for(rf"(?<![^ ])(?:(?P<before><day>) (?:of|at|on) )?(?P<dose>{DOSE})(?P<often>{OFTEN})?(?P<days>{WHEN})?")
ON_OFF = looked_for(r"(?<![^ ])(?P<on><day>|<#>) (?:days )?on (?:and |, |then |/ |& )*(?P<off><day>|<#>|<time>) (?:days |day )?off ")
# "…, drop it to 2.5 mL bd": in its place
CHANGED_TO = looked_for(r"(?<![^ ])(?:drop|cut|put|change|lower|raise|reduce|increase|switch|bring|take|up)(?: \w+)* to $")
SKIPS = looked_for(
    r"(?<![^ ])(?:skip|skips|skipping|except|not|off|miss|misses|leaves out|no) (?:on |the |at )?(?P<what>sunday|sundays|saturday|saturdays|weekend|weekends) "
)

def read_regimen(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading, context: frozenset[str] = frozenset()) -> Regimen | None:
    """The regimen a sentence tells, its figures marked as taken; None where it is the same dose every day. `context` are the frames in hand."""
    told = TokenRow(pieces, tokens)
    line, row = told.line, Row(pieces, told.places, taken, reading)
    regimen = Regimen()
    rounds = _days_off(line, row, regimen)
    if not read_steps(line, row, regimen, "regimen" in context):
        _stretches(line, row, regimen)
    if not regimen.stretches and regimen.anew is None and not rounds:
        return None
    reading.frames.add("dose")
    return regimen


def _stretches(line: str, row: Row, regimen: Regimen) -> None:
    hits = [h for h in STRETCH.finditer(line) if h.group("often") or h.group("days") or h.group("before")]
    hits = [h for h in hits if (at := row.island(h, "dose")) is not None and at not in row.taken]
    hits = [h for h in hits if not CHANGED_TO.search(line[: h.start("dose")])]
    if len(hits) < 2:
        return
    timed = [h for h in hits if h.group("days") or h.group("before")]
    often = [h for h in hits if h.group("often")]
    if len(timed) >= 2 or (timed and "then" in line.split()):
        regimen.in_turn = True
    elif len(often) < 2 or timed:
        return
    times: float | None = None
    for hit in hits:
        times = times_of(row, hit) or times
        days = row.value(hit, "days") if hit.group("days") else row.value(hit, "before") if hit.group("before") else None
        regimen.stretches.append(Stretch(dose_of(row, hit, "dose"), unit_of(row, hit, "dose"), times, days))
        row.use(hit, "before", "dose", "often", "days")


def _unit_of_the_first(row: Row, hit: re.Match[str]) -> float:
    """ "4 weeks on, 1 off": a bare number of days off is in the unit of the days on."""
    on, off = row.island(hit, "on"), row.island(hit, "off")
    first = row.pieces[on].item if on is not None else None
    if off is None or row.pieces[off].code != "<#>" or first is None or not first.said or not first.value:
        return 1.0
    return first.value / first.said


def _days_off(line: str, row: Row, regimen: Regimen) -> bool:
    hit = ON_OFF.search(line)
    if hit is not None:
        on, off = row.value(hit, "on"), row.value(hit, "off")
        if on and off:
            off *= _unit_of_the_first(row, hit)
            regimen.on, regimen.off = on, off
            row.use(hit, "on", "off")
            return True
    skip = SKIPS.search(line)
    if skip is not None:
        regimen.off = 2.0 if skip.group("what").startswith("weekend") else 1.0
        regimen.on = 7.0 - regimen.off
        return True
    return False
