"""What the phrases that matched give to a reading: kinds of work and tags, acts, figures, questions.

A figure is taken by the first phrase that claims it; a question inside what another phrase told is none.
"""

from __future__ import annotations

from assistant.listening.acts_meant import HOLDS_ITS_FIGURES
from assistant.listening.common import COMMON
from assistant.listening.phrases import Match
from assistant.listening.pieces import Piece
from assistant.listening.statements import Act, Asked, Reading, Reference, Said
from assistant.listening.values import value_for
from assistant.listening.year_cues import ADDS_UP


def take_tags(match: Match, reading: Reading) -> None:
    """A kind of work, or what is established of the batch."""
    target = reading.frames if match.phrase.quantity == "frame" else reading.tags
    target.update(match.phrase.gives)


def _set_per_words_aside(matches: list[Match], pieces: list[Piece], reading: Reading, taken: set[int]) -> None:
    """ "How much a gram does it hold": the gram of a question is no weight."""
    for match in matches:
        if match.phrase.act != "ask":
            continue
        for quantity, index in match.taken:
            piece = pieces[index]
            if quantity == "_" and index not in taken and piece.item is not None and piece.item.value == 1 and not piece.text[:1].isdigit():
                taken.add(index)
                reading.references.append(Reference("reference", piece.start, piece.end))


def _value_at(pieces: list[Piece], at: int) -> float | None:
    item = pieces[at].item
    return None if item is None else item.value


def take_acts(matches: list[Match], pieces: list[Piece], reading: Reading, taken: set[int]) -> None:
    """What is to be done, with the figures an act holds; these are no facts then."""
    covered: set[int] = set()
    _set_per_words_aside(matches, pieces, reading, taken)
    for match in matches:
        span = set(range(match.first, match.last))
        if span <= covered and match.phrase.gives[0] in {a.name for a in reading.acts}:
            continue
        covered |= span
        figures = tuple(p.item.value for p in pieces[match.first : match.last] if p.item is not None and p.is_island and p.item.value is not None)
        name, *arguments = match.phrase.gives
        if name in HOLDS_ITS_FIGURES:
            islands = [i for i in range(match.first, match.last) if pieces[i].is_island]
            if any(i in taken for i in islands) or (name.startswith("scale") and not islands and not arguments):
                continue
            taken.update(islands)
            for i in islands:
                reading.references.append(Reference("reference", pieces[i].start, pieces[i].end, _value_at(pieces, i)))
        words = tuple(p.text for p in pieces[match.first : match.last])
        reading.acts.append(Act(name, tuple(arguments) or words, pieces[match.first].start, pieces[match.last - 1].end, figures))

PREPOSITIONS = frozenset("of from at in into to with on over off out as for per by".split())


def around(pieces: list[Piece], index: int) -> frozenset[str]:
    """The words beside a figure, within its clause, by which a later sentence may point at it."""
    words: set[str] = set()
    for step in (-1, 1):
        for distance in range(1, 5):
            at = index + step * distance
            if not 0 <= at < len(pieces) or pieces[at].is_stop:
                break
            piece = pieces[at]
            if piece.code == "@":
                words.add(piece.name)
            elif piece.code.isalpha() and piece.code not in COMMON:
                words.add(piece.code.rstrip("s"))
    if index and pieces[index - 1].code in PREPOSITIONS:
        words.add("~" + pieces[index - 1].code)  # "of 40 % from 95": by their prepositions a later "of 50" and "from 90" find them
    return frozenset(words)


def take_said(matches: list[Match], pieces: list[Piece], reading: Reading, taken: set[int], covered: set[int]) -> None:
    """Figures given to quantities. A second, other figure for one waits until every phrase has had its first."""
    given: dict[str, float] = {s.quantity: s.value for s in reading.said}
    postponed: list[tuple[Match, list[tuple[str, int, float]]]] = []
    explained: list[Match] = []
    leaned: set[int] = set()  # "a kilo", "a cup" that an accepted phrase leans on: what only a unit speaks for does not take them away
    for match in matches:
        claims = [(q, i) for q, i in match.taken if q != "_"]
        if not claims or any(i in taken for _, i in claims) or (match.phrase.weight < 0.5 and any(i in leaned for _, i in claims)):
            continue
        values = []
        for name, index in claims:
            value = value_for(name, pieces[index].item, reading.notes)
            if value is None:
                break
            values.append((name, index, value))
        else:
            if any(name in given and name not in ADDS_UP and abs(given[name] - value) > 1e-9 for name, _, value in values):
                postponed.append((match, values))
                continue
            _accept(match, values, pieces, reading, taken, given)
            explained.append(match)
            leaned.update(i for q, i in match.taken if q == "_" and (item := pieces[i].item) is not None and item.said in (None, 1))
            if match.phrase.act == "say":
                covered.update(range(match.first, match.last))
    for match, values in postponed:
        if any(i in taken for _, i, _ in values) or match.phrase.weight < 0:
            continue
        _accept(match, values, pieces, reading, taken, given)
        covered.update(range(match.first, match.last))
    for match in explained:
        _take_explained(match, pieces, reading, taken)


