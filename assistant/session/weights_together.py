"""Several weights of one plant told in a row are one weight: "400 g this morning and 260 g tonight", "two jars, 1.2 kg and 800 g of nettle"."""

from __future__ import annotations

import itertools
import re

from assistant.listening.statements import Asked, Loose, Reading, Said, forget
from assistant.patterns import looked_for

JOINS = looked_for(
    r"^\W*(?:(?:of|the|my|it|that|in|on|one|other|jar|jars|bag|basket|lot|batch|first|second|another|more|then|and|plus|also|a|from|picked|got|had|was|is|with|at|by"
    r"|this|last|late|early|morning|noon|afternoon|evening|night|tonight|today|yesterday|now|later|before|after|lunch|tea|yard|garden|hedge|field|wood|lane|bottom|top)\b\W*)*$",
    re.IGNORECASE,
)
AND = looked_for(r"\b(?:and|plus|then|also|another)\b|[,+&]", re.IGNORECASE)
APART = looked_for(r"\b(?:each|apiece|separate(?:ly)?|or|not|instead|rather)\b", re.IGNORECASE)
OF_A_STATE = looked_for(r"\b(?:dry|dried|dries|drying)\b", re.IGNORECASE)
WEIGHTS = frozenset({"herb", "dried"})


def weights_together(reading: Reading) -> None:
    """Lay them together. Changes the reading."""
    if _so_many_alike(reading):
        return
    if reading.ingredients or reading.liquids or len({n.name for n in reading.named if n.known}) > 1:
        return
    weights: list[Said | Loose] = [f for f in reading.figures if (f.quantity in WEIGHTS if isinstance(f, Said) else f.kind == "g")]
    if len(weights) < 2 or APART.search(reading.heard):
        return
    if any(s.quantity == "dried" for s in reading.said) and OF_A_STATE.search(reading.heard[weights[0].start : weights[-1].end]):
        return
    if any(not _joined(reading, a, b) for a, b in itertools.pairwise(weights)):
        return
    last = weights[-1]
    total = sum(w.value for w in weights)
    counted = [f for f in reading.figures if f.value == len(weights) and (f.quantity == "jars" if isinstance(f, Said) else f.kind in ("#", "n"))]
    if any(isinstance(w, Said) and w.quantity == "dried" for w in weights):  # "…, 82 % water, dried?": what they dry to is asked
        reading.asked[:] = [Asked("dried", 0, len(reading.heard))]
    for figure in (*weights[:-1], *counted):
        reading.only_points(figure)
    forget(last, reading.said, reading.loose)
    reading.said.append(Said("herb", total, last.start, last.end))


CARRIER = r"(?:carrier )?(?:bags?|baskets?|trugs?|sacks?|crates?|buckets?|bundles?|bunches|punnets?|pails?|trays?|boxes|armfuls?|lots?)"
SO_MANY = looked_for(rf"^\s*(?:big |small |full |good |more )*{CARRIER}\b", re.IGNORECASE)
OF_EACH = looked_for(rf"^\s*(?:each|apiece|a piece|in each|per|a)\b(?:\s+{CARRIER}\b)?", re.IGNORECASE)
OF_THE_FRESH = looked_for(r"\b(?:pick\w*|gather\w*|cut|dug|fresh|dr(?:y|ies|ied|ying)|water|wet|1 ?: ?\d)\b", re.IGNORECASE)
ONE_OF_THEM = frozenset({"herb", "tin_weight", "per_plant", "dried", "menstruum_weight"})
MOST_CARRIED = 40


def _so_many_alike(reading: Reading) -> bool:
    """Whether it is "3 bags of elderflower, 240 g each" of a plant that is fresh, dries or goes into a jar: so many times that weight. Changes the reading."""
    counts = [f for f in reading.figures if _is_count(f) and SO_MANY.match(reading.heard[f.end :])]
    each = [f for f in reading.figures if _is_weight(f) and OF_EACH.match(reading.heard[f.end :])]
    if len(counts) != 1 or len(each) != 1 or reading.ingredients or not OF_THE_FRESH.search(reading.heard):
        return False
    count, one = counts[0], each[0]
    reading.only_points(count)
    forget(one, reading.said, reading.loose)
    reading.said.append(Said("herb", count.value * one.value, one.start, one.end))
    reading.frames.discard("bagged")
    reading.asked[:] = [a for a in reading.asked if a.quantity != "herb"]
    return True


def _is_count(figure: Said | Loose) -> bool:
    bare = figure.quantity == "bags" if isinstance(figure, Said) else figure.kind in ("#", "n")
    return bare and 2 <= figure.value <= MOST_CARRIED and figure.value == round(figure.value)


def _is_weight(figure: Said | Loose) -> bool:
    return figure.quantity in ONE_OF_THEM if isinstance(figure, Said) else figure.kind == "g"


def _joined(reading: Reading, one: Said | Loose, other: Said | Loose) -> bool:
    between = reading.heard[one.end : other.start]
    if any(one.end <= start < other.start for start, _, _ in reading.numbers):
        return False
    for name in (n for n in reading.named if one.end <= n.start < other.start):
        between = between.replace(reading.heard[name.start : name.end], " ")
    return AND.search(between) is not None and JOINS.match(between) is not None


