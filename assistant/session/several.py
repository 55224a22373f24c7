"""Several plans begun in one breath: "motherwort 90 g dried 1:5, elecampane 60 g dried 1:4: menstruum for each?"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise
from typing import TYPE_CHECKING, TypeVar

from assistant.dataclass import replace
from assistant.listening.statements import Act, Asked, Loose, Named, Reading, Reference, Said
from assistant.patterns import looked_for
from assistant.quantities.vocabulary import base
from assistant.reply import Assumption, Reply, Step, Used, Value
from assistant.session import answering
from assistant.session.batch import Batch
from assistant.session.caring import Care
from assistant.session.figuring import Worked, work_out
from assistant.session.merging import lay_over
from assistant.session.naming import same_plant
from assistant.session.shelf_of_all import shared_shelf, told_of_all
from assistant.session.wording import phrase_for, sentence
from assistant.session.year_work import ROWS

if TYPE_CHECKING:
    from assistant.session.answers import Answers
    from assistant.session.conversation import Session

CUT = looked_for(r"[,;.:!?]\s+|\s+(?:and|plus|then|while|also|&|n)\s+", re.IGNORECASE)
TOGETHER = looked_for(r"\b(?:blend|formula|mix|mixed|recipe|tea|salve|together|combine[ds]?|parts?|syrup|in all|altogether)\b", re.IGNORECASE)
DAILY = looked_for(r"\b(?:a day|per day|daily|each day|every day)\b|/day", re.IGNORECASE)
FOR_ALL = looked_for(r"\b(?:both|each|all|either|every one|apiece|the two|them)\b", re.IGNORECASE)
WEIGHTS = frozenset({"herb", "picked", "dried", "to_gather", "gross"})
WORKED_BY = frozenset({"ratio", "menstruum", "water_content", "strength", "pressed", "jar_size", "drying_ratio"})


def several(session: Session, reading: Reading, answers: Answers) -> Reply | None:
    """Each plant with its own figures as a plan of its own; None where the sentence tells of one batch."""
    if reading.frames & ROWS:
        return None  # a figure for each of several batches, not several batches
    names = list({n.name: n for n in reversed(reading.named)}.values())[::-1]
    heads = list(HEAD.finditer(reading.heard))
    if (len(heads) < 2 and len(names) < 2) or TOGETHER.search(reading.heard) or session.draft is not None:
        return None
    if len(reading.ingredients) >= 2 and all({"weight", "ratio_of"} <= {q for q, *_ in i.figures} for i in reading.ingredients) and DAILY.search(reading.heard):
        return None  # "3 g hawthorn (1:2), 2 g linden (1:2) a day": one formula
    pieces = _labelled(reading, heads) if len(heads) >= 2 else _pieces(reading.heard, names)
    if len(pieces) < 2:
        return None
    known = [n for n in names if any(same_plant(n.name, plan.name) for plan in session.batches)]
    if names and len(known) >= len(names):
        return None
    shared = [r for a, b in (() if len(heads) >= 2 else _shared(reading.heard, names)) if (r := shifted(session.read(reading.heard[a:b]), a)).said]
    plans: list[Batch] = []
    used: list[tuple[int, int, str]] = []
    asked = tuple(dict.fromkeys(a.quantity for a in reading.asked if not a.member))
    quantities: list[set[str]] = []
    for name, spans in pieces:
        batch = Batch()
        told: set[str] = set()
        for part in [*(shifted(session.read(reading.heard[a:b]), a) for a, b in spans), *shared]:
            if part.ingredients and len(part.ingredients) + len(part.liquids) > 1:
                return None
            merged = lay_over(batch, part, session.turn, ())
            if merged.bad or merged.doubled or merged.unplaced:
                return None
            used += merged.used
            told |= {s.quantity for s in part.said}
            batch = merged.batch
        own = batch.name or name
        plans.append(batch.having(name=own, plants=batch.plants or (own,), wanted=asked or batch.wanted))
        quantities.append(told)
    if any(p.members for p in plans) or not all(q & WEIGHTS for q in quantities) or not set.intersection(*quantities) & WORKED_BY:
        return None
    plans, there = shared_shelf(plans)
    worked = [work_out(p) for p in plans]
    if any(w.solution.conflicts or w.solution.impossible for w in worked):
        return None
    answers.used += [Used(text=reading.heard[a:b][:40], start=a, end=min(b, a + 40), quantity=q) for a, b, q in dict.fromkeys(used)]
    answers.used += [
        Used(text=reading.heard[figure.start : figure.end][:40], start=figure.start, end=min(figure.end, figure.start + 40), quantity="reference")
        for figure in reading.figures
        if figure.value == len(plans) and not any(a <= figure.start and figure.end <= b for a, b, _ in used)
    ]
    return told_beside(session, reading, answers, worked, there=there)


HEAD = looked_for(
    r"(?:^|(?<=[.;,]\s)|(?<=\band\s))\s*(?:the\s+)?(?:((?:jar|batch|lot|plan|pot|number)\s+(?:one|two|three|four|[1-4a-d]))|(first|second|third|fourth)(?:\s+(?:one|jar|batch|lot))?)\s*[:,=-]\s*",
    re.IGNORECASE,
)


def _labelled(reading: Reading, heads: Sequence[re.Match[str]]) -> list[tuple[str, list[tuple[int, int]]]]:
    """The stretch behind each "jar one:", up to the next, or to the words for all of them."""
    ends = [h.start() for h in heads[1:]] + [_tail(reading.heard, heads[-1].end())]
    return [((h.group(1) or h.group(2)).lower(), [(h.end(), end)]) for h, end in zip(heads, ends, strict=True)]


def _pieces(heard: str, names: Sequence[Named]) -> list[tuple[str, list[tuple[int, int]]]]:
    """The stretch of the sentence that tells of each plant: from the last cut before its name to the last cut before the next one's."""
    ends = [0]
    for before, name in pairwise(names):
        cuts = [m.end() for m in CUT.finditer(heard, before.end, name.start)]
        if not cuts:
            return []
        ends.append(cuts[-1])
    head = [m.end() for m in CUT.finditer(heard, 0, names[0].start)]
    ends[0] = head[-1] if head else 0
    tail = _tail(heard, names[-1].end)
    ends.append(tail)
    return [(n.name, [(a, b)]) for n, a, b in zip(names, ends, ends[1:], strict=False)]


