"""A sentence read: words → islands → phrases → statements.

The row of tokens is searched for every phrase of grammar/phrases/. The most telling phrases claim their figures first; a figure is
claimed once. What no phrase claims is handed on as loose, so that no number is ever passed over.
"""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Sequence

from assistant.dataclass import replace
from assistant.listening.acts_meant import HOLDS_ITS_FIGURES, acts_meant
from assistant.listening.bare_units import with_units_that_go_without_saying
from assistant.listening.by_the_cup import with_plants_by_the_cup
from assistant.listening.claimed import read_claimed_split, with_bare_shares
from assistant.listening.common import COMMON
from assistant.listening.fortified import read_fortified
from assistant.listening.gathering import asks_to_gather, sort_picked
from assistant.listening.how_near import read_glass_again, read_glass_question, read_plus_or_minus, read_slack_alone, read_within
from assistant.listening.instruments import read_instruments
from assistant.listening.islands import Item
from assistant.listening.liquids import read_liquids
from assistant.listening.lists import read_list
from assistant.listening.measured_on import put_where, read_tools_gone, read_weighings, read_where
from assistant.listening.packaging import read_packaging
from assistant.listening.phrases import Match, PhraseBook, phrase_book
from assistant.listening.pieces import NameFinder, Piece, pieces_of
from assistant.listening.racks import read_racks
from assistant.listening.references import set_references_aside
from assistant.listening.regimen import read_regimen
from assistant.listening.rows import read_rows
from assistant.listening.settling import from_a_spirit, imply, only_pours, place_bare_strengths, pool_pressings, pour_bare_numbers, poured_at, read_densities
from assistant.listening.shorthand import in_full
from assistant.listening.sides import sizes_of
from assistant.listening.slackening import GONE, share_of
from assistant.listening.spirits import read_spirits
from assistant.listening.stands import read_stand, sort_asked
from assistant.listening.statements import Act, Asked, Loose, Named, Reading, Reference, Said
from assistant.listening.telegraphic import read_telegraphic
from assistant.listening.to_the_measure import with_wax_to_the_measure
from assistant.listening.values import value_for
from assistant.listening.weighing import read_weights
from assistant.listening.year_cues import ADDS_UP, COUNTED_OUT, WITHOUT_STANDS, hear_work, tells_growth

NEGATIVE = re.compile(r"^(?:not|no|without|don't|dont|never|isn't|except)$")
OPEN_FRAMES = {"maybe_dilution", "maybe_mix", "maybe_formula"}


