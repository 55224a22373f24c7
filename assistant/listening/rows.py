"""Sentences that tell a figure or two of each of several batches: what each wants of the spirit, what is promised of each, what each line costs.

"8 L of 95, and nettle wants 2.7, hypericum 2.4" is a row for each plant. Which figure of a row is which is told by the words beside it.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence

from assistant.dataclass import dataclass
from assistant.faults import BenchError
from assistant.listening.common import COMMON
from assistant.listening.crowns import read_crowns
from assistant.listening.market import read_market
from assistant.listening.orders import PROMISED, read_orders
from assistant.listening.pieces import Piece, take_piece
from assistant.listening.statements import Ingredient, Reading
from assistant.listening.token_row import clause_of
from assistant.listening.year_use import read_year_use

WANTS = frozenset("wants want needs need takes take asks uses use".split())
SHARED = frozenset("options ways enough short divide divided share split".split())
THERE = frozenset("has have holds hold left got there there's theres pressed shelf ready bottled made".split())
PRICE = frozenset("price priced sells sell sold selling charge".split())
COST = frozenset("cost costs costing made".split())
UNDER = frozenset("under below beneath than less".split())
PRESSING = frozenset("press pressing presses pressed basket".split())
BOTTLES = frozenset("bottle bottles phials vials basket baskets jars jar".split())
OF = frozenset("of at the my about a".split())
FIGURES = frozenset({"<mL>", "<#>", "<n>", "<g>", "<money>", "<%>"})
LINKS = frozenset("of for the my orders order tincture bottles bottle <mL> fresh dried".split())
MOST_LINKS = 6
NOWHERE = -2
LEFT = frozenset("left remaining over still".split())
MONEY = frozenset({"<money>", "<#>", "<n>"})
LEAST_IN_A_LOT = 20.0  # a bare number below it counts bottles, not mL
LEAST_STOCK = 30.0  # percent: nothing weaker is shared out among batches
KINDS = ("sharing", "press_day", "orders", "lines")
STATE_OF = {"dried": ("jar_water", 0.0), "dry": ("jar_water", 0.0)}


@dataclass(frozen=True, slots=True)
class Row:
    """One batch of a sentence: where its name stands, and the places of its figures."""

    name: str
    at: int
    figures: tuple[int, ...]
    words: frozenset[str]


def read_rows(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading, context: frozenset[str], known: Collection[str]) -> None:
    """Give the figures of such a sentence their places, as ingredients of the whole. Does nothing where it tells no rows.

    known   the words that the phrases know, and which therefore name no plant
    """
    if read_market(pieces, tokens, taken, reading) or read_crowns(pieces, tokens, taken, reading, context) or read_orders(pieces, tokens, taken, reading):
        return
    if read_year_use(pieces, tokens, taken, reading, context):
        return
    shared = _spirit(pieces, tokens)
    aside = set(taken) | set(shared) | _of_all(tokens)
    rows = _rows(pieces, tokens, aside, known)
    kind = _kind(tokens, rows, shared, reading, context)
    if not kind:
        if not rows and "spirit" in tokens and "lines" in tokens and {"which", "what"} & set(tokens) and "<#>" in tokens:
            reading.fault = BenchError(
                "no line has been told yet",
                where="lines",
                try_this="tell each line: “nettle sells at 9.50 and costs 3.10 with 45 mL of spirit, elder sells at 8 and costs 3.30 with 30 mL”",
            )
        return
    reading.frames.add(kind)
    unit = 1.0
    if kind == "sharing":
        if shared:
            unit = _said_in(pieces[shared[0]])
            take_piece(pieces, taken, reading, "spirit_there", shared[0])
            if len(shared) > 1:
                take_piece(pieces, taken, reading, "stock_strength", shared[1])
        elif all(tokens[i] == "<#>" for row in rows for i in row.figures):
            unit = 1000.0
    for row in rows:
        figures = tuple(f for f in _told(kind, row, pieces, tokens, unit) if f)
        if not figures:
            continue
        taken.update(i for i in row.figures if any(f[2] <= pieces[i].start < f[3] for f in figures))
        start = pieces[row.at].start
        reading.ingredients.append(Ingredient(row.name, figures, start, max([start, *(f[3] for f in figures)])))
    _globals(kind, pieces, tokens, taken, reading)


def _spirit(pieces: list[Piece], tokens: list[str]) -> tuple[int, ...]:
    """The places of the spirit that is shared out and of its strength: "8 L of 95"."""
    for i, token in enumerate(tokens):
        if token != "<mL>":
            continue
        at = i + 1
        while at < len(tokens) and tokens[at] in OF:
            at += 1
        item = pieces[at].item if at < len(tokens) else None
        if at > i + 1 and item is not None and tokens[at] in ("<%>", "<#>", "<n>") and LEAST_STOCK <= (item.value or 0) <= 100:
            return i, at
    return ()


def _of_all(tokens: list[str]) -> set[int]:
    """Places of figures that belong to no row: a ratio's, a basket's, bottles' sizes, shares and strengths behind "at", water."""
    found = set()
    for i, token in enumerate(tokens):
        if token not in FIGURES:
            continue
        behind = tokens[i + 1 : i + 3]
        ahead = tokens[max(0, i - 3) : i]
        if (
            (token == "<mL>" and (set(behind[:1]) & BOTTLES or "basket" in clause_of(behind) or "basket" in clause_of(ahead[::-1])))
            or token == "<%>"
            or (token in ("<#>", "<n>") and {"from", "to"} & set(ahead[-1:]) and "spirit" in tokens)
            or (token in ("<#>", "<n>") and set(behind[:1]) & {"jars", "jar"})
        ):
            found.add(i)
    return found


