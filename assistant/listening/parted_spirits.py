"""Two or three liquids told by their parts alone: "half vodka 40 half 96", "2 parts 96 to 1 part 40", "one third water, two thirds of 60".

No volume is needed: the strength of such a mixture is the same of every amount. Shares must make a whole; a rest is what is missing to it.
"""

from __future__ import annotations

import re
from functools import cache

from assistant.dataclass import dataclass
from assistant.listening.pieces import Piece
from assistant.listening.statements import Asked, Ingredient, Reading, Reference
from assistant.listening.token_row import TokenRow

SPIRITS = "spirits spirit vodka brandy rum gin whisky whiskey everclear alcohol hooch moonshine ethanol".split()
_NAME = "|".join(SPIRITS)
_AMOUNT = r"<(?:share|part|parts|%|#|n)> (?:part |parts )?"
_LIQUID = (
    r"(?:(?:of|the|my|that|some|our|plain|strong|is|as|with|grain|neutral|tinctures?|extracts?) )*"
    rf"(?:(?P<water{{n}}>water )|(?P<name{{n}}>(?:{_NAME}) )?(?:(?:at|of|,|\(|which is|that is|is) )*"
    rf"(?P<strength{{n}}><(?:%|#)> )(?:\) )?(?:percent )?(?:(?:{_NAME}|tinctures?|extracts?) )?"
    rf"|(?P<unsaid{{n}}>(?:{_NAME}) ))"
)
_JOIN = r"(?:(?:and|to|,|with|plus|:|;|in|for|mixed|the|other|on) )*"
_LEAD = r"(?<![^ ])"


def _liquid(n: int) -> str:
    return _LIQUID.replace("{n}", str(n))


def _pair(n: int) -> str:
    return rf"(?P<amount{n}>{_AMOUNT})" + _liquid(n)


@cache
def _patterns() -> tuple[re.Pattern[str], ...]:
    """The ways of telling them, made when a sentence first may bear one."""
    two = _liquid(1) + _JOIN + _liquid(2)
    measures = r"(?:parts |amounts |amount |measures |volumes |shares |quantities )"
    even = rf"(?P<even>equal {measures}?|(?:same|even) {measures})"  # "the same at 60 and 40" pours twice
    behind = rf"(?P<behind>equal {measures}?|(?:same|even) (?:{measures}|of each )|<share> and <share> )"
    sources = (
        _pair(1) + _JOIN + r"(?:rest |remainder |other (?:half )?)(?:is |of it |it )*" + _liquid(2),
        _pair(1) + _JOIN + _pair(2) + rf"(?:{_JOIN}{_pair(3)})?",
        rf"(?:{even}|(?P<halves><share> and <share> ))(?:of )?" + two,
        r"(?P<terms><(?::|parts)> )(?:of |, |: |mix |mixture )*" + two,
        rf"(?:<(?:#|n)> )?(?:tinctures |spirits |extracts |liquids )?(?:mixed |of |at |, |: )*{two}(?:, |in |mixed |at |, )*{behind}",
        two + r"(?:, |in |mixed |at )*(?P<terms><(?::|parts)> )",
    )
    return tuple(re.compile(_LEAD + source) for source in sources)


OTHER_FIGURES = frozenset("<g> <oz> <C> <bx> <drop> <x> <per> <mL/g> <g/mL> <money> <label> <ref> <aday> <day> <cup>".split())
# With these the parts are of another recipe.
OTHER_WORK = frozenset(
    "honey sugar syrup vinegar oil wax glycerine glycerin decoction infusion tea plant herb fresh dried dose finish need want".split()
)
EVEN = frozenset("equal same even <share>".split())  # where so is told what there is of each, tinctures are mixed like spirits
TELL = EVEN | frozenset("<part> <parts> <:> <%> <#>".split())
WATER_OR_SPIRIT = frozenset(("water", *SPIRITS))
MIXED = WATER_OR_SPIRIT | {"mix", "mixed", "mixture", "blend", "blended", "strength", "strong", "<parts>"}
LEAST, MOST = 3.0, 100.0
NEARLY = 0.02  # of a whole, by which spoken shares may miss it: "a third" and "two thirds", 33 % and 66 %


@dataclass(frozen=True, slots=True)
class Part:
    """One liquid: its name, its parts, its strength where told, and the places of its figures."""

    name: str
    parts: float
    strength: float | None
    places: tuple[int, ...]
    strength_at: int


