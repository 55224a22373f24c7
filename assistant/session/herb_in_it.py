"""How much plant stands behind so much of a tincture of a told ratio: "60 drops of a 1:3 how much herb is that", "a teaspoon of 1:4, how much root"."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.dataclass import replace
from assistant.listening.statements import Asked, Loose, Reading, Reference, Said
from assistant.patterns import looked_for
from assistant.reply import Reply
from assistant.session.batch import Batch, Fact
from assistant.session.work import renamed

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

HERB = r"(?:herb|plant|root|leaf|leaves|bark|flowers?|berr(?:y|ies)|seeds?|dried herb|stuff)"
ASKS = looked_for(rf"\b(?:how (?:much|many)|what)\b[^.;?]*\b(?:{HERB}|grams?|g|mg|milligrams?)\b", re.IGNORECASE)
OF_A = looked_for(r"^\W*(?:(?:mls?|of|a|an|the|my|our|in|tincture|dried|fresh|herb|at|is|with|extract|this|that|some)\b\W*)*$", re.IGNORECASE)
RATIOS = frozenset({"ratio", "other_ratio"})
POURS = frozenset({"menstruum", "dose", "bottle_size", "pressed", "spirit_in_hand", "stock"})
LARGEST = 60.0  # mL: more is a bottle


def herb_in_it(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """The grams in that much; None for the herb in each mL, for any other sentence, and where the batch in hand has that ratio and a dose to go by."""
    if len(reading.figures) != 2 or reading.ingredients or reading.liquids or not ASKS.search(reading.heard):
        return None
    ratio = next((s for s in reading.said if s.quantity in RATIOS and s.value >= 1), None)
    pour = next((f for f in reading.figures if f is not ratio), None)
    if ratio is None or pour is None or pour.value == 1 or pour.end > ratio.start or not OF_A.match(reading.heard[pour.end : ratio.start]):
        return None
    dose = _as_dose(pour)
    if dose is None:
        return None
    clean = replace(reading, said=[dose], loose=[], asked=[Asked("herb_per_dose", 0, len(reading.heard))])
    clean.acts = []
    clean.frames = {"dose"}
    clean.references = [*reading.references, Reference("ratio", ratio.start, ratio.end, ratio.value)]
    named = reading.named[0].name if reading.named else ""
    onto = Batch(name=named, frames=frozenset({"dose"})).with_facts({"ratio": Fact(ratio.value, "said", session.turn)})
    return session.take(clean, answers, onto=onto, index=-1)


def _as_dose(pour: Said | Loose) -> Said | None:
    if isinstance(pour, Loose):
        return Said("dose_drops", pour.value, pour.start, pour.end, said_unit=pour.said_unit) if pour.kind == "drop" else None
    if pour.quantity == "dose_drops":
        return pour
    return renamed(pour, "dose") if pour.quantity in POURS and pour.value <= LARGEST and pour.said_unit else None