def _accept(match: Match, values: list[tuple[str, int, float]], pieces: list[Piece], reading: Reading, taken: set[int], given: dict[str, float]) -> None:
    for name, index, value in values:
        item = pieces[index].item
        assert item is not None
        taken.add(index)
        given.setdefault(name, value)
        scale = value / item.value if item.value else 1.0
        reading.said.append(
            Said(
                name,
                value,
                pieces[index].start,
                pieces[index].end,
                said_unit=item.said_unit,
                low=None if item.low is None else item.low * scale,
                high=None if item.high is None else item.high * scale,
                plus_minus=None if item.plus_minus is None else item.plus_minus * scale,
                weak=match.phrase.weight < 0.5,
                words=around(pieces, index),
                slack=item.slack * scale,
                phrase=match.first,
            )
        )


def _take_explained(match: Match, pieces: list[Piece], reading: Reading, taken: set[int]) -> None:
    """Figures that a phrase only leans on ("one teaspoon weighs 1.4 g": the teaspoon) are used with it."""
    for name, i in match.taken:
        if name == "_" and i not in taken:
            taken.add(i)
            reading.references.append(Reference("reference", pieces[i].start, pieces[i].end, _value_at(pieces, i)))

MEASURED = frozenset({"hydrometer", "celsius", "gross", "tare", "stock_strength"})

NOT_OF_A_MIX = frozenset({"ratio", "herb_per_ml", "bottles", "pressed", "contents", "herb", "dried", "jars"})

TOLD_ONCE = frozenset({"finished_strength", "pressed", "ratio", "water_content", "drying_ratio"})

COUNTS = frozenset({"bottles", "jars", "tins", "cups", "bags"})

OF_WEIGHT = frozenset(
    """herb dried to_gather dry_matter water water_lost ratio
    herb_left held_back pressed in_jar finished_strength drying_ratio menstruum margin""".split()
)


def take_asked(matches: list[Match], pieces: list[Piece], reading: Reading, said: set[int]) -> None:
    """Questions, without those that lie inside what another phrase told."""
    covered: list[tuple[int, int]] = []
    for match in matches:
        if any(first <= match.first and match.last <= last for first, last in covered):
            continue
        if match.phrase.quantity == "margin" and any(a.name == "set" for a in reading.acts):
            continue  # "drop the margin"
        if [p.code for p in pieces[match.first : match.first + 2]] == ["what", "if"]:
            continue
        led = [p.code for p in pieces[max(0, match.first - 2) : match.first]]
        if led[-1:] in (["no"], ["without"], ["not"]) or led in (["without", "the"], ["without", "any"]):
            continue  # "and no water" asks for none
        if said.issuperset(range(match.first, match.last)):
            continue  # the words already told a figure: "80 % water" asks for no water
        if match.phrase.quantity in TOLD_ONCE and any(s.quantity == match.phrase.quantity and not s.weak for s in reading.said):
            continue  # "what ratio finishes at 55": the finish is given
        if match.phrase.quantity == "menstruum" and _of_a_figure(pieces, match.first):
            continue  # "it's 240 g of the almond oil": the oil was told, not asked for
        if (
            match.phrase.quantity == "water"
            and match.first
            and pieces[match.last - 1].code == "water"
            and {pieces[match.last - 2].code, pieces[match.first - 1].code} & {"no", "without"}
        ):
            continue  # "no water"
        if match.phrase.quantity == "water" and any(i.name == "water" and any(f[0] == "volume" for f in i.figures) for i in reading.liquids):
            continue
        if reading.liquids and match.phrase.quantity in NOT_OF_A_MIX:
            continue
        covered.append((match.first, match.last))
        for i in (i for name, i in match.taken if name == "_"):  # "how much herb a day": the question bears it
            reading.references.append(Reference("reference", pieces[i].start, pieces[i].end))
        if match.phrase.quantity in COUNTS and match.first > 0 and pieces[match.first - 1].is_island:
            continue  # "two bottles, …": a count that was said
        if reading.settled and match.phrase.quantity in OF_WEIGHT:
            continue
        member = next((p.name for p in pieces[match.first : match.last] if p.code == "@"), "")
        asked = Asked(match.phrase.quantity, pieces[match.first].start, pieces[match.last - 1].end, member)
        if asked.quantity not in {a.quantity for a in reading.asked}:
            reading.asked.append(asked)


def _of_a_figure(pieces: list[Piece], first: int) -> bool:
    """Whether the words from `first` on only name what a figure right before them is of."""
    return any(pieces[i].code == "of" and i and pieces[i - 1].is_island for i in range(max(0, first - 3), first))