def read_statements(
    heard: str, items: Sequence[Item], notes: Sequence[str], find_names: NameFinder, context: frozenset[str], book: PhraseBook | None = None
) -> Reading:
    """Everything a sentence says. `context` are the frames of the batch in hand, which some phrases need.

    Never fails on any text; what is not understood stands in `loose` and `unread`.
    """
    book = book or phrase_book()
    pieces, words_after_all = in_full(pieces_of(items, find_names))
    pieces = with_bare_shares(pieces)
    reading = Reading(heard)
    reading.notes.extend(notes)
    reading.references += [Reference("reference", p.start, p.end) for p in pieces if p.item is not None and p.item.word == GONE]
    pieces = _name_unknown_plants([p for p in pieces if p.item is None or p.item.word != GONE], book)
    pieces = with_wax_to_the_measure(pieces)
    pieces = with_plants_by_the_cup(with_units_that_go_without_saying(pour_bare_numbers(pieces)))
    reading.slacks = {p.start: slack for p in pieces if p.item is not None and (slack := share_of(p.item)) is not None}
    tokens = [p.code for p in pieces]
    taken: set[int] = set()
    reading.references += [Reference("reference", p.start, p.end) for p in words_after_all]
    set_references_aside(pieces, reading, taken)
    frames = book.find(tokens, context, acts=("tag",))
    for match in frames:
        _take_tags(match, reading)
    if "towel" in tokens:
        reading.frames.discard("tea")  # "wrung in a tea towel"
    if "<x>" in tokens or "<aday>" in tokens:
        reading.frames.add("dose")
    hear_work(tokens, reading)
    if "percolation" in reading.frames | context:
        _hours_of_dripping(pieces, tokens, reading, taken)
    if (reading.frames | context) & COUNTED_OUT:
        reading.frames.discard("dose")
    reading.named = [Named(p.name, p.start, p.end) for p in pieces if p.code == "@"]
    measures = not book.of_instruments.isdisjoint(tokens)
    if measures:
        read_tools_gone(pieces, tokens, taken, reading, book)
        read_glass_question(pieces, tokens, taken, reading, book)
        if reading.glass is None:
            read_instruments(pieces, tokens, taken, reading, book)
        read_where(pieces, tokens, reading, book)
        read_weighings(pieces, tokens, taken, reading, book)
    read_glass_again(pieces, tokens, reading)
    read_within(pieces, tokens, taken, reading)
    read_plus_or_minus(reading)
    read_slack_alone(pieces, tokens, taken, reading)
    read_claimed_split(pieces, tokens, taken, reading)
    read_rows(pieces, tokens, taken, reading, context | reading.frames, book.words)
    if not reading.frames & WITHOUT_STANDS:
        read_stand(pieces, tokens, taken, reading, context)
    tells_rows = bool(reading.ingredients) or "ledger" in reading.frames | context
    read_racks(pieces, tokens, taken, reading, context)
    if not tells_rows and "salve" not in reading.frames and not read_fortified(pieces, tokens, taken, reading):
        read_spirits(pieces, tokens, taken, reading, context)
    if only_pours(tokens) and not tells_rows:
        read_liquids(pieces, tokens, taken, reading, context | reading.frames)
    if not reading.liquids:
        reading.regimen = read_regimen(pieces, tokens, taken, reading, context)
    read_densities(pieces, tokens, taken, reading)
    reading.sizes = () if tells_rows or "press_day" in context else sizes_of(pieces, tokens, taken)
    if not tells_rows:
        read_list(pieces, tokens, taken, reading, context | reading.frames)
    pool_pressings(pieces, tokens, taken, reading)
    read_packaging(pieces, tokens, taken, reading)
    if not (reading.frames | context) & {"drying", "racks"}:
        read_weights(pieces, tokens, taken, reading)
    if not tells_rows:
        read_liquids(pieces, tokens, taken, reading, context | reading.frames)
    surroundings = context | reading.frames
    matches = book.find(tokens, surroundings, acts=("do", "say", "ask", "free"))
    acts = acts_meant(matches)
    if "year" in surroundings:
        acts = [m for m in acts if not (m.phrase.gives[0].startswith("scale") and tells_growth(m, matches))]
    _take_acts(acts, pieces, reading, taken)
    if reading.has("scale_dose"):
        reading.acts = [a for a in reading.acts if a.name not in ("scale", "scale_n")]  # "half that dose" makes no smaller batch
    if WHAT_THEN.search(heard):
        reading.acts = [a for a in reading.acts if a.name != "check"]  # "what then?" asks, it does not claim
    starts = [p.start for p in pieces]
    covered = {i for g in reading.ingredients for i in range(bisect_left(starts, g.start), bisect_left(starts, g.end))}
    _take_said([m for m in matches if m.phrase.act == "say" or (m.phrase.act == "ask" and any(q != "_" for q, _ in m.taken))], pieces, reading, taken, covered)
    poured_at(reading)
    _sort_strengths(reading)
    from_a_spirit(pieces, tokens, reading)
    place_bare_strengths(pieces, tokens, taken, reading)
    _set_claims_aside(reading)
    reading.freed = {m.phrase.quantity for m in matches if m.phrase.act == "free"}
    _take_asked([m for m in matches if m.phrase.act == "ask"], pieces, reading, covered)
    read_telegraphic(pieces, reading, book.units, covered | {i for m in acts for i in range(m.first, m.last)} | _places_asked(pieces, reading))
    imply(pieces, tokens, taken, reading)
    sort_asked(tokens, reading)
    if "stand" in reading.frames and reading.settled:
        pass  # how many plants, which share: asked and heard
    elif asks_to_gather(tokens, reading):
        reading.asked = [a for a in reading.asked if a.quantity not in OF_WEIGHT]
        reading.asked.insert(0, Asked("to_gather", 0, 0))
    else:
        sort_picked(tokens, reading)
    _keep_loose(pieces, reading, taken)
    for n, said in enumerate(reading.said):  # figures placed by their place or their mates bring their ± too
        if said.plus_minus is None and said.low is None and said.start in reading.slacks:
            reading.said[n] = replace(said, plus_minus=reading.slacks[said.start] * abs(said.value))
    if reading.read_on:
        put_where(reading)
    reading.questioning = any(p.code == "?" for p in pieces) or bool(reading.asked)
    known = book.words | COMMON
    reading.unread = [p.text for p in pieces if p.code.isalpha() and p.code not in known]
    reading.understood = len(reading.said) + len(reading.asked) + len(reading.acts) + len(reading.ingredients) + len(reading.liquids) + len(reading.named)
    return reading


