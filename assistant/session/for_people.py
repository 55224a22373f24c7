"""The same for several people: "5 mL three times a day for 4 weeks", then "and for 3 people"; a recipe, a tea, then "same for four clients"."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.dataclass import replace
from assistant.listening.statements import Act, Asked, Loose, Reading, Reference, Said
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import base
from assistant.session.batch import Batch, Fact
from assistant.session.frames import relation_tags
from assistant.session.work import take_as

if TYPE_CHECKING:
    from assistant.session.conversation import Session

PEOPLE = r"(?:people|persons?|clients?|patients?|customers?|folks?|takers|adults|grown[- ]?ups|friends|mouths|of (?:us|them|you))"
HEADS = looked_for(rf"\b(?P<n>\d+|[a-z]+) (?:such |other |more )?{PEOPLE}\b", re.IGNORECASE)
_FILL = (
    "and so same that it this now ok but or make do again what about how much is if its recipe formula blend tea mix whole thing all "
    "need needs want wants i we there are for x times the a my but only enough just bottle lot batch with as to said meant course "
    "instead then please in altogether total each would will be was tincture ml mls g grams take taking takes on by everything go let s "
    "lets us say suppose who have get gives give"
)
ALONE = looked_for(rf"^(?:\W*\b(?:{'|'.join(_FILL.split())})\b)*\W*$", re.IGNORECASE)
MOST = 500.0
OF_A_COURSE = frozenset({"supply", "menstruum", "daily", "blend", "to_bottle"})


def for_people(session: Session, reading: Reading) -> None:
    """Multiply what is in hand by the people it is for; of a course the volume for all of them is asked. Changes the reading."""
    heads = HEADS.search(reading.heard)
    batch = session.batch
    if heads is None and batch is not None and "people" in batch.facts and not batch.members:  # "how many 100 mL bottles": for all of them
        reading.asked[:] = [replace(a, quantity="bottles_for_all") if a.quantity == "bottles_needed" else a for a in reading.asked]
    if heads is None or (reading.frames | (batch.frames if batch is not None else frozenset())) & {"year", "reserve", "orders"}:
        return
    figure = next((f for f in reading.figures if f.start <= heads.start("n") < f.end), None)
    if figure is None or figure.value != int(figure.value) or not 1 <= figure.value <= MOST:
        return
    told = {s.quantity for s in reading.said if s is not figure}
    if told >= {"course"} and told & {"dose", "dose_drops", "daily"} and not reading.ingredients:
        _of_a_course(reading, figure)
    elif batch is not None and len(reading.figures) == 1 and not reading.named and not reading.ingredients:
        words = reading.heard[: heads.start()] + " " + reading.heard[heads.end() :]
        words = words.replace("'", " ").replace("’", " ")
        of_plants = heads.group().lower().endswith("of them") and not (batch.members or batch.facts.keys() & {"course", "cups_a_day"})
        if ALONE.match(words) and not of_plants:
            _of_what_is_in_hand(session, batch, reading, figure)


def _of_a_course(reading: Reading, figure: Said | Loose) -> None:
    take_as(reading, figure, "people")
    kept = [Asked("bottles_for_all", a.start, a.end) for a in reading.asked if a.quantity == "bottles_needed"]
    others = [a for a in reading.asked if a.quantity not in OF_A_COURSE | {"bottles_needed", "herb_served", "bottles"}]
    reading.asked[:] = [*kept, *others] or [Asked("supply_for_all", 0, len(reading.heard))]
    reading.let_go("scale_n", "scale_one", "same")


def _of_what_is_in_hand(session: Session, batch: Batch, reading: Reading, figure: Said | Loose) -> None:
    facts = batch.facts
    doses = "course" in facts and facts.keys() & {"dose", "dose_drops", "daily"}
    if doses and relation_tags(batch) & {"fills_course", "fills_people"}:  # so much is blended as the course takes
        _of_a_course(reading, figure)
        reading.asked[:] = []
        return
    if doses and not batch.members:
        _of_a_course(reading, figure)
        if {"bottles_needed", "bottles"} & {base(w) for w in batch.wanted}:
            reading.asked[:] = [Asked("bottles_for_all", 0, len(reading.heard))]
        return
    before = facts["people"].value if "people" in facts else 1.0
    span = (figure.start, figure.end)
    a_day = "cups_a_day" if "tea" in batch.frames and "cups_a_day" in facts else "herb_per_day" if "by_the_day" in relation_tags(batch) else ""
    if a_day:  # what all of them take in a day
        now = take_as(reading, figure, a_day, facts[a_day].value * figure.value / before)
        reading.asked[:] = []
    elif batch.members or facts.keys() & {"herb", "menstruum", "batch", "stock"}:
        now = None
        reading.said[:] = [s for s in reading.said if s is not figure]
        reading.loose[:] = [f for f in reading.loose if f is not figure]
        reading.asked[:] = []
    else:
        return
    reading.let_go("scale_n", "scale_one", "same", "from_it")
    reading.references.append(Reference("reference", *span, figure.value))
    if now is None:
        reading.acts.append(Act("scale_n", ("for people",), *span, (figure.value / before,)))
    if session.draft is None and 0 <= session.current < len(session.batches):
        session.batches.put(batch.with_facts({"people": Fact(figure.value, "said", session.turn)}), session.current)
