"""Liquids poured together: which volume at which strength, and what the mix is to be.

"350 ml water into 500 ml of 95", "lift 700 ml at 40 to 55 using 96", "151 proof rum plus 80 proof vodka, half a litre at 50 %",
"how much decoction can I add to 600 mL of a 70 % tincture so that it stays above 30 %".
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from assistant.listening.pieces import Piece
from assistant.listening.statements import Ingredient, Reading

WATERY = {"water": "water", "decoction": "decoction", "infusion": "infusion", "tea": "tea", "h2o": "water"}
SPIRITS = "spirit|spirits|vodka|rum|brandy|gin|whisky|whiskey|tincture|alcohol|ethanol|stock|stuff|menstruum|mix|extract"
BOUGHT = frozenset("vodka rum brandy gin whisky whiskey spirit alcohol".split())
_VOLUME = (
    r"<(?:mL|oz|cup)> (?:of )?(?:(?:a|the|my|this|that|some|our) )*(?:strong |cold |cooled |strained |pressed |finished |filtered )*"
    r"(?:(?P<first><%>|<#>) )?(?:(?:@|WORD) )?(?P<name>NAMES )?(?:(?:at|of|reading|which is|that is|is|,|\() (?P<second><%>|<#>) )?"
)


# A liquid with a volume: its mL, the words of them, its strength if that is said, its name, the places it was read from.
Poured = tuple[float, str, float | None, str, list[int]]


def read_liquids(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading, _context: frozenset[str]) -> None:
    """Put the liquids of a mix into `reading.liquids`, and the target into `reading.said` by way of tags; figures used are taken."""
    if reading.ingredients or (any(t in ("<g>", "<:>") for t in tokens) and not _two_poured(tokens)):
        return
    line = " ".join(tokens) + " "
    places = _places(tokens)
    behind = _watery_first(line, places, pieces, taken)
    found = _with_volume(line, places, pieces, taken | {i for f in behind for i in f[4]}) + behind
    named = [f for f in found if f[2] is not None or f[3] in WATERY.values()]
    unknown = _without_volume(line, places, pieces, taken | {i for f in found for i in f[4]})
    target_strength, target_volume = _target(line, places, pieces, {i for f in named for i in f[4]} | {i for u in unknown for i in u[2]})
    liquids: list[tuple[str, float | None, float | None, list[int]]] = []
    if len(named) >= 2:
        liquids = [(n, v, s, at) for v, _, s, n, at in ((f[0], f[1], f[2], f[3], f[4]) for f in named)]
    elif len(named) == 1 and unknown and target_strength is not None and not (unknown[0][0] == "water" and "decoction" not in unknown[0][0]):
        liquids = [(named[0][3], named[0][0], named[0][2], named[0][4])] + [(u[0], None, u[1], u[2]) for u in unknown[:1]]
    elif not named and len(unknown) >= 2 and target_strength is not None and ("maybe_mix" in reading.frames or target_volume is not None):
        liquids = [(u[0], None, u[1], u[2]) for u in unknown[:2]]
    elif _one_strength_missing(found, named, tokens):
        liquids = [(f[3], f[0], f[2], f[4]) for f in found]
    if not liquids:
        return
    _keep(liquids, target_strength if len(named) < 2 or target_volume is not None else None, target_volume, pieces, taken, reading)


def _one_strength_missing(found: list[Poured], named: list[Poured], tokens: list[str]) -> bool:
    """ "300 mL at 60 % + 200 mL brandy, strength of the mix?": two are poured together, and the strength of a named spirit has to be asked for."""
    bare = [f for f in found if f not in named]
    joined = {"+", "plus"} & set(tokens) and {"strength", "abv", "strong"} & set(tokens)
    return bool(joined) and len(named) >= 1 and len(bare) == 1 and bare[0][3] in BOUGHT


def _two_poured(tokens: list[str]) -> bool:
    return sum(t == "<mL>" for t in tokens) >= 2 and any(t in ("water", "plus", "decoction") for t in tokens) and any(t in ("<%>", "<#>") for t in tokens)


def _places(tokens: list[str]) -> dict[int, int]:
    places, at = {}, 0
    for index, token in enumerate(tokens):
        places[at] = index
        at += len(token) + 1
    return places


_COMPONENT = re.compile(
    r"(?<![^ ])(?P<volume><(?:mL|oz|cup)> )"
    + _VOLUME.split("> ", 1)[1].replace("NAMES", "(?:" + SPIRITS + "|" + "|".join(WATERY) + ")").replace("WORD", "(?!(?:at|of|is|reading|which|that) )[a-z]+")
)
_STRENGTH_ONLY = re.compile(
    r"(?<![^ ])(?:(?:the|my|a|an|some|just|and|with|using|from|of|plus|more|by|adding) )+(?P<strength><%>|<#>) (?P<name>(?:" + SPIRITS + r") )?"
)
_STRENGTH_NAMED = re.compile(r"(?<![^ ])(?P<strength><%>) (?P<name>(?:" + SPIRITS + r") )")
_TARGET = re.compile(
    r"(?<![^ ])(?:(?:up |down |back )*to|at or above|above|reach|hit|hits|over|(?:still )?(?:be|stay|stays) at|floor(?: of| is| at)?|minimum(?: of)?|no less than|not less than|at least|not below|below|under|stay at|stays at|be|wanted|for) (?:about )?(?P<strength><%>|<#>) "  # noqa: E501  (one sentence, or one expression)
)
_TARGET_VOLUME = re.compile(r"(?<![^ ])(?P<volume><mL>) (?:of |at |that is |it )?(?:a |the )?(?P<strength><%>|<#>) ")


def _with_volume(line: str, places: dict[int, int], pieces: list[Piece], taken: set[int]) -> list[tuple[float, str, float | None, str, list[int]]]:
    """(volume, its text, strength or None, name, places) of every liquid with a volume; a target like "half a litre at 50 %" is left out."""
    found: list[Poured] = []
    at = 0
    while (hit := _COMPONENT.search(line, at)) is not None:
        at = hit.start() + 5
        index = places[hit.start("volume")]
        item = pieces[index].item
        if index in taken or item is None or item.value is None:
            continue
        before = line[: hit.start()].rstrip().split(" ")[-3:]
        joined = bool(re.search(r" (?:with|and|plus|to|n|into) (?:a |the |my )?<mL> ", line)) and before[-1:] in (["mix"], ["mixed"], ["blend"], ["combine"])
        if not joined and any(w in ("blend", "want", "make", "need", "mix", "me", "making", "for", "prepare", "produce") for w in before):
            continue
        volume = float(item.alt) if item.unit == "g" and isinstance(item.alt, (int, float)) else item.value
        used = [index]
        strength: float | None = None
        for group in ("first", "second"):
            if hit.group(group):
                place = places[hit.start(group)]
                if pieces[place].item is not None and place not in taken:
                    strength = pieces[place].item.value  # type: ignore[union-attr]
                    used.append(place)
                    break
        name = (hit.group("name") or "").strip()
        words = line[hit.start() : hit.end()].split(" ")
        watery = next((WATERY[w] for w in words if w in WATERY), "")
        if watery:
            found.append((volume, pieces[index].text, 0.0 if strength is None else strength, watery, used))
        else:
            plant = next((pieces[places[p]].name for p in sorted(places) if hit.start() <= p < hit.end() and pieces[places[p]].code == "@"), "")
            found.append((volume, pieces[index].text, strength, plant or name or next((w for w in words if w in BOUGHT), ""), used))
    return found


_WATERY_FIRST = re.compile(
    r"(?<![^ ])(?P<name>decoction|infusion|tea) (?:was |is |has been |i )?(?:(?:cooked|boiled|simmered|reduced|brought|comes|came|made|makes|measures|gives) )?(?:down )?"  # noqa: E501  (one sentence, or one expression)
    r"(?:to |of |at |is |about )*(?P<volume><mL>) "
)


def _watery_first(line: str, places: dict[int, int], pieces: list[Piece], taken: set[int]) -> list[tuple[float, str, float | None, str, list[int]]]:
    """ "the decoction cooked down to 250 mL": the watery part with its volume behind it."""
    found: list[Poured] = []
    for hit in _WATERY_FIRST.finditer(line):
        index = places[hit.start("volume")]
        item = pieces[index].item
        if index not in taken and item is not None and item.value is not None:
            found.append((item.value, pieces[index].text, 0.0, WATERY[hit.group("name")], [index]))
    return found


def _without_volume(line: str, places: dict[int, int], pieces: list[Piece], taken: set[int]) -> list[tuple[str, float, list[int]]]:
    """(name, strength, places) of liquids whose volume is not said."""
    found: list[tuple[str, float, list[int]]] = []
    for pattern in (_STRENGTH_NAMED, _STRENGTH_ONLY):
        for hit in pattern.finditer(line):
            place = places[hit.start("strength")]
            item = pieces[place].item
            if place in taken or item is None or item.value is None or any(place in f[2] for f in found):
                continue
            before = line[: hit.start("strength")].rstrip().split(" ")
            if before and before[-1] in ("to", "at", "reach"):
                continue
            if len(before) > 1 and before[-1] in ("of", "a", "at") and before[-2].startswith("<mL"):
                continue
            found.append(((hit.group("name") or "").strip(), item.value, [place]))
    for word in ("decoction", "infusion"):
        if re.search(rf"(?<![^ ]){word} ", line) and not re.search(rf"<mL> (?:of )?(?:[a-z]+ )?{word} ", line):
            found.append((word, 0.0, []))  # noqa: PERF401  (a condition a reader can follow)
    found.sort(key=lambda f: f[2][0] if f[2] else 999)
    return found


def _target(line: str, places: dict[int, int], pieces: list[Piece], used: set[int]) -> tuple[tuple[float, int] | None, tuple[float, int] | None]:
    for hit in _TARGET_VOLUME.finditer(line):
        v, s = places[hit.start("volume")], places[hit.start("strength")]
        if v not in used and s not in used and pieces[v].item is not None and pieces[s].item is not None:
            return (pieces[s].item.value, s), (pieces[v].item.value, v)  # type: ignore[union-attr, return-value]
    for hit in _TARGET.finditer(line):
        s = places[hit.start("strength")]
        if s not in used and pieces[s].item is not None:
            return (pieces[s].item.value, s), None  # type: ignore[union-attr, return-value]
    return None, None


def _keep(
    liquids: Sequence[tuple[str, float | None, float | None, list[int]]],
    target_strength: tuple[float, int] | None,
    target_volume: tuple[float, int] | None,
    pieces: list[Piece],
    taken: set[int],
    reading: Reading,
) -> None:
    seen: set[str] = set()
    for name, volume, strength, used in liquids:
        label = name if name in WATERY.values() else ""
        if not label:
            label = f"{strength:g} %" if strength is not None else name or "spirit"
            if name and name not in SPIRITS.split("|"):
                label = name
        while label in seen:
            label += " (second)"
        seen.add(label)
        figures = []
        if volume is not None:
            figures.append(("volume", volume, pieces[used[0]].start, pieces[used[0]].end))
        if strength is not None:
            place = used[-1] if used and len(used) > (volume is not None) else None
            span = (pieces[place].start, pieces[place].end) if place is not None else (0, 0)
            figures.append(("strength_of", strength, *span))
        taken.update(used)
        start = pieces[used[0]].start if used else 0
        reading.liquids.append(Ingredient(label, tuple(figures), start, pieces[used[-1]].end if used else 0))
    from assistant.listening.statements import Said

    if target_strength is not None:
        value, place = target_strength
        reading.said.append(Said("blend_strength", value, pieces[place].start, pieces[place].end))
        taken.add(place)
    if target_volume is not None:
        value, place = target_volume
        reading.said.append(Said("blend", value, pieces[place].start, pieces[place].end))
        taken.add(place)
    reading.frames.add("mix")
