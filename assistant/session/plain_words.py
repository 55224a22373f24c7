"""A contradiction between the amounts of a recipe in the words of the bench: "the amounts make 120 mL, the bottle holds 100 mL"."""

from __future__ import annotations

from collections.abc import Mapping

from assistant.quantities.vocabulary import about, base
from assistant.session.wording import number, shown
from assistant.solving import Conflict

FILLED = frozenset({"volume", "blend", "bottle_size", "bottles"})
WEIGHED = frozenset({"weight", "batch"})


def in_plain_words(clash: Conflict) -> tuple[str, tuple[str, ...]] | None:
    """What contradicts what, and phrases that mend it; None where figure by figure says it best."""
    said: Mapping[str, float] = {key: value for key, _, value in clash.implied}
    bases = {base(k) for k in said}
    members = [k for k in said if about(k)]
    if len(members) < 2:
        return None
    total = sum(said[k] for k in members)
    if bases == {"share"}:
        return f"The percents make {number(total, 'percent')} %, not 100 %. Which one gives?", ("go by the parts",)
    if bases <= FILLED and "volume" in bases:
        if "blend" in said:
            holds = said["blend"]
        elif "bottle_size" in said:
            holds = said["bottle_size"] * said.get("bottles", 1.0)
        else:
            return None
        text = f"The amounts make {shown('blend', total)}, but {shown('blend', holds)} is to be filled. Which gives?"
        return text, ("squeeze it down in proportion" if total > holds else "scale it up in proportion", f"make it {shown('blend', total)}")
    if bases == WEIGHED:
        return f"The weights make {shown('batch', total)}, not {shown('batch', said['batch'])}. Which gives?", (
            "scale it in proportion",
            f"a {shown('batch', total)} batch",
        )
    return None
