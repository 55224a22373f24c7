"""How a plant dries, told as what it loses or what it comes down to: "loses 80 % drying", "dries to a fifth", "nettle gives 5 to 1".

What is lost is a share of the fresh weight; what it comes down to is a drying ratio. A loss of stalks, a spirit watered down and a ratio to a menstruum
are no such thing, and stay what they are.
"""

from __future__ import annotations

import re
from itertools import pairwise

from assistant.dataclass import replace
from assistant.listening.pieces import Piece, take_piece
from assistant.listening.statements import Asked, Reading
from assistant.patterns import looked_for

ABOUT = r"(?:about|around|roughly|some|nearly|almost|only|just|a good|like|maybe|up|it|of|to|by|at|is|are|as much as)"
LOSES = looked_for(
    r"\b(?:los[es]|lose[sd]?|losing|lost|loss|shrinks?|shrinking|shrank|sheds?|shedding|drops?|dropping|gives? up|costs?|takes?)"
    rf"\W+(?:{ABOUT}\W+)*$",
    re.IGNORECASE,
)
DRY = r"(?:dry|drys|dries|dried|drying|dryer|drier|dehydrator|racks?|loft|airing)"
OF_WEIGHT = r"(?:of\W+(?:its|it'?s|the|their|that)\W+(?:own\W+|fresh\W+)*weight|(?:by|in)\W+weight|weight|off)"
IN_DRYING = looked_for(
    rf"^\W*(?:{OF_WEIGHT}\W*)?"
    r"(?:(?:in|on|when|while|as|once|after|by|to|from|during|through|with|it|they|that|you|i|is|are|has|gets?|the|its|my|a)\W+)*"
    rf"{DRY}\b(?!\s+to\b)",
    re.IGNORECASE,
)
DRYING_BEFORE = looked_for(rf"\b(?:{DRY}|hung|hanging)\b[^.;?!\d]{{0,24}}$", re.IGNORECASE)
DRYING_LOSS = looked_for(
    r"(?:\b(?:drying|dry|dry-?down)\W+(?:loss|shrinkage|loses|takes|costs|takes off)|\bloss\W+(?:on|in|of)\W+drying)\W+(?:\w+\W+){0,2}$",
    re.IGNORECASE,
)
WHOLE_WEIGHT = looked_for(rf"^\W*{OF_WEIGHT}\b", re.IGNORECASE)
ITS_WATER = looked_for(
    r"^\W*(?:of\W+(?:its|the|their)\W+)?(?:water|moisture|stalks?|stems?|waste|trim|trimmings?|abv|alcohol|spirit|proof)\b", re.IGNORECASE
)
TRIMMED = looked_for(
    r"\b(?:stalks?|stems?|stripp\w+|trimm?\w*|garbl\w+|sort\w*|picking over|scrubb?\w*|peel\w*|wash\w*|clean\w*|top(?:ping|ped)|bins?|compost)\b",
    re.IGNORECASE,
)
DOWN_TO = looked_for(
    rf"\b(?:{DRY}|shrinks?|shrinking|shrank|shrivels?|comes?|goes|go|went|drops?|falls?|keeps?|leaves?|left with|gets?|got|gives?|yields?|ends?|is|are)\W+"
    r"(?:(?:up|down|out|away|at|to|into|with|me|us|back|about|around|roughly|only|just|nearly|it|a good|good)\W+)*$",
    re.IGNORECASE,
)
SHRINKS = looked_for(r"\b(?:shrinks?|shrinking|shrank|shrivels?)\b", re.IGNORECASE)
TO = looked_for(r"\b(?:to|into)\b", re.IGNORECASE)
LEAVES = looked_for(r"\b(?:to|into|leaves?|keeps?)\b", re.IGNORECASE)
BRINGS = looked_for(r"\b(?:gets?|got|gives?|yields?|leaves?|left)\b", re.IGNORECASE)
OF_THE_FRESH = looked_for(
    r"^\W*(?:of\W+(?:its|it'?s|the|their|that|what)\W+(?:own\W+|(?:it|i|they)\W+(?:was|were|put|pick\w*|weigh\w*)|fresh|green|wet|picked)\w*"
    r"|of\W+(?:its|their|the)\W+weight)",
    re.IGNORECASE,
)
DRY_BACK = looked_for(
    r"^\W*(?:(?:of\W+(?:it|that|them|its weight)|back|out|when|once|as|it'?s|it|is)\W+)*(?:dry|dried)\b", re.IGNORECASE
)
DRY_WORD = looked_for(rf"\b{DRY}\b", re.IGNORECASE)
STATE = looked_for(r"\b(?:fresh|dry|dried|dries|drying|wet|green|undried)\b", re.IGNORECASE)
GIVES = looked_for(
    r"\b(?:gives?|gave|giving|yields?|yielding|comes?|came|goes|go|went|runs?|shrinks?|loses?|is|it'?s|are|be|at|about|turns?|makes?|does|mine)\W+"
    r"(?:(?:out|down|up|in|at|to|about|around|roughly|usually|always|me|us)\W+)*$",
    re.IGNORECASE,
)
AFTER_DRY = looked_for(r"\b(?:dry|dried|fresh)\b[\w\s]{0,24}(?:,|;|:|-|\bat\b|\()\s*$", re.IGNORECASE)  # "600 g dried, 5 to 1"
NO_DRYING = frozenset(
    """<mL> <proof> vodka brandy rum spirit menstruum alcohol tincture tinctures oil wax beeswax honey sugar syrup vinegar glycerine glycerin salve
    extract decoction infusion press pressed jar parts""".split()
)
ENDS = frozenset(".;?!,")
FARTHEST = 240  # characters to either side: what is said farther off is not of this figure, and a long sentence costs no more for each