def _names(tokens: list[str], known: Collection[str], pieces: list[Piece]) -> list[tuple[int, str]]:
    """Where batches are named: plants, and words nobody knows that stand before a figure or before "wants"."""
    found = []
    for i, token in enumerate(tokens):
        if token == "@":
            found.append((i, pieces[i].name))
        elif (
            token.isalpha()
            and len(token) > 2
            and token not in COMMON
            and token not in known
            and i + 1 < len(tokens)
            and (tokens[i + 1] in FIGURES or tokens[i + 1] in WANTS | PRICE)
        ):
            found.append((i, token))
    return found


def _rows(pieces: list[Piece], tokens: list[str], aside: set[int], known: Collection[str]) -> list[Row]:
    """Each batch named, with the figures that are its own: those of which it stands right behind, else those that follow it."""
    names = dict(_names(tokens, known, pieces))
    if not names:
        return []
    found: dict[str, list[int]] = {}
    first: dict[str, int] = {}
    for at, name in names.items():
        first.setdefault(name, at)
    for i in (i for i, t in enumerate(tokens) if t in FIGURES and i not in aside):
        before = max((at for at in names if at < i), default=NOWHERE)
        behind = i + 1
        while behind < len(tokens) and tokens[behind] in LINKS and behind - i < MOST_LINKS:
            behind += 1
        leads = behind in names and before != i - 1
        at = behind if leads else before
        if at >= 0:
            found.setdefault(names[at], []).append(i)
    starts = {name: min(first[name], *figures) for name, figures in found.items()}
    rows = []
    for name, figures in found.items():
        stop = min((s for s in starts.values() if s > starts[name]), default=len(tokens))
        rows.append(Row(name, first[name], tuple(figures), frozenset(tokens[starts[name] : stop])))
    return rows


def _kind(tokens: list[str], rows: Sequence[Row], shared: tuple[int, ...], reading: Reading, context: frozenset[str]) -> str:
    words = set(tokens)
    here = next((k for k in KINDS if k in context), "")
    if "year" in reading.frames and len(rows) >= 2 and all(any(tokens[i] == "<mL>" for i in r.figures) for r in rows):
        return "year"
    planned = {"<g>", "<:>"} <= words  # "sage 400 g 1:5 at 60": what each wants follows from its plan, it is not told
    told_of_each = all(tokens[i] in ("<#>", "<n>", "<mL>", "<g>") for r in rows for i in r.figures)
    if len(rows) >= 2 and words & (WANTS | SHARED) and shared and not planned and told_of_each:
        return "sharing"
    if len(rows) >= 2 and "basket" in words and any(tokens[i] == "<mL>" for r in rows for i in r.figures):
        return "press_day"
    if rows and _promises(tokens) and "<g>" not in words and any(tokens[i] in ("<mL>", "<#>", "<n>") for r in rows for i in r.figures):
        return "orders"
    if len(rows) >= 2 and "spirit" in words and words & (PRICE | COST | {"margin", "lines"}):
        return "lines"
    if here == "lines" and "spirit" in words and not rows:
        return "lines"
    cues = {"sharing": WANTS, "press_day": PRESSING, "orders": PROMISED | THERE, "lines": PRICE | COST | {"spirit"}}
    if here == "press_day" and rows and "<g>" in words:
        return here  # "the nettle was 400 g": what went into its jar
    return here if here and rows and words & cues[here] else ""


def _promises(tokens: list[str]) -> bool:
    """Whether something is promised: "in that order" tells a sequence."""
    return any(t in PROMISED and not (t == "order" and set(tokens[max(0, i - 3) : i]) & {"in", "that", "this"}) for i, t in enumerate(tokens))


