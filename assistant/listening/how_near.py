"""What a figure is wanted within ("the finish within 1 %"), and which glass a volume is wanted from ("which cylinder for 12.5 ml")."""

from __future__ import annotations

import re
from itertools import pairwise

from assistant.listening.phrases import PhraseBook
from assistant.listening.pieces import Piece
from assistant.listening.statements import Act, GlassAsked, Reading, Reference, Slack, Within
from assistant.listening.token_row import TokenRow
from assistant.patterns import looked_for

WANTED = frozenset("need want wants get have keep like must should can could know be bring how what to good accurate exact".split())
FIGURE = r"(?:<%>|<mL>|<g>) "
WITHIN = looked_for(
    rf"(?:within|inside) (?:a |about |plus or minus )*{FIGURE}"
    rf"|(?:accurate|exact|good|sure|certain|true|precise|known|know it) (?:to|within|to within|down to|to better than) (?:about |plus or minus )*{FIGURE}"
    rf"|right (?:to|within|to within|to better than) (?:about |plus or minus )*{FIGURE}"
    rf"|(?:no|not) more than (?:about )?{FIGURE}(?:out|off|either way|wrong) "
    rf"|{FIGURE}(?:either way|each way|or better) "
)
ASKS_FOR_IT = looked_for(r"(?:plus or minus|give or take|\+/?-|±) (?:what|how much)\b", re.IGNORECASE)
SIGNED = looked_for(r"±|\+/?-|plus|give")
#: the words for a figure, and its quantity; the first that stands in the sentence counts
TARGETS = (
    ("finished_strength", "finish finished finishing final end"),
    ("blend_strength", "blend mix"),
    ("pressed", "pressed pressing yield press"),
    ("in_jar", "jar"),
    ("menstruum", "pour poured menstruum liquid volume"),
    ("dried", "dried drying"),
    ("brix", "brix syrup sugar"),
    ("finished_acidity", "acidity acid"),
    ("finished_glycerine", "glycerine"),
    ("daily", "daily"),
    ("dose", "dose"),
    ("strength", "strength abv"),
    ("herb", "weight plant herb"),
)
WHICH = frozenset("which what what's whats best right pick choose smallest recommend use".split())
NOUN_BEHIND = frozenset("a the my which what best one".split())
FOLLOWS = 6  # words of "which one for 60 ml?", after talk of glasses
FOR = frozenset("for measure measures measuring get reach pour pouring read reading of make take to".split())
CHOICES = frozenset("from have got between own among with or are only of".split())


def read_plus_or_minus(reading: Reading) -> None:
    """ "Plus or minus what?": asks how exact the figure is."""
    hit = ASKS_FOR_IT.search(reading.heard)
    if hit is not None:
        reading.acts.append(Act("exactness", (hit.group(),), hit.start(), hit.end()))


def read_within(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading) -> None:
    """A ± that a figure is wanted within, claimed; nothing where the sentence wants none."""
    if not set(tokens) & WANTED or reading.tools:
        return
    row = TokenRow(pieces, tokens)
    found = next(((a, b) for _, a, b in row.find(WITHIN)), None)
    at = None
    if found is not None:
        at = next((n for n in row.islands(*found, ("<%>", "<mL>", "<g>")) if n not in taken), None)
    if at is None and any(word in tokens for _, words in TARGETS for word in words.split()):
        at = next((n for n in row.islands(0, len(tokens), ("<%>", "<mL>", "<g>")) if n not in taken and SIGNED.match(pieces[n].text.lower())), None)
    item = None if at is None else pieces[at].item
    if at is None or item is None or item.value is None or item.value <= 0 or item.plus_minus is not None:
        return
    words = set(tokens)
    target = next((quantity for quantity, spelt in TARGETS if words & set(spelt.split())), "")
    taken.add(at)
    reading.references.append(Reference("reference", pieces[at].start, pieces[at].end, item.value))
    reading.within = Within(target, item.value, "percent" if item.kind == "percent" else item.unit, pieces[at].start, pieces[at].end)


def read_slack_alone(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading) -> None:
    """ "If the weight were only ± 1 g": a ± with no figure before it, claimed where it is the only figure of the sentence."""
    figures = [n for n, piece in enumerate(pieces) if piece.is_island]
    if len(figures) != 1 or figures[0] in taken or reading.within is not None or reading.tools or "@" in tokens:
        return
    piece = pieces[figures[0]]
    item = piece.item
    if item is None or not item.value or item.plus_minus is not None or item.kind not in ("amount", "percent", "number"):
        return
    if not SIGNED.match(piece.text.lower()):
        return
    taken.add(figures[0])
    reading.references.append(Reference("reference", piece.start, piece.end, item.value))
    reading.slack_alone = Slack(abs(item.value), "percent" if item.kind == "percent" else item.unit, piece.start, piece.end)


def read_glass_again(pieces: list[Piece], tokens: list[str], reading: Reading) -> None:
    """ "Which for 60 ml?", without a glass in it: whether glasses are meant is for the session to tell, so nothing is claimed."""
    if tokens[:1] == ["which"] and len(tokens) <= FOLLOWS and tokens.count("<mL>") == 1:
        reading.glass_again = GlassAsked(TokenRow(pieces, tokens).value(tokens.index("<mL>")), ())


def read_glass_question(pieces: list[Piece], tokens: list[str], taken: set[int], reading: Reading, book: PhraseBook) -> None:
    """Which glass for a volume, and which there are; every figure of the sentence is claimed."""
    glass = book.classes["GLASSNOUN"] | {"glass", "glasses"}
    words = set(tokens)
    if any(a in NOUN_BEHIND and b == "measure" for a, b in pairwise(tokens)):
        glass |= {"measure"}  # "which measure for 20 mL", not "how much do I measure"
    how = bool(words & {"how", "can", "could"} and words & {"measure", "reach", "pour"})
    if not words & glass or not (words & WHICH or how) or {"round", "rounded", "@", "<:>"} & set(tokens):
        return
    if not (how or "?" in tokens or set(tokens[:4]) & WHICH):
        return
    row = TokenRow(pieces, tokens)
    figures = [n for n in row.islands(0, len(tokens), ("<mL>", "<#>", "<cup>")) if n not in taken and row.value(n)]
    if not figures:
        if set(tokens) & {"which", "best"}:
            reading.glass = GlassAsked(None, ())
        return
    wanted = _wanted(tokens, figures)
    accuracy = next((tokens[n + 1].upper() for n in range(len(tokens) - 1) if tokens[n] == "class" and tokens[n + 1] in ("a", "b")), "")
    choices = tuple(sorted({row.value(n) or 0.0 for n in figures if n != wanted}))
    standard = "ISO 4788" if "iso" in words else "ASTM E1272" if "astm" in words else ""
    reading.glass = GlassAsked(None if wanted is None else row.value(wanted), choices, accuracy, standard)
    for n in figures:
        taken.add(n)
        reading.references.append(Reference("reference", pieces[n].start, pieces[n].end, row.value(n)))


def _wanted(tokens: list[str], figures: list[int]) -> int | None:
    """Which of the figures is to be reached; the others are glasses."""
    for n in figures:
        before = tokens[max(0, n - 3) : n]
        if set(before) & FOR and not set(before[-2:]) & CHOICES - {"of", "with"}:
            return n
    in_ml = [n for n in figures if tokens[n] == "<mL>"]
    if len(figures) == 1:
        return figures[0]
    return in_ml[0] if len(in_ml) == 1 and figures.index(in_ml[0]) == 0 else None