def read_dry_rates(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading) -> None:
    """Give such a figure its place; one of them a sentence. Does nothing where none is told, and nothing where a liquid is spoken of."""
    if NO_DRYING & set(tokens) or reading.ingredients or reading.liquids:
        return
    if _down_to(pieces, tokens, taken, reading):
        return
    told = any(f in tokens for f in ("<g>", "<oz>", "@")) or bool(STATE.search(reading.heard))
    for i, token in enumerate(tokens):
        item = pieces[i].item
        if i in taken or item is None or not item.value:
            continue
        start, end = pieces[i].start, pieces[i].end
        before, behind = reading.heard[max(0, start - FARTHEST) : start], reading.heard[end : end + FARTHEST]
        if token in ("<%>", "<share>"):
            clause = _clause(before[::-1])[::-1] + " " + _clause(behind)
            percent = item.value * (100 if token == "<share>" else 1)
            if not 5 < percent < 98 or TRIMMED.search(clause):
                continue
            if _is_loss(before, behind):
                _say(pieces, taken, reading, "drying_loss", i, percent)
                return
            if _is_left(token, before, behind, told):
                _say(pieces, taken, reading, "drying_ratio", i, 100 / percent)
                return
        elif token == "<:>" and isinstance(item.alt, tuple) and _more_to_one(item.alt) and STATE.search(reading.heard):
            if not (GIVES.search(before) or AFTER_DRY.search(before)):
                continue
            _say(pieces, taken, reading, "drying_ratio", i, max(item.alt) / min(item.alt))
            return


WETTEST, WET, DRIEST = 96.0, 40.0, 25.0  # percent of water: of a fresh plant, and no dried plant keeps above the last
OF_DRYING = looked_for(rf"\b(?:{DRY}|water|moisture|wet)\b", re.IGNORECASE)
BETWEEN = looked_for(
    r"^\W*(?:(?:water|wet|moisture|h2o|is|it|and|i|dry|dried|goes|gets?|comes?|want|need|it's|them|that|in|the)\W+)*"
    r"(?:down\W+)?(?:to|till|until)\W+(?:about\W+|only\W+)?$",
    re.IGNORECASE,
)


def _down_to(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading) -> bool:
    """ "To the dryer at 72 % down to 10 %": the water there is, and the water that is left."""
    places = [i for i, t in enumerate(tokens) if t in ("<%>", "<#>") and i not in taken and pieces[i].item is not None]
    for high, low in pairwise(places):
        wet, dry = pieces[high].item, pieces[low].item
        if wet is None or dry is None or not wet.value or not dry.value or "<%>" not in (tokens[high], tokens[low]):
            continue
        if "water" in tokens[high + 1 : high + 4] and tokens[high] == tokens[low] and tokens[max(0, low - 2) : low] == ["down", "to"]:
            continue  # read with the weights
        if not (WET <= wet.value <= WETTEST and dry.value <= DRIEST) or not BETWEEN.match(reading.heard[pieces[high].end : pieces[low].start]):
            continue
        if OF_DRYING.search(reading.heard) and any(t in tokens for t in ("<g>", "<oz>", "@")):
            _say(pieces, taken, reading, "water_content", high, wet.value)
            _say(pieces, taken, reading, "dried_water", low, dry.value)
            return True
    return False


def _clause(text: str) -> str:
    """What of a text stands before the first stop; a decimal point is none."""
    for i, letter in enumerate(text):
        if letter in ENDS and not (text[i - 1 : i].isdigit() and text[i + 1 : i + 2].isdigit()):
            return text[:i]
    return text


def _is_loss(before: str, behind: str) -> bool:
    if DRYING_LOSS.search(before):
        return True
    if not LOSES.search(before) or ITS_WATER.match(behind):
        return False
    verb = LOSES.search(before)
    assert verb is not None
    return bool(IN_DRYING.match(behind) or DRYING_BEFORE.search(before[: verb.start()]) or (WHOLE_WEIGHT.match(behind) and DRY_WORD.search(behind)))