Figure = tuple[str, float, int, int]


def _told(kind: str, row: Row, pieces: list[Piece], tokens: list[str], unit: float) -> list[Figure | None]:
    if kind == "sharing":
        return [_as("jar_herb", pieces[i]) if tokens[i] == "<g>" else _as("spirit_for", pieces[i], unit if tokens[i] != "<mL>" else 1.0) for i in row.figures]
    if kind == "press_day":
        told = [_as("jar_out" if tokens[i] == "<mL>" else "jar_herb", pieces[i]) for i in row.figures if tokens[i] in ("<mL>", "<g>")]
        return [*told, *((name, value, pieces[row.at].start, pieces[row.at].start) for word, (name, value) in STATE_OF.items() if word in row.words)]
    if kind == "year":
        need = "used_last_year" if "last" in tokens else "needed_for_year"
        return [_as("still_left" if _is_left(tokens, i) else need, pieces[i]) for i in row.figures if tokens[i] == "<mL>"]
    if kind == "orders":
        return _ordered(row, pieces, tokens)
    return _priced(row, pieces, tokens)


def _is_left(tokens: list[str], at: int) -> bool:
    """Whether a volume is what is still there: "600 mL nettle left", "left: 600 mL of nettle"."""
    for token in tokens[at + 1 : at + 6]:
        if token in LEFT:
            return True
        if token in FIGURES or token in (";", "."):
            break
    return bool(set(tokens[max(0, at - 3) : at]) & LEFT) and not set(tokens[max(0, at - 3) : at]) & FIGURES


def _ordered(row: Row, pieces: list[Piece], tokens: list[str]) -> list[Figure | None]:
    """What is promised and what there is; "twelve 50 mL" and "12 bottles of 50 mL" are so many times the bottle."""
    told: list[Figure | None] = []
    places = list(row.figures)
    role = "promised"
    while places:
        at = places.pop(0)
        before = tokens[max(0, at - 6) : at]
        cue = next((w for w in reversed(before) if w in PROMISED or w in THERE), "")
        role = "promised" if cue in PROMISED else "lot_has" if cue in THERE else ("lot_has" if told else "promised")
        value = _value(pieces[at])
        if tokens[at] != "<mL>" and places and tokens[places[0]] == "<mL>" and places[0] - at <= 3:
            size = places.pop(0)
            told.append((role, value * _value(pieces[size]), pieces[at].start, pieces[size].end))
        elif tokens[at] == "<mL>" or (role == "lot_has" and value >= LEAST_IN_A_LOT):
            told.append(_as(role, pieces[at]))
        else:
            told.append(None)
    return told


def _value(piece: Piece) -> float:
    return piece.item.value or 0.0 if piece.item is not None else 0.0


def _priced(row: Row, pieces: list[Piece], tokens: list[str]) -> list[Figure | None]:
    told: list[Figure | None] = []
    given: set[str] = set()
    for at in row.figures:
        before, behind = tokens[max(0, at - 4) : at], tokens[at + 1 : at + 4]
        if tokens[at] == "<mL>":
            name = "line_spirit"
        elif tokens[at] in MONEY:
            cue = next((w for w in reversed(before) if w in PRICE or w in COST), "") or next((w for w in behind if w in PRICE or w in COST), "")
            name = "line_cost" if cue in COST else "line_price" if cue in PRICE or "line_price" not in given else "line_cost"
        else:
            continue
        if name in given:
            continue
        given.add(name)
        told.append(_as(name, pieces[at]))
    return told


def _globals(kind: str, pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading) -> None:
    """What the sentence says of all the rows: the old and the new price of spirit, the least margin."""
    for i, token in enumerate(tokens):
        if i in taken:
            continue
        before = tokens[max(0, i - 4) : i]
        if kind == "lines" and token in MONEY and set(before[-1:]) == {"from"}:
            take_piece(pieces, taken, reading, "spirit_was", i)
        elif kind == "lines" and token in MONEY and set(before[-1:]) == {"to"}:
            take_piece(pieces, taken, reading, "spirit_now", i)
        elif kind == "lines" and token == "<%>" and set(before) & UNDER:
            take_piece(pieces, taken, reading, "least_margin", i)


def _said_in(piece: Piece) -> float:
    """Bench units in one of what a figure was said in: 1000 for litres."""
    item = piece.item
    return item.value / item.said if item is not None and item.value and item.said else 1.0


def _as(quantity: str, piece: Piece, unit: float = 1.0) -> Figure | None:
    item = piece.item
    return None if item is None or item.value is None else (quantity, item.value * unit, piece.start, piece.end)


__all__ = ["KINDS", "read_rows"]
