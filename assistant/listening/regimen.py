"""How a medicine is taken when it is not the same every day: morning and evening, tapers and steps, days on and days off.

"2.5 mL mane and 5 mL nocte", "5 mL tds for a week, then 2.5 mL bd for a week", "start at 1 mL, up 1 mL every 3 days to 5 mL", "five days on and two
off". Doses in mL or drops, lengths in days.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from assistant.listening.pieces import Piece
from assistant.listening.statements import Reading, Reference

DOSE = r"<(?:mL|drop)> (?:of (?:it|that|the tincture) )?"
OFTEN = r"(?:<x>|<aday>|(?:in the |each |every )?(?:morning|evening|afternoon)|(?:at |each )?(?:night|bedtime|noon|lunch|breakfast|dinner)) "
WHEN = r"(?:(?:for|over|during) )?(?:(?:a|the|one|first|next|another|last|following|further|then) )*<day> "
STRETCH = re.compile(rf"(?<![^ ])(?:(?P<before><day>) (?:of|at|on) )?(?P<dose>{DOSE})(?P<often>{OFTEN})?(?P<days>{WHEN})?")
STEP = re.compile(
    rf"(?<![^ ])(?:start|starting|begin|beginning|starts|begins) (?:at |with |on |her on |him on |them on )?(?P<dose>{DOSE})(?P<often>{OFTEN})?.*?"
    r"(?P<way>up|increase|increasing|raise|raising|add|adding|more|down|reduce|reducing|drop|dropping|less|decrease|decreasing|cut|cutting) (?:by )?"
    rf"(?P<step>{DOSE})(?P<every><x> |(?:every|each) <day> )"
    rf"(?:.*?(?:to|until|till|max|maximum|reach|reaching|reaches) (?:a |about |it reaches |she reaches |he reaches |she is at |he is at |of )*(?P<end>{DOSE}))?"
)
ON_OFF = re.compile(r"(?<![^ ])(?P<on><day>) on (?:and |, |then |/ )*(?P<off><day>|<#>|<time>) (?:days |day )?off ")
SKIPS = re.compile(
    r"(?<![^ ])(?:skip|skips|skipping|except|not|off|miss|misses|leaves out|no) (?:on |the |at )?(?P<what>sunday|sundays|saturday|saturdays|weekend|weekends) "
)
DOWN = frozenset("down reduce reducing drop dropping less decrease decreasing cut cutting".split())


@dataclass(frozen=True, slots=True)
class Stretch:
    """So much, so often a day, for so many days (None where that was not said)."""

    dose: float
    unit: str  # mL | drop
    times: float | None
    days: float | None


@dataclass
class Regimen:
    """What is taken: one after the other (`in_turn`), or all of them in each day; `on` and `off` are the days of a round, 0 where it is every day."""

    stretches: list[Stretch] = field(default_factory=list)
    in_turn: bool = False
    on: float = 0.0
    off: float = 0.0


def read_regimen(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading) -> Regimen | None:
    """The regimen a sentence tells, its figures marked as taken; None where it is the same dose every day."""
    line = " ".join(tokens) + " "
    places = {}
    at = 0
    for index, token in enumerate(tokens):
        places[at] = index
        at += len(token) + 1
    row = _Row(pieces, places, taken, reading)
    regimen = Regimen()
    rounds = _days_off(line, row, regimen)
    if not _steps(line, row, regimen):
        _stretches(line, row, regimen)
    if not regimen.stretches and not rounds:
        return None
    reading.frames.add("dose")
    return regimen


@dataclass
class _Row:
    pieces: list[Piece]
    places: dict[int, int]
    taken: set[int]
    reading: Reading

    def island(self, hit: re.Match[str], group: str) -> int | None:
        """Place of the first island of a group."""
        start = hit.start(group)
        return None if start < 0 else next((i for p, i in sorted(self.places.items()) if start <= p < hit.end(group) and self.pieces[i].is_island), None)

    def value(self, hit: re.Match[str], group: str) -> float | None:
        at = self.island(hit, group)
        item = None if at is None else self.pieces[at].item
        return None if item is None else item.value

    def use(self, hit: re.Match[str], *groups: str) -> None:
        for group in groups:
            at = self.island(hit, group)
            if at is not None and at not in self.taken:
                self.taken.add(at)
                piece = self.pieces[at]
                self.reading.references.append(Reference("reference", piece.start, piece.end, piece.item.value if piece.item else None))


def _unit(row: _Row, hit: re.Match[str], group: str) -> str:
    at = row.island(hit, group)
    return row.pieces[at].code[1:-1] if at is not None else "mL"


def _dose(row: _Row, hit: re.Match[str], group: str) -> float:
    """A teaspoon in a dose is 5 mL."""
    at = row.island(hit, group)
    item = None if at is None else row.pieces[at].item
    if item is None or item.value is None:
        return 0.0
    if item.unit == "mL" and isinstance(item.alt, (int, float)) and item.said_unit.startswith(("tsp", "teaspoon", "spoon")):
        return float(item.alt)
    return item.value


def _times(row: _Row, hit: re.Match[str]) -> float | None:
    if hit.group("often") is None:
        return None
    value = row.value(hit, "often")
    return 1.0 if value is None else value


def _stretches(line: str, row: _Row, regimen: Regimen) -> None:
    hits = [h for h in STRETCH.finditer(line) if h.group("often") or h.group("days") or h.group("before")]
    hits = [h for h in hits if (at := row.island(h, "dose")) is not None and at not in row.taken]
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
        times = _times(row, hit) or times
        days = row.value(hit, "days") if hit.group("days") else row.value(hit, "before") if hit.group("before") else None
        regimen.stretches.append(Stretch(_dose(row, hit, "dose"), _unit(row, hit, "dose"), times, days))
        row.use(hit, "before", "dose", "often", "days")


def _steps(line: str, row: _Row, regimen: Regimen) -> bool:
    hit = STEP.search(line)
    if hit is None:
        return False
    every = row.value(hit, "every")
    code = line[hit.start("every") : hit.end("every")]
    if not every:
        return False
    length = every if "<day>" in code else 1 / every
    step, dose, unit = _dose(row, hit, "step"), _dose(row, hit, "dose"), _unit(row, hit, "dose")
    down = hit.group("way") in DOWN
    end = _dose(row, hit, "end") if hit.group("end") else None
    if step <= 0 or end is None or length <= 0:
        return False
    times = _times(row, hit)
    regimen.in_turn = True
    while (dose > end if down else dose < end) and len(regimen.stretches) < 60:
        regimen.stretches.append(Stretch(dose, unit, times, length))
        dose += -step if down else step
    regimen.stretches.append(Stretch(end, unit, times, None))
    row.use(hit, "dose", "often", "step", "every", "end")
    return True


def _days_off(line: str, row: _Row, regimen: Regimen) -> bool:
    hit = ON_OFF.search(line)
    if hit is not None:
        on, off = row.value(hit, "on"), row.value(hit, "off")
        if on and off:
            regimen.on, regimen.off = on, off
            row.use(hit, "on", "off")
            return True
    skip = SKIPS.search(line)
    if skip is not None:
        regimen.off = 2.0 if skip.group("what").startswith("weekend") else 1.0
        regimen.on = 7.0 - regimen.off
        return True
    return False
