"""A plant of the plan called by the name of its kind: "two parts mint actually" beside peppermint. It is the one in hand, and no second plant."""

from __future__ import annotations

from collections.abc import Sequence

from assistant.cautions.plants import plants
from assistant.dataclass import replace
from assistant.listening.statements import Reading
from assistant.session.batch import Batch


def as_in_hand(reading: Reading, batch: Batch | None) -> None:
    """Give a name that several plants share the name of the one that is in hand. Changes the reading; does nothing where two of them are."""
    if batch is None:
        return
    held = tuple(dict.fromkeys((*batch.members, *((batch.name,) if batch.name else ()))))
    told = {n.name for n in (*reading.named, *reading.mentions)} | {i.name for i in (*reading.ingredients, *reading.liquids)}
    for name in [n for n in told if n not in held]:
        meant = _the_one_in_hand(name, held)
        if not meant or meant in told:
            continue
        for names in (reading.named, reading.mentions):
            names[:] = [replace(n, name=meant) if n.name == name else n for n in names]
        for lines in (reading.ingredients, reading.liquids):
            lines[:] = [replace(i, name=meant) if i.name == name else i for i in lines]


def _the_one_in_hand(name: str, held: Sequence[str]) -> str:
    """Of the names in hand the one that may be called so, "" where none or several may."""
    known = plants()
    hit = known.called(name)
    if hit is None or not hit.question:
        return ""
    kinds = {p.name for p in hit.plants}
    own = [h for h in held if (one := known.called(h)) is not None and one.plant is not None and one.plant.name in kinds]
    return own[0] if len(own) == 1 else ""
