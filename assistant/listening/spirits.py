"""Sentences about spirits alone: two strengths and a volume are a dilution, three strengths are a blend, whatever the words between.

"500 ml of 60 from 95", "I have 95, I want 40, 750 ml of it", "how much 45 can I get out of 320 ml of 95", "got 96 and some 40, need two
litres of 65", "700 ml at 40, how much 95 lifts it to 55". Water only brings a spirit down, so of two strengths the higher is what one
starts from; a blend lies between its parts, so of three the middle one is what is wanted. Words that say otherwise go first.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from assistant.dataclass import dataclass
from assistant.listening.parted_spirits import read_parted
from assistant.listening.pieces import Piece
from assistant.listening.statements import Act, Ingredient, Reading, Reference, Said
from assistant.patterns import looked_for

# Of these figures and words a sentence about spirits alone has none; with them, other readers do it.
OTHER_FIGURES = frozenset("<g> <oz> <:> <C> <bx> <drop> <x> <parts> <part> <per> <mL/g> <g/mL> <money> <label> <ref> <aday> <day>".split())
OTHER_WORK = frozenset(
    """fresh dried herb plant wilted dose dropper vinegar acidity glycerine syrup honey sugar oil wax press pressed marc yield held racking
    lose margin extra hydrometer alcoholmeter alcoholometer spindle finish finishes finished final ends moisture full fill filled not nor vs versus
    compare against reckons thinks says wrote decoction infusion tea brix °bx weight mass formula had claims isn't wasn't finishing jars
    sell sells selling sold costs commission""".split()
)
WANTED_BY = frozenset(
    """to till until hit reach target wanted want wants need needs make
    makes making get gets getting for as into it stretched give gives""".split()
)
CAME_OUT = frozenset("came come comes ended ends finished finishes pressed reads tests tested measured landed".split())
STARTS_FROM = frozenset("from off out using with have got have_got i've ive stock bottle my own the plus adding by add of last there's theres".split())
SKIPPED = frozenset("about around roughly a an some only just nearly up down back at is be reading it's its , : ( that strength spirit now to".split())
JOINED = frozenset(
    """came comes out sits tests tested measures currently of at is @ only just , bottle spirit the
    my a which reading about tincture extract batch pressed finished that it ( vodka brandy port rum gin everclear alcohol here reads""".split()
)
MADE = frozenset("blend blending want wants wanted need needs make making get for mix prepare produce me give gives brew yields".split())
LIFTS = frozenset("lift lifts raise raises fortify strengthen strengthens boost bump".split())
BRINGS = LIFTS | {"get", "gets", "bring", "brings"}
MIXES = frozenset("blend blending mix mixing marry combine".split())
COUNTED = frozenset("bottles bottle jars jar spirits jugs litres parts times things of_them".split())
LEAST, MOST = 3.0, 100.0
MOST_BETWEEN = 6  # words between a volume and its strength: "500 ml tincture that came out at 52"


@dataclass(frozen=True, slots=True)
class Strong:
    """One strength of the sentence, where it stands, what the words before it make of it, and the volume said with it."""

    at: int
    value: float
    mark: str  # wanted | stock | ""
    volume: int = -1


WET = looked_for(r"(?:%|percent|per cent)\s*(?:water|moisture|wet)\b", re.IGNORECASE)  # of a plant: no spirit is told by its water


def read_spirits(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading, context: frozenset[str]) -> None:
    """Sort the strengths and the volume of a sentence about spirits; does nothing where anything else is spoken of."""
    bag = set(tokens)
    if read_parted(pieces, tokens, taken, reading):
        return
    lifted = "pressed" in bag and bag & BRINGS and sum(t in ("<%>", "<#>") for t in tokens) == 3  # "pressed 640 ml, tests 33, how much 95 gets it up to 40"
    other_work = OTHER_WORK - {"pressed"} if lifted else OTHER_WORK
    if reading.ingredients or reading.liquids or "@" in bag or bag & OTHER_FIGURES or bag & other_work or "dose" in reading.frames or WET.search(reading.heard):
        return
    volumes = [i for i, t in enumerate(tokens) if t == "<mL>" and i not in taken]
    if not volumes:
        volumes = [i for i, t in enumerate(tokens) if t == "<#>" and (pieces[i].item.value or 0) > MOST and i not in taken]  # type: ignore[union-attr]
    strengths = _strengths(pieces, tokens, taken, volumes)
    if len(volumes) > 1 or len({s.value for s in strengths}) != len(strengths):
        return
    if not volumes and ("more" in bag or ("back" in bag and bag & BRINGS)) and len(strengths) == 2 and "mix" in context:
        low, high = sorted(strengths, key=lambda s: s.value)
        _set_aside(pieces, tokens, taken, reading, (low.at, high.at))
        reading.acts.append(Act("top_up", (), pieces[min(low.at, high.at)].start, pieces[max(low.at, high.at)].end, (high.value, low.value)))
        return
    if (
        len(strengths) == 2
        and volumes
        and (tokens[volumes[0] + 1 : volumes[0] + 2] == ["each"] or tokens[volumes[0] + 1 : volumes[0] + 3] == ["of", "each"] or "equal" in bag)
    ):
        _equal(pieces, tokens, taken, reading, strengths, volumes[0])
    elif len(strengths) == 2:
        _dilution(pieces, tokens, taken, reading, strengths, volumes)
    elif len(strengths) == 3:
        _blend(pieces, tokens, taken, reading, strengths, volumes)


def _strengths(pieces: list[Piece], tokens: list[str], taken: set[int], volumes: list[int]) -> list[Strong]:
    found: list[Strong] = []
    for i, token in enumerate(tokens):
        item = pieces[i].item
        if token not in ("<%>", "<#>") or i in taken or i in volumes or item is None or item.value is None:
            continue
        if token == "<#>" and (not LEAST <= item.value <= MOST or (tokens[i + 1 : i + 2] and tokens[i + 1] in COUNTED)):
            continue
        found.append(Strong(i, item.value, _mark(tokens, i), _volume_with(tokens, i, volumes)))
    paired = [s for s in found if s.volume >= 0]
    if len(paired) > 1:  # a volume belongs to the strength that stands closest
        own = min(paired, key=lambda s: (abs(s.at - s.volume), s.at < s.volume))
        found = [s if s is own else Strong(s.at, s.value, s.mark) for s in found]
    return found


def _mark(tokens: list[str], at: int) -> str:
    look, steps = at - 1, 0
    while look >= 0 and steps < 4:
        word = tokens[look]
        if word in ("to", "as"):
            return "wanted"
        if word in WANTED_BY:
            return "wanted"
        if word == "out" and CAME_OUT.intersection(tokens[look - 1 : look]):
            return ""  # "came out at 38": what there is, and nothing one starts from
        if word in STARTS_FROM and not (word == "of" and tokens[look - 1 : look] in (["<mL>"], ["<#>"])):
            return "stock"
        if word not in SKIPPED:
            return ""
        look -= 1
        steps += 1
    return ""


def _volume_with(tokens: list[str], at: int, volumes: list[int]) -> int:
    """The volume this strength belongs to: "300 ml of 95", "600 ml is only 42", "750 ml of it" behind it."""
    for v in volumes:
        between = tokens[min(v, at) + 1 : max(v, at)]
        if v < at and len(between) <= MOST_BETWEEN and set(between) <= JOINED:
            return v
        if at < v and len(between) <= 3 and set(between) <= {",", "spirit", "vodka", "%", "it", "is", "the"} and tokens[v + 1 : v + 3] == ["of", "it"]:
            return v
    return -1


def _dilution(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading, strengths: list[Strong], volumes: list[int]) -> None:
    low, high = sorted(strengths, key=lambda s: s.value)
    bag = set(tokens)
    if (low.mark == "stock" and high.mark != "stock") or (high.mark == "wanted" and low.mark != "wanted") or bag & LIFTS:
        if "water" in bag and low.mark != "wanted":  # "how much water to get this 40 to 60": so it is meant, and cannot be
            _say(pieces, tokens, taken, reading, [("strength", high.value, high.at), ("stock_strength", low.value, low.at)])
            reading.frames.add("dilution")
        return  # said the other way round: taken as it was said, and refused where it cannot be
    if not volumes and not (low.mark == "wanted" or high.mark == "stock"):
        return
    if bag & MIXES and low.mark != "wanted" and not volumes:
        return
    said = [("strength", low.value, low.at), ("stock_strength", high.value, high.at)]
    for v in volumes:
        value = pieces[v].item.value  # type: ignore[union-attr]
        made = high.volume != v and not (low.volume != v and (_is_the_lot(tokens, v) or _is_what_came_out(tokens, high.at, v)))
        said.append(("menstruum" if made else "stock", value, v))  # type: ignore[arg-type]
    _say(pieces, tokens, taken, reading, said)
    reading.frames.add("dilution")
    if bag & {"split", "each"}:
        reading.frames.discard("maybe_mix")


def _is_what_came_out(tokens: list[str], strength: int, volume: int) -> bool:
    """ "It came out at 52, there's 640 mL": what is there has the strength told before it, and is what is brought down."""
    there = set(tokens[max(0, volume - 3) : volume]) & {"there's", "theres", "there", "got", "have", "i've"}
    return strength < volume and bool(there) and bool(set(tokens[max(0, strength - 4) : strength]) & CAME_OUT)


def _is_the_lot(tokens: list[str], at: int) -> bool:
    """Whether a volume said apart from its strength is all there is, to be used up."""
    near = set(tokens[max(0, at - 5) : at + 5])
    return bool(near & {"all", "whole", "lot", "left", "last", "remaining", "entire", "shelf", "cupboard"}) and not near & {"want", "need", "make", "wanted"}


def _blend(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading, strengths: list[Strong], volumes: list[int]) -> None:
    wanted = [s for s in strengths if s.mark == "wanted" or (s.volume >= 0 and set(tokens[max(0, s.volume - 3) : s.volume]) & MADE)]
    if len(wanted) != 1 and sum(s.mark == "stock" for s in strengths) == 2:
        wanted = [s for s in strengths if s.mark != "stock"]
    target = wanted[0] if len(wanted) == 1 else sorted(strengths, key=lambda s: s.value)[1]
    parts = [s for s in strengths if s is not target]
    figures: dict[int, tuple[float, int]] = {}
    for v in volumes:
        owner = next((s for s in parts if s.volume == v), None)
        if owner is None and set(tokens) & {"back", "lift", "raise", "bring", "boost", "strengthen"} and sum(s.mark != "stock" for s in parts) == 1:
            owner = next(s for s in parts if s.mark != "stock")  # "700 ml came out weak, 38. Get it back to 50 with 96"
        if tokens[v + 1 : v + 3] == ["of", "it"] and set(tokens[max(0, v - 3) : v]) & {"there's", "have", "got", "there", "is", "i've"}:
            owner = next((s for s in parts if s.mark != "stock"), None)  # "it's 55 …, there's 700 ml of it"
        behind = [t for t in tokens[v + 1 : v + 5] if t not in ("of", "the", "my", "this", "that")]
        if owner is None and behind[:1] in (["mix"], ["mixture"], ["blend"]):  # "a litre of mix reads 52, wanted 60": so much is there
            owner = next((s for s in sorted(parts, key=lambda s: s.at) if s.at > v and s.mark != "stock"), None)
        value = float(pieces[v].item.value or 0.0)  # type: ignore[union-attr]
        if owner is not None and not set(tokens[max(0, v - 3) : v]) & MADE:
            figures[owner.at] = (value, v)
        else:
            _say(pieces, tokens, taken, reading, [("blend", value, v)])
    for part in parts:
        rows = [("strength_of", part.value, pieces[part.at].start, pieces[part.at].end)]
        if part.at in figures:
            value, v = figures[part.at]
            rows.insert(0, ("volume", value, pieces[v].start, pieces[v].end))
            taken.add(v)
        taken.add(part.at)
        reading.liquids.append(Ingredient(f"{part.value:g} %", tuple(rows), rows[0][2], rows[-1][3]))
    _say(pieces, tokens, taken, reading, [("blend_strength", target.value, target.at)])
    reading.frames.add("mix")


def _equal(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading, strengths: list[Strong], volume: int) -> None:
    """ "300 ml each of 95 and 40": the same volume of both."""
    value = float(pieces[volume].item.value or 0.0)  # type: ignore[union-attr]
    for part in strengths:
        rows = (("volume", value, pieces[volume].start, pieces[volume].end), ("strength_of", part.value, pieces[part.at].start, pieces[part.at].end))
        taken.add(part.at)
        reading.liquids.append(Ingredient(f"{part.value:g} %", rows, rows[0][2], rows[1][3]))
    taken.add(volume)
    _say(pieces, tokens, taken, reading, [])
    reading.frames.add("mix")


def _say(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading, figures: list[tuple[str, float, int]]) -> None:
    for quantity, value, at in figures:
        item = pieces[at].item
        taken.add(at)
        words = frozenset(t for t in tokens[max(0, at - 3) : at + 3] if t.isalpha() and len(t) > 3)
        reading.said.append(Said(quantity, value, pieces[at].start, pieces[at].end, said_unit=item.said_unit if item else "", words=words))
    counts = [i for i, t in enumerate(tokens) if t in ("<#>", "<n>") and i not in taken and (pieces[i].item.value or 0) <= LEAST]  # type: ignore[union-attr]
    _set_aside(pieces, tokens, taken, reading, counts)


def _set_aside(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading, places: Sequence[int]) -> None:
    """Figures that only count ("two spirits", "one 70 the other 35") or are borne by an act."""
    del tokens
    for i in places:
        taken.add(i)
        item = pieces[i].item
        reading.references.append(Reference("reference", pieces[i].start, pieces[i].end, item.value if item else None))
