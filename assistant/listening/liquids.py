"""Liquids poured together: which volume at which strength, and what the mix is to be.

"350 ml water into 500 ml of 95", "lift 700 ml at 40 to 55 using 96", "151 proof rum plus 80 proof vodka, half a litre at 50 %",
"how much decoction can I add to 600 mL of a 70 % tincture so that it stays above 30 %".
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from assistant.dataclass import dataclass
from assistant.listening.islands import Item
from assistant.listening.pieces import Piece
from assistant.listening.statements import Ingredient, Reading, Said
from assistant.listening.token_row import TokenRow
from assistant.patterns import looked_for

WATERY = {"water": "water", "decoction": "decoction", "infusion": "infusion", "tea": "tea", "h2o": "water"}
SPIRITS = tuple("spirit spirits vodka rum brandy gin whisky whiskey tincture alcohol ethanol stock stuff menstruum mix extract".split())
BOUGHT = frozenset("vodka rum brandy gin whisky whiskey spirit alcohol".split())
AIMS = frozenset("blend want make need mix me making for prepare produce".split())  # a volume behind these is what is to be made
_SPIRIT = "|".join(SPIRITS)
_WATERY = "|".join(WATERY)
_STRENGTH = "<%>|<#>"
_COMPONENT = looked_for(
    r"(?<![^ ])(?P<volume><(?:mL|oz|cup)> |<#> (?=(?:of|at) <%> ))(?:of )?(?:(?:a|the|my|this|that|some|our) )*"
    r"(?:strong |cold |cooled |strained |pressed |finished |filtered )*"
    rf"(?:(?P<first>{_STRENGTH}) )?(?:(?:@|(?!(?:at|of|is|reading|reads|which|that|thats) )[a-z]+) )?(?P<name>(?:{_SPIRIT}|{_WATERY}) )?"
    rf"(?:(?:at|of|reading|reads|which is|that is|that's|thats|is|,|\() (?P<second>{_STRENGTH}) |(?<=tincture )(?P<third><%>) )?"
    r"(?:(?:tincture|(?:,|that|which|was|is|made|at|a|and|\() )*(?P<ratio><:>) )?"
)
_STRENGTH_ONLY = looked_for(
    rf"(?<![^ ])(?:(?:the|my|a|an|some|just|and|with|using|from|of|plus|more|by|adding) )+(?P<strength>{_STRENGTH}) (?P<name>(?:{_SPIRIT}) )?"
)
_STRENGTH_NAMED = looked_for(rf"(?<![^ ])(?P<strength><%>) (?P<name>(?:{_SPIRIT}) )")
_TARGET = looked_for(
    r"(?<![^ ])(?:(?:up |down |back )*to|at or above|above|reach|hit|hits|over|(?:still )?(?:be|stay|stays) at|floor(?: of| is| at)?|minimum(?: of)?|no less than"  # noqa: E501  (one sentence, or one expression)
    rf"|not less than|at least|not below|below|under|stay at|stays at|be|wanted|for) (?:about )?(?P<strength>{_STRENGTH}) "
)
_TARGET_VOLUME = looked_for(
    r"(?<![^ ])(?P<volume><mL>) (?:(?:of )?(?:@ )?(?:dual|double|<times>) (?:extract |extraction )?)?(?:of |at |that is |it )?(?:a |the )?"
    rf"(?P<strength>{_STRENGTH}) "
)
_WATERY_FIRST = looked_for(
    r"(?<![^ ])(?P<name>decoction|infusion|tea) (?:(?:of|from) (?:(?:the|its|that|this) )?(?:same )?(?:marc|root|roots|herb|bark|mushroom|@) (?:, )?)?"
    r"(?:was |is |has been |i )?(?:(?:cooked|boiled|simmered|reduced|brought|comes|came|made|makes|measures|gives) )?"
    r"(?:down )?(?:to |of |at |is |about )*(?P<volume><mL>|(?<=down to )<#>) "
)
_BOILED = looked_for(
    r"(?<![^ ])(?:(?:reduce|reduced|reducing|boil|boiled|simmer|simmered|cook|cooked|decoction|infusion|tea) (?:[a-z]+ ){0,3}?)(?P<from><mL>) "
    r"(?:(?:of|the|a|my|strong|water|decoction|infusion|tea|@|reduced|boiled|cooked|simmered|brought|it|and|,) )*(?:down )?to (?:about )?(?P<to><mL>) "
)
_BY_VOLUME = looked_for(rf"<mL> (?:of|at|that's|thats|that is|which is|reading|reads) (?:{_STRENGTH}) ")
LEAST_BARE = 5.0  # mL: no bare number below is poured
_HOW_MUCH = looked_for(r"(?<![^ ])how (?:much|many) ")
_JOINED = looked_for(r" (?:with|and|plus|to|n|into) (?:a |the |my )?<mL> ")


@dataclass(frozen=True, slots=True)
class Poured:
    """One liquid: its name ("" where none was said), volume [mL] and strength [percent] where they were said, and the places of its figures."""

    name: str
    volume: float | None
    strength: float | None
    used: tuple[int, ...]
    ratio: tuple[float, int] | None = None

    @property
    def is_settled(self) -> bool:
        """Whether its strength is known: water and what is made with it has none."""
        return self.strength is not None or self.name in WATERY.values()


@dataclass(frozen=True, slots=True)
class Line:
    """The sentence as one line of tokens, with the place of each and what is taken already."""

    text: str
    places: dict[int, int]
    pieces: Sequence[Piece]
    taken: frozenset[int]

    def item(self, hit: re.Match[str], group: str) -> tuple[int, Item | None]:
        """Place and figure of a group; no figure where it is taken or bears none."""
        place = self.places[hit.start(group)]
        item = self.pieces[place].item
        return place, item if place not in self.taken and item is not None and item.value is not None else None

    def without(self, used: Sequence[Poured]) -> Line:
        """The same line, with the figures of these taken."""
        return Line(self.text, self.places, self.pieces, self.taken | {i for p in used for i in p.used})


def read_liquids(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading, context: frozenset[str]) -> None:
    """Put the liquids of a mix into `reading.liquids`, and what it is to be into `reading.said`; figures used are taken."""
    del context
    if reading.ingredients or (any(t in ("<g>", "<:>") for t in tokens) and not (_two_poured(tokens) or _two_lots(tokens) or _both_halves(tokens))):
        return
    row = TokenRow(pieces, tokens)
    line = Line(row.line, row.places, pieces, frozenset(taken))
    boiled = _boiled_down(line)
    dual = _dual(line, tokens) if boiled is None else None
    if boiled is not None:
        _mix_with_boiled(boiled, line, taken, reading)
    elif dual is not None:
        _keep(*dual, line, taken, reading, named=True)
    if boiled is not None or dual is not None:
        return
    behind = _watery_first(line)
    found = _with_volume(line.without(behind)) + behind
    settled = [p for p in found if p.is_settled]
    unknown = _without_volume(line.without(found))
    strength, volume = _target(line.without((*settled, *unknown)))
    liquids: list[Poured] = []
    if len(settled) >= 2:
        liquids = settled
    elif len(settled) == 1 and unknown and strength is not None and unknown[0].name != "water":
        liquids = [*settled, unknown[0]]
    elif not settled and len(unknown) >= 2 and strength is not None and ("maybe_mix" in reading.frames or volume is not None):
        liquids = unknown[:2]
    elif _one_strength_missing(found, settled, tokens):
        liquids = found
    if liquids:
        _keep(liquids, strength if len(settled) < 2 or volume is not None else None, volume, line, taken, reading)


def _boiled_down(line: Line) -> tuple[Poured, Poured] | None:
    """A decoction before and after it was boiled down: one liquid, not two."""
    for hit in _BOILED.finditer(line.text):
        (a, before), (b, after) = line.item(hit, "from"), line.item(hit, "to")
        if before is not None and after is not None and before.value is not None and after.value is not None and before.value > after.value:
            return Poured("decoction", before.value, 0.0, (a,)), Poured("decoction", after.value, 0.0, (b,))
    return None


def _mix_with_boiled(boiled: tuple[Poured, Poured], line: Line, taken: set[int], reading: Reading) -> None:
    """What is left of the decoction goes to the spirit that is named beside it; where how much of it is asked, its volume stays open."""
    before, after = boiled
    rest = line.without(boiled)
    others = [p for p in _with_volume(rest) if p.strength]
    if not others:
        return
    strength, volume = _target(rest.without(others))
    asked = strength is not None and _HOW_MUCH.search(line.text) is not None
    for poured, quantity in ((before, "boiled_from"), (after, "boiled_to")) if asked else ((before, "boiled_from"),):
        piece = line.pieces[poured.used[0]]
        reading.said.append(Said(quantity, poured.volume or 0.0, piece.start, piece.end))
        taken.add(poured.used[0])
    _keep([*others, Poured("decoction", None, 0.0, ()) if asked else after], strength, volume, line, taken, reading)


def _one_strength_missing(found: Sequence[Poured], settled: Sequence[Poured], tokens: Sequence[str]) -> bool:
    """ "300 mL at 60 % + 200 mL brandy, strength of the mix?": two are poured together, and the strength of a named spirit has to be asked for."""
    bare = [p for p in found if p not in settled]
    joined = {"+", "plus"} & set(tokens) and {"strength", "abv", "strong"} & set(tokens)
    return bool(joined) and len(settled) >= 1 and len(bare) == 1 and bare[0].name in BOUGHT


def _two_poured(tokens: Sequence[str]) -> bool:
    return sum(t == "<mL>" for t in tokens) >= 2 and any(t in ("water", "plus", "decoction") for t in tokens) and any(t in ("<%>", "<#>") for t in tokens)


def _two_lots(tokens: Sequence[str]) -> bool:
    """Two tinctures with a ratio each: "300 mL of 45 % that was 1:5 and 200 mL of 60 % that was 1:3"."""
    return tokens.count("<mL>") == tokens.count("<:>") == 2 and sum(t in ("<%>", "<#>") for t in tokens) >= 2 and "<g>" not in tokens


def _both_halves(tokens: Sequence[str]) -> bool:
    """A plant's weight beside its tincture and its decoction: "200 g root: 800 mL of tincture at 70 %, the decoction boiled down to 700"."""
    return {"tincture", "decoction", "<mL>"} <= set(tokens) and any(t in ("<%>", "<#>") for t in tokens) and "<:>" not in tokens


