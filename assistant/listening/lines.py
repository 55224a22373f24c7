"""One line of a recipe: a name with its figure, in either order, and what is said of the ingredient behind it."""

from __future__ import annotations

from collections.abc import Callable

from assistant.dataclass import dataclass, field
from assistant.listening.ingredients import POURED, Name
from assistant.listening.pieces import Piece
from assistant.listening.sides import counts_vessels

JOINS = frozenset("in into melts melted , ; and & + plus / then with also n to :".split())
TIPPED = frozenset("tip tipped pour poured add added mix mixed goes went it gets got".split())  # "… and tip it into 60 mL of the other"
IN = frozenset({"in", "into"})
MELTS = frozenset({"wax", "beeswax", "butter", "shea", "lanolin", "candelilla", "carnauba"})
BETWEEN_FIRST = frozenset(
    """acidity it at of the a an my our that plain more extra fresh dried dry strained strong neat pure infused raw runny more each
    cider apple malt rice""".split()
)
BETWEEN_NAME = frozenset("at is are goes gets with - : = being only just about takes in was , has wants comes".split())
# The figure's token → what it is of an ingredient.
QUANTITY_OF = {
    "<part>": "part", "<%>": "share", "<mL>": "volume", "<cup>": "volume", "<g>": "weight", "<oz>": "weight", "<#>": "part", "<drop>": "eo_drops_of",
    "<share>": "fraction",
}  # fmt: skip
SPIRITS = frozenset("tincture tinctures extract spirit spirits vodka brandy alcohol rum gin stuff stock glycerite".split())
BEHIND = frozenset(") too likewise vodka spirit us tincture rum brandy proof ( abv vinegar gin".split())
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
    own: frozenset[str] = frozenset()  # names that a list of the sentence has told already


Build = Callable[[Row, int], Line | None]


def _goes_on(run: list[Line], line: Line) -> bool:
    """Bare numbers go on behind parts; otherwise parts, percents, grams and millilitres may stand in one recipe."""
    kinds = {r.kind for r in run}
    if line.kind == "<#>":
        return kinds <= {"<part>", "<#>", "<share>"} or kinds <= {"<mL>", "<#>"} or kinds <= {"<g>", "<#>"} or kinds <= {"<%>", "<#>"}
    if "<#>" in kinds:
        return line.kind in ("<#>", "<part>") or (line.kind == "<%>" and kinds == {"<#>"})  # "sage 50 mint 30 rose 20 percents"
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
        if row.tokens[look] == "<%>" and row.tokens[at] != "<%>" and "strength_of" not in dict(strength):
            strength.append(("strength_of", look))  # "20 mL of a 45 % marshmallow"
        elif row.tokens[look] == "<:>" and row.tokens[at] in ("<mL>", "<cup>") and "ratio_of" not in dict(strength):
            strength.append(("ratio_of", look))  # "60 mL of the 1:5 elder"
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
    if name is None or (not name.known and row.tokens[at] == "<#>" and name.text not in row.own):
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
    look, own = _said_before_the_amount(row, look)
    extras += own
    steps = 0
    while look < len(row.pieces) and row.tokens[look] in BETWEEN_NAME and steps < 2:
        look += 1
        steps += 1
    if look >= len(row.pieces) or row.tokens[look] not in QUANTITY_OF or look in row.taken or counts_vessels(row.tokens, look):
        return None  # "…, 1 liquorice, twenty tins": tins, and no parts of liquorice
    if steps and row.tokens[look - 1] in (",", ":") and (is_of_the_whole(row, look) or _names_another(row, look)):
        return None  # "1 part calendula, 300 g in all": the batch; "tea: 3 parts nettle, …": the nettle's
    if look + 1 in row.names and row.tokens[look] != "<#>" and look + 1 < len(row.pieces) and not steps and look == name.last and not extras:
        behind = row.names[look + 1].last
        if behind >= len(row.pieces) or row.tokens[behind] in JOINS or row.tokens[behind] == "?":
            return None  # "…, hops 20 mL valerian": the figure belongs to the name behind it
    last, more = extras_behind(row, look + 1, row.tokens[look])
    return Line(name.text, row.tokens[look], look, at, last, extras + more, name.known, poured=name.poured)


def _said_before_the_amount(row: Row, at: int) -> tuple[int, list[tuple[str, int]]]:
    """ "Ashwagandha 1:2 50 mL", "skullcap (1:5, 45 %) 30 mL": ratio and strength between a name and its millilitres."""
    look, found = at, []
    while look < len(row.tokens) and row.tokens[look] in ("<:>", "<%>", "at", "in", ","):
        if row.tokens[look].startswith("<"):
            found.append(("ratio_of" if row.tokens[look] == "<:>" else "strength_of", look))
        look += 1
    if not found:
        return at, []
    of_it = row.tokens[look + 1 : look + 3] in (["of", "it"], ["of", "that"])  # "poke 1:10, 10 mL of it in a 100 bottle"
    measured = look < len(row.tokens) and row.tokens[look] in ("<mL>", "<cup>") and (row.tokens[look - 1] not in ("in", ",") or of_it)
    closed = look + 1 >= len(row.tokens) or look + 1 not in row.names
    if not measured or not closed or any(i in row.taken for _, i in found) or len(dict(found)) < len(found):
        return at, []
    return look, found


