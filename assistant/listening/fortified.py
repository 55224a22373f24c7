"""Spirit into a watery liquid so that it keeps: "600 ml decoction, how much 95 brings it to 25 %", "500 ml juice, brandy at 40, want it 18 %".

Of the two strengths the higher is the spirit's and the lower is what both are to have together; the volume is that of whichever it stands by.
"""

from __future__ import annotations

from assistant.listening.pieces import Piece
from assistant.listening.statements import Asked, Ingredient, Reading, Reference, Said

WATERY = {w: w for w in "decoction juice infusion tea hydrosol brew broth water".split()} | {"decoctions": "decoction", "juices": "juice"}
OTHER_FIGURES = frozenset("<g> <oz> <:> <C> <bx> <drop> <x> <parts> <part> <share> <per> <mL/g> <g/mL> <money> <label> <ref> <aday> <day> <cup>".split())
OTHER_WORK = frozenset(
    """tincture tinctures extract honey sugar syrup oil wax glycerine glycerin vinegar dose marc press pressed yield cup cups mug dried dry
    fresh boiled boil down reduced reduce simmer bears bear lose""".split()
)
SPIRITS = frozenset("spirit spirits vodka brandy rum gin whisky whiskey everclear alcohol ethanol".split())
BETWEEN = frozenset("of the my this that some strong good nice plain worth @ is are it left cold hot clear".split())
FILLERS = frozenset("of the my some proof % percent spirit vodka brandy at".split())
LEAST, MOST = 3.0, 100.0


def read_fortified(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading) -> bool:
    """Make the watery liquid and the spirit two lines of a mix; True where the sentence told them. Elsewhere nothing is changed."""
    watery = [i for i, t in enumerate(tokens) if t in WATERY]
    if not watery or reading.ingredients or reading.liquids or set(tokens) & (OTHER_FIGURES | OTHER_WORK):
        return False
    volumes = [i for i, t in enumerate(tokens) if t == "<mL>"]
    numbers = [(i, p.item) for i, p in enumerate(pieces) if tokens[i] in ("<%>", "<#>") and i not in taken]
    strengths = [(float(item.value), i) for i, item in numbers if item is not None and item.value]
    if len(volumes) != 1 or len(strengths) != 2 or len({WATERY[tokens[i]] for i in watery}) != 1:
        return False
    (wanted, wanted_at), (stock, stock_at) = sorted(strengths)
    if not LEAST <= wanted < stock <= MOST or (stock < 30.0 and not set(tokens) & SPIRITS):
        return False
    volume = volumes[0]
    owner = "watery" if any(_beside(tokens, volume, w) for w in watery) else "spirit" if _leads_to(tokens, volume, stock_at) else ""
    if owner == "spirit" and "water" in tokens:
        return False  # a spirit cut down with water
    item = pieces[volume].item
    if not owner or item is None:
        return False
    told = ("volume", float(item.value or 0.0), pieces[volume].start, pieces[volume].end)
    lines = {
        "watery": (WATERY[tokens[watery[0]]], ("strength_of", 0.0, pieces[watery[0]].start, pieces[watery[0]].start)),
        "spirit": (f"{stock:g} %", ("strength_of", stock, pieces[stock_at].start, pieces[stock_at].end)),
    }
    for kind, (name, strength) in lines.items():
        figures = (told, strength) if kind == owner else (strength,)
        reading.liquids.append(Ingredient(name, figures, min(f[2] for f in figures), max(f[3] for f in figures)))
    at = pieces[wanted_at]
    reading.said.append(Said("blend_strength", wanted, at.start, at.end, said_unit=at.item.said_unit if at.item else ""))
    reading.references += [Reference("reference", pieces[i].start, pieces[i].end) for i in (volume, stock_at, wanted_at)]
    taken |= {volume, stock_at, wanted_at}
    reading.frames -= {"tea", "dose"}
    reading.frames |= {"mix"}
    reading.named = []
    sought = pieces[stock_at if owner == "watery" else watery[0]]
    reading.asked.append(Asked("volume", sought.start, sought.end, lines["spirit" if owner == "watery" else "watery"][0]))
    return True


def _beside(tokens: list[str], volume: int, watery: int) -> bool:
    """Whether a volume stands with the liquid's name: "600 ml of strong hawthorn decoction", "decoction is 600 ml"."""
    first, last = sorted((volume, watery))
    between = tokens[first + 1 : last]
    if tokens[watery] == "water":
        return between in ([], ["of"], ["of", "the"])  # else it is the water that cuts the spirit, or the plant's
    return len(between) <= 5 and all(t in BETWEEN or (volume < watery and t.isalpha() and t not in SPIRITS and t not in FILLERS) for t in between)


def _leads_to(tokens: list[str], volume: int, strength: int) -> bool:
    return volume < strength and all(t in FILLERS for t in tokens[volume + 1 : strength])


__all__ = ["read_fortified"]