DUAL = frozenset({"dual", "double-extract", "double-extraction"})
_DOUBLE = looked_for(r"(?<![^ ])(?:double|<times>) (?:extract|extraction|extracted) ")
_TINCTURE = looked_for(rf"(?<![^ ])(?:tincture|extract|spirit)(?: half| side| part| <share>)?(?: (?!decoction)[a-z']+){{0,5}} (?P<strength>{_STRENGTH}) ")
_OF_TINCTURE = looked_for(rf"(?<![^ ])(?P<strength>{_STRENGTH}) (?:tincture|extract) ")


def _dual(line: Line, tokens: Sequence[str]) -> tuple[list[Poured], Figure, Figure | None] | None:
    """ "Chaga dual, a litre at 25 %, the tincture came out at 60": tincture and decoction to one strength; None for any other sentence."""
    if (not DUAL & set(tokens) and _DOUBLE.search(line.text) is None) or sum(t == "<mL>" for t in tokens) > 1 or "<g>" in tokens:
        return None
    named = sorted(_TINCTURE.finditer(line.text), key=lambda m: not m.group().startswith("tincture"))  # "extract" may be the whole
    hit = next(iter(named), None) or _OF_TINCTURE.search(line.text)
    if hit is None:
        return None
    place, item = line.item(hit, "strength")
    if item is None or item.value is None:
        return None
    tincture = Poured("tincture", None, item.value, (place,))
    strength, volume = _target(line.without([tincture]))
    if strength is None:
        return None
    return [tincture, Poured("decoction", None, 0.0, ())], strength, volume


