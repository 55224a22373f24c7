"""What is to be done with the conversation, where the same figure may also tell a fact of the bench."""

from __future__ import annotations

from collections.abc import Sequence

from assistant.listening.phrases import Match

HOLDS_ITS_FIGURES = frozenset("aside round scale_n scale_left scale_first scale_dose top_up top_up_to top_up_water forget had_wanted".split())
MULTIPLIES = frozenset({"scale_n", "scale_first"})
TELLING = 1.9  # a figure and one word that says what it is


def acts_meant(matches: Sequence[Match]) -> list[Match]:
    """The acts of a sentence, without those that another phrase speaks over."""
    says = [m for m in matches if m.phrase.act == "say" and m.phrase.weight >= TELLING]
    acts = [m for m in matches if m.phrase.act == "do" and not (says and m.phrase.gives[0] == "book_due")]  # "200 g, 1:5 in 50, what do I press out"
    return _swaps_before_asides([m for m in acts if m.phrase.gives[0] not in MULTIPLIES or not any(_tells_more(s, m) for s in says)])


def _tells_more(said: Match, act: Match) -> bool:
    """ "A tenth of it gets thrown out": the words behind say what the tenth is, so nothing is made a tenth as large."""
    return (said.last > act.last or said.first < act.first) and any(q != "_" and act.first <= i < act.last for q, i in said.taken)


def _swaps_before_asides(acts: list[Match]) -> list[Match]:
    """ "It says 90 on it, not 96": where one figure takes the place of another, neither is set aside or a claim."""
    swaps = [m for m in acts if m.phrase.gives[0] in ("swap", "swap_back")]
    return [m for m in acts if m.phrase.gives[0] not in ("aside", "claim") or not any(s.first <= m.last - 1 and m.last <= s.last for s in swaps)]