def is_of_the_whole(row: Row, at: int) -> bool:
    """Whether the figure at a place is said of all there is: "300 g in all", "300 g altogether"."""
    behind = row.tokens[at + 1 : at + 3]
    return behind[:1] != [] and (behind[0] in WHOLE_WORDS or " ".join(behind) in WHOLE)


def _names_another(row: Row, at: int) -> bool:
    """Whether the name of another ingredient follows the figure at a place, and no further figure is that one's own."""
    name = row.names.get(at + 1) or (row.names.get(at + 2) if row.tokens[at + 1 : at + 2] == ["of"] else None)
    if name is None:
        return False
    if name.last >= len(row.tokens) or row.tokens[name.last] in JOINS:
        return True
    return next((t for t in row.tokens[name.last :] if t not in BETWEEN_NAME), "") not in QUANTITY_OF


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
        elif code == "<#>" and _is_bare_strength(row, look, at, kind) and "strength_of" not in dict(extras):
            extras.append(("strength_of", look))
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


PRICED = frozenset("<money> <per> cost costs price priced pay paid worth charge pounds dollars euros pence cents bottle's".split())
WEAKEST, STRONGEST = 15.0, 96.0  # percent: between them lies every tincture of a formula


def _is_bare_strength(row: Row, look: int, at: int, kind: str) -> bool:
    """ "2 parts hawthorn at 40 %, 1 linden at 45", "50 mL valerian at 25 %, 30 skullcap at 45": behind "at" a bare number goes on as a strength."""
    item = row.pieces[look].item
    if look == at or row.tokens[look - 1] != "at" or item is None or item.value is None or not WEAKEST <= item.value <= STRONGEST:
        return False
    return kind in ("<part>", "<share>") or (kind in ("<#>", "<mL>") and ("<%>" in row.tokens or not PRICED & set(row.tokens)))


def _stranger_by_parts(row: Row, at: int, run: list[Line]) -> Line | None:
    """ "3 parts lavender 2 orange 1 bergamot": a word nobody knows right behind the next number of a row of parts is one of them.

    In a row of bare numbers only where the row goes on behind it: "5 lemon balm 3 lime 1 rose".
    """
    name = row.names.get(at + 1)
    if name is None or row.tokens[at] != "<#>" or at in row.taken:
        return None
    ahead = name.last
    while ahead < len(row.tokens) and row.tokens[ahead] in JOINS:
        ahead += 1
    goes_on = row.tokens[ahead : ahead + 1] == ["<#>"] and ahead + 1 in row.names and run[-1].kind == "<#>"
    if not goes_on and not any(line.kind == "<part>" for line in run):
        return None
    last, extras = extras_behind(row, name.last, "<part>")
    return Line(name.text, "<#>", at, at, last, extras, known=False)


def following(row: Row, build: Build, run: list[Line]) -> Line | None:
    at, steps = _past_a_bare_strength(row, run[-1]), 0
    while at < len(row.pieces) and row.tokens[at] in JOINS | TIPPED and steps < 5:
        at += 1
        steps += row.tokens[at - 1] in JOINS
    if row.tokens[at : at + 2] == ["the", "other"] and run[-1].kind in ("<%>", "<#>", "<part>"):
        at += 2  # "62 % oil, 20 % shea and the other 18 beeswax"
    line = (build(row, at) or (_stranger_by_parts(row, at, run) if build is amount_first else None)) if at < len(row.pieces) else None
    if (
        line is not None
        and IN & set(row.tokens[run[-1].last : at])
        and not MELTS & set(f"{run[-1].name} {line.name}".split())
        and not _both_told(run[-1], line)
    ):
        return None  # "60 g wax in 240 g oil" is a list, "15 drops in 30 mL of oil" is not
    if line is not None and line.kind == "<share>" and len(run) >= LEAST_ROW and {r.kind for r in run} <= {"<part>", "<#>"} and line.name not in POURED:
        line.kind = "<part>"  # "2 parts passionflower 1 valerian half licorice": half a part
    return line if line is not None and _goes_on(run, line) else None


LEAST_ROW = 2  # lines of parts behind which a half is half a part


def _past_a_bare_strength(row: Row, line: Line) -> int:
    """The place behind "which is 30" of a line, where the run has strengths: the figure itself is read once the list is whole."""
    at = line.last
    while at < len(row.tokens) and at < line.last + 3 and row.tokens[at] in ("which", "that", "that's", "thats", "is", "it's", "being"):
        at += 1
    return at + 1 if at > line.last and row.tokens[at : at + 1] == ["<#>"] and line.kind in ("<mL>", "<cup>") else line.last


def _both_told(one: Line, other: Line) -> bool:
    """ "60 mL of 1:5 elder at 40 % into 90 mL of …": volumes of tincture, each with its strength or ratio, poured together."""
    return all(line.kind == "<mL>" and any(q in ("strength_of", "ratio_of") for q, _ in line.extras) for line in (one, other))
