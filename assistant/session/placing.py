"""Where a figure belongs that no phrase claimed: an open question first, then the like-most fact of the batch."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from assistant.listening.common import COMMON
from assistant.listening.statements import Loose, Reading, Said
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import VOCABULARY, about, base
from assistant.quantities.working_year import DATES
from assistant.session.added_on import NEAR, said_on_top
from assistant.session.batch import Batch, Fact
from assistant.session.checks import wrong_with
from assistant.session.naming import words_of
from assistant.session.renumbering import said_number, size_said
from assistant.session.work import renamed

if TYPE_CHECKING:
    from assistant.session.merging import Merged

UNIT_OF_KIND = {
    "g": "g",
    "oz": "g",
    "mL": "mL",
    "%": "percent",
    "bx": "percent",
    "drop": "drop",
    "day": "day",
    "mL/g": "mL/g",
    "g/mL": "g/mL",
    ":": "1",
    "C": "degC",
}
PROOFS = {"US proof": 0.5, "UK proof": 0.5715}
PART_WORDS = frozenset("root leaf leave flower berry berrie bark seed herb top bud stem blossom".split())
BARE = frozenset({"#", "n"})
OTHER_UNIT = 1.5
FARTHEST = -2.5  # below this a fact is no like of the figure
BEYOND_PERCENT = 100.0
MOST_COUNTED = 24  # so many of a thing are told without its unit; more is a weight or a volume
MOST_RATIO = 40.0
RATIOS = frozenset({"ratio", "dry_ratio"})
POURED_IN = frozenset({"~in", "~into", "~with"})


def place_weak(said: list[Said], batch: Batch, wants: Sequence[str]) -> None:
    """A figure that only its unit spoke for, in a sentence that corrects: it replaces its like, if the batch has one."""
    if not batch.facts:
        return
    told = frozenset().union(*(f.words for f in batch.facts.values()))
    for i, s in enumerate(list(said)):
        if not s.weak and not _is_the_vessel(s, batch):
            continue
        unit = VOCABULARY[s.quantity].unit
        wanted = [w for w in wants if w and VOCABULARY[base(w)].unit == unit]
        if wanted:
            said[i] = renamed(s, base(wanted[0]), about(wanted[0]))
            continue
        if s.quantity in batch.facts and not (s.words & told):
            continue
        like = [(key, fact) for key, fact in batch.facts.items() if VOCABULARY[base(key)].unit == unit and base(key) not in DATES]
        best = best_like(like, s.value, s.words, batch)
        if best is not None and (s.quantity not in batch.facts or best[1] >= 3.0):
            said[i] = renamed(s, base(best[0]), about(best[0]))


def _is_the_vessel(s: Said, batch: Batch) -> bool:
    """ "And a 700 mL bottle?" where the spirit was said by its bottle: it is that spirit, not a bottle to be filled."""
    return (
        not batch.members
        and s.quantity in ("bottle_size", "jar_size")
        and s.quantity not in batch.facts
        and any(s.quantity[:-5] in f.words for f in batch.facts.values())
    )


def best_like(
    like: Sequence[tuple[str, Fact]], value: float, words: frozenset[str], batch: Batch, number: float | None = None, measures: str = "us"
) -> tuple[str, float] | None:
    """The fact a figure is most like, with how much: by the words around both, by size, by what was just changed.

    number   the figure as said, for a bare one: "5" is most like the 4 of "4 oz"
    """
    scored = []
    for order, (key, fact) in enumerate(like):
        score = 0.0
        own = fact.words | words_of(base(key))
        if base(key) == "water_content":
            own |= PART_WORDS  # "and for a root, 65": another part brings another water content
        shared = words & own
        score += sum(1.0 if w.startswith("~") else 3.0 for w in shared)
        if about(key) and set(about(key).split()) & words:
            score += 4.0
        sizes = [fact.value] if number is None else [fact.value, said_number(fact, measures)]
        if value > 0 and fact.value > 0:
            score -= min(3.0, min(abs(math.log((value if number is None else number) / size)) for size in sizes if size > 0))
        if key in batch.changed:
            score += 0.6
        scored.append((score, order, key))
    if not scored:
        return None
    score, _, key = max(scored)
    return key, score


def place_loose(loose: list[Loose], said: list[Said], batch: Batch, reading: Reading, wants: Sequence[str], merged: Merged) -> None:
    """Give each loose figure its quantity, or leave it in `merged.unplaced` to be asked about."""
    given = {s.key for s in said}
    claims = [f for a in reading.acts if a.name in ("why", "claim") for f in a.figures]
    for figure in loose:
        if any(abs(figure.value - c) < 1e-9 for c in claims):
            merged.used.append((figure.start, figure.end, "reference"))
            continue
        if figure.kind == "herbcup":
            merged.unplaced.append(figure)  # a measure without a weight is no answer to anything
            continue
        stands = figure.kind in BARE and any(f.value == figure.value for f in batch.facts.values())
        if stands and (reading.has("undo") or AGREED.match(reading.heard[: figure.start])):
            merged.used.append((figure.start, figure.end, "reference"))  # "ok 50, but there's 240 of it": what was settled already
            continue
        if figure.kind == "share" or _counts_a_thing(figure, reading):
            merged.unplaced.append(figure)  # "half of the marc", "2 gone to my sister": no strength, no ratio, no amount
            continue
        unit = UNIT_OF_KIND.get(figure.kind, "")
        if figure.kind == "C" and any(f.said_unit in PROOFS for f in batch.facts.values()):
            unit = "percent"  # "and 100 degrees?" after a proof
        candidates = [w for w in wants if w not in given and (not unit or VOCABULARY[base(w)].unit == unit)]
        if figure.kind == "#" and figure.value > MOST_RATIO:
            candidates = [w for w in candidates if w not in RATIOS]  # nobody pours so much on a gram
        if len(candidates) > 1 and all(w in batch.facts for w in candidates):  # a conflict to mend: the figure most like it gives
            near = best_like([(w, batch.facts[w]) for w in candidates], figure.value, figure.words, batch, _bare_number(figure), reading.measures)
            candidates = [near[0]] if near is not None else candidates
        if candidates[:1] == ["stock_strength"] and "strength" in batch.facts and figure.value < batch.facts["strength"].value and "strength" not in given:
            candidates = ["strength"]  # asked for a stronger spirit, and a weaker figure comes: the target gives way
        if candidates:
            said.append(as_said(figure, candidates[0], batch.facts.get(candidates[0]), reading.measures))
            given.add(candidates[0])
            continue
        more = figure.kind in BARE and said_on_top(figure.start, figure.end, reading.heard)  # no strength and no ratio is added to
        like = [
            (key, fact)
            for key, fact in batch.facts.items()
            if key not in given
            and not (figure.kind == "#" and figure.value > MOST_RATIO and base(key) in RATIOS)
            and (not unit or VOCABULARY[base(key)].unit == unit)
            and base(key) not in DATES
            and not wrong_with(key, figure.value)
            and not _changes_nothing(fact, figure)
            and (not more or VOCABULARY[base(key)].unit in ("g", "mL"))
        ]
        if figure.kind in BARE and ONLY.search(reading.heard[max(0, figure.start - NEAR) : figure.start]):
            like = [(k, f) for k, f in like if f.value > figure.value] or like  # "only have 90" is less than what it was
        best = best_like(like, figure.value, figure.words, batch, _bare_number(figure), reading.measures)
        if best is not None and (best[1] > FARTHEST or (more and len(like) == 1)) and (figure.kind in UNIT_OF_KIND or figure.kind in BARE):
            said.append(as_said(figure, best[0], batch.facts.get(best[0]), reading.measures))
            given.add(best[0])
            continue
        if figure.kind == "#" and figure.value > BEYOND_PERCENT and figure.words & POURED_IN and given & {"herb"} and not given & {"menstruum", "ratio"}:
            said.append(as_said(figure, "menstruum"))  # "100 g dried chamomile in 600": no strength is so high
            given.add("menstruum")
            continue
        merged.unplaced.append(figure)


ONLY = looked_for(r"\b(?:only|just)(?:\s+(?:have|got|a|an|the|about|at|of|really))*\s*$", re.IGNORECASE)
AGREED = looked_for(r"^\s*(?:ok|okay|right|yes|yeah|fine|well|good)[,.:]?\s*(?:then\s+)?(?:at\s+)?$", re.IGNORECASE)


THE_NEXT_WORD = looked_for(r"\s+([a-z]+)", re.IGNORECASE)
OUT_OF_HAND = frozenset("gone go goes went sold broke broken smashed spilt spilled given spoken promised reserved owed taken people".split())


def _counts_a_thing(figure: Loose, reading: Reading) -> bool:
    """ "2 gone", "3 broke", "5 sisters": a small whole number counts what the plural behind it names, or what went."""
    if figure.kind != "#" or figure.value > MOST_COUNTED or figure.value != round(figure.value):
        return False
    after = THE_NEXT_WORD.match(reading.heard, figure.end)
    if after is None or any(after.start(1) == n.start for n in reading.named):
        return False
    word = after.group(1).lower()
    return word in OUT_OF_HAND or (word.endswith("s") and not word.endswith("ss") and word not in COMMON)


def _changes_nothing(fact: Fact, figure: Loose) -> bool:
    """A bare number that a fact already is corrects something else."""
    return figure.kind in BARE and abs(fact.value - figure.value) < 1e-9


def _bare_number(figure: Loose) -> float | None:
    if figure.kind not in BARE:
        return None
    return figure.number if figure.number is not None else figure.value


def as_said(figure: Loose, key: str, like: Fact | None = None, measures: str = "us") -> Said:
    """A loose figure as this key's; a bare number is in the unit its like was said in ("no, 5" after "4 oz")."""
    if like is not None and like.said_unit in PROOFS and figure.kind in ("#", "C"):
        value = (figure.number if figure.number is not None else figure.value) * PROOFS[like.said_unit]
        return Said(base(key), value, figure.start, figure.end, about(key), like.said_unit)
    number = _bare_number(figure)
    if like is not None and number is not None:
        size = size_said(like.said_unit, measures)
        # "112" after "4 oz" is in grams after all: that reading is nearer by far.
        if size != 1.0 and abs(math.log(max(number, 1e-9) * size / like.value)) <= abs(math.log(max(number, 1e-9) / like.value)) + OTHER_UNIT:
            return Said(base(key), number * size, figure.start, figure.end, about(key), like.said_unit, words=figure.words)
    return Said(base(key), figure.value, figure.start, figure.end, about(key), figure.said_unit, figure.low, figure.high, None, False, figure.words)