def _places_asked(pieces: list[Piece], reading: Reading) -> set[int]:
    return {i for i, p in enumerate(pieces) if any(a.start <= p.start < a.end for a in reading.asked)}


def _name_unknown_plants(pieces: list[Piece], book: PhraseBook) -> list[Piece]:
    """A word nobody knows, standing where a plant stands ("112 g fresh spikeroot", "spikeroot tincture"), is taken as a plant's name."""

    def unknown(p: Piece) -> bool:
        return p.code.isalpha() and len(p.code) > 2 and p.code not in COMMON and p.code not in book.words

    state = book.classes["FRESH"] | book.classes["DRIED"]
    result = list(pieces)
    for i, piece in enumerate(pieces):
        if piece.code == "balm" and i and pieces[i - 1].code in state:
            result[i] = Piece("@", piece.start, piece.end, piece.text, piece.item, piece.code)
        if not unknown(piece):
            continue
        before = [p.code for p in pieces[max(0, i - 3) : i]]
        after = [p.code for p in pieces[i + 1 : i + 3]]
        named = bool(
            before and (before[-1] in state or before[-1] in ("<g>", "<oz>") or (len(before) > 1 and before[-1] == "of" and before[-2] in ("<g>", "<oz>")))
        )
        named = named or bool(after and (after[0] in ("tincture", "oil", "tea", "syrup", "root", "leaf", "leaves", "flowers", "glycerite", "vinegar")))
        named = named or bool(after and after[0] in state)
        named = named or bool(len(before) > 2 and before[-1] in ("the", "of") and before[-2] in state)
        if named:
            result[i] = Piece("@", piece.start, piece.end, piece.text, piece.item, piece.code)
    return result


DRIPS_FOR = frozenset("takes take took over in within runs run drips drip through".split())


def _hours_of_dripping(pieces: list[Piece], tokens: list[str], reading: Reading, taken: set[int]) -> None:
    """ "So the litre takes 24 hours", "a drop a second": at a percolator the hours are a figure of the work, and so is how fast it drips."""
    for i, piece in enumerate(pieces):
        if piece.code == "<drop>" and tokens[i + 2 : i + 3] in (["second"], ["sec"]) and piece.item is not None and piece.item.value:
            taken.add(i)
            reading.said.append(Said("drip_drops", piece.item.value * 60, piece.start, piece.end))
        if piece.code == "<time>" and i and tokens[i - 1] in DRIPS_FOR and piece.item is not None and piece.item.said_unit.startswith("h"):
            taken.discard(i)
            reading.references = [r for r in reading.references if r.start != piece.start]


def _take_tags(match: Match, reading: Reading) -> None:
    target = reading.frames if match.phrase.quantity == "frame" else reading.tags
    target.update(match.phrase.gives)