def _with_volume(line: Line) -> list[Poured]:
    """Every liquid with a volume; a target like "half a litre at 50 %" is left out."""
    found: list[Poured] = []
    at = 0
    while (hit := _COMPONENT.search(line.text, at)) is not None:
        at = hit.start() + 5
        index, item = line.item(hit, "volume")
        if item is None:
            continue
        before = line.text[: hit.start()].rstrip().split(" ")[-3:]
        joined = _JOINED.search(line.text) and before[-1:] in (["mix"], ["mixed"], ["blend"], ["combine"])
        if not joined and AIMS & set(before):
            continue
        if hit.group("volume") == "<#> " and ((item.value or 0.0) < LEAST_BARE or not _BY_VOLUME.search(line.text)):
            continue  # "40 mL of 60 %, 40 of 45 %": millilitres where they are said of another
        volume = float(item.alt) if item.unit == "g" and isinstance(item.alt, (int, float)) else item.value
        used, strength = [index], None
        for group in ("first", "second", "third"):
            if hit.group(group) and strength is None:
                place, figure = line.item(hit, group)
                if figure is not None:
                    strength = figure.value
                    used.append(place)
        ratio = None
        if hit.group("ratio"):
            place, figure = line.item(hit, "ratio")
            ratio = (figure.value, place) if figure is not None and figure.value is not None else None
        words = line.text[hit.start() : hit.end()].split(" ")
        watery = next((WATERY[w] for w in words if w in WATERY), "")
        name = watery or _plant_in(line, hit) or (hit.group("name") or "").strip() or next((w for w in words if w in BOUGHT), "")
        found.append(Poured(name, volume, 0.0 if watery and strength is None else strength, tuple(used), ratio))
    return found


