"""A dose that goes up or down by steps: "start at 1 mL, up 1 mL every 3 days to 5 mL", "taper from 5 mL tds by 1 mL a week".

A dose that goes down and is told no last figure goes down to nothing. One that goes up needs its last figure, or how many days it all lasts; where neither
was said, the step is handed on to be asked about.
"""

from __future__ import annotations

import re

from assistant.dataclass import replace
from assistant.listening.statements import Loose, Reference
from assistant.listening.takings import DOSE, OFTEN, Regimen, Row, Steps, Stretch, dose_of, times_of, unit_of
from assistant.patterns import looked_for

UPWARD = r"up|increase|increasing|raise|raising|add|adding|more|extra|climb|climbing|rise|rising|higher|plus"
DOWNWARD = (
    r"down|reduce|reducing|drop|dropping|less|decrease|decreasing|cut|cutting|lower|lowering|taper|tapering|fewer|minus|losing|lose|shed|shedding|off|knock|take"
)
WAY = rf"(?P<way>{UPWARD}|{DOWNWARD}) (?:(?:by|it|them|her|him|the|dose|off|down|up|another|a|further|then|of) )*"
STEP = rf"(?:{DOSE}|<#> (?:ml |mls |drops )?)"
EVERY = r"(?P<every><x> |<aday> |(?:every|each|a|per|in) (?:the )?<day> )"
STEPS = tuple(
    looked_for(pattern)
    for pattern in (
        rf"(?<![^ ]){WAY}(?P<step>{STEP})(?:(?:off|less|more|extra|lower|higher|(?:a|per|each) (?:dose|time|go)) )?{EVERY}",
        rf"(?<![^ ])(?P<step>{STEP})(?P<way>{UPWARD}|{DOWNWARD}) {EVERY}",
        rf"(?<![^ ]){EVERY}(?:, )?(?:(?:go|going|goes|come|coming|comes|then|and|i|we|she|he|they) )*{WAY}(?P<step>{STEP})",
        rf"(?<![^ ])(?:(?P<way>{UPWARD}|{DOWNWARD}) )?(?:in|by|with) (?:steps|jumps|stages|drops|cuts) of (?P<step>{STEP}){EVERY}",
    )
)
END = looked_for(
    rf"(?<![^ ])(?:to|until|till|til|max|maximum|reach|reaching|reaches|hits|hitting) "
    rf"(?:(?:a|about|it|she|he|they|we|i|is|she's|he's|they're|shes|hes|theyre|it's|its|i'm|reaches|at|of|on|down|up|max|maximum|to|hits|gets|get) )*"
    rf"(?P<end>{DOSE}|<#> )"
)
BEGIN = looked_for(rf"(?<![^ ])(?P<dose>{DOSE})(?P<often>{OFTEN})?")
OFTEN_THEN = looked_for(rf"(?P<often>{OFTEN})")
FIRST = looked_for(rf"(?<![^ ])(?P<days><day>) (?:at|on|of) (?P<dose>{DOSE}|<#> )")
AGAIN = looked_for(r"(?<![^ ])(?:at|to|on|reach|reaches|reaching|hits) (?P<dose><#> )")
STOPS = looked_for(r"(?:, )?(?:(?:and|then|there|before) )*(?:stop|stops|stopping|finish|off|nothing|none|done) ")
COURSE = looked_for(r"(?<![^ ])(?:for|over|in|lasts?|lasting|across|through) (?:(?:the|a|about|whole|full|first) )*(?P<course><day>) ")
PLAIN_WAYS = frozenset(
    "up down by drop dropping reduce reducing raise raising increase increasing lower lowering decrease decreasing taper tapering cut cutting".split()
)
NO_STEP = looked_for(r"(?:at|once|in the|nocte|mane|od)\b", re.IGNORECASE)  # "5 mL at night" goes neither up nor down
MOST_STEPS = 60
LONGEST_STEP = 366.0  # days


