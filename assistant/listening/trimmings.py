"""What goes off in trimming, told as what a part of the plant is, or as two weights: "half the elderberries are stalks", "took 900 g, net of stalks 760"."""

from __future__ import annotations

import re

from assistant.dataclass import replace
from assistant.listening.pieces import Piece, take_piece
from assistant.listening.statements import Asked, Reading
from assistant.patterns import looked_for

WASTE = (
    r"(?:stalks?|stalky|stems?|stemmy|twigs?|twiggy|wood|woody|seeds?|hairs?|waste|grit|rubbish|peel|peelings|skins?|pith|stones?|pips?|dirt|soil|earth|mud"
    r"|trimmings?|debris|chaff|husks?|shells?|bad|brown|mouldy|rotten|spoiled|spoilt|no good|useless|compost)"
)
IS_WASTE = looked_for(
    rf"^\W*(?:of\W+)?(?:(?:the|my|this|that|these|those|it|them|what|i|we|pick|picked|cut|gather|weight|lot|by|all)\W+)*(?:[a-z'-]+\W+){{0,2}}?"
    rf"(?:is|are|was|were|be|goes|go|ends? up|turns? out|comes? off|being)\W+(?:(?:just|mostly|only|as|all|the|to be|going to be)\W+)*{WASTE}\b",
    re.IGNORECASE,
)
CLEANED = (
    r"(?:stripp?(?:ed|ing)|trimm?(?:ed|ing)|garbl(?:ed|ing)|sort(?:ed|ing)|pick(?:ed|ing) (?:it |them )?over|clean(?:ed|ing)|scrubb(?:ed|ing)"
    r"|peel(?:ed|ing)|wash(?:ed|ing)|topp(?:ed|ing)|rubb(?:ed|ing)|shak(?:en|ing)|destalk(?:ed|ing)|destemm?(?:ed|ing))"
)
LEFT_BEFORE = looked_for(
    rf"(?:\bnet(?:\W+of\W+[\w ]{{1,16}})?|\b(?:after|once|when)\W+(?:it'?s\W+|i\W+|they'?re\W+)?{CLEANED}[^.;?!\d]{{0,24}}"
    rf"|\b{CLEANED}\W+(?:it\W+|them\W+|all\W+)?(?:\w+\W+)?(?:down\W+)?to|\b{CLEANED}\W+(?:it|they|that|there)(?:'s|'re)?"
    r"|\bwithout\W+(?:the\W+)?(?:stalks?|stems?|twigs?|waste)[^.;?!\d]{0,12}|\b(?:clean|cleaned|usable)(?:\W+(?:leaf|weight|wt|flower|root|herb))?)"
    r"\W*(?:(?:is|was|are|were|leaves?|left|got|i|have|had|me|with|about|only|just|it|weighs?|now|at|to|down|of|comes?|came|that's|=|:)\W+)*$",
    re.IGNORECASE,
)
LEFT_BEHIND = looked_for(
    rf"^\W*(?:(?:is|was|are|were|left|over|of|it|them|remains?|remaining|the|leaf|flower|root|good|clean|usable)\W+)*"
    rf"(?:(?:after|once|when)\W+(?:it'?s\W+|i\W+|i'd\W+|they'?re\W+|the\W+)?{CLEANED}|without\W+(?:the\W+)?(?:stalks?|stems?)|net\b|clean\b)",
    re.IGNORECASE,
)
LOSS_ASKED = looked_for(r"\b(?:loss|losing|lose|lost|waste|wasted|trim|trimmings?|percent|percentage|share|what %|how much)\b|%\s*\?", re.IGNORECASE)
DRIED = looked_for(r"\b(?:dry|dried|dries|drying|dryer)\b", re.IGNORECASE)
DRIED_BEHIND = looked_for(r"^\W*(?:(?:of|it|the)\W+)*(?:dry|dried)\b", re.IGNORECASE)
KEPT_BEHIND = looked_for(
    rf"^\W*(?:of\W+(?:it|that|them|what\W+\w+\W+\w+)\W+)?(?:(?:is|are|comes?|as|out|just|the)\W+)*"
    rf"(?:good|usable|clean|leaf|leaves|flowers?|petals|berries|root|left)\b[^.;?!\d]{{0,20}}\b(?:{CLEANED}|without\W+(?:the\W+)?(?:stalks?|stems?))",
    re.IGNORECASE,
)
PICKED_BEFORE = looked_for(
    r"\b(?:picked|gathered|cut|dug|harvested|brought|got|collected|foraged)\W+(?:(?:in|home|up|me|about|only|just|i)\W+)*$", re.IGNORECASE
)
PICKED_BEHIND = looked_for(
    r"^\W*(?:[a-z]+\W+){0,3}?(?:was\W+|were\W+|got\W+)?(?:picked|gathered|harvested|foraged|in the (?:basket|bag|trug))\b", re.IGNORECASE
)
NOT_YET = looked_for(r"\b(?:need|needs|want|wants|clean|after|for)\W+(?:\w+\W+)?$", re.IGNORECASE)
LEFT_ASKED = looked_for(
    r"\b(?:how much|what(?:'s| is|s)?)\b[^.;?!]*\b(?:left|clean|usable|leaf|remains?|over|keep|good)\b|\b(?:clean|left|usable)\s*\?", re.IGNORECASE
)
OTHER_WORK = frozenset("<mL> <proof> tare empty gross bag basket trug tub tray bowl box sack bucket pail crate tin jar punnet colander scale scales".split())
LOST = frozenset({"trim_loss", "drying_loss", "water_lost", "held_back", "herb", "picked", "rest", "herb_left", "yield_share", "margin"})


