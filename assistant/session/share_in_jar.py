"""A share of the plant in hand goes into the jar: "half of that in a jar 1:3 with 70". So much of it, and no smaller batch of what was poured."""

from __future__ import annotations

from assistant.listening.statements import Reading, Said
from assistant.session.batch import Batch

POURED = frozenset({"ratio", "menstruum", "strength"})


def share_in_jar(reading: Reading, batch: Batch | None) -> None:
    """Let the share be of the plant, where nothing was poured on it yet and this sentence pours. Changes the reading."""
    act = reading.act("scale_n")
    if batch is None or batch.members or act is None or len(act.figures) != 1 or not 0 < act.figures[0] < 1:
        return
    told = {s.quantity for s in reading.said}
    if "herb" not in batch.facts or batch.facts.keys() & POURED or "herb" in told or not {"ratio", "menstruum"} & told or reading.ingredients:
        return
    reading.said.append(Said("herb", act.figures[0] * batch.facts["herb"].value, act.start, act.end))
    reading.let_go("scale_n")
