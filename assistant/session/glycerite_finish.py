"""Another finish wanted of a glycerite: the pour stays and its strength follows, so long as such glycerine is commonly sold.

Above that the glycerine stays as it was said, and more of it is poured.
"""

from __future__ import annotations

from assistant.session.batch import Batch
from assistant.session.figuring import work_out
from assistant.session.merging import Merged

MOST_SOLD = 86.5  # percent: what much of the trade sells (the bench's own convention)


def finish_wanted(merged: Merged, before: Batch) -> None:
    """Decide what follows the new finish: the strength poured, or how much. Changes `merged.batch`."""
    batch = merged.batch
    known = before.facts.keys()
    if "glycerite" not in batch.frames or "finished_glycerine" not in merged.new_keys or not {"glycerine", "menstruum"} <= known:
        return
    if "glycerine" in batch.facts or {"glycerine", "menstruum"} & merged.new_keys or "menstruum" not in batch.facts:
        return
    needed = work_out(batch, wanted=("glycerine",)).value("glycerine")
    if needed is None or needed > MOST_SOLD:
        merged.batch = batch.without("menstruum").with_facts({"glycerine": before.facts["glycerine"]})


__all__ = ["finish_wanted"]
