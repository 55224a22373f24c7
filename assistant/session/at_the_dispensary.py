"""What is told at the dispensary beside doses and bottles, each in a room of its own: people, what is kept back, what is left, days, drops, children."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.listening.statements import Reading
from assistant.session.by_the_day import by_the_day
from assistant.session.by_the_litre import by_the_litre
from assistant.session.carried_on import batches_of_it
from assistant.session.dose_sought import dose_sought
from assistant.session.doses_in_it import doses_in_it
from assistant.session.first_days import first_days
from assistant.session.for_people import for_people
from assistant.session.kept_back import kept_back
from assistant.session.left_after import left_after
from assistant.session.left_out import left_out, two_at_hand
from assistant.session.of_a_child import of_a_child
from assistant.session.several_people import several_people
from assistant.session.so_often import another_measure, bottles_by_times, only_dose, so_often
from assistant.session.some_over import some_over

if TYPE_CHECKING:
    from assistant.session.conversation import Session


def at_the_dispensary(session: Session, reading: Reading) -> None:
    """Give the figures of such a sentence the quantities they have there, in the order in which one room leaves to the next. Changes the reading."""
    batch = session.batch
    by_the_litre(session, reading)
    batches_of_it(session, reading)
    two_at_hand(reading)
    left_out(reading)
    several_people(reading, batch)
    for_people(session, reading)
    so_often(reading, batch)
    bottles_by_times(reading, batch)
    only_dose(reading, batch)
    another_measure(reading, batch)
    first_days(reading, batch)
    dose_sought(reading, batch)
    some_over(reading, batch)
    kept_back(reading, batch)
    left_after(reading, batch)
    by_the_day(reading, batch)
    doses_in_it(reading, batch)
    of_a_child(reading, batch)
