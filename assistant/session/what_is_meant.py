"""What a sentence means where the work in hand, or words far apart in it, make another thing of its figures than the phrases did.

Each room below gives one kind of sentence its meaning and leaves all others alone. They are asked in this order, and a later one sees what an
earlier one made of the sentence: what only points or was told before; what is there and how strong; what is poured, pressed and dried; the
dispensary; and at last the state of the plant.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.listening.statements import Reading
from assistant.session.alcohol_asked import alcohol_asked
from assistant.session.asked_unit import told_in_it
from assistant.session.at_the_dispensary import at_the_dispensary
from assistant.session.back_to_it import back_to_it
from assistant.session.brought_up import brought_up
from assistant.session.by_kind import by_kind
from assistant.session.by_the_label import by_the_label
from assistant.session.claimed_parts import claimed_parts
from assistant.session.course_in_bottles import course_in_bottles
from assistant.session.dose_converted import dose_converted
from assistant.session.end_up_with import end_up_with
from assistant.session.enough_there import enough_there
from assistant.session.fresh_to_dry import dries_to, fresh_to_dry
from assistant.session.generic_names import as_in_hand
from assistant.session.glycerine_and_water import glycerine_and_water
from assistant.session.hydrometer_told import hydrometer_told
from assistant.session.in_its_state import dried_first, dry_now, picked_is_fresh, state_said
from assistant.session.let_down import let_down
from assistant.session.lost_of_it import lost_of_it
from assistant.session.meant_again import meant_again
from assistant.session.of_that_one import of_that_one
from assistant.session.other_country import other_country
from assistant.session.other_pour import other_pour
from assistant.session.over_harvest import surplus_dried
from assistant.session.plan_alone import plan_alone
from assistant.session.portions import portion
from assistant.session.poured_instead import poured_instead
from assistant.session.poured_several import poured_several
from assistant.session.prices_each import prices_each
from assistant.session.salves import tins_of_it
from assistant.session.settled_on import settled_on
from assistant.session.share_in_jar import share_in_jar
from assistant.session.so_many_of_that import so_many_of_that
from assistant.session.spirit_owned import spirit_owned
from assistant.session.still_wet import still_wet
from assistant.session.strengths_each import strengths_each
from assistant.session.told_already import told_already
from assistant.session.told_anew import told_anew
from assistant.session.told_dry import told_dry
from assistant.session.told_short import told_short
from assistant.session.watered import cut_by_parts, two_poured_together
from assistant.session.weights_together import weights_together
from assistant.session.which_weight import which_weight

if TYPE_CHECKING:
    from assistant.session.conversation import Session


def what_is_meant(session: Session, reading: Reading) -> None:
    """Let every room that knows such a sentence give its figures and questions their place. Changes the reading."""
    as_in_hand(reading, session.batch)
    claimed_parts(reading, session.batch)
    told_already(reading, session.batch)
    two_poured_together(reading)
    spirit_owned(reading, session.batch)
    tins_of_it(reading)
    glycerine_and_water(reading, session.batch)
    by_the_label(reading, session.batch)
    fresh_to_dry(reading, session.batch)
    dries_to(reading, session.batch)
    end_up_with(reading, session.batch)
    poured_several(reading)
    told_in_it(session, reading)
    other_country(reading, session.batch)
    back_to_it(session, reading)
    other_pour(reading, session.batch)
    lost_of_it(reading, session.batch)
    told_short(reading, session.batch, session.wants)
    strengths_each(reading, session.batch)
    prices_each(reading, session.batch)
    of_that_one(reading, session.batch)
    so_many_of_that(reading, session.batch)
    told_anew(reading, session.batch)
    weights_together(reading)
    share_in_jar(reading, session.batch)
    cut_by_parts(reading)
    hydrometer_told(reading)
    let_down(reading, session.batch)
    brought_up(reading)
    enough_there(reading)
    poured_instead(reading, session.batch)
    by_kind(reading, session.batch)
    alcohol_asked(reading, session.batch)
    dose_converted(session, reading)
    at_the_dispensary(session, reading)
    course_in_bottles(reading, session.batch)
    state_said(reading, session.batch)
    picked_is_fresh(reading, session.batch)
    dry_now(reading, session.batch)
    dried_first(reading, session.batch)
    portion(reading, session.batch)
    plan_alone(reading, session.batch)
    meant_again(reading, session.batch, session.wants)
    told_dry(reading, session.batch)
    surplus_dried(reading, session.batch)
    still_wet(reading, session.batch)
    settled_on(session, reading)
    which_weight(session, reading)
