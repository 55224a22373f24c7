"""Numbers whose unit goes without saying where they stand: "a 500 bottle", "20 per 100" beside a price per 100 mL, "down 2.5 every week".

Each rule looks at the pieces alone and gives back pieces; none looks at what was said before.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from assistant.dataclass import replace
from assistant.listening.items import Item
from assistant.listening.pieces import Piece

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
ROUND = frozenset({10.0, 50.0, 100.0, 250.0, 500.0, 1000.0})  # mL or g a price is told for
STEPPED = re.compile(r"^(?P<step>\d+(?:[.,]\d+)?) (?P<every>(?:every|each|a|per) .+)$", re.IGNORECASE)
WAYS = frozenset(
    "up down by drop dropping reduce reducing raise raising add adding cut cutting lower lowering taper tapering less more another off increase".split()
)


def with_units_that_go_without_saying(pieces: Sequence[Piece]) -> list[Piece]:
    """The pieces with such numbers given the unit they have where they stand."""
    return _doses(_worth(_nights(_stretches(_steps(_prices(_of_liquid(_vessels(_carried(pieces)))))))))


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


def _vessels(pieces: Sequence[Piece]) -> list[Piece]:
    """ "A 500 bottle" is a bottle of 500 mL: one bottle, and a number too large to count it."""
    result = list(pieces)
    for i, piece in enumerate(pieces[:-1]):
        number = piece.item.value if piece.item is not None else None
        led = pieces[i - 1].code if i else ""
        one = pieces[i + 1].code in VESSELS
        many = pieces[i + 1].code in ("bottles", "phials", "vials", "flasks") and led in ("in", "into") and (number or 0) >= LEAST_OF_MANY
        if piece.code not in ("<#>", "<n>") or number is None or number < LEAST_SIZE or not (one or many) or piece.item is None:
            continue
        if i and led not in LEADS_TO_SIZE and number in STRENGTHS:
            continue  # "the 95 bottle": perhaps what is in it
        result[i] = replace(piece, code="<mL>", item=replace(piece.item, kind="amount", unit="mL", said_unit=""))
    return result


def _of_liquid(pieces: Sequence[Piece]) -> list[Piece]:
    """ "The jar only takes 500 of liquid": millilitres."""
    result = list(pieces)
    for i, piece in enumerate(pieces[:-2]):
        if (
            piece.code == "<#>"
            and pieces[i + 1].code == "of"
            and pieces[i + 2].code in LIQUIDS
            and piece.item is not None
            and (piece.item.value or 0) >= LEAST_SIZE
        ):
            result[i] = replace(piece, code="<mL>", item=replace(piece.item, kind="amount", unit="mL"))
    return result


def _stretches(pieces: Sequence[Piece]) -> list[Piece]:
    """ "For 2 more weeks" is two weeks."""
    result: list[Piece] = []
    i = 0
    while i < len(pieces):
        run = pieces[i : i + 3]
        size = DAYS.get(run[2].code.rstrip("s")) if len(run) == 3 else None
        number = run[0].item
        if run[0].code == "<#>" and size is not None and run[1].code in ("more", "further", "extra", "whole", "full") and number is not None and number.value:
            text = " ".join(p.text for p in run)
            item = replace(number, kind="amount", text=text, end=run[2].end, value=number.value * size, unit="day", said_unit=run[2].code.rstrip("s"))
            result.append(Piece("<day>", run[0].start, run[2].end, text, item))
            i += 3
            continue
        result.append(pieces[i])
        i += 1
    return result


def _nights(pieces: Sequence[Piece]) -> list[Piece]:
    """ "4 nights" are four days, "6 mL a night" is once a day."""
    result: list[Piece] = []
    i = 0
    while i < len(pieces):
        piece, ahead = pieces[i], [p.code for p in pieces[i + 1 : i + 3]]
        if piece.code == "<#>" and piece.item is not None and ahead[:1] == ["nights"]:
            end, text = pieces[i + 1].end, f"{piece.text} {pieces[i + 1].text}"
            result.append(Piece("<day>", piece.start, end, text, replace(piece.item, kind="amount", text=text, end=end, unit="day", said_unit="day")))
            i += 2
            continue
        result.append(piece)
        i += 1
        if piece.code in ("<mL>", "<drop>") and piece.item is not None and ahead[-1:] == ["night"] and ahead[0] in ("a", "at", "per", "each", "every"):
            start, end = pieces[i].start, pieces[i + 1].end
            text = f"{pieces[i].text} {pieces[i + 1].text}"
            often = Item("frequency", text, start, end, value=1.0, unit="1", said_unit="day")
            result.append(Piece("<x>", start, end, text, often))
            i += 2
    return result


def _worth(pieces: Sequence[Piece]) -> list[Piece]:
    """ "Month's worth at 5 mL": one month, with no article before it."""
    result = list(pieces)
    for i, piece in enumerate(pieces[:-1]):
        word = piece.code
        led = pieces[i - 1].code if i else ""
        if word in DAYS and pieces[i + 1].code in ("worth", "supply") and led not in ("<#>", "<day>", "<month>"):
            item = Item("amount", piece.text, piece.start, piece.end, value=DAYS[word], unit="day", said_unit=word, said=1.0)
            result[i] = Piece("<day>", piece.start, piece.end, piece.text, item)
    return result


def _doses(pieces: Sequence[Piece]) -> list[Piece]:
    """ "200 mL, 7.5 twice daily": beside what is there in mL, the bare number that is taken so often is mL too."""
    result = list(pieces)
    for i, piece in enumerate(pieces[1:-1], 1):
        led = pieces[i - 1].code
        there = any(p.code == "<mL>" for p in pieces[:i]) and not any(p.code == "<mL>" for p in pieces[i + 1 :])
        if piece.code == "<#>" and pieces[i + 1].code == "<x>" and piece.item is not None and led in LEADS_TO_DOSE and there:
            result[i] = replace(piece, code="<mL>", item=replace(piece.item, kind="amount", unit="mL", said_unit=""))
    return result


def _prices(pieces: Sequence[Piece]) -> list[Piece]:
    """ "30 mL rose at 20 per 100": a price told for so many of what was measured, put into one piece."""
    codes = [p.code for p in pieces]
    if not (COST_WORDS & set(codes) or "<per>" in codes or "<money>" in codes):
        return list(pieces)
    result: list[Piece] = []
    i = 0
    while i < len(pieces):
        price, per = pieces[i : i + 2], pieces[i + 2 : i + 3]
        many = per[0].item.value if per and per[0].item is not None and per[0].code == "<#>" else None
        led = pieces[i - 1].code if i else ""
        if (
            price[0].code in ("<#>", "<money>") and len(price) == 2 and price[1].code in ("per", "for", "a", "/", "the")
            and many in ROUND and led in PRICED and price[0].item is not None and price[0].item.value is not None
        ):  # fmt: skip
            item = replace(price[0].item, kind="per", unit="1", value=price[0].item.value / many)
            text = " ".join(p.text for p in pieces[i : i + 3])
            result.append(Piece("<per>", price[0].start, per[0].end, text, item))
            i += 3
            continue
        result.append(pieces[i])
        i += 1
    return result


def _steps(pieces: Sequence[Piece]) -> list[Piece]:
    """ "Down 2.5 every week": the 2.5 is how much it goes down, not how often it is taken."""
    result: list[Piece] = []
    for i, piece in enumerate(pieces):
        hit = STEPPED.match(piece.text) if piece.code == "<x>" and i and pieces[i - 1].code in WAYS else None
        if hit is None or piece.item is None or not piece.item.said or piece.item.value is None:
            result.append(piece)
            continue
        step, often = piece.item.said, piece.item.value / piece.item.said
        end = piece.start + hit.end("step")
        behind = piece.start + hit.start("every")
        number = replace(piece.item, kind="number", text=hit.group("step"), end=end, value=step, unit="", said_unit="", said=step, low=None, high=None)
        result.append(Piece("<#>", piece.start, end, hit.group("step"), number))
        result.append(Piece("<x>", behind, piece.end, hit.group("every"), replace(piece.item, text=hit.group("every"), start=behind, value=often, said=1.0)))
    return result