def _is_left(token: str, before: str, behind: str, told: bool) -> bool:
    verb = DOWN_TO.search(before)
    if verb is None or ITS_WATER.match(behind) or not (told or SHRINKS.search(verb.group())):
        return False
    of_it = OF_THE_FRESH.match(behind)
    if SHRINKS.search(verb.group()) and TO.search(verb.group()):
        return token == "<share>" or of_it is not None
    drying = bool(DRY_WORD.search(verb.group()) or DRYING_BEFORE.search(before[: verb.start()]))
    drying = drying or bool(of_it is not None and DRY_WORD.search(behind[of_it.end() :][:30]))
    if token == "<share>" and DRY_BACK.match(behind) and BRINGS.search(verb.group()):
        return True  # "I get a fifth back dry"
    if not drying:
        return False
    return of_it is not None or (token == "<share>" and LEAVES.search(verb.group()) is not None)


def _more_to_one(sides: tuple[float, ...]) -> bool:
    return len(sides) == 2 and min(sides) > 0 and sides[0] / sides[1] >= 2


def _say(pieces: list[Piece], taken: set[int], reading: Reading, quantity: str, at: int, value: float) -> None:
    take_piece(pieces, taken, reading, quantity, at, value)
    reading.in_state("fresh")


HOW_IT_DRIES = frozenset({"water_content", "drying_ratio", "drying_loss"})
WATER_GOES = looked_for(
    r"(?<!%)(?<!% )(?<!percent )\bwater\b[^.;?!,\d]{0,30}"
    r"\b(?:to go|goes|going|go off|gone|leaves?|drive off|driven off|lost|loses?|off|evaporat\w+|comes? out|shed)\b(?!\s+(?:down|to)\b)"
    r"|\b(?:lose|drive off|dry off|get rid of|shed|evaporate)\b[^.;?!,\d]{0,20}\bwater\b",
    re.IGNORECASE,
)
RATES = frozenset({"drying_ratio", "drying_loss"})
A_JAR = frozenset({"ratio", "menstruum", "strength", "stock_strength", "pressed", "finished_strength"})
WEIGHED_DRY = looked_for(r"^\W*(?:of\W+)?(?:(?:it|the|my)\W+)*(?:dried|dry)\b(?!\s+(?:to|down|out|off|up)\b)", re.IGNORECASE)
COMES_OUT = looked_for(r"\b(?:what|how much)\b[^.;]*\b(?:comes? out|left|get|have|end up|out|back|gives?|makes?)\b", re.IGNORECASE)
VAGUE = frozenset({"yield_share", "held_back", "herb_left", "pressed", "rest", "spare"})


def asked_of_drying(reading: Reading) -> None:
    """Where a sentence tells how a plant dries and one weight, the other weight is what it is about. Changes the reading."""
    told = {s.quantity for s in reading.said}
    if told & A_JAR or reading.ingredients or reading.liquids:
        return
    wet = [s for s in reading.said if s.quantity == "dried_water" and s.value > WET]
    if wet and "water_content" not in told:  # "dried at 80 % water": so wet is a fresh plant
        reading.said = [replace(s, quantity="water_content") if s is wet[0] else s for s in reading.said]
        reading.asked = [a for a in reading.asked if a.quantity != "water"]
        told = {s.quantity for s in reading.said}
    if told >= {"water_content", "dried_water"}:
        reading.asked = [a for a in reading.asked if a.quantity != "water"]
    if told & HOW_IT_DRIES and WATER_GOES.search(reading.heard) and "herb" in told:
        reading.asked = [Asked("water_lost", 0, 0)]
        reading.tags.add("fresh")
        return
    if not told & RATES and not (told >= {"water_content", "dried_water"} and {a.quantity for a in reading.asked} <= VAGUE | {"water"}):
        return
    weights = [s for s in reading.said if s.quantity == "herb"]
    if len(weights) == 1 and "dried" not in told and WEIGHED_DRY.match(reading.heard[weights[0].end :]):
        reading.said = [replace(s, quantity="dried", weak=False) if s is weights[0] else s for s in reading.said]
        reading.in_state("fresh")
        told = {s.quantity for s in reading.said}
    asked = {a.quantity for a in reading.asked} - {"water"}
    wanted = "herb" if "dried" in told else "dried" if "herb" in told else ""
    if not wanted or {"herb", "dried"} <= told:
        return
    if not asked or asked <= {wanted, *told} or (asked <= VAGUE and COMES_OUT.search(reading.heard)):
        reading.asked = [Asked(wanted, 0, 0)]


__all__ = ["asked_of_drying", "read_dry_rates"]