def read_parted(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading) -> bool:
    """Make such liquids the lines of a recipe by parts; True where the sentence told some. Elsewhere nothing is changed."""
    bag = set(tokens)
    if "@" in bag or bag & OTHER_FIGURES or bag & OTHER_WORK or tokens.count("<mL>") > 1 or reading.ingredients or reading.liquids:
        return False
    if bag & {"tincture", "tinctures"} and not bag & EVEN:
        return False
    if not bag & TELL or not (bag & WATER_OR_SPIRIT or bag & {"<%>", "<#>"}):
        return False
    row = TokenRow(pieces, tokens)
    for pattern in _patterns():
        for hit, first, last in row.find(pattern):
            parts = _parts(row, hit)
            if parts and not _other_numbers(tokens, taken, first, last):
                _lay(row, parts, first, last, taken, reading)
                return True
    return False


def _other_numbers(tokens: list[str], taken: set[int], first: int, last: int) -> bool:
    """Whether a figure outside these parts is neither a volume nor spoken for: then more is told than a mixture."""
    return any(t.startswith("<") and t not in ("<mL>", "<time>") and not first <= i < last and i not in taken for i, t in enumerate(tokens))


def _parts(row: TokenRow, hit: re.Match[str]) -> list[Part]:
    """The liquids of a match, or none where their figures are not parts and strengths."""
    groups = hit.groupdict()
    count = 3 if groups.get("strength3") or groups.get("water3") or groups.get("unsaid3") else 2
    amounts = _amounts(row, hit, count)
    if amounts is None or (groups.get("terms") and not set(row.tokens) & MIXED):  # "1:5 at 60 and 40" is a plant's ratio, poured twice
        return []
    found = []
    for n, (parts, place) in enumerate(amounts, 1):
        strength, at, name = None, -1, "water"
        if groups[f"strength{n}"]:
            at = row.places[hit.start(f"strength{n}")]
            strength = row.value(at)
            if strength is None or not LEAST <= strength <= MOST:
                return []
            name = (groups[f"name{n}"] or f"{strength:g} %").strip()
        elif groups[f"water{n}"]:
            strength = 0.0
        else:
            name = groups[f"unsaid{n}"].strip()
        found.append(Part(name, parts, strength, (place,) if place >= 0 else (), at))
    names = [p.name for p in found]
    if len(set(names)) < len(names):  # "vodka 40 and vodka 50": each by its strength
        found = [Part(f"{p.strength:g} %" if p.strength else p.name, p.parts, p.strength, p.places, p.strength_at) for p in found]
    told = [p for p in found if p.name != "water"]
    return found if told and len({p.name for p in found}) == len(found) else []


def _amounts(row: TokenRow, hit: re.Match[str], count: int) -> list[tuple[float, int]] | None:
    """How many parts of each liquid, and where that is said; -1 where it follows from the others."""
    groups = hit.groupdict()
    if groups.get("terms"):
        at = row.places[hit.start("terms")]
        item = row.pieces[at].item
        sides = item.alt if item is not None and isinstance(item.alt, tuple) else ()
        return [(sides[0], at), (sides[1], -1)] if len(sides) == 2 and min(sides) > 0 else None
    if groups.get("even") or groups.get("halves") or groups.get("behind"):
        return [(1.0, -1), (1.0, -1)]
    places = [row.places[hit.start(f"amount{n}")] for n in range(1, count + 1) if groups.get(f"amount{n}")]
    kinds = {row.tokens[p] for p in places}
    values = [row.value(p) or 0.0 for p in places]
    if min(values) <= 0:
        return None
    if kinds == {"<%>"}:
        values, kinds = [v / 100 for v in values], {"<share>"}
    if len(places) < count:  # the rest
        return [(values[0], places[0]), (1 - values[0], -1)] if kinds == {"<share>"} and values[0] < 1 else None
    if kinds == {"<share>"} and abs(sum(values) - 1) > NEARLY:
        return None
    if ("<share>" in kinds and len(kinds) > 1) or "<%>" in kinds or (kinds <= {"<#>", "<n>"} and not {"part", "parts"} & set(row.tokens)):
        return None
    return list(zip(values, places, strict=True))


def _lay(row: TokenRow, parts: list[Part], first: int, last: int, taken: set[int], reading: Reading) -> None:
    start, end = row.span(first, last)
    for part in parts:
        place = (row.pieces[part.places[0]].start, row.pieces[part.places[0]].end) if part.places else (start, start)
        figures: list[tuple[str, float, int, int]] = [("part", part.parts, *place)]
        if part.strength is not None:
            at = (row.pieces[part.strength_at].start, row.pieces[part.strength_at].end) if part.strength_at >= 0 else (start, start)
            figures.append(("strength_of", part.strength, *at))
        reading.ingredients.append(Ingredient(part.name, tuple(figures), start, end))
    for i in range(first, last):
        if row.pieces[i].is_island and i not in taken:
            taken.add(i)
            reading.references.append(Reference("reference", row.pieces[i].start, row.pieces[i].end))
    reading.frames.add("listed")
    if "<mL>" not in row.tokens:
        reading.asked.append(Asked("blend_strength", end, end))


__all__ = ["read_parted"]
