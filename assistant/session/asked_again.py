"""A figure said before and asked for now: "how much of that vinegar would I have to pour to stay at 5 %?" leaves the 600 mL poured behind."""

from __future__ import annotations

from assistant.quantities.vocabulary import about, base
from assistant.session.answering import STANDS_FOR, expand
from assistant.session.figuring import Worked, work_out
from assistant.session.merging import Merged

SHARE = 1e-6  # of the figure: nearer than this it is the same


def asked_again(merged: Merged) -> Worked | None:
    """The batch worked out without the figure that is asked for, where the rest of what was said gives it; None where it does not.

    Changes `merged.batch`. Only a sentence that brings a new figure does this: without one the question is about what was said.
    """
    batch = merged.batch
    if not merged.new_keys:
        return None
    for asked in merged.asked:
        for key in (asked, *(k for name in STANDS_FOR.get(base(asked), ()) for k in expand(name, batch))):
            fact = batch.facts.get(key)
            if fact is None or key in merged.new_keys or (about(key) != about(asked) and about(asked)):
                continue
            trial = batch.without(key)
            worked = work_out(trial)
            figure = worked.solution.figures.get(key)
            if figure is None or figure.origin != "found" or worked.solution.conflicts or abs(figure.value - fact.value) <= SHARE * abs(fact.value):
                continue
            merged.batch = trial
            return worked
    return None
