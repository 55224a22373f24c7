"""The ways in which a capacity, a step and an error are told of an instrument, as patterns over tokens."""

from __future__ import annotations

import re
from functools import lru_cache

from assistant.listening.phrases import PhraseBook
from assistant.listening.token_row import any_of

UNIT = {"scale": ("<g>", "<oz>"), "glass": ("<mL>", "<cup>", "<oz>"), "hydrometer": ("<%>",)}
BARE = "<#>"
EACHES = "<n>"  # "in 20s"
WORDS_FOR_ONE = r"(?:grams?|g|mls?|millilitres?|milliliters?|percents?|%|degrees?)"


def _patterns(figure: str, bare: str, words: dict[str, frozenset[str]]) -> dict[str, re.Pattern[str]]:
    """How a capacity, a step and an error are said of an instrument that reads in `figure`, a group of tokens; `bare` takes a number without unit too."""
    steps = any_of(words["STEPS"])
    some = r"(?:[^<>.;?! ]+ ){0,2}"
    shows = r"(?:reads?|weighs?|shows?|measures?|resolves?|readable|marked|divided|graduated|displays?|jumps?|goes|moves?|counts?)"
    return {
        "step": re.compile(
            rf"(?:(?:in|by|with|of|has|every|at|has got) )?{bare}{steps}(?:on it )?"
            rf"|{steps}(?:of |every |are |at |in |by |each |to |is |per |for |only |about |= |: )*{bare}"
            rf"|{shows} (?:only |just |off |out |down |it )*(?:in|by|every|to the nearest|to every) (?:the |steps of |nearest )*{bare}"
            rf"|(?:to )?the nearest {figure}"
            rf"|(?:d|e) (?:= |is |of )?{figure}"
        ),
        "reads_to": re.compile(rf"{shows} (?:only |just |off |out |down )*to (?:about |a |the )*{figure}"),
        "one": re.compile(
            rf"(?:{shows} )?(?:only |just )*(?:in|to|by|every) (?:the |a )?(?:nearest|whole|single|full|every|one)(?: whole)? {WORDS_FOR_ONE} (?:{steps})?"
            rf"|(?:whole|single|one) {WORDS_FOR_ONE} {steps}|{shows} (?:only |just )*(?:whole|single|full) {WORDS_FOR_ONE} "
        ),
        "capacity": re.compile(
            rf"(?:(?:goes|go|going|weighs|reads|measures|takes|marked) )?(?:only |out |right |all the way )*up to (?:about )?{figure}(?:max |at most |full )?"
            rf"|(?:goes|go|going|only goes) (?:only |out )*to (?:about )?{figure}"
            rf"|(?:holds|takes|max|maximum|capacity|limit|full scale|most it takes|most) (?:is |of |to |at |: |= |only )*{figure}"
            rf"|{figure}(?:max|maximum|capacity|limit|full scale|at most|in all) "
            rf"|(?:from|<#> to|0 to) {some}{figure}"
        ),
        "error": re.compile(
            rf"(?:accurate|good|exact|true|right|correct|precise|trustworthy) (?:to|within|to within|down to) (?:within |about |plus or minus )*{figure}"
            rf"|(?:out|off|wrong|errs|drifts) (?:by )?(?:as much as |up to |at most |about )*{figure}(?:at most |either way |at worst )?"
            rf"|within (?:about )?{figure}"
        ),
    }


@lru_cache(maxsize=4)
def ways_of_telling(kind: str, book: PhraseBook) -> dict[str, re.Pattern[str]]:
    """The patterns for one kind of instrument: step, reads_to, one (whole units), capacity, error."""
    figure = "(?:" + "|".join(UNIT[kind]) + ") "
    return _patterns(figure, "(?:" + "|".join((*UNIT[kind], BARE, EACHES)) + ") ", {name: book.classes[name] for name in ("STEPS",)})
