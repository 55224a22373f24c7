"""A mixture of spirits told behind a plan is what it is poured with: "make it two thirds 96, rest water", "what if I use half vodka 40 half 96"."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.listening.statements import Reading, Said
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import key_for
from assistant.session.batch import Batch, Fact
from assistant.session.figuring import work_out

if TYPE_CHECKING:
    from assistant.session.conversation import Session

POURED = looked_for(
    r"^\W*(?:ok(?:ay)?|no|and|so|then|but)?\W*(?:(?:let'?s |i'?d |i'?ll |can i |could i )?(?:make|use|using|pour|take|do)|what if|if|with|on|in)\b",
    re.IGNORECASE,
)
LINE = frozenset({"part", "strength_of"})


def poured_mixed(session: Session, reading: Reading) -> None:
    """The strength of the mixture becomes the strength poured, and what was asked of the mixture goes. Changes the reading."""
    batch = session.batch
    lines = reading.ingredients
    if batch is None or session.draft is not None or batch.members or not {"strength", "herb"} <= batch.facts.keys() or "listed" not in reading.frames:
        return
    if len(lines) < 2 or reading.said or reading.loose or not POURED.search(reading.heard):
        return
    if any({q for q, *_ in line.figures} != LINE for line in lines):
        return
    told = {key_for(q, line.name): Fact(value, turn=session.turn) for line in lines for q, value, *_ in line.figures}
    mixture = Batch(members=tuple(line.name for line in lines), frames=frozenset({"formula", "listed"})).with_facts(told)
    strength = work_out(mixture, wanted=("blend_strength",)).value("blend_strength")
    if strength is None:
        return
    reading.said.append(Said("strength", strength, lines[0].start, lines[0].end))
    reading.ingredients.clear()
    reading.frames.discard("listed")
    reading.asked[:] = [a for a in reading.asked if a.quantity != "blend_strength"]