def _plant_in(line: Line, hit: re.Match[str]) -> str:
    places = (line.places[p] for p in sorted(line.places) if hit.start() <= p < hit.end())
    return next((line.pieces[i].name for i in places if i < len(line.pieces) and line.pieces[i].code == "@"), "")


def _watery_first(line: Line) -> list[Poured]:
    """ "the decoction cooked down to 250 mL": the watery part with its volume behind it."""
    found = []
    for hit in _WATERY_FIRST.finditer(line.text):
        index, item = line.item(hit, "volume")
        if item is not None:
            found.append(Poured(WATERY[hit.group("name")], item.value, 0.0, (index,)))
    return found


def _without_volume(line: Line) -> list[Poured]:
    """Liquids whose volume is not said, in the order they were named; a decoction merely mentioned comes last."""
    found: list[Poured] = []
    for pattern in (_STRENGTH_NAMED, _STRENGTH_ONLY):
        for hit in pattern.finditer(line.text):
            place, item = line.item(hit, "strength")
            if item is None or any(place in p.used for p in found):
                continue
            before = line.text[: hit.start("strength")].rstrip().split(" ")
            aimed_at = before[-1] in ("to", "at", "reach")
            of_a_volume = len(before) > 1 and before[-1] in ("of", "a", "at") and before[-2].startswith("<mL")
            if not aimed_at and not of_a_volume:
                found.append(Poured((hit.group("name") or "").strip(), None, item.value, (place,)))
    found.sort(key=lambda p: p.used[0])
    for word in ("decoction", "infusion"):
        if re.search(rf"(?<![^ ]){word} ", line.text) and not re.search(rf"<mL> (?:of )?(?:[a-z]+ )?{word} ", line.text):
            found.append(Poured(word, None, 0.0, ()))  # noqa: PERF401  (a condition a reader can follow)
    return found


Figure = tuple[float, int]  # value and place


def _target(line: Line) -> tuple[Figure | None, Figure | None]:
    """Strength and volume of what is to come of it, as far as they are said."""
    for hit in _TARGET_VOLUME.finditer(line.text):
        (v, volume), (s, strength) = line.item(hit, "volume"), line.item(hit, "strength")
        if volume is not None and strength is not None and volume.value is not None and strength.value is not None:
            return (strength.value, s), (volume.value, v)
    for hit in _TARGET.finditer(line.text):
        s, strength = line.item(hit, "strength")
        if strength is not None and strength.value is not None:
            return (strength.value, s), None
    return None, None


def _keep(
    liquids: Sequence[Poured], strength: Figure | None, volume: Figure | None, line: Line, taken: set[int], reading: Reading, *, named: bool = False
) -> None:
    seen: set[str] = set()
    for poured in liquids:
        label = poured.name if named else _label(poured)
        while label in seen:
            label += " (second)"
        seen.add(label)
        figures = []
        spans = [(line.pieces[i].start, line.pieces[i].end) for i in poured.used] or [(0, 0)]
        if poured.volume is not None:
            figures.append(("volume", poured.volume, *spans[0]))
        if poured.strength is not None:
            own = len(poured.used) > (poured.volume is not None)
            figures.append(("strength_of", poured.strength, *(spans[-1] if own else (0, 0))))
        if poured.ratio is not None:
            value, place = poured.ratio
            figures.append(("ratio_of", value, line.pieces[place].start, line.pieces[place].end))
            taken.add(place)
        taken.update(poured.used)
        reading.liquids.append(Ingredient(label, tuple(figures), spans[0][0], spans[-1][1]))
    for quantity, figure in (("blend_strength", strength), ("blend", volume)):
        if figure is not None:
            value, place = figure
            reading.said.append(Said(quantity, value, line.pieces[place].start, line.pieces[place].end))
            taken.add(place)
    reading.frames.add("mix")


def _label(poured: Poured) -> str:
    """What a liquid is called in the reply: its name, else its strength."""
    if poured.name and poured.name not in SPIRITS:
        return poured.name
    return f"{poured.strength:g} %" if poured.strength is not None else poured.name or "spirit"