def _tail(heard: str, last: int) -> int:
    """Where the words for all of them begin, behind the last plant's own."""
    cuts = [m.end() for m in CUT.finditer(heard, last)]
    for cut, after in zip(cuts, [*cuts[1:], len(heard)], strict=False):
        if FOR_ALL.search(heard[cut:after]):
            return cut
    return len(heard)


def _shared(heard: str, names: Sequence[Named]) -> list[tuple[int, int]]:
    """What is said before the first plant and behind the last, of all of them."""
    head = [m.end() for m in CUT.finditer(heard, 0, names[0].start)]
    return [(a, b) for a, b in ((0, head[-1] if head else 0), (_tail(heard, names[-1].end), len(heard))) if b > a]


T = TypeVar("T", Said, Asked, Act, Named, Loose, Reference)


def _moved(row: list[T], by: int) -> None:
    row[:] = [replace(x, start=x.start + by, end=x.end + by) for x in row]


def shifted(reading: Reading, by: int) -> Reading:
    """A piece's reading with its places counted in the whole sentence."""
    for figures in (reading.said, reading.claims):
        _moved(figures, by)
    for names in (reading.named, reading.mentions):
        _moved(names, by)
    _moved(reading.asked, by)
    _moved(reading.acts, by)
    _moved(reading.loose, by)
    _moved(reading.references, by)
    reading.heard = " " * by + reading.heard
    return reading


def told_beside(
    session: Session, reading: Reading, answers: Answers, worked: Sequence[Worked], labels: Sequence[str] = (), there: float | None = None
) -> Reply:
    """The plans side by side, each under its label, its plant's name where none is given; each is kept. `there`: the spirit for all of them, mL."""
    lines: list[str] = []
    values: list[Value] = []
    steps: list[Step] = []
    assumed: list[Assumption] = []
    cautions = []
    for plan, label in zip(worked, labels or [w.batch.name for w in worked], strict=True):
        keys, _ = answering.settle_asked(plan, plan.batch.wanted)
        told = answering.told(plan)
        keys = keys or told[:1]
        name = label
        figures = plan.solution.figures
        figured = sentence([phrase_for(k, figures[k].value) for k in dict.fromkeys((*keys, *told)) if base(k) != plan.batch.name])
        lines.append(f"{name[:1].upper() + name[1:]}: {figured or 'noted.'}")
        values += [answering.value_of(plan, k).model_copy(update={"about": name}) for k in dict.fromkeys((*keys, *told))]
        steps += answering.steps_for(plan, keys)
        assumed += [a for a in answering.assumptions_for(plan, list(dict.fromkeys((*keys, *told)))) if a not in assumed]
        care = Care(session, plan, reading)
        cautions += [c for c in care.spoken if c not in cautions]
        session.keep(plan.batch.having(spoken=plan.batch.spoken | {c.id for c in care.spoken}), -1)
        session.last, session.last_keys = plan, tuple(keys)
    found = any(v.origin == "found" for v in values)
    together, of_all = told_of_all(worked, there)
    values += of_all
    lines.append(together) if there is None or not together else lines.insert(0, together)
    lines.append(answering.assumption_line(assumed))
    lines += [f"{'Caution' if c.level == 'warn' else 'Note'}: {c.text}" for c in cautions[:3]]
    return answers.reply(
        "answered" if found else "noted", "\n".join(line for line in lines if line), batch=worked[-1].batch, values=tuple(values), steps=tuple(steps),
        assumptions=tuple(assumed), cautions=tuple(cautions[:3]),
    )  # fmt: skip
