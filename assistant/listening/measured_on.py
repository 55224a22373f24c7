"""Where a figure was read off: "112 g on the spring scale"; and a plant weighed twice, "112 g in the field, 104 g at home"."""

from __future__ import annotations

import re

from assistant.dataclass import replace
from assistant.listening.instruments import nouns
from assistant.listening.phrases import PhraseBook
from assistant.listening.pieces import Piece
from assistant.listening.statements import Reading, ReadOn, Reference, Said, Weighing
from assistant.listening.token_row import TokenRow
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import VOCABULARY

ON = frozenset("on with by in using off from".split())
CUTS = frozenset(", . ; ? ! : but and then".split())
WEIGHTS = ("<g>", "<oz>", "<#>")
SAYS = frozenset(
    """scale scales balance steelyard weighed weighs weigh weighing reads read said says showed shows made got came comes is was now only
    disagree disagrees differ differs against""".split()
)
GONE = looked_for(
    r"(?:forget|sold|broke|broken|lost|gave away|threw out|threw away|drop|scrap|remove|bin|(?:don't|dont|do not|no longer) have) (?:about )?"
    r"(?:the |my |that |our )?$"
)
#: kinds of figure an instrument reads
READS = {"scale": "g", "glass": "mL", "hydrometer": "percent"}
FIELD_SCALES = frozenset("spring hanging luggage fishing field steelyard pocket".split())


def read_tools_gone(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading, book: PhraseBook) -> None:
    """Instruments a person no longer has: "sold the spring scale", "forget the 50 ml cylinder"."""
    row = TokenRow(pieces, tokens)
    for _, name, first, _ in nouns(tokens, book):
        size = first - 1 if first and tokens[first - 1] == "<mL>" else None
        before = " ".join(tokens[: first if size is None else size]) + " "
        if not GONE.search(before):
            continue
        if size is not None and size not in taken:
            taken.add(size)
            reading.references.append(_reference(pieces, size))
            name = f"{row.value(size):g} mL {name}"
        reading.tools_gone.append(name)


def read_where(pieces: list[Piece], tokens: list[str], reading: Reading, book: PhraseBook) -> None:
    """Every instrument a figure may have been read on; those that are described are not."""
    row = TokenRow(pieces, tokens)
    described = [(t.start, t.end) for t in reading.tools]
    for kind, name, first, last in nouns(tokens, book):
        if kind == "dropper":
            continue
        before = tokens[max(0, first - 4) : first]
        if not (set(before) & ON or set(tokens[last : last + 3]) & SAYS or (first and tokens[first - 1] in WEIGHTS)):
            continue
        while first and tokens[first - 1] == "<mL>" and kind == "glass":
            first -= 1
        start, end = row.span(first, last)
        if any(a < end and start < b for a, b in described):
            continue
        reading.read_on.append(ReadOn(name, start, end))


def put_where(reading: Reading) -> None:
    """Each figure that was said gets the instrument of its clause."""
    for where in reading.read_on:
        unit = READS.get(_kind(where.name), "")
        near = [s for s in reading.said if _unit_of(s) == unit and not s.tool]
        before = [s for s in near if s.end <= where.start and not _cut_between(reading.heard, s.end, where.start)]
        behind = [s for s in near if s.start >= where.end and not _cut_between(reading.heard, where.end, s.start)]
        chosen = max(before, key=lambda s: s.end, default=None) or min(behind, key=lambda s: s.start, default=None)
        if chosen is not None:
            reading.said[reading.said.index(chosen)] = replace(chosen, tool=where.name)


def read_weighings(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading, book: PhraseBook) -> None:
    """A plant weighed in the field and again at home; both weights are claimed. Does nothing where there are not just two, one of each place."""
    if {"<:>", "<mL>"} & set(tokens):
        return
    row = TokenRow(pieces, tokens)
    weights = [n for n, token in enumerate(tokens) if token in WEIGHTS and n not in taken and (row.value(n) or 0) > 0]
    if len(weights) == 1 and set(tokens) & SAYS and "@" not in tokens:
        place, tool = _place(tokens, list(range(len(tokens))), book)
        if place == "home":
            n = weights[0]
            reading.weighed_again = Weighing(row.value(n) or 0.0, place, tool, pieces[n].start, pieces[n].end)
    if len(weights) != 2 or not set(tokens) & (SAYS | {"on"}):
        return
    scales = [at for kind, _, at, _ in nouns(tokens, book) if kind == "scale"]
    if all(tokens[n] == "<#>" for n in weights) and "weighed" not in tokens and not scales:
        return
    described = {n for n in range(len(tokens)) if any(t.start <= pieces[n].start < t.end for t in reading.tools)}
    in_order = len(scales) == 2 and max(scales) < weights[0]  # "kitchen scale and spring scale disagree: 104 g and 112 g"
    bounds = [(0, max(scales)), (max(scales), weights[0])] if in_order else _bound(tokens, weights)
    places = [_place(tokens, [n for n in range(low, high) if n not in described], book) for low, high in bounds]
    if {p for p, _ in places} != {"field", "home"}:
        return
    found = []
    for n, (place, tool) in zip(weights, places, strict=True):
        taken.add(n)
        found.append(Weighing(row.value(n) or 0.0, place, tool, pieces[n].start, pieces[n].end))
    reading.weighings = tuple(sorted(found, key=lambda w: w.place))


def _bound(tokens: list[str], weights: list[int]) -> list[tuple[int, int]]:
    """The words that go with each of two figures: up to the mark or the "and" between them."""
    first, second = weights
    cut = next((n for n in range(first + 1, second) if tokens[n] in CUTS), None)
    if cut is None:
        cut = next((n for n in range(first + 1, second) if tokens[n] in ("while", "against", "versus", "vs", "when", "yet")), (first + second) // 2 + 1)
    return [(0, cut), (cut, len(tokens))]


def _place(tokens: list[str], within: list[int], book: PhraseBook) -> tuple[str, str]:
    """Field or home, and the instrument named there; "" for a place that was not said."""
    words = [tokens[n] for n in within]
    named = [name for kind, name, a, _ in nouns(tokens, book) if kind == "scale" and a in within]
    tool = named[0] if named else ""
    if set(words) & book.classes["FIELDPLACE"] and not set(words) & {"kitchen", "home"}:
        return "field", tool
    return ("home" if set(words) & book.classes["HOMEPLACE"] else ""), tool


def is_of_the_field(name: str) -> bool:
    """Whether an instrument is one that is carried out: a spring scale, a steelyard."""
    return bool(set(name.split()) & FIELD_SCALES)


def _kind(name: str) -> str:
    last = name.split()[-1]
    if last in ("scale", "balance", "steelyard", "weigher"):
        return "scale"
    return "hydrometer" if last in ("hydrometer", "alcoholmeter", "alcoholometer", "vinometer") else "glass"


def _unit_of(said: Said) -> str:
    return VOCABULARY[said.quantity].unit


def _cut_between(heard: str, start: int, end: int) -> bool:
    return bool(re.search(r"[.;?!]\s", heard[start:end]))


def _reference(pieces: list[Piece], n: int) -> Reference:
    item = pieces[n].item
    return Reference("reference", pieces[n].start, pieces[n].end, None if item is None else item.value)
