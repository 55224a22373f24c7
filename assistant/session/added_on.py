""" "Another 100 of brandy in on top", "tip in 50 g more honey": what is added to an amount told before makes it that much more."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from assistant.dataclass import replace
from assistant.listening.statements import Reading, Said
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import VOCABULARY, about, base
from assistant.session.batch import Fact

ANOTHER = looked_for(
    r"\b(?:another|a further|an extra|an additional|extra|plus another|and another|(?:handful|bit|little|some|lot) more,?)\s*$", re.IGNORECASE
)
MORE = looked_for(r"^\s*(?:g|grams|ml|mls|oz)?\s*(?:more|extra)\b(?!\s*(?:than|or less|like))", re.IGNORECASE)
ON_TOP = looked_for(r"^[^,.;?]{0,24}\b(?:on top|as well|in too)\b", re.IGNORECASE)
# What is still to come is not there: "I need 40 g more"; "the spirit for 40 g more" asks for those alone.
WANTING = looked_for(
    r"\b(?:needs?|needed|want|wants|wanted|short|lacks?|missing|takes?|order|buy|must|should)\b|\bfor\s+(?:about |only |just |the |those )*$",
    re.IGNORECASE,
)
ADDS = looked_for(r"\b(?:add|added|adding|tip|tipped|chuck|chucked|pour|poured|put|stir|stirred|throw|threw|found|picked|got|bung|bunged)\b", re.IGNORECASE)
ADD = looked_for(r"(?<!only )(?<!just )\b(?:add|adding|chuck in|throw in|tip in|stir in)\s*(?:about|just)?\s*$", re.IGNORECASE)
# A size is no amount: "another 250 mL bottle" is another bottle.
NO_AMOUNT = frozenset({"bottle_size", "jar_size", "tin_size", "tin_weight", "cup_size", "dose", "dose_drops", "per_cup", "spoon", "daily", "eo_base"})


def added_on(said: Sequence[Said], before: Mapping[str, Fact], reading: Reading) -> list[Said]:
    """The figures of a sentence, those that are said to come on top with what was there already.

    before   the facts of the batch as the sentence found them
    """
    found = []
    for s in said:
        s = _of_what_is_short(s, before, reading.heard)
        fact = before.get(s.key)
        adds = VOCABULARY[base(s.key)].unit in ("g", "mL", "drop") and base(s.key) not in NO_AMOUNT and s.end > s.start
        if fact is None or not adds or not _comes_on_top(s, reading.heard):
            found.append(s)
            continue
        found.append(replace(s, value=s.value + fact.value, low=None, high=None, plus_minus=None))
    return found


def _of_what_is_short(s: Said, before: Mapping[str, Fact], heard: str) -> Said:
    """ "Found another 40 g", where one ingredient was short: more of that one, and not a size of the batch."""
    short = [k for k in before if base(k) in ("have_weight", "have")]
    if len(short) != 1 or s.member or s.quantity not in UNNAMED or not ADDS.search(heard) or not _comes_on_top(s, heard):
        return s
    if VOCABULARY[base(short[0])].unit != VOCABULARY[s.quantity].unit:
        return s
    return replace(s, quantity=base(short[0]), member=about(short[0]), weak=False)


NEAR = 80  # characters: right beside the figure
UNNAMED = frozenset({"batch", "herb", "blend", "menstruum", "pressed", "weight", "volume", "have", "have_weight"})


def on_top_of(key: str, start: int, heard: str, facts: Mapping[str, Fact]) -> float:
    """What there is of an ingredient already, where its figure at heard[start:] is said to be added to it; nothing otherwise."""
    adds = VOCABULARY[base(key)].unit in ("g", "mL") and (ADD.search(heard[:start]) or ANOTHER.search(heard[:start])) is not None
    return facts[key].value if adds and key in facts else 0.0


def said_on_top(start: int, end: int, heard: str) -> bool:
    """Whether the figure at heard[start:end] is one more of something: "another 20", "20 more"."""
    return ANOTHER.search(heard[max(0, start - NEAR) : start]) is not None or MORE.match(heard[end : end + NEAR]) is not None


def _comes_on_top(s: Said, heard: str) -> bool:
    if ANOTHER.search(heard[: s.start]) is not None:
        return True
    if ADD.search(heard[: s.start]) is not None and (s.member or s.quantity in ("sugar", "honey", "decoction", "liquid")):
        return True  # "40 g wax, add 10 g wax"
    adds = ADDS.search(heard) is not None
    if MORE.match(heard[s.end :]) is not None:
        return adds or WANTING.search(heard[: s.start]) is None
    return adds and ON_TOP.match(heard[s.end :]) is not None