WHAT_THEN = re.compile(r"\bwhat then\s*\?|^\W*(?:(?:and|so|but|if|or)\s+)*(?:only|just)\b[^.;?]*\b(?:day|daily|once|twice|times)\b[^.;?]*\bthen\s*\?", re.I)


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


def _take_acts(matches: list[Match], pieces: list[Piece], reading: Reading, taken: set[int]) -> None:
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


def _around(pieces: list[Piece], index: int) -> frozenset[str]:
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


def _take_said(matches: list[Match], pieces: list[Piece], reading: Reading, taken: set[int], covered: set[int]) -> None:
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
                words=_around(pieces, index),
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


def _sort_strengths(reading: Reading) -> None:
    """Two strengths in one breath and nothing that tells them apart: the higher is the stock's, the lower is what it is brought to.

    The volume said with the stock's strength is spirit on the shelf: what there is to use where a plant sets the need, else what is used up.
    """
    strengths = [s for s in reading.said if s.quantity == "strength"]
    if len(strengths) == 2 and not any(s.quantity == "stock_strength" for s in reading.said) and not reading.has("compare"):
        stock = max(strengths, key=lambda s: s.value)
        reading.said[reading.said.index(stock)] = replace(stock, quantity="stock_strength")
        for i, s in enumerate(reading.said):
            if s.quantity == "menstruum" and s.phrase == stock.phrase:
                planted = any(o.quantity in ("herb", "planned_herb", "ratio") for o in reading.said)
                reading.said[i] = replace(s, quantity="spirit_in_hand" if planted else "stock")


def _set_claims_aside(reading: Reading) -> None:
    """A figure somebody reckons, got or claims is compared with what comes out, never put in the batch."""
    spans = [(a.start, a.end) for a in reading.acts if a.name == "claim" and not _tells_the_recipe(a, reading)]
    if not spans or not ("?" in reading.heard or reading.has("check") or "really" in reading.heard.lower()):
        return
    measured = [s for s in reading.said if s.quantity in MEASURED]
    reading.acts = [a for a in reading.acts if a.name != "claim" or not any(a.start <= s.start and s.end <= a.end for s in measured)]
    claims = [s for s in reading.said if s.quantity not in MEASURED and any(a <= s.start and s.end <= b for a, b in spans)]
    if len(claims) < len(reading.said) and not reading.has("check"):
        reading.claims = claims
        reading.said = [s for s in reading.said if s not in claims]


def _tells_the_recipe(act: Act, reading: Reading) -> bool:
    """ "I thought 60 mL elderberry, 35 mL plantain …": a recipe that was planned, not a figure to be checked."""
    return len(reading.ingredients) >= 2 and any(act.start <= b and a < act.end for i in reading.ingredients for _, _, a, b in i.figures if b > a)


MEASURED = frozenset({"hydrometer", "celsius", "gross", "tare", "stock_strength"})
NOT_OF_A_MIX = frozenset({"ratio", "herb_per_ml", "bottles", "pressed", "contents", "herb", "dried", "jars"})
TOLD_ONCE = frozenset({"finished_strength", "pressed", "ratio", "water_content", "drying_ratio"})
COUNTS = frozenset({"bottles", "jars", "tins", "cups", "bags"})
OF_WEIGHT = frozenset(
    """herb dried to_gather dry_matter water water_lost ratio
    herb_left held_back pressed in_jar finished_strength drying_ratio menstruum margin""".split()
)


def _take_asked(matches: list[Match], pieces: list[Piece], reading: Reading, said: set[int]) -> None:
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


def _keep_loose(pieces: list[Piece], reading: Reading, taken: set[int]) -> None:
    for i, piece in enumerate(pieces):
        if not piece.is_island or i in taken or piece.item is None or piece.item.value is None:
            continue
        if piece.code == "<aday>":
            continue  # "how much a day": the question bears it, it is no figure
        item, value = piece.item, piece.item.value
        reading.loose.append(
            Loose(piece.code[1:-1], value, item.unit, piece.start, piece.end, piece.text, _around(pieces, i), item.low, item.high, item.said_unit, item.said)
        )
