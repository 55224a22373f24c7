"""One line of a recipe: a name with its figure, in either order, and what is said of the ingredient behind it."""

from __future__ import annotations

from collections.abc import Callable

from assistant.dataclass import dataclass, field
from assistant.listening.ingredients import Name
from assistant.listening.pieces import Piece

JOINS = frozenset("in into melts melted , ; and & + plus / then with also n to :".split())
IN = frozenset({"in", "into"})
MELTS = frozenset({"wax", "beeswax", "butter", "shea", "lanolin", "candelilla", "carnauba"})
BETWEEN_FIRST = frozenset("acidity it at of the a an my our that fresh dried dry strained strong neat pure infused raw runny more each".split())
BETWEEN_NAME = frozenset("at is are goes gets with - : = being only just about takes in was , has wants comes".split())
# The figure's token → what it is of an ingredient.
QUANTITY_OF = {
    "<part>": "part", "<%>": "share", "<mL>": "volume", "<cup>": "volume", "<g>": "weight", "<oz>": "weight", "<#>": "part", "<drop>": "eo_drops_of",
    "<share>": "fraction",
}  # fmt: skip
SPIRITS = frozenset("tincture tinctures extract spirit spirits vodka brandy alcohol rum gin stuff stock glycerite".split())
BEHIND = frozenset(") vodka spirit us tincture rum brandy proof ( abv vinegar gin".split())
WHOLE = frozenset({"in all", "all told"})
WHOLE_WORDS = frozenset("altogether total whole overall".split())
LEADS_TO_EXTRA = frozenset("<aday> from a an and ( at of is made on in - for tincture which that's thats , with".split())


@dataclass
class Line:
    """A name with its figure and the places they cover; `kind` is the figure's token, or one of equal, rest, side.

    extras   (quantity, place) of what is said of the ingredient behind it
    known    whether the name is a plant's or a listed stuff's
    value    the figure where it is no piece's own: a side of a ratio, one of equal parts
    poured   whether it was said as a tincture or another liquid
    """

    name: str
    kind: str
    at: int
    first: int
    last: int
    extras: list[tuple[str, int]] = field(default_factory=list)
    known: bool = True
    value: float | None = None
    poured: bool = False


@dataclass
class Row:
    """The row of pieces with what was found in it, handed from shape to shape."""

    pieces: list[Piece]
    tokens: list[str]
    names: dict[int, Name]
    taken: set[int]
    cues: tuple[int, ...] = ()  # shares that only say "equal"


Build = Callable[[Row, int], Line | None]


def _goes_on(run: list[Line], line: Line) -> bool:
    """Bare numbers go on behind parts; otherwise parts, percents, grams and millilitres may stand in one recipe."""
    kinds = {r.kind for r in run}
    if line.kind == "<#>":
        return kinds <= {"<part>", "<#>", "<share>"} or kinds <= {"<mL>", "<#>"} or kinds <= {"<g>", "<#>"} or kinds <= {"<%>", "<#>"}
    if "<#>" in kinds:
        return line.kind in ("<#>", "<part>")
    if line.kind == "<%>" or "<%>" in kinds:
        return kinds | {line.kind} <= {"<%>", "<mL>", "<part>", "<share>"}
    return True


def amount_first(row: Row, at: int) -> Line | None:
    if at >= len(row.pieces) or row.tokens[at] not in QUANTITY_OF or at in row.taken:
        return None
    look = at + 1
    steps = 0
    strength: list[tuple[str, int]] = []
    while look < len(row.pieces) and look not in row.names and steps < 5:
        if row.tokens[look] == "<%>" and row.tokens[at] != "<%>" and not strength:
            strength = [("strength_of", look)]  # "20 mL of a 45 % marshmallow"
        elif row.tokens[look] not in BETWEEN_FIRST:
            break
        look += 1
        steps += 1
    name = row.names.get(look)
    if row.tokens[at] == "<share>" and row.tokens[look : look + 2] == ["sugar", "syrup"]:
        return None  # "a half sugar syrup": how sweet it is, not what goes in
    if name is None and strength and row.tokens[at] in ("<share>", "<part>"):
        item = row.pieces[strength[0][1]].item  # "a third of it at 25 %": called by its strength
        last = strength[0][1] + 1
        while last < len(row.tokens) and row.tokens[last] in SPIRITS:
            last += 1
        return Line(f"{item.value:g} %" if item is not None and item.value is not None else "%", row.tokens[at], at, at, last, strength)
    if name is None or (not name.known and row.tokens[at] == "<#>"):
        return None
    last, extras = extras_behind(row, name.last, row.tokens[at])
    return Line(name.text, row.tokens[at], at, at, last, strength + extras, name.known, poured=name.poured)