def read_steps(line: str, row: Row, regimen: Regimen, told_before: bool = False) -> bool:
    """The steps of a line of tokens, written into the regimen; False where the line tells none. Days for lengths, mL or drops for doses.

    told_before   whether steps are in hand already: other ones may then leave out where they begin
    """
    hit = next((h for pattern in STEPS if (h := pattern.search(line)) is not None and _length(row, h, line) is not None), None)
    if hit is None:
        return False
    if "<#>" in hit.group("step") and (hit.group("way") or "").strip() not in PLAIN_WAYS:
        return False  # "take 2 once a day" is no step
    length, step = _length(row, hit, line), dose_of(row, hit, "step")
    if not length or step <= 0:
        return False
    end = next((h for h in END.finditer(line) if not _overlap(h, hit, "end")), None)
    first = next((h for h in BEGIN.finditer(line) if not _overlap(h, hit, "dose") and (end is None or h.start("dose") != end.start("end"))), None)
    if first is None and told_before and end is not None and re.fullmatch(rf"{UPWARD}|{DOWNWARD}", hit.group("way") or ""):
        down = re.fullmatch(DOWNWARD, hit.group("way")) is not None
        regimen.anew = Steps(-step if down else step, dose_of(row, end, "end"), length, unit_of(row, hit, "step"))
        row.use(hit, "step", "every")
        row.use(end, "end")
        return True
    if first is None:
        return False
    dose, unit, times = dose_of(row, first, "dose"), unit_of(row, first, "dose"), times_of(row, first)
    last = (dose_of(row, end, "end") if end is not None else None) or None  # "down to 0" is down to nothing
    down = last < dose if last is not None else end is not None or re.fullmatch(DOWNWARD, hit.group("way") or "") is not None
    course = next((row.value(h, "course") for h in COURSE.finditer(line) if not hit.start() <= h.start("course") < hit.end()), None)
    if last is None and not down and course is None:
        _ask_how_far(row, hit)
        return False
    regimen.in_turn = True
    climb(regimen, dose, -step if down else step, last, Stretch(dose, unit, times, length), course)
    if last is not None and end is not None and STOPS.match(line, end.end("end")) is not None:
        regimen.stretches[-1] = replace(regimen.stretches[-1], days=length)
    _first_stretch(line, row, regimen)
    row.use(first, "dose", "often")
    row.use(hit, "step", "every")
    if end is not None:
        row.use(end, "end")
        _use_named_again(line, row, dose_of(row, end, "end"))
        _use_often_behind(line, row, end)
    return True


def climb(regimen: Regimen, dose: float, step: float, last: float | None, like: Stretch, course: float | None) -> None:
    """Step by step to the last dose, which goes on; to nothing, where a dose that goes down has no last one; or until the days of the course are over."""
    length, past = like.days or 1.0, 0.0
    while len(regimen.stretches) < MOST_STEPS and dose > 1e-9:
        if last is not None and (dose <= last + 1e-9 if step < 0 else dose >= last - 1e-9):
            regimen.stretches.append(Stretch(last, like.unit, like.times, None))
            return
        if last is None and course is not None and past >= course - 1e-9:
            return
        days = length if last is not None or course is None else min(length, course - past)
        regimen.stretches.append(Stretch(dose, like.unit, like.times, days))
        dose, past = dose + step, past + length


def _length(row: Row, hit: re.Match[str], line: str) -> float | None:
    """Days of one step; None where "every" tells how often in a day."""
    every, at = row.value(hit, "every"), row.island(hit, "every")
    if not every or (at is not None and NO_STEP.match(row.pieces[at].text)):
        return None
    if hit.group("way") == "take" and "off" not in line.split():
        return None  # "take 5 mL a day" is how much is taken
    if "<day>" in line[hit.start("every") : hit.end("every")]:
        return every if every <= LONGEST_STEP else None
    return 1 / every if every <= 1 else None


def _overlap(one: re.Match[str], other: re.Match[str], group: str) -> bool:
    return other.start("step") <= one.start(group) < other.end("step")


def _first_stretch(line: str, row: Row, regimen: Regimen) -> None:
    """ "4 nights at 6, then …": the first dose once more, with how long it lasts."""
    for hit in FIRST.finditer(line):
        days, first = row.value(hit, "days"), regimen.stretches[0]
        if days and abs(dose_of(row, hit, "dose") - first.dose) < 1e-9 and unit_of(row, hit, "dose") in (first.unit, "#"):
            regimen.stretches[0] = replace(first, days=days)
            row.use(hit, "days", "dose")
            return


def _use_named_again(line: str, row: Row, dose: float) -> None:
    """ "… before the first 30 drop day": the last dose spoken of once more."""
    for hit in (*BEGIN.finditer(line), *AGAIN.finditer(line)):
        at = row.island(hit, "dose")
        if at is not None and at not in row.taken and abs(dose_of(row, hit, "dose") - dose) < 1e-9:
            row.use(hit, "dose")


def _use_often_behind(line: str, row: Row, end: re.Match[str]) -> None:
    """ "… until 2 mL bd": how often was said with the last dose as well."""
    often = OFTEN_THEN.match(line, end.end("end"))
    if often is not None:
        row.use(often, "often")


def _ask_how_far(row: Row, hit: re.Match[str]) -> None:
    """The step is told, but not how far it goes: handed on as a figure without a place, so that it is asked about."""
    at = row.island(hit, "step")
    item = None if at is None else row.pieces[at].item
    if at is None or item is None or item.value is None or at in row.taken:
        return
    piece = row.pieces[at]
    row.taken.add(at)
    row.reading.loose.append(Loose(piece.code[1:-1], item.value, item.unit, piece.start, piece.end, piece.text))
    every = row.island(hit, "every")
    if every is not None:
        row.taken.add(every)
        row.reading.references.append(Reference("reference", row.pieces[every].start, row.pieces[every].end, None))
