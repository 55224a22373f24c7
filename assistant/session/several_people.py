"""Several people, each with a dose of their own: "client A takes 5 mL twice a day, client B 2.5 mL three times, both for 4 weeks"."""

from __future__ import annotations

import re

from assistant.listening.statements import Asked, Loose, Reading, Reference, Said
from assistant.listening.takings import Regimen, Stretch
from assistant.patterns import looked_for
from assistant.quantities.spelt import number_of
from assistant.session.batch import Batch
from assistant.session.work import take_as

TIMES = {"once": 1, "twice": 2, "thrice": 3}
LATIN = {"od": 1, "bd": 2, "bid": 2, "tds": 3, "tid": 3, "qds": 4, "qid": 4}
N = r"(?:\d+|one|two|three|four|five|six)"
PAIR = looked_for(
    rf"(?:\b(?P<heads>{N}) (?:(?:people|persons?|clients?|patients?|of (?:them|us)|others?|adults|customers) )?(?:are |is )?(?:each )?(?:on|takes?"
    rf"|taking|at|having|with|get|gets) )?"
    rf"(?P<dose>\d+(?:[.,]\d+)?) ?(?P<unit>mls?|drops?)\W+(?:(?P<word>once|twice|thrice)|(?P<times>{N}) ?(?:x|times)|(?P<latin>od|bd|bid|tds|tid|qds|qid)\b)"
    rf"(?:\W*(?:a day|daily|per day|each day))?",
    re.IGNORECASE,
)
PERSONS = looked_for(
    r"\b(?:clients?|patients?|people|persons?|mum|mom|dad|mother|father|wife|husband|son|daughter|sister|brother|him|her|he|she|one (?:on|takes"
    r"|of them)|another"
    r"|the other|them|both of (?:them|us)|two of (?:them|us)|customers?|[a-z]+ gets?)\b",
    re.IGNORECASE,
)
IN_TURN = looked_for(
    r"\bthen\b|\bafter (?:that|a|one|\d)|\bmorning\b|\bnight\b|\bevening\b|\bbed(?:time)?\b|\bnoon\b|\bat first\b|\bfor the first\b|\bfollowed\b|\binstead\b",
    re.IGNORECASE,
)
NUMBERED = looked_for(r"\b(?:client|patient|person|customer|number|no\.?) $", re.IGNORECASE)  # "client 2 takes": which, not how many
COUNTED = looked_for(r"^ (?:people|persons|clients|patients|customers|of them|of us)\b", re.IGNORECASE)  # "three clients: …"
OF_DOSES = frozenset({"dose", "dose_drops", "times_a_day", "daily"})
THERE = frozenset({"menstruum", "pressed", "stock", "spirit_in_hand", "blend", "bottle_size"})


def several_people(reading: Reading, batch: Batch | None) -> None:
    """Add up what each of them takes in a day. Changes the reading."""
    pairs = list(PAIR.finditer(reading.heard))
    several = len(pairs) == 1 and pairs[0]["heads"] is not None and PERSONS.search(pairs[0].group()) is not None  # "3 clients on 5 mL bd"
    if not (len(pairs) >= 2 or (several and any(a.quantity == "days" for a in reading.asked))):
        return
    if reading.ingredients or reading.named or IN_TURN.search(reading.heard) or not PERSONS.search(reading.heard):
        return
    if (batch is not None and batch.members) or len({p["unit"].lower().rstrip("s") for p in pairs}) > 1:
        return
    stretches: list[Stretch] = []
    for pair in pairs:
        told = (pair["word"] or pair["times"] or pair["latin"]).lower()
        times = (TIMES | LATIN).get(told) or number_of(told)
        heads = "1" if pair["heads"] is None or NUMBERED.search(reading.heard[: pair.start("heads")]) else pair["heads"]
        one = Stretch(float(pair["dose"].replace(",", ".")), "drop" if pair["unit"].lower().startswith("d") else "mL", float(times), None)
        stretches += [one] * int(number_of(heads))
    reading.said[:] = [s for s in reading.said if not _inside(s, pairs) and s.quantity not in OF_DOSES]
    reading.loose[:] = [f for f in reading.loose if not _inside(f, pairs) and not (f.kind == "#" and f.value == len(stretches))]
    reading.let_go("scale_n", "scale_one", "claim")
    reading.references += [Reference("reference", start, end) for start, end, _ in reading.numbers if any(p.start() <= start < p.end() for p in pairs)]
    counts = [(start, end) for start, end, kind in reading.numbers if kind == "number" and COUNTED.match(reading.heard[end:])]
    reading.references += [Reference("reference", start, end) for start, end in counts]
    reading.regimen = Regimen(stretches)
    reading.frames |= {"dose", "regimen"}
    volumes = [f for f in reading.figures if (f.quantity in THERE if isinstance(f, Said) else f.kind == "mL")]
    if len(volumes) == 1:
        take_as(reading, volumes[0], "bottle_size")
    if any(s.quantity == "course" for s in reading.said) and {a.quantity for a in reading.asked} <= {"menstruum", "supply", "daily", "blend"}:
        reading.asked[:] = [Asked("supply", 0, len(reading.heard))]


def _inside(figure: Said | Loose, pairs: list[re.Match[str]]) -> bool:
    return any(p.start() <= figure.start < p.end() for p in pairs)