def name_first(row: Row, at: int) -> Line | None:
    name = row.names.get(at)
    if name is None or (name.text == "water" and at and row.tokens[at - 1] == "<%>" and row.tokens[at + 1 : at + 2] in ([","], ["in"])):
        return None  # "80 % water, 600 mL of 95": the plant's water
    look = name.last
    extras: list[tuple[str, int]] = []
    if look < len(row.pieces) and row.tokens[look] == "(":
        look, extras = extras_behind(row, look, "<mL>")
    steps = 0
    while look < len(row.pieces) and row.tokens[look] in BETWEEN_NAME and steps < 2:
        look += 1
        steps += 1
    if look >= len(row.pieces) or row.tokens[look] not in QUANTITY_OF or look in row.taken:
        return None
    if steps and row.tokens[look - 1] in (",", ":") and (is_of_the_whole(row, look) or _names_another(row, look)):
        return None  # "1 part calendula, 300 g in all": the batch; "tea: 3 parts nettle, …": the nettle's
    if look + 1 in row.names and row.tokens[look] != "<#>" and look + 1 < len(row.pieces) and not steps and look == name.last and not extras:
        behind = row.names[look + 1].last
        if behind >= len(row.pieces) or row.tokens[behind] in JOINS or row.tokens[behind] == "?":
            return None  # "…, hops 20 mL valerian": the figure belongs to the name behind it
    last, more = extras_behind(row, look + 1, row.tokens[look])
    return Line(name.text, row.tokens[look], look, at, last, extras + more, name.known, poured=name.poured)


def is_of_the_whole(row: Row, at: int) -> bool:
    """Whether the figure at a place is said of all there is: "300 g in all", "300 g altogether"."""
    behind = row.tokens[at + 1 : at + 3]
    return behind[:1] != [] and (behind[0] in WHOLE_WORDS or " ".join(behind) in WHOLE)


def _names_another(row: Row, at: int) -> bool:
    """Whether the name of another ingredient follows the figure at a place, and no further figure is that one's own."""
    name = row.names.get(at + 1) or (row.names.get(at + 2) if row.tokens[at + 1 : at + 2] == ["of"] else None)
    if name is None:
        return False
    behind = next((t for t in row.tokens[name.last :] if t not in BETWEEN_NAME), "")
    return name.last >= len(row.tokens) or row.tokens[name.last] in JOINS or behind not in QUANTITY_OF


def extras_behind(row: Row, at: int, kind: str) -> tuple[int, list[tuple[str, int]]]:
    """What is said of an ingredient behind it: strength, ratio, price, density."""
    tokens = row.tokens
    extras: list[tuple[str, int]] = []
    opened = False
    while at < len(tokens):
        look, skipped = at, 0
        while (
            look < len(tokens)
            and skipped < 4
            and tokens[look] in LEADS_TO_EXTRA
            and (tokens[look] not in (",", "and") or (bool(extras) and (opened or tokens[look] == "and")))
        ):
            opened = opened or tokens[look] == "("
            look += 1
            skipped += 1
        if look >= len(tokens):
            break
        code = tokens[look]
        priced = look > at and tokens[look - 1] == "at" and kind in ("<mL>", "<g>")
        if code == "<%>" and "strength_of" not in dict(extras) and (kind not in ("<%>", "<part>", "<share>") or (look > at and tokens[look - 1] != ",")):
            extras.append(("strength_of", look))
        elif code == "<:>" and "ratio_of" not in dict(extras):
            extras.append(("ratio_of", look))
        elif code in ("<per>", "<money>") or (code == "<#>" and priced):
            extras.append(("price_of", look))
        elif code == "<g/mL>":
            extras.append(("density_of", look))
        else:
            break
        at = look + 1
        if at + 1 < len(tokens) and tokens[at] == "," and tokens[at + 1] in ("<%>", "<:>"):
            at += 1  # "(1:2, 45 %)"
        while at < len(tokens) and (tokens[at] in BEHIND or (code == "<#>" and tokens[at] in ("the", "a", "per", "each", "ml", "mL"))):
            at += 1
    return at, extras


def following(row: Row, build: Build, run: list[Line]) -> Line | None:
    at, steps = run[-1].last, 0
    while at < len(row.pieces) and row.tokens[at] in JOINS and steps < 3:
        at += 1
        steps += 1
    line = build(row, at) if at < len(row.pieces) else None
    if line is not None and IN & set(row.tokens[run[-1].last : at]) and not MELTS & set(f"{run[-1].name} {line.name}".split()):
        return None  # "60 g wax in 240 g oil" is a list, "15 drops in 30 mL of oil" is not
    return line if line is not None and _goes_on(run, line) else None
