"""Going on about what goes off in trimming: the loss that was told, or came out, holds for the next clean weight that is wanted."""

from __future__ import annotations

import re

from assistant.listening.statements import Asked, Reading, Said
from assistant.patterns import looked_for
from assistant.session.batch import Batch

WANTED = looked_for(r"\b(?:for|want|wants|need|needs|after|to (?:get|have|end up with))\b", re.IGNORECASE)
PICKED = frozenset({"picked", "gross", "tare", "to_gather"})
A_POUR = frozenset({"ratio", "menstruum", "strength", "stock_strength"})


def clean_weight_wanted(reading: Reading, batch: Batch) -> None:
    """ "40 % of it is stalk", then "I need 900 g clean": that is to be gathered for. Changes the reading."""
    facts = batch.facts
    said = {s.quantity for s in reading.said}
    if said != {"herb"} or not WANTED.search(reading.heard) or facts.keys() & A_POUR or {a.quantity for a in reading.asked} - {"herb", "to_gather", "picked"}:
        return
    if {"picked", "herb"} <= facts.keys() and batch.wanted == ("trim_loss",) and facts["picked"].value > 0:
        reading.said.append(Said("trim_loss", 100 * (1 - facts["herb"].value / facts["picked"].value), 0, 0))
    elif "trim_loss" not in facts or "herb" in facts:
        return
    reading.freed |= facts.keys() & PICKED
    reading.asked[:] = [Asked("to_gather", 0, len(reading.heard))]


__all__ = ["clean_weight_wanted"]
