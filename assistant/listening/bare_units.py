"""Numbers whose unit goes without saying where they stand: "a 500 bottle", "20 per 100" beside a price per 100 mL, "down 2.5 every week".

Each rule looks at the pieces alone and gives back pieces; none looks at what was said before.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from assistant.dataclass import replace
from assistant.listening.items import Item
from assistant.listening.pieces import Piece
from assistant.patterns import looked_for

VESSELS = frozenset("bottle phial vial flask tin jar pot".split())
LEAST_SIZE = 10.0  # mL: below that a number before one bottle counts bottles
LEAST_OF_MANY = 100.0  # mL: "in 250 bottles" is in bottles of 250
LEADS_TO_SIZE = frozenset("a an one this that , in into from of for to fill fills another bigger smaller is was its it's instead ; : . and or".split())
STRENGTHS = frozenset({37.5, 38.0, 40.0, 43.0, 70.0, 75.0, 80.0, 90.0, 95.0, 96.0})  # percent: "my 40 bottle" may be the spirit at 40 %
LEADS_TO_DOSE = frozenset(", ; at take takes taking having".split())
LIQUIDS = frozenset("liquid menstruum menst spirit vodka brandy rum gin alcohol".split())
DAYS = {"day": 1.0, "week": 7.0, "wk": 7.0, "fortnight": 14.0, "month": 30.0}
BOUGHT = frozenset({"bought", "purchased"})
CARRIES = frozenset("used weighs weigh reads".split())
PRICED = frozenset("at cost costs price priced for paid is , @".split())
COST_WORDS = frozenset("cost costs price prices priced paid pay worth".split())
MEASURES = frozenset("is gives draws holds lifts comes =".split())
ROUND = frozenset({10.0, 50.0, 100.0, 250.0, 500.0, 1000.0})  # mL or g a price is told for
STEPPED = looked_for(r"^(?P<step>\d+(?:[.,]\d+)?) (?P<every>(?:every|each|a|per) .+)$", re.IGNORECASE)
WAYS = frozenset(
    "up down by drop dropping reduce reducing raise raising add adding cut cutting lower lowering taper tapering less more another off increase".split()
)


Rule = Callable[[Sequence[Piece], int], tuple[list[Piece], int] | None]


def with_units_that_go_without_saying(pieces: Sequence[Piece]) -> list[Piece]:
    """The pieces with such numbers given the unit they have where they stand."""
    rewritten = _carried(pieces)
    for rule, needs in RULES:
        if not needs.isdisjoint([p.code for p in rewritten]):
            rewritten = _rewritten(rewritten, rule)
    return rewritten


def _rewritten(pieces: Sequence[Piece], rule: Rule) -> list[Piece]:
    """The row with a rule applied from left to right: it gives the pieces that stand for the next few, and how many those are, or nothing."""
    result: list[Piece] = []
    i = 0
    while i < len(pieces):
        instead = rule(pieces, i)
        if instead is None:
            result.append(pieces[i])
            i += 1
        else:
            result.extend(instead[0])
            i += instead[1]
    return result


def _in_ml(piece: Piece) -> tuple[list[Piece], int]:
    assert piece.item is not None
    return [replace(piece, code="<mL>", item=replace(piece.item, kind="amount", unit="mL", said_unit=""))], 1


def _led_by(pieces: Sequence[Piece], i: int) -> str:
    return pieces[i - 1].code if i else ""


def _codes(pieces: Sequence[Piece], first: int, last: int) -> list[str]:
    return [p.code for p in pieces[first:last]]


def _carried(pieces: Sequence[Piece]) -> list[Piece]:
    """ "Bought 8 L of 95, used 5.2, 2.5 on the shelf", "600 g up, weighs 310 now": the number is in the unit its like was said in."""
    words = {p.code for p in pieces}
    code = "<mL>" if words & BOUGHT and words & {"used", "shelf"} else "<g>" if "now" in words and words & {"up", "weighs", "drying"} else ""
    like = next((p.item for p in pieces if p.code == code and p.item is not None and p.item.said and p.item.value), None) if code else None
    if like is None or not like.said or like.value is None:
        return list(pieces)
    result = list(pieces)
    for i, piece in enumerate(pieces):
        before, behind = pieces[i - 1].code if i else "", [p.code for p in pieces[i + 1 : i + 4]]
        cue = before in CARRIES or behind[:1] == ["now"] or behind == ["on", "the", "shelf"] or behind[:2] == ["still", "there"]
        strength = before in ("of", "at")  # "3 L of 96 on the shelf"
        if piece.code in ("<#>", "<n>") and cue and not strength and piece.item is not None and piece.item.value is not None:
            item = replace(piece.item, kind=like.kind, unit=like.unit, said_unit=like.said_unit, value=piece.item.value * like.value / like.said)
            result[i] = replace(piece, code=code, item=item)
    return result


def _down_to(pieces: Sequence[Piece], i: int) -> tuple[list[Piece], int] | None:
    """ "Simmered 3 L down to 1.2": what is left is told in the unit of what there was, where that makes it less."""
    number = pieces[i].item
    if pieces[i].code not in ("<#>", "<n>") or _codes(pieces, max(0, i - 2), i) != ["down", "to"] or number is None or not number.value:
        return None
    before = next((p.item for p in reversed(pieces[:i]) if p.code in ("<mL>", "<cup>", "<g>") and p.item is not None), None)
    if before is None or not before.said or not before.value or before.said >= LEAST_SIZE or number.value >= before.said:
        return None
    item = replace(number, kind="amount", unit=before.unit, said_unit=before.said_unit, value=number.value * before.value / before.said)
    return [replace(pieces[i], code="<g>" if before.unit == "g" else "<mL>", item=item)], 1


def _vessel(pieces: Sequence[Piece], i: int) -> tuple[list[Piece], int] | None:
    """ "A 500 bottle" is a bottle of 500 mL: one bottle, and a number too large to count it."""
    piece, led, ahead = pieces[i], _led_by(pieces, i), _codes(pieces, i + 1, i + 2)
    if piece.code not in ("<#>", "<n>") or piece.item is None or piece.item.value is None or not ahead:
        return None
    number = piece.item.value
    many = ahead[0] in ("bottles", "phials", "vials", "flasks") and led in ("in", "into") and number >= LEAST_OF_MANY
    if number < LEAST_SIZE or not (ahead[0] in VESSELS or many):
        return None
    if i and led not in LEADS_TO_SIZE and number in STRENGTHS:
        return None  # "the 95 bottle": perhaps what is in it
    return _in_ml(piece)


def _of_liquid(pieces: Sequence[Piece], i: int) -> tuple[list[Piece], int] | None:
    """ "The jar only takes 500 of liquid": millilitres."""
    piece, ahead = pieces[i], _codes(pieces, i + 1, i + 3)
    large = piece.item is not None and (piece.item.value or 0) >= LEAST_SIZE
    return _in_ml(piece) if piece.code == "<#>" and ahead[:1] == ["of"] and ahead[-1] in LIQUIDS and large else None


def _enough(pieces: Sequence[Piece], i: int) -> tuple[list[Piece], int] | None:
    """ "60's enough", "90's plenty": the number itself, no bottles of that size."""
    piece, ahead = pieces[i], _codes(pieces, i + 1, i + 2)
    if piece.code != "<n>" or piece.item is None or "'" not in piece.text.replace("’", "'") or ahead[:1] not in (["enough"], ["plenty"], ["fine"], ["ok"]):
        return None
    return [replace(piece, code="<#>", item=replace(piece.item, kind="number", said_unit=""))], 1


def _one_squeeze(pieces: Sequence[Piece], i: int) -> tuple[list[Piece], int] | None:
    """ "One squeeze is 0.8 mL": the one tells nothing of a dose."""
    piece, ahead = pieces[i], _codes(pieces, i + 1, i + 3)
    one = piece.code == "<#>" and piece.item is not None and piece.item.value == 1
    return ([replace(piece, code="<ref>")], 1) if one and ahead[:1] == ["squeeze"] and ahead[1:] and ahead[1] in MEASURES else None


def _poured_into(pieces: Sequence[Piece], i: int) -> tuple[list[Piece], int] | None:
    """ "150 mL of water into 420 of 70 %": what it goes into is told in the same unit."""
    piece, ahead = pieces[i], _codes(pieces, i + 1, i + 3)
    before = _codes(pieces, max(0, i - 5), i)
    if piece.code != "<#>" or ahead[:1] != ["of"] or ahead[1:] not in (["<%>"], ["<#>"]) or before[-1:] not in (["into"], ["in"], ["to"], ["onto"]):
        return None
    return _in_ml(piece) if "<mL>" in before and piece.item is not None and (piece.item.value or 0) >= LEAST_SIZE else None


def _stretch(pieces: Sequence[Piece], i: int) -> tuple[list[Piece], int] | None:
    """ "For 2 more weeks" is two weeks."""
    run = pieces[i : i + 3]
    size = DAYS.get(run[2].code.rstrip("s")) if len(run) == 3 else None
    number = run[0].item
    if run[0].code != "<#>" or size is None or run[1].code not in ("more", "further", "extra", "whole", "full") or number is None or not number.value:
        return None
    text = " ".join(p.text for p in run)
    item = replace(number, kind="amount", text=text, end=run[2].end, value=number.value * size, unit="day", said_unit=run[2].code.rstrip("s"))
    return [Piece("<day>", run[0].start, run[2].end, text, item)], 3


TIMES_OF_DAY = frozenset("night bed bedtime sleep waking rising breakfast lunch supper dinner evening morning noon afternoon".split())


def _night(pieces: Sequence[Piece], i: int) -> tuple[list[Piece], int] | None:
    """ "4 nights" are four days, "6 mL a night", "3 mL before bed" are once a day."""
    run = pieces[i : i + 2]
    if len(run) < 2:
        return None
    (piece, behind), led = run, pieces[i - 1] if i else None
    text = f"{piece.text} {behind.text}"
    if piece.code == "<#>" and piece.item is not None and behind.code == "nights":
        item = replace(piece.item, kind="amount", text=text, end=behind.end, unit="day", said_unit="day")
        return [Piece("<day>", piece.start, behind.end, text, item)], 2
    dose = led is not None and led.code in ("<mL>", "<drop>") and led.item is not None
    told_once = sum(p.code in TIMES_OF_DAY for p in pieces) == 1
    third = pieces[i + 2].code if i + 2 < len(pieces) else ""
    if dose and told_once and piece.code in ("in", "of", "every") and behind.code in ("the", "an") and third in TIMES_OF_DAY:  # "3 mL in the evening"
        text, last = f"{text} {pieces[i + 2].text}", pieces[i + 2]
        return [Piece("<x>", piece.start, last.end, text, Item("frequency", text, piece.start, last.end, value=1.0, unit="1", said_unit="day"))], 3
    by_bed = told_once and behind.code in TIMES_OF_DAY and piece.code in ("before", "at", "on", "with", "after", "around")
    if dose and (by_bed or (behind.code == "night" and piece.code in ("a", "at", "per", "each", "every"))):
        often = Item("frequency", text, piece.start, behind.end, value=1.0, unit="1", said_unit="day")
        return [Piece("<x>", piece.start, behind.end, text, often)], 2
    return None


def _worth(pieces: Sequence[Piece], i: int) -> tuple[list[Piece], int] | None:
    """ "Month's worth at 5 mL": one month, with no article before it."""
    piece = pieces[i]
    if piece.code not in DAYS or _codes(pieces, i + 1, i + 2) not in (["worth"], ["supply"]) or _led_by(pieces, i) in ("<#>", "<day>", "<month>"):
        return None
    item = Item("amount", piece.text, piece.start, piece.end, value=DAYS[piece.code], unit="day", said_unit=piece.code, said=1.0)
    return [Piece("<day>", piece.start, piece.end, piece.text, item)], 1


def _dose(pieces: Sequence[Piece], i: int) -> tuple[list[Piece], int] | None:
    """ "200 mL, 7.5 twice daily": beside what is there in mL, the bare number that is taken so often is mL too."""
    piece = pieces[i]
    if piece.code != "<#>" or piece.item is None or _codes(pieces, i + 1, i + 2) != ["<x>"] or _led_by(pieces, i) not in LEADS_TO_DOSE:
        return None
    there = "<mL>" in _codes(pieces, 0, i) and "<mL>" not in _codes(pieces, i + 1, len(pieces))
    return _in_ml(piece) if there else None


def _price(pieces: Sequence[Piece], i: int) -> tuple[list[Piece], int] | None:
    """ "30 mL rose at 20 per 100": a price told for so many of what was measured, put into one piece."""
    run = pieces[i : i + 3]
    if len(run) < 3 or run[0].code not in ("<#>", "<money>") or run[1].code not in ("per", "for", "a", "/", "the") or run[2].code != "<#>":
        return None
    price, per = run[0].item, run[2].item
    if price is None or price.value is None or per is None or per.value not in ROUND or per.value is None or _led_by(pieces, i) not in PRICED:
        return None
    if not any(p.code in COST_WORDS or p.code in ("<per>", "<money>") for p in pieces):
        return None
    text = " ".join(p.text for p in run)
    return [Piece("<per>", run[0].start, run[2].end, text, replace(price, kind="per", unit="1", value=price.value / per.value))], 3


def _step(pieces: Sequence[Piece], i: int) -> tuple[list[Piece], int] | None:
    """ "Down 2.5 every week": the 2.5 is how much it goes down, not how often it is taken."""
    piece = pieces[i]
    hit = STEPPED.match(piece.text) if piece.code == "<x>" and _led_by(pieces, i) in WAYS else None
    if hit is None or piece.item is None or not piece.item.said or piece.item.value is None:
        return None
    step, often = piece.item.said, piece.item.value / piece.item.said
    end = piece.start + hit.end("step")
    behind = piece.start + hit.start("every")
    number = replace(piece.item, kind="number", text=hit.group("step"), end=end, value=step, unit="", said_unit="", said=step, low=None, high=None)
    every = replace(piece.item, text=hit.group("every"), start=behind, value=often, said=1.0)
    return [Piece("<#>", piece.start, end, hit.group("step"), number), Piece("<x>", behind, piece.end, hit.group("every"), every)], 1


_NUMBERS = frozenset({"<#>", "<n>", "<money>"})
# The rules in the order they are applied, each with the codes of which it needs one: a sentence without them need not be gone through.
RULES: tuple[tuple[Rule, frozenset[str]], ...] = (
    *((rule, _NUMBERS) for rule in (_down_to, _vessel, _of_liquid, _enough, _one_squeeze, _poured_into, _price)),
    (_step, frozenset({"<x>"})),
    (_stretch, _NUMBERS),
    (_night, TIMES_OF_DAY | {"nights"}),
    (_worth, frozenset(DAYS)),
    (_dose, _NUMBERS),
)