def read_trimmings(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading) -> None:
    """Give a share that is waste, or the weights before and after trimming, their places. Does nothing where neither is told."""
    for i, token in enumerate(tokens):
        item = pieces[i].item
        if token not in ("<%>", "<share>") or i in taken or item is None or not item.value:
            continue
        percent, behind = item.value * (100 if token == "<share>" else 1), reading.heard[pieces[i].end :]
        if IS_WASTE.match(behind) or KEPT_BEHIND.match(behind):
            take_piece(pieces, taken, reading, "trim_loss", i, percent if IS_WASTE.match(behind) else 100 - percent)
            break
    if OTHER_WORK & set(tokens):
        return
    weights = [i for i, t in enumerate(tokens) if t in ("<g>", "<oz>", "<#>") and i not in taken and (pieces[i].item is not None)]
    if len(weights) != 2 or tokens[weights[0]] == "<#>":
        return
    first, second = (pieces[i] for i in weights)
    before, after = first.item, second.item
    if before is None or after is None or not before.value or not after.value:
        return
    size = before.value / before.said if tokens[weights[1]] == "<#>" and before.said else 1.0
    clean = after.value * (size if after.value * size < before.value else 1.0)  # "1.2 kg, stripped to 820" are grams, "2.4 kg, net 1.9" kilos
    between = reading.heard[first.end : second.start]
    if DRIED.search(between) or DRIED_BEHIND.match(reading.heard[second.end :]):
        return
    if clean >= before.value or not (LEFT_BEFORE.search(between) or LEFT_BEHIND.match(reading.heard[second.end :])):
        return
    take_piece(pieces, taken, reading, "picked", weights[0], before.value)
    take_piece(pieces, taken, reading, "herb", weights[1], clean)
    reading.tags.discard("dried")


def trim_asked(reading: Reading) -> None:
    """With both weights told, what is asked is the share that went; what is told as picked is trimmed before it goes in. Changes the reading."""
    _was_picked(reading)
    if any(s.quantity == "trim_loss" for s in reading.said):
        reading.asked = [a for a in reading.asked if a.quantity != "trim_loss"]
    said = {s.quantity for s in reading.said}
    if said == {"picked", "herb"} and ({a.quantity for a in reading.asked} <= LOST) and (
        LOSS_ASKED.search(reading.heard) or {a.quantity for a in reading.asked} <= said
    ):
        reading.asked = [Asked("trim_loss", 0, 0)]


def _was_picked(reading: Reading) -> None:
    """ "800 g picked, a quarter is woody, how much left": the loss goes off that weight."""
    said = {s.quantity for s in reading.said}
    weights = [s for s in reading.said if s.quantity == "herb"]
    if "trim_loss" not in said or len(weights) != 1 or said & {"picked", "gross", "to_gather", "dried"}:
        return
    before, behind = reading.heard[: weights[0].start], reading.heard[weights[0].end :]
    if NOT_YET.search(before) or not (PICKED_BEFORE.search(before) or PICKED_BEHIND.match(behind)):
        return
    asked = {a.quantity for a in reading.asked}
    if asked & {"to_gather", "picked"} and not LEFT_ASKED.search(reading.heard):
        return
    reading.said = [replace(s, quantity="picked", weak=False) if s is weights[0] else s for s in reading.said]
    if asked <= LOST | {"to_gather"} and not said & {"ratio", "menstruum"}:
        reading.asked = [Asked("herb", 0, 0)]


__all__ = ["read_trimmings", "trim_asked"]
