"""A sentence read: words → islands → phrases → statements.

The row of tokens is searched for every phrase of grammar/phrases/. The most telling phrases claim their figures first; a figure is
claimed once. What no phrase claims is handed on as loose, so that no number is ever passed over.
"""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Sequence

from assistant.dataclass import replace
from assistant.listening.acts_meant import acts_meant
from assistant.listening.bags import read_bags
from assistant.listening.bare_units import with_units_that_go_without_saying
from assistant.listening.batches_out import read_batches_out
from assistant.listening.by_the_cup import with_plants_by_the_cup
from assistant.listening.carriers import carriers_asked, read_carriers
from assistant.listening.claimed import read_claimed_split, with_bare_shares
from assistant.listening.common import COMMON
from assistant.listening.droppers import drops_turned
from assistant.listening.dry_rates import asked_of_drying, read_dry_rates
from assistant.listening.each_told import with_each_told_out
from assistant.listening.fortified import read_fortified
from assistant.listening.gathering import asks_to_gather, sort_picked
from assistant.listening.how_near import read_glass_again, read_glass_question, read_plus_or_minus, read_slack_alone, read_within
from assistant.listening.instruments import read_instruments
from assistant.listening.islands import Item
from assistant.listening.liquids import read_liquids
from assistant.listening.lists import read_list
from assistant.listening.matched import MEASURED, OF_WEIGHT, around, take_acts, take_asked, take_said, take_tags
from assistant.listening.measured_on import put_where, read_tools_gone, read_weighings, read_where
from assistant.listening.packaging import read_packaging
from assistant.listening.phrases import PhraseBook, phrase_book
from assistant.listening.pieces import NameFinder, Piece, pieces_of
from assistant.listening.racks import racks_asked, read_racks
from assistant.listening.references import set_references_aside
from assistant.listening.regimen import read_regimen
from assistant.listening.row_unit import with_unit_of_the_row
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
from assistant.listening.trimmings import read_trimmings, trim_asked
from assistant.listening.weighing import read_weights
from assistant.listening.year_cues import COUNTED_OUT, WITHOUT_STANDS, hear_work, tells_growth
from assistant.patterns import looked_for


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
    pieces = with_each_told_out(with_wax_to_the_measure(pieces))
    pieces = with_plants_by_the_cup(with_units_that_go_without_saying(pour_bare_numbers(with_unit_of_the_row(pieces))))
    reading.slacks = {p.start: slack for p in pieces if p.item is not None and (slack := share_of(p.item)) is not None}
    tokens = [p.code for p in pieces]
    taken: set[int] = set()
    reading.references += [Reference("reference", p.start, p.end) for p in words_after_all]
    set_references_aside(pieces, reading, taken)
    frames = book.find(tokens, context, acts=("tag",))
    for match in frames:
        take_tags(match, reading)
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
    read_carriers(pieces, tokens, taken, reading, context)
    read_dry_rates(pieces, tokens, taken, reading)
    read_trimmings(pieces, tokens, taken, reading)
    if not tells_rows:
        read_bags(pieces, tokens, taken, reading)
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
    take_acts(acts, pieces, reading, taken)
    if reading.has("scale_dose"):
        reading.let_go("scale", "scale_n")  # "half that dose" makes no smaller batch
    if WHAT_THEN.search(heard):
        reading.let_go("check")  # "what then?" asks, it does not claim
    starts = [p.start for p in pieces]
    covered = {i for g in reading.ingredients for i in range(bisect_left(starts, g.start), bisect_left(starts, g.end))}
    take_said([m for m in matches if m.phrase.act == "say" or (m.phrase.act == "ask" and any(q != "_" for q, _ in m.taken))], pieces, reading, taken, covered)
    poured_at(reading)
    _sort_strengths(reading)
    from_a_spirit(pieces, tokens, reading)
    place_bare_strengths(pieces, tokens, taken, reading)
    _set_claims_aside(reading)
    reading.freed = {m.phrase.quantity for m in matches if m.phrase.act == "free"}
    take_asked([m for m in matches if m.phrase.act == "ask"], pieces, reading, covered)
    drops_turned(reading)
    read_telegraphic(pieces, reading, book.units, covered | {i for m in acts for i in range(m.first, m.last)} | _places_asked(pieces, reading))
    imply(pieces, tokens, taken, reading)
    asked_of_drying(reading)
    racks_asked(reading)
    trim_asked(reading)
    sort_asked(tokens, reading)
    if "stand" in reading.frames and reading.settled:
        pass  # how many plants, which share: asked and heard
    elif asks_to_gather(tokens, reading):
        reading.asked = [a for a in reading.asked if a.quantity not in OF_WEIGHT]
        reading.asked.insert(0, Asked("to_gather", 0, 0))
    else:
        sort_picked(tokens, reading)
    carriers_asked(reading)
    _keep_loose(pieces, reading, taken)
    read_batches_out(reading, context)
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


WHAT_THEN = looked_for(r"\bwhat then\s*\?|^\W*(?:(?:and|so|but|if|or)\s+)*(?:only|just)\b[^.;?]*\b(?:day|daily|once|twice|times)\b[^.;?]*\bthen\s*\?", re.I)


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


ENOUGH = looked_for(r"\benough\b", re.I)
SUPPOSED = looked_for(r"\b(?:if|when|should|suppose|say)\s+$", re.I)  # "if I make 2 litres": nothing is claimed


def _set_claims_aside(reading: Reading) -> None:
    """A figure somebody reckons, got or claims is compared with what comes out, never put in the batch."""
    if ENOUGH.search(reading.heard):
        reading.let_go("claim")  # "I've got 900 mL of 95 and need 1.2 L of 60, enough?": what there is, not what came out
    reading.acts = [a for a in reading.acts if not (a.name == "claim" and SUPPOSED.search(reading.heard[: a.start]))]
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


def _keep_loose(pieces: list[Piece], reading: Reading, taken: set[int]) -> None:
    for i, piece in enumerate(pieces):
        if not piece.is_island or i in taken or piece.item is None or piece.item.value is None:
            continue
        if piece.code == "<aday>":
            continue  # "how much a day": the question bears it, it is no figure
        item, value = piece.item, piece.item.value
        reading.loose.append(
            Loose(piece.code[1:-1], value, item.unit, piece.start, piece.end, piece.text, around(pieces, i), item.low, item.high, item.said_unit, item.said)
        )
